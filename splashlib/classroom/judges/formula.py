"""Judging a formula: compared as mathematics, not as text.

It is compared at a dozen sets of numbers, never by rewriting: sympy may need minutes, or for ever, to tell two
formulas apart, and numbers need a millisecond.
"""

import cmath
from fractions import Fraction

from splashlib.classroom.formulas.expression import evaluate, exact_value, parse, roundings
from splashlib.classroom.judges.judging import comes_from, plain_word, real_number, right, slipped, stored_text
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.wording import quoted, said
from splashlib.physics.constants import GOLDEN_SECTION

__all__ = ["record", "verdict"]

POINTS = 12
AGREE = 1e-9
CLOSE = 0.02
EXACT = 3  # at so many of the points fractions are compared as well, where there are no roots
ROUGH = 0.1
PARTS = 300  # of a sympy expression


def record(question, answer, unit=None, variant=1, values=None):
    """What was typed; a sympy expression or a number is taken as its text."""
    if type(answer) is str:
        return stored_text(answer)
    if comes_from(answer, "sympy"):
        return stored_text(str(answer)) if _small(answer) else {"other": "a formula too long to read"}
    number = real_number(answer)
    if number is not None and abs(number) < 1e300:
        return stored_text(f"{number:.12g}")
    return {"other": plain_word(answer)}


def _small(expression):
    """Whether a sympy expression has no more parts than may be typed."""
    from itertools import islice

    from sympy import preorder_traversal

    return len(list(islice(preorder_traversal(expression), PARTS + 1))) <= PARTS


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
    known = [(slip, _read(question, told)) for slip in question.slips if (told := _slip_text(slip, values)) is not None]
    for alike in (same, rounds_to):
        if alike is rounds_to and rounds_to(question, typed, answer):
            return right(question, values)
        for slip, wrong in known:
            if alike(question, typed, wrong):
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
            point[letter] = low + (high - low) * (number * (GOLDEN_SECTION**place + 0.1 * place) % 1)
        spread.append(point)
    return spread


def same(question, one, other):
    """Whether two formulas are equal, judged by numbers; fractions, where there are no roots, see every digit."""
    for point in points(question):
        a, b = evaluate(one, point), evaluate(other, point)
        if not abs(a - b) <= AGREE * max(abs(a), abs(b)):
            return False
    return _exactly_same(question, one, other) is not False


def _exactly_same(question, one, other):
    """True or False where both are made of fractions; None where they are not, and rounded numbers must do."""
    for point in points(question)[:EXACT]:
        try:
            if _exactly(one, point) != _exactly(other, point):
                return False
        except (ArithmeticError, ValueError):
            return None
    return True


def _exactly(formula, point):
    exact = {place: Fraction(repr(point[letter])) for place, letter in formula.letters.items()}
    return exact_value(formula.tree, exact)


def rounds_to(question, typed, other):
    """Whether rounded decimals stand for the other formula: 0.71^n for (1/sqrt(2))^n, v^2/19.6 for v^2/(2*g)."""
    corners = roundings(typed)
    if not corners:
        return False
    for point in points(question):
        made = [evaluate(corner, point) for corner in corners]
        wanted = evaluate(other, point)
        if not all(abs(value.imag) <= AGREE * abs(value) for value in (*made, wanted)):
            return False
        low, high = min(value.real for value in made), max(value.real for value in made)
        # Wider than that, the decimals would say nothing.
        if not (low <= wanted.real <= high and high - low <= ROUGH * abs(wanted)):
            return False
    return True


def _apart_by(question, typed, answer):
    """How far it is off, shown at one set of numbers of the learner's letters."""
    pairs = [(evaluate(typed, point), evaluate(answer, point)) for point in points(question)]
    if not all(cmath.isfinite(a) and abs(a.imag) <= AGREE * abs(a) for a, _ in pairs):
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
        shown = ", ".join(f"{letter} = {said(value)}" for letter, value in point.items())
        text = f"With {shown} your formula gives {said(pairs[0][0].real)}, and that is not right."
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
