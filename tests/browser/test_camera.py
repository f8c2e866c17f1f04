"""The lesson `camera` in a real browser: the demonstration by keyboard, words and pixels against the library."""

from splashlib.picture.camera.camera_picture import CameraPicture
from splashlib.picture.camera.curtain_picture import CurtainPicture
from splashlib.shoot import change_all, load_setup, tea_house

FIRST = {"camera.style": "mirror"}
SLIT = {"camera.style": "mirror_up", "beam.height": 0.25}


def same(panel, picture, changes, **extras):
    """The panel shows, says and offers in words what the library computes."""
    told = picture.update(change_all(tea_house(), changes), **extras)
    panel.expect(picture, told)
    return told


def write_by_keyboard(page):
    """Press the card's button; nothing is written before."""
    assert not (page.home / "my_setup.toml").exists()
    page.show_cell(len(page.cells) - 2)
    page.page.get_by_role("button", name="Write into my_setup.toml").focus()
    page.page.keyboard.press("Enter")
    page.page.wait_for_function("() => document.querySelector('.splash-said')?.textContent.includes('is new')")
    return load_setup(page.home / "my_setup.toml")


def demonstrate(panel, picture):
    """The empty frame, then each way out, with every control of the panel."""
    beam, delay = panel.slider("Beam height"), panel.slider("Delay")
    which, style, lag = panel.choice("Which delay"), panel.choice("Camera style"), panel.slider("Camera lag")
    told = same(panel, picture, FIRST)
    assert "gone, 57 ms after contact" in told.alt
    assert "No delay repairs that" in panel.line

    delay.press("ArrowRight", 4)
    panel.wait()
    same(panel, picture, FIRST | {"trigger.delay": 0.002})
    delay.press("Home")

    which.press("ArrowDown")
    panel.wait()
    assert which.text == "the best for each: contact"
    assert same(panel, picture, FIRST, aim="contact").tone == "bad"

    beam.press("ArrowRight", 27)
    panel.wait()
    assert beam.text == "25.5 cm"
    assert same(panel, picture, FIRST | {"beam.height": 0.255}, aim="contact").tone == "good"
    beam.press("ArrowLeft", 33)

    which.press("ArrowDown", 2)
    panel.wait()
    assert beam.text == "9.0 cm"
    assert same(panel, picture, FIRST | {"beam.height": 0.09}, aim="jet_peak").tone == "good"

    which.press("ArrowUp", 2)
    style.press("ArrowDown")
    panel.wait()
    lag.press("ArrowLeft", 15)
    panel.wait()
    assert lag.text == "25 ms"
    mine = {"camera.style": "mirror_up", "camera.lag": 0.025, "beam.height": 0.09}
    same(panel, picture, mine, aim="contact")
    panel.slider("Release height").press("ArrowRight", 2)
    panel.wait()
    same(panel, picture, mine | {"drop.release_height": 0.46}, aim="contact")


def slits(panel):
    """A shutter that is too fast, with every control of the second panel."""
    picture = CurtainPicture()
    same(panel, picture, SLIT)
    panel.slider("Shutter").press("ArrowLeft", 4)
    panel.slider("Readout").press("ArrowRight", 10)
    panel.slider("Travel").press("ArrowLeft", 5)
    panel.wait()
    assert panel.slider("Shutter").text == "1/500 s"
    same(panel, picture, {**SLIT, "camera.shutter": 1 / 500, "camera.readout": 0.03, "camera.curtain_travel": 0.0025})


def test_every_control_by_keyboard(notebook):
    with notebook("04_camera.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        picture, panel = CameraPicture(), page.panel(0)
        demonstrate(panel, picture)

        panel.choice("Camera style").press("ArrowDown", 2)
        panel.wait()
        lag = panel.slider("Camera lag")
        assert lag.text == "0 ms"
        assert (lag.rests, lag.why) == (True, "A shutter that is held open has no lag: the beam fires the flash.")

        slits(page.panel(1))
        kept = write_by_keyboard(page)
        assert (kept.camera.style, kept.beam.height, kept.drop.release_height) == ("held_open", 0.09, 0.46)
        assert 0.03 < kept.trigger.delay < 0.04

        panel = page.panel(0)
        panel.select("Units").press("ArrowDown")
        panel.wait()
        assert panel.readout["Lowest beam for it, held open"].endswith(" in")
        panel.button("Back to the start values").focus()
        page.page.keyboard.press("Enter")
        panel.wait()
        same(panel, picture, FIRST)

        # Letters are commands of the notebook; none may get through from a control.
        panel.slider("Delay").press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
