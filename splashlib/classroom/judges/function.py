"""Judging a function: what it returned at the drawn inputs, compared with a reference.

The learner's code runs once, when the answer is given, in a process of its own where there is one (see `run`). What
it returned is stored and judged, so that an answer can be judged again later without running it.
"""

import math

from splashlib.classroom.judges.calls import call
from splashlib.classroom.judges.judging import plain_word, right, slipped
from splashlib.classroom.judges.number import tolerance
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.judges.run import call_all
from splashlib.classroom.questions.units import UNITS
from splashlib.classroom.questions.variants import drawn_inputs
from splashlib.classroom.questions.wording import quoted, said


def record(question, answer, unit=None, variant=1, values=None):
    """Call the function with the drawn inputs and note what it returned."""
    if not callable(answer) or issubclass(type(answer), type):
        return {"other": plain_word(answer)}
    cases = drawn_inputs(question, variant)
    if type(answer) is Proven:
        return {"returned": [call(answer, case) for case in cases]}
    return {"returned": call_all(answer, cases, question.seconds, ours=question.reference)}


def verdict(question, record, variant, values):
    """The reply to what was returned."""
    if "returned" not in record:
        return Reply("wrong_kind", f"That is {record.get('other', 'something else')}. A function is asked for.")
    cases = drawn_inputs(question, variant)
    notes = record["returned"]
    if all(note.get("none") for note in notes):
        return Reply("not_attempted", "The function returns nothing yet. Does it end with return?")
    for case, note in zip(cases, notes, strict=False):
        if "value" not in note:
            return _no_value(question, case, note)
    return _compared(question, values, cases, [note["value"] for note in notes])


def inputs_shown(case):
    """The inputs of one call, in words."""
    return ", ".join(
        f"{name} = {said(value, 4) if isinstance(value, float) else value}" for name, value in case.items()
    )


def _no_value(question, case, note):
    if note.get("ours"):
        return Reply("wrong_kind", "Your function calls the solution of this course. Write the steps yourself.")
    where = inputs_shown(case)
    if note.get("late"):
        return Reply("raised", f"With {where} it had not finished after {question.seconds:g} s. Does a loop never end?")
    if "raised" in note:
        line = f" (line {note['line']} of its cell)" if note.get("line") else ""
        return Reply("raised", f"With {where} it stopped{line}: {quoted(note['raised'], 160)}.")
    if note.get("none"):
        return Reply("wrong_kind", f"With {where} it returns nothing. Is there a return on every way through it?")
    return Reply("wrong_kind", f"With {where} it returns {note.get('other')}. One number is asked for.")


def _fits(question, function, cases, returned):
    expected = [float(function(**case)) for case in cases]
    return [abs(a - b) <= tolerance(question, b) for a, b in zip(returned, expected, strict=True)], expected


def _compared(question, values, cases, returned):
    good, expected = _fits(question, question.reference, cases, returned)
    if all(good):
        return right(question, values)
    worst = good.index(False)
    given = f"{said(returned[worst], 4)} {question.unit}".strip()
    for slip in question.slips:
        if all(_fits(question, slip.value, cases, returned)[0]):
            return slipped(question, slip, values, returned[worst], given=given, **cases[worst])
    return _direction(question, cases, returned, expected, good)


def _direction(question, cases, returned, expected, good):
    wrong = [(a < b, case, a) for a, b, case, ok in zip(returned, expected, cases, good, strict=True) if not ok]
    lows = {low for low, _, _ in wrong}
    outcome = "wrong" if len(lows) > 1 else "low" if lows == {True} else "high"
    low, case, value = wrong[0]
    share = f"It is right for {sum(good)} of {len(cases)} inputs. " if any(good) else ""
    unit = UNITS[question.unit].name
    text = f"{share}With {inputs_shown(case)} it returns {said(value, 4)} {unit}".rstrip()
    return Reply(outcome, f"{text}: too {'low' if low else 'high'}.", see=question.see)


def apart(question, values, variant=1):
    """Whether the inputs of this variant tell the reference and all slips apart."""
    cases = drawn_inputs(question, variant)
    functions = [question.reference, *(slip.value for slip in question.slips)]
    lists = [[float(function(**case)) for case in cases] for function in functions]
    if not all(math.isfinite(value) for values in lists for value in values):
        return False
    return all(_differ(question, a, b) for i, a in enumerate(lists) for b in lists[i + 1 :])


def _differ(question, one, other):
    """Two lists differ where no returned value could pass for both."""
    return any(
        abs(a - b) > 2.05 * max(tolerance(question, a), tolerance(question, b)) for a, b in zip(one, other, strict=True)
    )


class Proven:
    """Our own function, for a proof: called as a learner's is, with values in order, and let through though ours."""

    def __init__(self, question, function):
        self.names, self.function = tuple(question.inputs), function

    def __call__(self, *given):
        return self.function(**dict(zip(self.names, given, strict=True)))


def right_answer(question, values, variant=1):
    """A function that passes."""
    return Proven(question, question.reference)


def slip_answer(question, slip, values, variant=1):
    """The function of someone who makes this slip."""
    return Proven(question, slip.value)


def in_words(question, record, values):
    """A readable answer, as it is told again."""
    returned = (said(note["value"], 4) for note in record["returned"] if "value" in note)
    return f"a function that returns {', '.join(returned)}"
