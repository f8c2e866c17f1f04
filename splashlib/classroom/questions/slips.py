"""Slips that recur through the course, ready to be put into a question. Each reply fits any number."""

from splashlib.classroom.questions.question_kinds import Slip


def thousand(small="ms", large="s", *, see=""):
    """The right digits with a unit a thousand times too large: 303 s typed for 303 ms."""
    return Slip(
        name="thousandfold",
        times=1000,
        see=see,
        reply=f"{{given}}: right digits, but a thousand times too large. One {large} is 1000 {small}.",
    )


def thousandth(small="ms", large="s", *, see=""):
    """The right digits with a unit a thousand times too small: 0.303 ms typed for 0.303 s."""
    return Slip(
        name="thousandth",
        times=1e-3,
        see=see,
        reply=f"{{given}}: right digits, but a thousand times too small. One {large} is 1000 {small}.",
    )


def ten(small="mm", large="cm", *, see=""):
    """Millimetres taken for centimetres in the result."""
    return Slip(
        name="tenfold",
        times=10,
        see=see,
        reply=f"{{given}} has the right digits, but is ten times too large. One {large} is 10 {small}.",
    )


def half(reply="{given} is half of it. Is there a factor 2 that got lost?", *, see=""):
    """Half the right value."""
    return Slip(name="half", times=0.5, reply=reply, see=see)


def double(reply="{given} is twice as much as it should be. Is there a factor 2 too many?", *, see=""):
    """Twice the right value."""
    return Slip(name="double", times=2, reply=reply, see=see)


def sign(reply="{given} has the right size, but the wrong sign. Which of the two comes first?", *, see=""):
    """The right size with the wrong sign."""
    return Slip(name="wrong sign", times=-1, reply=reply, see=see)
