"""Judging a formula: compared as mathematics, not as text."""

from splashlib.classroom.expression import evaluate, parse, read_formula, to_sympy
from splashlib.classroom.kinds import plain_word, right, slipped, stored_text
from splashlib.classroom.replies import Reply
from splashlib.classroom.wording import digits_of, quoted

__all__ = ["read_formula", "record", "verdict"]

POINTS = 12
AGREE = 1e-9
CLOSE = 0.02
SMALL = 40  # algebra is tried on formulas of so many parts at most
GOLDEN = 0.6180339887


def record(question, answer, unit=None, variant=1):
    """What was typed; a sympy expression or a number is taken as its text."""
    if not isinstance(answer, str) and type(answer).__module__.split(".")[0] == "sympy":
        answer = str(answer)
    if isinstance(answer, int | float) and not isinstance(answer, bool) and abs(answer) < 1e300:
        answer = f"{answer:.12g}"
    if not isinstance(answer, str):
        return {"other": plain_word(answer)}
    return stored_text(answer)


def verdict(question, record, variant, values):
    """The reply to a recorded formula."""
    letters = ", ".join(question.symbols)
    if "other" in record:
        return Reply("wrong_kind", f"That is {record['other']}. A formula in {letters} is asked for, as text.")
    text = _right_side(question, record["text"])
    try:
        if "length" in record:
            raise ValueError(f"that is {record['length']} characters long; that is too long to read.")
        typed = parse(text, question.symbols)
    except ValueError as error:
        return Reply("unreadable", f"{quoted(record['text'])}: {error}")
    if not typed.used and _read(question, _text(question, values)).used:
        return Reply("wrong_kind", f"{quoted(text)} is a number. A formula in {letters} is asked for.")
    return _compared(question, values, typed, text)


def _right_side(question, text):
    """The typed text without a leading "t ="."""
    left, sign, rest = text.partition("=")
    return rest if sign and left.strip() == question.gives and rest.strip() else text


def _text(question, values):
    return question.answer(values) if callable(question.answer) else question.answer


def _slip_text(slip, values):
    return slip.value(values) if callable(slip.value) else slip.value


def _read(question, text):
    return parse(text, question.symbols)


def _compared(question, values, typed, text):
    answer = _read(question, _text(question, values))
    if same(question, typed, answer):
        return right(question, values)
    for slip in question.slips:
        known = _slip_text(slip, values)
        if known is not None and same(question, typed, _read(question, known)):
            return slipped(question, slip, values, text, given=quoted(text))
    return _apart_by(question, typed, answer)


def points(question):
    """Where formulas are compared: numbers for the letters, well spread and always the same."""
    spread = []
    for number in range(1, POINTS + 1):
        point = {}
        for place, letter in enumerate(question.symbols, 1):
            low, high = question.domain.get(letter, (0.5, 2.5))
            # Powers of the golden ratio fill a box evenly whatever its dimension.
            point[letter] = low + (high - low) * (number * (GOLDEN**place + 0.1 * place) % 1)
        spread.append(point)
    return spread


def same(question, one, other):
    """Whether two formulas are equal: numbers refute; algebra or, where it would take long, numbers prove."""
    for point in points(question):
        a, b = evaluate(one, point), evaluate(other, point)
        if not abs(a - b) <= AGREE * max(abs(a), abs(b)):
            return False
    return _algebra(question, one, other) is not False


def _algebra(question, one, other):
    """True or False where expanding decides it, None where it does not."""
    import ast

    import sympy

    if sum(1 for tree in (one.tree, other.tree) for _ in ast.walk(tree)) > 2 * SMALL:
        return None
    letters = {letter: sympy.Symbol(letter, positive=True) for letter in question.symbols}
    a, b = (to_sympy(f.tree, {place: letters[letter] for place, letter in f.letters.items()}) for f in (one, other))
    if a == b:
        return True
    # The numerator of a difference of two rational functions is zero exactly when they are equal.
    difference = sympy.fraction(sympy.together(a - b))[0]
    if not difference.is_polynomial(*letters.values()) or sympy.Poly(difference, *letters.values()).total_degree() > 20:
        return None
    return sympy.expand(difference) == 0


def _apart_by(question, typed, answer):
    """How far it is off, shown at one set of numbers of the learner's letters."""
    pairs = [(evaluate(typed, point), evaluate(answer, point)) for point in points(question)]
    if any(abs(a.imag) > AGREE * abs(a) or a != a for a, _ in pairs):
        return Reply(
            "wrong",
            "For some positive numbers it has no value. Look at the root or the division.",
        )
    gaps = [(a.real - b.real) / max(abs(b), 1e-300) for a, b in pairs]
    point = points(question)[0]
    outcome = "low" if max(gaps) < 0 else "high" if min(gaps) > 0 else "wrong"
    if max(map(abs, gaps)) < CLOSE:
        text = "It is very close. Use exact numbers, such as 1/3 in place of 0.33."
    else:
        shown = ", ".join(f"{letter} = {digits_of(value)}" for letter, value in point.items())
        text = f"With {shown} your formula gives {digits_of(pairs[0][0].real)}, and that is not right."
    return Reply(outcome, text, see=question.see)


def apart(question, values, variant=1):
    """Whether the right formula and all slips tell apart."""
    texts = [_text(question, values), *(_slip_text(slip, values) for slip in question.slips)]
    known = [_read(question, text) for text in texts if text is not None]
    return not any(same(question, a, b) for i, a in enumerate(known) for b in known[i + 1 :])


def right_answer(question, values, variant=1):
    """A formula that passes."""
    return _text(question, values)


def slip_answer(question, slip, values, variant=1):
    """The formula of someone who makes this slip."""
    return _slip_text(slip, values)


def in_words(question, record, values):
    """A readable answer, as it is told again."""
    return quoted(record["text"])
