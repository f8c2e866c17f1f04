"""The lesson `fall` in a real browser: every control by keyboard, words and pixels against the library."""

import pytest

from splashlib.picture.fall.fall_picture import FallPicture
from splashlib.shoot import arrival, change_all, load_setup, tea_house
from splashlib.shoot.chain.arrival import fallers

SCENE = tea_house()
BODIES = fallers(SCENE.drop)


@pytest.fixture
def picture():
    """The same picture, drawn here."""
    return FallPicture(BODIES)


def brought_to(picture, height, body, system="metric"):
    """Bring the picture to a state; gives what it says of it."""
    picture.system = system
    low = {"beam.height": SCENE.beam.width / 2, "drop.release_height": height}
    return picture.update(change_all(SCENE, low), body=body)


def same(panel, picture, height, body, system="metric"):
    """The panel shows, says and offers in words what the library computes."""
    panel.expect(picture, brought_to(picture, height, body, system))


def write_by_keyboard(page, *, body):
    """The card at the lesson's end writes what the panel stands for, and nothing before its button is pressed."""
    assert not (page.home / "my_setup.toml").exists()
    page.show_cell(len(page.cells) - 2)
    page.page.get_by_role("button", name="Write into my_setup.toml").focus()
    page.page.keyboard.press("Enter")
    page.page.wait_for_function("() => document.querySelector('.splash-said')?.textContent.includes('is new')")
    assert load_setup(page.home / "my_setup.toml").drop.name == body


def test_every_control_by_keyboard(notebook, picture):
    with notebook("02_fall.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        panel = page.panel(0)
        height, body = panel.slider("Release height"), panel.choice("What falls")
        assert height.text == "45.0 cm"
        assert body.texts == ["kumquat", "glass marble", "drop of milk", "table-tennis ball"]
        same(panel, picture, 0.45, "kumquat")
        assert panel.readout["Speed at the water"] == f"{arrival(SCENE.drop).speed:.2f} m/s"

        height.press("ArrowRight", 3)
        panel.wait()
        assert height.text == "46.5 cm"
        same(panel, picture, 0.465, "kumquat")

        for name in ("glass marble", "drop of milk", "table-tennis ball"):
            body.press("ArrowDown")
            panel.wait()
            assert body.text == name
            same(panel, picture, 0.465, name)

        height.press("End")
        panel.wait()
        same(panel, picture, 1.5, "table-tennis ball")
        height.press("Home")
        panel.wait()
        assert height.text == "10.0 cm"
        same(panel, picture, 0.10, "table-tennis ball")

        panel.select("Units").press("ArrowDown")
        panel.wait()
        same(panel, picture, 0.10, "table-tennis ball", "imperial")
        assert panel.readout["Speed at the water"].endswith("ft/s")
        panel.select("Units").press("ArrowUp")
        panel.wait()

        panel.button("Back to the start values").focus()
        page.page.keyboard.press("Enter")
        panel.wait()
        same(panel, picture, 0.45, "kumquat")

        body.press("ArrowDown", 2)
        panel.wait()
        write_by_keyboard(page, body="drop of milk")

        # Letters are commands of the notebook; none may get through from a control.
        page.panel(0).slider("Release height").press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
