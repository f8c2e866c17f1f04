"""The examples in the docstrings of the five kinds: each is a question that asks, judges and tells slips apart."""

import doctest

import pytest

from splashlib.classroom.judges import judge
from splashlib.classroom.questions import question_kinds as questions
from splashlib.classroom.questions import slips
from splashlib.classroom.questions.wording import say, show
from splashlib.physics.fall import fall_time


def lead(setup):
    height = setup.drop.release_height
    return fall_time(height) - fall_time(height - setup.beam.height)


def lag(setup):
    return setup.camera.lag + setup.trigger.delay


NAMES = {"fall_time": fall_time, "show": show, "slips": slips, "lead": lead, "lag": lag}


def example(kind):
    """Run the docstring's example and give the question that it makes."""
    found = doctest.DocTestParser().get_doctest(kind.__doc__, vars(questions) | NAMES, kind.__name__, None, 0)
    assert len(found.examples) == 1
    failed, _ = doctest.DocTestRunner().run(found, clear_globs=False)
    assert failed == 0
    return found.globs["question"]


KINDS = (questions.Number, questions.Choice, questions.Formula, questions.Function, questions.Settings)


@pytest.mark.parametrize("kind", KINDS)
def test_the_example_works(kind):
    question = example(kind)
    for variant in range(1, 20):
        values, judging = judge.numbers(question, variant), judge.kind_of(question)
        unit = "s" if question.kind == "number" else None
        assert say(question.prompt, values)
        answer = judging.right_answer(question, values, variant)
        assert judge.judge(question, answer, unit, variant=variant).right
        for slip in question.slips:
            answer = judging.slip_answer(question, slip, values, variant)
            assert judge.judge(question, answer, unit, variant=variant).slip == slip.name
