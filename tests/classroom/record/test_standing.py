"""What `progress()` counts and shows."""

import base64
import io
import re

import numpy as np
import pytest
from PIL import Image

from splashlib.classroom import progress
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.record.progress_file import FILE_NAME, Progress
from splashlib.classroom.record.standing import rows_of
from tests.classroom.samples import EMPTY_FRAME, STOPS, TIME


@pytest.fixture
def lessons(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    fall, camera = Exercises("fall", (TIME, STOPS)), Exercises("camera", (EMPTY_FRAME,))
    fall.check("time", "1 s")
    fall.check("time", TIME.answer(fall.numbers("time")), "s")
    fall.check("time", "2 s")  # right once is right
    fall.check("stops", 99)
    fall.took("stops", "hint", 1)
    camera.note("empty frame", "weak")
    return fall, camera


def test_counts(lessons):
    fall, camera = rows_of(Progress().attempts(), lessons)
    assert fall.states == (("time", "right"), ("stops", "tried"))
    assert (fall.right, fall.tries, fall.helps) == (1, 4, 1)
    assert camera.states == (("empty frame", "open"),)  # a prediction is no answer
    assert camera.tries == 0
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", fall.last)


def test_without_lessons_it_shows_what_is_in_the_file(lessons):
    assert progress().said == "fall: 1 of 2 right. camera: 0 of 0 right."


def test_the_picture_has_as_many_squares_as_there_are_questions(lessons):
    html = progress(*lessons)._repr_html_()
    ((alt, data),) = re.findall(r'<img alt="([^"]*)" src="data:image/png;base64,([^"]*)">', html)
    assert alt == "fall: 1 of 2 right. camera: 0 of 1 right."
    pixels = np.asarray(Image.open(io.BytesIO(base64.b64decode(data))).convert("RGB")).astype(int)
    green = np.abs(pixels - [0x00, 0x9E, 0x73]).sum(axis=2) < 40
    # One square of the lesson and one of the key; columns where green stands without a gap.
    runs = np.flatnonzero(np.diff(np.r_[0, green.any(axis=0).astype(int), 0]) == 1)
    rows = np.flatnonzero(np.diff(np.r_[0, green.any(axis=1).astype(int), 0]) == 1)
    assert len(runs) >= 1
    assert len(rows) == 2


def test_the_table_says_it_in_words(lessons):
    html = progress(*lessons)._repr_html_()
    cells = re.findall(r"<td>([^<]*)</td>", html)
    assert cells[:5] == ["fall", "1 of 2", "stops", "4", "1"]


def test_names_are_escaped_and_reading_makes_no_file(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert "Nothing is answered yet" in progress()._repr_html_()
    assert not list(tmp_path.iterdir())
    Progress().keep(lesson="<b>", question="<i>", variant=1, record={}, outcome="low")
    assert "<b>" not in progress()._repr_html_()
    (tmp_path / FILE_NAME).write_bytes(b"x" * 3000)
    assert FILE_NAME in repr(progress())
