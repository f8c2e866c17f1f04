"""The lesson `splash` in a real browser: the clock and the vessel by keyboard, words and pixels against the library."""

import pytest

from splashlib.picture.splash.splash_picture import SplashPicture
from splashlib.picture.splash.wet_zone_picture import WetZonePicture
from splashlib.shoot import change_all, delay_for, load_setup, splash, tea_house
from splashlib.shoot.decide.splash_camera import in_hand


def same(panel, picture, changes, **extras):
    """The panel shows, says and offers in words what the library computes."""
    told = picture.update(change_all(tea_house(), changes), **extras)
    panel.expect(picture, told)
    return told


def drag_the_clock(panel, picture):
    """Every control of the first panel; it ends with the rough marble from 46 cm, at 31 ms."""
    clock, body = panel.slider("Clock, after contact"), panel.choice("What falls")
    surface, height = panel.choice("Surface of the body"), panel.slider("Release height")
    style = panel.choice("Camera style")
    highest = next(stage.likely for stage in splash(tea_house()) if stage.name == "crown_peak")
    assert clock.text == f"{1000 * highest:.0f}.0 ms" == "55.0 ms"
    assert "crown 69 mm high" in same(panel, picture, {}, clock=0.055, body="kumquat").alt
    clock.press("Home")
    panel.wait()
    assert clock.text.endswith("20.0 ms")
    same(panel, picture, {}, clock=-0.02, body="kumquat")
    clock.press("End")
    panel.wait()
    assert "jet" in same(panel, picture, {}, clock=0.4, body="kumquat").alt
    panel.button("Back to the start values").focus()
    panel.page.keyboard.press("Enter")
    panel.wait()

    style.press("ArrowUp", 3)
    panel.wait()
    assert same(panel, picture, {"camera.style": "mirror"}, clock=0.055, body="kumquat").tone == "bad"
    style.press("ArrowDown", 3)
    surface.press("ArrowDown")
    panel.wait()
    same(panel, picture, {"drop.surface": "smooth_dry"}, clock=0.055, body="kumquat")
    surface.press("ArrowUp", 2)
    body.press("ArrowDown", 2)
    panel.wait()
    same(panel, picture, {"drop.surface": "rough"}, clock=0.055, body="drop of milk")
    body.press("ArrowUp")
    height.press("ArrowRight", 2)
    clock.press("ArrowLeft", 48)
    panel.wait()
    assert (clock.text, body.text, height.text) == ("31.0 ms", "glass marble", "46.0 cm")
    rough = {"drop.surface": "rough", "drop.release_height": 0.46}
    same(panel, picture, rough, clock=0.031, body="glass marble")


def fill_the_vessel(panel, picture):
    """Every control of the second panel."""
    hold, opened = panel.slider("Hold-off after a picture"), panel.slider("How long the shutter is held open")
    body, height = panel.choice("What falls"), panel.slider("Release height")
    width, rim = panel.slider("Inner width of the vessel"), panel.slider("Rim over the water")
    assert same(panel, picture, {}, body="kumquat").tone == "good"
    hold.press("Home")
    panel.wait()
    assert same(panel, picture, {"trigger.hold_off": 0.0}, body="kumquat").tone == "bad"
    hold.press("End")
    opened.press("ArrowRight", 5)
    height.press("ArrowRight", 10)
    width.press("ArrowLeft", 6)
    rim.press("ArrowRight", 6)
    body.press("ArrowDown", 2)
    body.press("ArrowUp", 2)
    panel.wait()
    changes = {"trigger.hold_off": 5.0, "camera.open_time": 2.5, "drop.release_height": 0.5}
    changes |= {"vessel.width": 0.09, "vessel.rim": 0.03}
    assert same(panel, picture, changes, body="kumquat").tone == "warning"


def test_every_control_by_keyboard(notebook):
    with notebook("06_splash.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        drag_the_clock(page.panel(0), SplashPicture())
        fill_the_vessel(page.panel(1), WetZonePicture())
        page.panel(1).slider("Rim over the water").press("a").press("b").press("x")
        assert page.axe() == []

        assert not (page.home / "my_setup.toml").exists()
        page.show_cell(len(page.cells) - 2)
        page.page.get_by_role("button", name="Write into my_setup.toml").focus()
        page.page.keyboard.press("Enter")
        page.page.wait_for_function("() => document.querySelector('.splash-said')?.textContent.includes('is new')")
        written = load_setup(page.home / "my_setup.toml")
        assert (written.drop.name, written.drop.surface, written.trigger.hold_off) == ("glass marble", "rough", 5.0)
        assert written.vessel.width == 0.09
        mine = {"drop.surface": "rough", "drop.release_height": 0.46}
        mine = in_hand(change_all(tea_house(), mine), "glass marble")
        assert written.trigger.delay == pytest.approx(delay_for(mine, after_contact=0.031).value, abs=5e-5)
        assert len(page.cells) == cells
        assert page.complaints == []
