"""The lesson `beam` in a real browser: every control by keyboard, words and pixels against the library."""

import pytest

from splashlib.picture.beam.beam_picture import BeamPicture
from splashlib.picture.photo.photograph import overlaid
from splashlib.shoot import change_all, tea_house
from splashlib.shoot.decide.spread import aim

START = {"beam": 0.12, "style": "held_open", "scatter": 0.003, "wanted": 0.02, "body": "kumquat", "seed": 1}


@pytest.fixture
def picture():
    """The same picture, drawn here."""
    return BeamPicture(overlay=overlaid)


def brought_to(picture, state, system):
    """Bring the picture to a state; gives what it says of it."""
    picture.system = system
    changes = {"beam.height": state["beam"], "camera.style": state["style"], "drop.release_scatter": state["scatter"]}
    extras = {name: state[name] for name in ("wanted", "body", "seed")}
    return picture.update(change_all(tea_house(), changes), **extras)


def same(panel, picture, state, system="metric"):
    """The panel shows, says and offers in words what the library computes."""
    panel.wait()
    panel.expect(picture, brought_to(picture, state, system))


def test_every_control_by_keyboard(notebook, picture):
    with notebook("03_beam.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        panel, state = page.panel(0), dict(START)
        beam, scatter = panel.slider("Beam height"), panel.slider("Scatter of the release height")
        wanted, series = panel.slider("Where the light finds it"), panel.slider("Which thirty drops")
        style, body = panel.choice("Camera style"), panel.choice("What falls")
        assert beam.text == "12.0 cm"
        assert body.texts == ["kumquat", "glass marble", "drop of milk"]
        same(panel, picture, state)
        delay = aim(tea_house(), height=0.02).setup.trigger.delay
        assert panel.readout["Delay for this beam"] == f"{1000 * delay:.1f} ms"

        beam.press("End")
        same(panel, picture, state | {"beam": 0.43})
        beam.press("Home")
        same(panel, picture, state | {"beam": 0.01})
        beam.press("ArrowRight", 16)
        state["beam"] = 0.09
        panel.wait()
        assert beam.text == "9.0 cm"
        same(panel, picture, state)

        scatter.press("ArrowRight", 4)
        state["scatter"] = 0.005
        same(panel, picture, state)
        wanted.press("ArrowLeft")
        state["wanted"] = 0.015
        same(panel, picture, state)
        series.press("ArrowRight", 2)
        state["seed"] = 3
        same(panel, picture, state)

        for name in ("glass marble", "drop of milk"):
            body.press("ArrowDown")
            state["body"] = name
            panel.wait()
            assert body.text == name
            same(panel, picture, state)
        assert "missed the beam" in panel.alt

        for name in ("no_mirror", "mirror_up", "mirror"):
            style.press("ArrowUp")
            state["style"] = name
            same(panel, picture, state)
        assert panel.tone == "bad"
        assert "no delay repairs that" in panel.line

        panel.select("Units").press("ArrowDown")
        same(panel, picture, state, "imperial")
        panel.button("Back to the start values").focus()
        page.page.keyboard.press("Enter")
        panel.wait()
        same(panel, picture, START, "metric")

        # Letters are commands of the notebook; none may get through from a control.
        beam.press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
