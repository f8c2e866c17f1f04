"""The registry of judges: one for each kind of question, each with all that a judge must offer."""

import inspect

import pytest

from splashlib.classroom.judges.judge import JUDGES, kind_of
from splashlib.classroom.questions import question_kinds
from tests.classroom.samples import QUESTIONS

OFFERS = {
    "record": ["question", "answer", "unit", "variant", "values"],
    "verdict": ["question", "record", "variant", "values"],
    "apart": ["question", "values", "variant"],
    "right_answer": ["question", "values", "variant"],
    "slip_answer": ["question", "slip", "values", "variant"],
    "in_words": ["question", "record", "values"],
}


def test_every_kind_of_question_has_its_judge():
    asked = [kind for kind in vars(question_kinds).values() if getattr(kind, "kind", "")]
    assert sorted(kind.kind for kind in asked) == sorted(JUDGES)
    for question in QUESTIONS:
        assert kind_of(question) is JUDGES[question.kind]


@pytest.mark.parametrize("kind", JUDGES)
def test_each_judge_offers_the_same(kind):
    for name, arguments in OFFERS.items():
        assert list(inspect.signature(getattr(JUDGES[kind], name)).parameters) == arguments, name
