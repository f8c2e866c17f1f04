"""What a saved notebook keeps of a panel: the first picture with its text, for viewers without Python."""

import base64
import io
import re
from pathlib import Path

import nbformat
import numpy as np
import pytest
from nbclient import NotebookClient
from PIL import Image

from splashlib.shoot import tea_house
from tests.browser.demo import Dot, demo

ROOT = Path(__file__).resolve().parents[3]
WIDGET = "application/vnd.jupyter.widget-view+json"


def image_in(html):
    """The one picture inside a piece of HTML, and its alternative text."""
    ((alt, data),) = re.findall(r'<img alt="([^"]*)"[^>]* src="data:image/png;base64,([^"]*)">', html)
    return np.asarray(Image.open(io.BytesIO(base64.b64decode(data)))), alt


@pytest.fixture
def drawn():
    """The picture as the library draws it."""
    picture = Dot()
    told = picture.update(tea_house(), clock=0.04)
    return picture.pixels()[:, :, :3].copy(), told


def test_the_bundle_carries_widget_picture_and_words(drawn):
    pixels, told = drawn
    data, _ = demo()._repr_mimebundle_()
    assert set(data) == {WIDGET, "text/html", "text/plain"}
    image, alt = image_in(data["text/html"])
    assert np.array_equal(image, pixels)
    assert alt == told.alt
    for label, value in told.readout:
        assert f"<th>{label}</th><td>{value}</td>" in data["text/html"]
        assert f"{label}: {value}" in data["text/plain"]
    assert told.line in data["text/html"]


def test_words_are_escaped():
    panel = demo(title='<script>alert("x")</script>')
    html = panel._repr_mimebundle_()[0]["text/html"]
    assert "<script" not in html
    assert "&lt;script&gt;" in html


def test_a_panel_without_a_picture_still_says_something():
    from splashlib.classroom.widgets.controls import Pick

    data, _ = demo(controls=(Pick("mood", "Mood", ("impossible",)),))._repr_mimebundle_()
    assert "text/html" not in data or "<img" not in data["text/html"]
    assert "mood is impossible" in data["text/plain"]


def test_a_notebook_run_without_a_browser_holds_the_picture(tmp_path, drawn):
    pixels, told = drawn
    code = f"import sys; sys.path.insert(0, {str(ROOT)!r})\nfrom tests.browser.demo import demo\ndemo()"
    notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_code_cell(code)])
    NotebookClient(notebook, timeout=60, resources={"metadata": {"path": str(tmp_path)}}).execute()
    outputs = notebook.cells[0].outputs
    still, live = (each.data for each in outputs)
    assert set(live) == {WIDGET, "text/plain"}
    image, alt = image_in(still["text/html"])
    assert np.array_equal(image, pixels)
    assert alt == told.alt
    assert told.line in still["text/html"]
    assert list(tmp_path.iterdir()) == [], "a notebook run untouched writes nothing"
