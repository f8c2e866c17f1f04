"""The example of an answer in code: it can be run as it stands, and is never the answer."""

import re

import pytest

from splashlib.classroom.judges.in_code import in_code
from splashlib.classroom.questions.units import UNITS, units_of
from splashlib.classroom.record.progress_file import Progress
from tests.classroom.samples import QUESTIONS, TIME, sample_exercises
from tests.lessons.test_grammar import LESSONS


@pytest.fixture
def lessons(tmp_path):
    from importlib import import_module

    from splashlib.classroom.exercises import Exercises

    made = [import_module(f"lessons.{name}.exercises").exercises.questions.values() for name in LESSONS]
    file = Progress(tmp_path / "p.sqlite")
    return [Exercises("all", questions, progress=file) for questions in (QUESTIONS, *made)]


def test_every_example_runs_and_is_read(lessons):
    for exercises in lessons:
        for question in exercises.questions.values():
            code = re.search("`(.*)`", in_code(question))[1]
            names = {"exercises": exercises, question.name: lambda *_, **__: 0.0}
            reply = eval(code, names)
            unread = ("unreadable", "wrong_kind", "raised")
            # Settings stand as at the beginning, and can be set.
            assert reply.outcome not in unread, f"{code}: {reply}"
            assert reply.outcome != "not_attempted" or "Nothing is changed yet." in reply.text, f"{code}: {reply}"
            if question.kind != "choice":  # there a) may happen to be right
                assert not reply.right, code


def test_no_example_tells_a_unit_that_the_form_leaves_open(lessons):
    for exercises in lessons:
        for question in exercises.questions.values():
            if question.kind == "number" and len(units_of(UNITS[question.unit].measures)) > 1:
                assert '"12.5 cm"' in in_code(question)


def test_an_untouched_cell_is_folded_and_never_contradicts_the_form(tmp_path):
    exercises = sample_exercises(progress=Progress(tmp_path / "p.sqlite"))
    empty = exercises.check("time", ...)
    assert (empty.outcome, empty.folded) == ("not_attempted", "Answer in code")
    assert re.fullmatch(
        r"<div [^>]*><details><summary>Answer in code</summary>.*</details></div>", empty._repr_html_(), re.S
    )
    exercises.answer("time", f"{TIME.answer(exercises.numbers('time')):.4f}", "s", None)
    kept = exercises.check("time", ...)
    assert (kept.outcome, kept.folded) == ("right", "Answer in code")
    # What is answered in code is told openly.
    assert "<details>" not in exercises.check("time", "1 s")._repr_html_()
