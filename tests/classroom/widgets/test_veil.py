"""Until a guess is noted or waived, a panel is veiled in the browser; its words in Python stay as they are."""

import re

import pytest

from splashlib.classroom.record.progress_file import Progress
from splashlib.classroom.widgets.guided import VEIL
from splashlib.classroom.widgets.lesson_panel import LessonPanel
from splashlib.classroom.widgets.saved_view import VEILED
from tests.browser.demo import demo
from tests.classroom.samples import sample_exercises


@pytest.fixture
def exercises(tmp_path):
    return sample_exercises(progress=Progress(tmp_path / "p.sqlite"))


@pytest.fixture
def lesson(exercises):
    return LessonPanel(demo)


def test_a_noted_guess_lifts_the_veil(exercises, lesson):
    panel = lesson.show(exercises.guess("empty frame"))
    assert panel.veiled
    assert panel._front.veil == VEIL
    assert panel.told.line == demo().told.line  # in Python nothing is hidden
    exercises.predict("empty frame").act("note", {"option": ""})
    assert panel.veiled  # nothing was chosen
    exercises.predict("empty frame").act("note", {"option": "weak"})
    assert not panel.veiled
    assert panel._front.veil == ""


def test_the_button_waives_the_guess_and_that_lasts(exercises, lesson, tmp_path):
    panel = lesson.show(exercises.guess("empty frame"))
    panel._front.waived = True
    assert panel._front.veil == ""
    again = sample_exercises(progress=Progress(tmp_path / "p.sqlite"))
    assert not lesson.show(again.guess("empty frame")).veiled
    assert "no prediction yet" in again.look_back("empty frame")._front.reply["html"]
    panel._front.waived = False
    panel._front.waived = True
    assert [each.act for each in again.progress.attempts()] == ["waived"]


def test_a_guess_of_yesterday_leaves_no_veil(exercises, lesson, tmp_path):
    exercises.note("empty frame", "weak")
    again = sample_exercises(progress=Progress(tmp_path / "p.sqlite"))
    assert not lesson.show(again.guess("empty frame")).veiled


def test_without_a_guess_there_is_no_veil_and_looking_writes_nothing(exercises, lesson, tmp_path):
    assert not lesson.show().veiled
    lesson.show(exercises.guess("empty frame"))
    assert list(tmp_path.iterdir()) == []


def test_a_saved_notebook_folds_the_answer_and_says_so(exercises, lesson):
    panel = lesson.show(exercises.guess("empty frame"))
    data, _ = panel._repr_mimebundle_()
    before, folded = data["text/html"].split("<details>")
    assert panel.told.alt not in before
    assert folded.startswith(f"<summary>{VEILED}</summary>")
    assert re.search(r"<img .*</details>", folded, re.S)
    assert data["text/plain"] == VEIL
    exercises.note("empty frame", "weak")
    data, _ = panel._repr_mimebundle_()
    assert "<details>" not in data["text/html"]
    assert panel.told.alt in data["text/plain"]


def test_an_unknown_question_is_refused(exercises):
    with pytest.raises(ValueError, match="no exercise"):
        exercises.guess("empty")
