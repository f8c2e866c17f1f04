"""Judging a number with a unit."""

import math
import numbers
from itertools import pairwise

from splashlib.classroom.judges.judging import plain_word, right, slipped, stored_text
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.units import UNITS, find_unit, may_be_bare, read_quantity, units_of
from splashlib.classroom.questions.wording import digits_of, quoted

NEAR, CLOSE = 10, 0.1  # so many tolerances away still counts as "close", if that is at most this share of the answer


def record(question, answer, unit=None, variant=1):
    """What was answered, as plain data: typed text, or a value; and the unit given beside it."""
    beside = {} if unit is None or unit == "" else {"unit": str(unit)[:40]}
    if isinstance(answer, str):
        return stored_text(answer) | beside
    if type(answer).__module__ == "numpy" and getattr(answer, "shape", None) == ():
        answer = answer.item()
    if isinstance(answer, bool) or not isinstance(answer, numbers.Real):
        return {"other": plain_word(answer)}
    try:
        value = float(answer)
    except OverflowError:
        return {"other": "a number too large to work with"}
    if math.isnan(value):
        return {"other": "not a number (nan): the formula that gave it was fed something impossible"}
    if math.isinf(value):
        return {"other": "infinite"}
    return {"value": value} | beside


def verdict(question, record, variant, values):
    """The reply to a recorded answer."""
    if "other" in record:
        return Reply("wrong_kind", f"That is {record['other']}. One number{_with_unit(question)} is wanted.")
    try:
        # The example is in the unit of this question; one in ms beside a count of stops misleads.
        number, unit = _read(record, like=as_typed(12.5, UNITS[question.unit]))
    except ValueError as error:
        return Reply("unreadable", f"{quoted(record['text'])}: {error}")
    problem = _unit_problem(question, record, unit)
    if problem:
        return Reply("wrong_unit", problem)
    unit = unit or find_unit(record.get("unit", "")) or UNITS[question.unit]
    return _size(question, values, number * unit.size, as_typed(number, unit))


def _read(record, **example):
    if "value" in record:
        return record["value"], None
    if "length" in record:
        raise ValueError(f"That is {record['length']} characters long; one number is asked for.")
    return read_quantity(record["text"], **example)


def _with_unit(question):
    return f", with a unit such as {question.unit}," if not may_be_bare(UNITS[question.unit].measures) else ""


def _unit_problem(question, record, typed):
    """What is wrong with the unit, or nothing."""
    measures = UNITS[question.unit].measures
    beside = record.get("unit", "")
    unit = typed or find_unit(beside)
    if beside and find_unit(beside) is None:
        return f"I know no unit {quoted(beside)}. Units of {measures} are {_listed(measures)}."
    if typed and beside and find_unit(beside) != typed:
        return f"You wrote {typed.name} behind the number and chose {beside} beside it. Which of the two?"
    if unit is None:
        return "" if may_be_bare(measures) else f"Give the unit too: {_listed(measures)}."
    if unit.measures != measures:
        return f"{unit.name} is {_one(unit.measures)}; asked for is {_one(measures)}, in {_listed(measures)}."
    return ""


def _one(measures):
    return f"{'an' if measures.startswith((*'aeioI', 'f-')) else 'a'} {measures}"


def _listed(measures):
    return ", ".join(name for name in units_of(measures) if name) or "none"


def as_typed(number, unit):
    """A learner's number as it is quoted in replies: six digits at most, no zeros at its end."""
    text = digits_of(number, 6)
    if "." in text and "e" not in text:
        text = text.rstrip("0").rstrip(".")
    return f"{unit.before}{text}" if unit.before else f"{text} {unit.name}".strip()


def tolerance(question, value):
    """Half a unit of the last digit asked for, at the worst place: 0.5 % for three digits [as value]."""
    return max(0.5 * 10.0 ** (1 - question.digits) * abs(value), question.absolute) * (1 + 1e-9)


def slip_value(question, slip, values):
    """What someone who makes this slip answers [SI], or None where it cannot be made."""
    if slip.times is not None:
        return question.answer(values) * slip.times
    value = slip.value(values)
    return None if value is None else float(value)


def _size(question, values, given, typed):
    answer = float(question.answer(values))
    if abs(given - answer) <= tolerance(question, answer):
        return right(question, values)
    for slip in question.slips:
        value = slip_value(question, slip, values)
        if value is not None and abs(given - value) <= tolerance(question, value):
            return slipped(question, slip, values, given, given=typed)
    return _direction(question, answer, given, typed)


def _direction(question, answer, given, typed):
    outcome = "low" if given < answer else "high"
    reach = tolerance(question, answer)
    if abs(given - answer) <= max(2 * reach, min(NEAR * reach, CLOSE * abs(answer))):
        text = f"{typed} is close. Carry more digits on the way and round only at the end."
    elif given and answer and not 0.1 < given / answer < 10 and given * answer > 0:
        text = f"{typed} is more than ten times off. Look at the units of what you put in."
    elif answer and abs(given + answer) <= reach:
        text = f"{typed} has the right size and the wrong sign."
    elif given * answer < 0:
        text = f"{typed} has the wrong sign, too."
    else:
        text = f"You gave {typed}."
    return Reply(outcome, text, see=question.see)


def apart(question, values, variant=1):
    """Whether no number could be taken for two of: the right answer, each slip."""
    found = [float(question.answer(values))]
    found += [value for slip in question.slips if (value := slip_value(question, slip, values)) is not None]
    found.sort()
    gaps = [(b - a, max(tolerance(question, a), tolerance(question, b))) for a, b in pairwise(found)]
    return all(gap > 2.05 * reach for gap, reach in gaps)


def right_answer(question, values, variant=1):
    """An answer that passes, as a learner gives it in code."""
    return float(question.answer(values))


def slip_answer(question, slip, values, variant=1):
    """The answer of someone who makes this slip, or None."""
    return slip_value(question, slip, values)


def in_words(question, record, values):
    """A readable answer, as it is told again."""
    number, unit = _read(record)
    return f"**{as_typed(number, unit or find_unit(record.get('unit', '')) or UNITS[question.unit])}**"
