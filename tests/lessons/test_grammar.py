"""The words of all exercises, in many variants: one stop and two stops, no paths of code, no numbers gone wrong."""

import importlib
import re

import pytest

from lessons import COURSE
from splashlib.classroom.judges import judge
from splashlib.classroom.questions.units import UNITS
from splashlib.classroom.questions.wording import say

COUNTED = "stops doublings halvings steps marks heads times pictures drops frames flashes sets pixels pieces"
PLURAL = re.compile(rf"(?<![\d.,/·×*^])[-−]?\b1 (?:{COUNTED.replace(' ', '|')})\b")
PATH = re.compile(r"\b(?:beam|trigger|drop|camera|flashes|room|vessel)\.[a-z_]+")
GONE_WRONG = re.compile(r"-0\b(?!\.\d*[1-9])|\b(?:nan|inf|None)\b|\{\w*\}|\de[+-]?\d")
LESSONS = [lesson.name for lesson in COURSE if importlib.util.find_spec(f"lessons.{lesson.name}") is not None]


def words(question, variant):
    """Everything that a question may say in one variant, but for its replies to slips in settings and functions."""
    values, judging = judge.numbers(question, variant), judge.kind_of(question)
    yield from (say(text, values) for text in (question.prompt, *question.hints, question.worked, question.meaning))
    answers = [judging.right_answer(question, values, variant)]
    answers += [judging.slip_answer(question, slip, values, variant) for slip in question.slips]
    unit = question.unit if question.kind == "number" else None
    for answer in answers:
        if answer is not None:
            given = answer / UNITS[unit].size if unit else answer
            yield judge.judge(question, given, unit, variant=variant).text


@pytest.mark.parametrize("lesson", LESSONS)
def test_the_words_are_good_english_in_every_variant(lesson):
    exercises = importlib.import_module(f"lessons.{lesson}.exercises").exercises
    for question in exercises.questions.values():
        for variant in range(1, 41):
            for text in words(question, variant):
                prose = re.sub(r"```.*?```", "", text, flags=re.S)
                for pattern in (PLURAL, PATH, GONE_WRONG):
                    found = pattern.search(prose)
                    assert not found, f"{lesson}, {question.name}, variant {variant}: {found.group()!r} in {prose!r}"
