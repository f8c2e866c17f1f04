"""The lesson `stops` in a real browser: every control by keyboard, words and pixels against the library."""

import pytest

from lessons.stops.panel import in_sight
from splashlib.picture.stops.stops_picture import StopsPicture
from splashlib.shoot import change_all, load_setup, tea_house
from splashlib.shoot.decide.exposure_account import alike
from splashlib.shoot.decide.exposure_balance import flash_over_metered, room_over_metered

SCENE = in_sight(tea_house())
POWER, DISTANCE, LOSS = (f"flashes.0.{name}" for name in ("power", "distance", "diffuser_loss"))


@pytest.fixture
def picture():
    """The same picture, drawn here."""
    return StopsPicture()


def same(panel, picture, *, heads=1, system="metric", **changes):
    """The panel shows, says and offers in words what the library computes; gives the set-up.

    The line names the handle moved last first, so one handle is moved from one call to the next.
    """
    panel.wait()
    names = {"power": POWER, "distance": DISTANCE, "loss": LOSS, "aperture": "camera.aperture", "iso": "camera.iso"}
    setup = change_all(SCENE, {names[name]: value for name, value in changes.items()})
    picture.system = system
    told = picture.update(setup, heads=heads)
    panel.expect(picture, told)
    return alike(setup, heads)


def said(stops):
    return f"{stops:+.1f} stops".replace("-", "−")


def write_by_keyboard(page):
    """The card at the lesson's end writes what the panel stands for, and nothing before its button is pressed."""
    assert not (page.home / "my_setup.toml").exists()
    page.show_cell(len(page.cells) - 2)
    page.page.get_by_role("button", name="Write into my_setup.toml").focus()
    page.page.keyboard.press("Enter")
    page.page.wait_for_function("() => document.querySelector('.splash-said')?.textContent.includes('is new')")
    return load_setup(page.home / "my_setup.toml")


def test_every_control_by_keyboard(notebook, picture):
    with notebook("08_stops.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        panel = page.panel(0)
        power, distance = panel.slider("Flash power"), panel.slider("Flash to the falling body")
        loss, heads = panel.slider("Loss in the diffuser"), panel.choice("Flash heads, all alike")
        aperture, iso = panel.slider("Aperture"), panel.slider("ISO")
        assert (power.text, distance.text, loss.text) == ("1/32", "100 cm", "1.0 stops")
        assert (heads.texts, aperture.text, iso.text) == (["one", "two", "four"], "f/11", "800")
        same(panel, picture)

        power.press("ArrowLeft", 6)
        setup = same(panel, picture, power=1 / 128)
        assert power.text == "1/128"
        assert panel.readout["The frame"] == said(flash_over_metered(setup))
        assert panel.readout["From full power"] == "7 steps"

        # Paid by the camera: the room comes in.
        iso.press("ArrowRight", 5)
        setup = same(panel, picture, power=1 / 128, iso=2500)
        assert panel.readout["The room alone"] == said(room_over_metered(setup))
        assert panel.tone != "good"
        iso.press("ArrowLeft", 5)
        same(panel, picture, power=1 / 128)

        # Paid by the flash: it stays out.
        heads.press("ArrowDown")
        same(panel, picture, power=1 / 128, heads=2)
        heads.press("ArrowDown")
        setup = same(panel, picture, power=1 / 128, heads=4)
        assert panel.tone == "good"
        assert panel.readout["The room alone"] == said(room_over_metered(tea_house()))

        distance.press("ArrowLeft", 2)
        same(panel, picture, power=1 / 128, heads=4, distance=0.98)
        loss.press("ArrowRight")
        same(panel, picture, power=1 / 128, heads=4, distance=0.98, loss=1.5)
        aperture.press("ArrowLeft")
        assert aperture.text == "f/10"
        changed = {"power": 1 / 128, "distance": 0.98, "loss": 1.5, "aperture": 10.0}
        same(panel, picture, heads=4, **changed)

        panel.select("Units").press("ArrowDown")
        same(panel, picture, heads=4, system="imperial", **changed)
        panel.select("Units").press("ArrowUp")
        panel.wait()

        panel.button("Back to the start values").focus()
        page.page.keyboard.press("Enter")
        same(panel, picture)

        power.press("ArrowLeft", 3)
        same(panel, picture, power=1 / 64)
        distance.press("ArrowLeft", 10)
        same(panel, picture, power=1 / 64, distance=0.90)
        mine = write_by_keyboard(page)
        assert (mine.flashes[0].power, mine.flashes[0].distance) == (1 / 64, 0.90)
        assert mine.trigger == tea_house().trigger

        # Letters are commands of the notebook; none may get through from a control.
        page.panel(0).slider("Flash power").press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
