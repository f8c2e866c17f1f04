"""The lesson `start` in a real browser: every control by keyboard, words and pixels against the library."""

import pytest

from splashlib.picture.start.start_picture import StartPicture
from splashlib.shoot import change_all, load_setup, tea_house

START = {
    "drop.release_height": 0.45,
    "beam.height": 0.12,
    "trigger.delay": 0.0,
    "flashes.0.power": 1 / 32,
    "camera.style": "mirror",
}
# What is pressed on each control, and the setting that must come of it [SI].
MOVES = [
    ("Release height", ["ArrowRight"] * 4, "drop.release_height", 0.47),
    ("Beam height", ["PageUp", "ArrowRight"], "beam.height", None),
    ("Delay", ["ArrowRight"] * 3, "trigger.delay", 0.0015),
    ("Flash power", ["ArrowRight"] * 3, "flashes.0.power", 1 / 16),
]


@pytest.fixture
def picture():
    """The same picture, drawn here."""
    return StartPicture()


def same(page, panel, picture, state):
    """The panel shows and says what the library computes for this state."""
    told = picture.update(change_all(tea_house(), state))
    panel.expect(picture, told)


def test_every_control_by_keyboard(notebook, picture):
    with notebook("01_start.ipynb") as page:
        page.run_all()
        cells, state = len(page.cells), dict(START)
        panel = page.panel(0)
        same(page, panel, picture, state)
        assert panel.box["height"] > 200
        for label, keys, path, expected in MOVES:
            slider = panel.slider(label)
            for key in keys:
                slider.press(key)
            panel.wait()
            state[path] = page.python(f"panel.shown.last.values[{path!r}]")
            assert state[path] != START[path]
            if expected:
                assert state[path] == pytest.approx(expected)
            same(page, panel, picture, state)
        style = panel.choice("Camera style")
        for wanted in ("mirror_up", "no_mirror", "held_open"):
            style.press("ArrowDown")
            panel.wait()
            state["camera.style"] = wanted
            same(page, panel, picture, state)
        panel.slider("Delay").press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []


def test_a_notebook_that_is_run_again_shows_one_panel_that_lives(notebook, picture):
    """The panel before is closed by then; neither the page nor the new panel may mind."""
    with notebook("01_start.ipynb") as page:
        page.run_all()
        page.panel(0).slider("Delay").press("End")
        page.run_all()
        panel = page.panel(0)
        assert page.page.locator(".splash").count() == 1
        same(page, panel, picture, START)
        panel.slider("Delay").press("ArrowRight")
        panel.wait()
        same(page, panel, picture, START | {"trigger.delay": 0.0005})
        assert page.complaints == []


def test_the_panel_writes_the_set_up_on_request_only(notebook):
    with notebook("01_start.ipynb") as page:
        page.run_all()
        panel = page.panel(0)
        mine = page.home / "my_setup.toml"
        panel.slider("Release height").press("ArrowRight", 10)
        panel.wait()
        assert not mine.exists()
        verdict = panel.line
        assert verdict.startswith("Too late.")
        card = page.keep(0)
        page.page.wait_for_function(
            "(root) => root.querySelector('.splash-doubt').textContent", arg=card.root.element_handle()
        )
        assert card.doubt == f"! The panel says: {verdict}"
        card.write()
        assert load_setup(mine).drop.release_height == pytest.approx(0.5)
