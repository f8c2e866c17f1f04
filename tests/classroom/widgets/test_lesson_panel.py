"""A lesson's panel, shown over and over: the latest one lives, and what went before it costs nothing."""

import gc
import weakref

import pytest

from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.saved_view import WIDGET
from tests.browser.demo import demo

DECIDED = ("drop.release_height",)


def test_a_cell_that_is_run_again_lets_the_picture_before_go():
    """A kernel knows every widget until it is closed; each held a panel with its figure, some 10 MB."""
    lesson, pictures = LessonPanel(demo), []
    for _ in range(3):
        pictures.append(weakref.ref(lesson.show()._picture))
        keep_panels(lesson, decided=DECIDED)
    gc.collect()
    assert [each() is not None for each in pictures] == [False, False, True]
    assert lesson.last._picture is pictures[-1]()


def test_a_panel_that_was_shown_anew_says_so_and_can_still_be_read():
    lesson = LessonPanel(demo)
    before = lesson.show()
    before.set("drop.release_height", 0.8)
    card = keep_panels(lesson, decided=DECIDED)
    after = lesson.show()
    assert before.setup.drop.release_height == before.values["drop.release_height"] == 0.8
    assert [row.chosen for row in card.rows] == ["80.0 cm"]
    with pytest.raises(ValueError, match="shown anew"):
        before.set("drop.release_height", 0.6)
    before.reset()
    assert "shown anew" in before.error
    after.set("drop.release_height", 0.6)
    assert (after.setup.drop.release_height, after.error) == (0.6, "")


def test_a_panel_that_was_shown_anew_is_a_still(monkeypatch):
    lesson, displayed = LessonPanel(demo), []
    before, after = lesson.show(), lesson.show()
    monkeypatch.setattr("IPython.display.display", lambda data, raw: displayed.append(data))
    before._ipython_display_()
    (still,) = displayed
    assert WIDGET not in still
    assert "data:image/" in still["text/html"]
    after._ipython_display_()
    assert WIDGET in displayed[-1]


def test_where_a_panel_cannot_be_made_the_one_before_stays():
    panels = [demo()]
    lesson = LessonPanel(lambda: panels.pop())
    lesson.show()
    with pytest.raises(IndexError):
        lesson.show()
    lesson.last.set("drop.release_height", 0.6)
    assert lesson.last.error == ""
