"""The judge: from an answer to a reply, the same way each time.

In this order: not attempted, not readable, wrong kind or shape, wrong unit, right, recognised slip, too high
or too low. An answer first becomes a record of plain data, and the reply is computed from that record alone;
so a stored answer can be judged again without running what the learner wrote.
"""

from functools import lru_cache

from splashlib.classroom.judges import choice, formula, function, number, settings
from splashlib.classroom.judges.judging import check_sound, safely, stripped, untouched
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.variants import candidates, whole

EMPTY = {"empty": True}
START = {
    "choice": "Choose an answer in the form, or put its letter in quotes in place of the dots.",
    "function": "Write the function in the cell, put its name in place of the dots, and run the cell again.",
    "settings": "Change a setting in the form, or put your set-up in place of the dots.",
}
"""How to begin with a question, by its kind."""


JUDGES = {"number": number, "choice": choice, "formula": formula, "function": function, "settings": settings}
"""The judge of each kind of question; `judging` tells what such a module must offer."""


def kind_of(question):
    """The module that judges this kind of question."""
    return JUDGES[question.kind]


@lru_cache(maxsize=4096)
def _numbers(question, variant):
    kind = kind_of(question)
    for values in candidates(question, variant):
        if kind.apart(question, values, variant):
            return values
    raise ValueError(f"question {question.name!r}: no numbers keep the right answer and its slips apart")


def numbers(question, variant=1):
    """The displayed numbers of a variant. Numbers with which two slips would look alike are passed over."""
    return _numbers(question, whole(variant))


def record(question, answer, unit=None, *, variant=1):
    """An answer as plain data, ready to be stored."""
    answer, unit = stripped(answer), stripped(unit)
    if untouched(answer):
        return dict(EMPTY)
    judging, values = kind_of(question), numbers(question, variant)
    return safely(lambda: judging.record(question, answer, unit, whole(variant), values), answer)


def verdict(question, record, *, variant=1):
    """The reply to a record."""
    if not isinstance(record, dict) or record.get("empty"):
        usual = "Type an answer into the form, or put it in place of the dots."
        return Reply("not_attempted", START.get(question.kind, usual))
    return kind_of(question).verdict(question, record, whole(variant), numbers(question, variant))


def judge(question, answer, unit=None, *, variant=1):
    """The reply to an answer.

    Parameters
    ----------
    question : one of the five kinds
    answer : number, text, letter, function, Setup or settings; None, ... or blank = not attempted
    unit : the unit beside a number, if it is not in the text
    variant : which numbers

    Returns
    -------
    Reply. Never raises for anything a learner may answer; leaves the answer, globals and random state alone.
    """
    return verdict(question, record(question, answer, unit, variant=variant), variant=variant)


def rejudge(question, record, *, variant=1):
    """The reply to a stored record; one that is damaged or was edited gets a line too, so that a report goes on."""
    try:
        check_sound(record)
        return verdict(question, record, variant=variant)
    except Exception as problem:
        return Reply("unreadable", f"This stored answer cannot be judged again ({type(problem).__name__}).")


def in_words(question, record, *, variant=1):
    """A readable answer, as it is told again (Markdown)."""
    return kind_of(question).in_words(question, record, numbers(question, variant))
