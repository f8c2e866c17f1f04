"""Judging a number with a unit, as near as a photographer needs it.

Right is what two digits tell: 22 ms for 21.55, within 2.5 % or half a unit of the second digit. Stops count in thirds,
as cameras do, so 7.1 is 7. Where a question asks for the least or the most that will do (`side`), what is rounded to
the safe side is right, and what falls short is not. A slip is told only where two digits surely tell it.
"""

import math
from dataclasses import replace
from itertools import pairwise

from splashlib.classroom.judges.judging import plain_word, real_number, right, slipped, stored_text
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.units import UNITS, find_unit, may_be_bare, read_quantity, units_of
from splashlib.classroom.questions.wording import quoted, said, with_unit

CLOSE = 0.1  # within this share of the answer, or
NEAR = 10  # within so many tolerances, whichever is less, a miss is called close
ROUGH = 0.025
"""Half a unit of the second digit, at 20: so near is right, rounded [-]."""
THIRD = 1 / 3
"""Cameras and flashes are set in thirds of a stop; half of that is as near as stops are counted."""
IN_STOPS = ("number of stops", "exposure value")


def record(question, answer, unit=None, variant=1, values=None):
    """What was answered, as plain data: typed text, or a value; and the unit given beside it."""
    beside = {} if unit is None or unit == "" else {"unit": unit[:40] if type(unit) is str else plain_word(unit)}
    if type(answer) is str:
        return stored_text(answer) | beside
    value = real_number(answer)
    if value is None:
        return {"other": plain_word(answer)}
    if math.isnan(value):
        return {"other": "not a number (nan): the formula that gave it was fed something impossible"}
    return {"other": "infinite"} if math.isinf(value) else {"value": value} | beside


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
    text = said(number, 6)
    return f"{unit.before}{text}" if unit.before else with_unit(text, unit.name)


def tolerance(question, value):
    """Half a unit of the last digit asked for, at the worst place: 0.5 % for three digits [as value]."""
    return max(0.5 * 10.0 ** (1 - question.digits) * abs(value), question.absolute) * (1 + 1e-9)


def second_digit(value):
    """One unit of the second digit of a value: 1 for 21.55, 0.1 for 2.2 [as value]."""
    return 10.0 ** (math.floor(math.log10(abs(value))) - 1) if value and math.isfinite(value) else 0.0


def _of_stops(question):
    return THIRD / 2 if UNITS[question.unit].measures in IN_STOPS else 0.0


def accepted(question, values):
    """The least and the greatest number that are right [SI]."""
    answer = float(question.answer(values))
    exact = tolerance(question, answer)
    reach = max(exact, ROUGH * abs(answer), second_digit(answer) / 2, _of_stops(question)) * (1 + 1e-9)
    low, high = answer - reach, answer + reach
    if question.side:
        spare = answer if question.spare is None else question.spare(values)
        safe = two_digits(question, answer), spare
        low = answer - exact if question.side == "least" else min(low, *safe) * (1 - 1e-9)
        high = answer + exact if question.side == "most" else max(high, *safe) * (1 + 1e-9)
    return low, high


def two_digits(question, value):
    """A value rounded to two digits; to the safe side where the question has one [as value]."""
    way = {"least": math.ceil, "most": math.floor}.get(question.side, round)
    digit = second_digit(value)
    # A hair's breadth keeps 25 from becoming 26 when it was computed as 25.000000001.
    hair = {"least": -1e-9, "most": 1e-9}.get(question.side, 0.0)
    return way(value / digit + hair) * digit if digit else value


def slip_reach(question, value):
    """How near to what a slip gives an answer is taken for that slip: what surely rounds to it [SI]."""
    return max(min(ROUGH * abs(value), second_digit(value) / 2), _of_stops(question), question.absolute) * (1 + 1e-9)


def slip_value(question, slip, values):
    """What someone who makes this slip answers [SI], or None where it cannot be made."""
    if slip.times is not None:
        return question.answer(values) * slip.times
    value = slip.value(values)
    return None if value is None else float(value)


def _size(question, values, given, typed):
    answer = float(question.answer(values))
    low, high = accepted(question, values)
    if abs(given - answer) <= tolerance(question, answer):
        return right(question, values)
    if low <= given <= high:
        return _rounded(question, values, given > answer, typed)
    for slip in question.slips:
        value = slip_value(question, slip, values)
        if value is not None and abs(given - value) <= slip_reach(question, value):
            return slipped(question, slip, values, given, given=typed)
    return _direction(question, answer, given, typed)


def _rounded(question, values, up, typed):
    """The reply to what is right, but rounded."""
    how = f"rounded {'up' if up else 'down'}, to the safe side" if question.side else "rounded, and near enough"
    reply = right(question, values)
    return replace(reply, text=f"{typed} is {how}. {reply.text}".strip())


def _direction(question, answer, given, typed):
    outcome = "low" if given < answer else "high"
    short = question.side == {"low": "least", "high": "most"}[outcome]
    reach = max(tolerance(question, answer), _of_stops(question))
    if abs(given - answer) <= max(2 * reach, min(NEAR * reach, CLOSE * abs(answer))):
        text = f"{typed} is close. {_closer(question, short)}"
    elif far := _far(question, answer, given):
        text = f"{typed} is {far} off. Look at the units of what you put in."
    elif answer and abs(given + answer) <= reach:
        text = f"{typed} has the right size and the wrong sign."
    elif given * answer < 0:
        text = f"{typed} has the wrong sign, too."
    elif question.side and not short:
        text = f"{typed} would do, but the {question.side} that will do is asked for."
    else:
        text = f"You gave {typed}."
    return Reply(outcome, text, see=question.see)


def _closer(question, short):
    if short:
        rounding = "up" if question.side == "least" else "down"
        return f"But it is not enough to be safe: round {rounding} where it says at {question.side}."
    return "Carry more digits on the way and round only at the end."


def _far(question, answer, given):
    """That an answer is ten times off or more, in words; stops are no ratio, and ten of them no factor of ten."""
    if not given * answer > 0 or UNITS[question.unit].measures in IN_STOPS:
        return ""
    times = max(given / answer, answer / given)
    return "more than ten times" if times > 10 * (1 + ROUGH) else "about ten times" if times > 10 * (1 - ROUGH) else ""


def apart(question, values, variant=1):
    """Whether no number could be taken for two of: the right answer, each slip; however they are rounded."""
    spans = [accepted(question, values)]
    for slip in question.slips:
        value = slip_value(question, slip, values)
        if value is not None:
            spans.append((value - slip_reach(question, value), value + slip_reach(question, value)))
    return all(a[1] < b[0] - 0.02 * (a[1] - a[0]) for a, b in pairwise(sorted(spans)))


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
