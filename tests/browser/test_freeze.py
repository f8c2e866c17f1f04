"""The lesson `freeze` in a real browser: every control by keyboard, words and pixels against the library."""

import pytest

from splashlib.picture.freeze.freeze_picture import FreezePicture
from splashlib.shoot import change_all, load_setup, tea_house
from splashlib.shoot.decide.flash_duration import MARKS

START = {"print_width": 0.30, "apart": 0.001}


def same(panel, picture, changes, system="metric", **extras):
    """The panel shows, says and offers in words what the library computes."""
    picture.system = system
    told = picture.update(change_all(tea_house(), changes), **(START | extras))
    panel.expect(picture, told)
    return told


def down(steps):
    """A number of thirds of a stop below 1/32."""
    return sorted(MARKS, reverse=True)[15 + steps]


def turn_down(panel, picture):
    """Nearly points, then points; then the kinds that get longer or are long at any power."""
    power, kind = panel.slider("Flash power"), panel.choice("Kind of flash")
    assert same(panel, picture, {}).tone == "warning"
    power.press("ArrowLeft", 5)
    panel.wait()
    assert power.text == "1/128 +1/3"
    low = {"flashes.0.power": down(5)}
    assert same(panel, picture, low).tone == "good"
    for name in ("capacitor_switched", "voltage_controlled", "high_speed_sync"):
        kind.press("ArrowDown")
        panel.wait()
        told = same(panel, picture, low | {"flashes.0.kind": name})
    assert "freezes nothing" in told.line
    kind.press("ArrowUp", 3)
    panel.wait()
    assert kind.text == "quenched"
    return low


def look_closer(panel, picture, low):
    """Two heads brought together; less height, a closer camera, a larger print."""
    route = panel.choice("Route to your flash")
    route.press("ArrowDown")
    panel.wait()
    assert "radio" in str(same(panel, picture, low, route="radio").readout)
    route.press("ArrowUp")
    panel.slider("Second head later by").press("Home")
    panel.wait()
    assert "4 Two heads: points" in same(panel, picture, low, apart=0.0).alt
    panel.slider("Release height").press("ArrowLeft", 5)
    panel.slider("Camera to the falling body").press("ArrowLeft", 5)
    panel.slider("Width of the print").press("ArrowRight", 2)
    panel.wait()
    nearer = low | {"drop.release_height": 0.40, "camera.distance": 1.00}
    same(panel, picture, nearer, apart=0.0, print_width=0.40)
    panel.select("Units").press("ArrowDown")
    panel.wait()
    same(panel, picture, nearer, "imperial", apart=0.0, print_width=0.40)
    panel.select("Units").press("ArrowUp")
    panel.wait()


def write_by_keyboard(page):
    """Press the card's button; nothing is written before."""
    assert not (page.home / "my_setup.toml").exists()
    page.show_cell(len(page.cells) - 2)
    page.page.get_by_role("button", name="Write into my_setup.toml").focus()
    page.page.keyboard.press("Enter")
    page.page.wait_for_function("() => document.querySelector('.splash-said')?.textContent.includes('is new')")
    return load_setup(page.home / "my_setup.toml")


def test_every_control_by_keyboard(notebook):
    with notebook("07_freeze.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        picture, panel = FreezePicture(), page.panel(0)
        low = turn_down(panel, picture)
        look_closer(panel, picture, low)

        kept = write_by_keyboard(page)
        assert kept.flashes[0].kind == "quenched"
        assert kept.flashes[0].power == pytest.approx(down(5))
        assert kept.camera == tea_house().camera

        panel = page.panel(0)
        panel.button("Back to the start values").focus()
        page.page.keyboard.press("Enter")
        panel.wait()
        same(panel, picture, {})

        # Letters are commands of the notebook; none may get through from a control.
        panel.slider("Flash power").press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
