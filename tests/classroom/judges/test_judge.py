"""The registry of judges: one for each kind of question, each with all that a judge must offer."""

import inspect

import pytest

from splashlib.classroom.judges.judge import JUDGES, judge, kind_of
from splashlib.classroom.judges.replies import heading_anchor
from splashlib.classroom.questions import question_kinds
from tests.classroom.samples import QUESTIONS, TIME

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


def test_look_again_is_a_link_and_plain_words_where_nothing_can_be_pressed():
    reply = judge(TIME, 1, "s")
    assert "Look again at: [Why](#Why)." in reply.markdown
    assert '<a href="#Why">Why</a>' in reply._repr_html_()
    assert str(reply).endswith("Look again at: Why.")
    assert heading_anchor("*What learners get wrong, and why*") == "What-learners-get-wrong,-and-why"
