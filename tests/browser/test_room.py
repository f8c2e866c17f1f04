"""The lesson `room` in a real browser: every control by keyboard, words and pixels against the library."""

from splashlib.picture.room.room_picture import RoomPicture
from splashlib.shoot import change_all, load_setup, tea_house


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


def test_every_control_by_keyboard(notebook):
    with notebook("05_room.ipynb") as page:
        page.run_all()
        cells = len(page.cells)
        picture, panel = RoomPicture(), page.panel(0)
        lux, style = panel.slider("Room light"), panel.choice("Camera style")
        assert lux.text == "0.2 lx"
        assert "7.2 stops under" in same(panel, picture, {}).line

        lux.press("ArrowRight", 14)
        panel.wait()
        assert lux.text == "50 lx"
        now = {"room.lux": 50.0}
        assert same(panel, picture, now).tone == "bad"

        style.press("ArrowUp", 2)
        panel.wait()
        now["camera.style"] = "mirror_up"
        assert same(panel, picture, now).tone == "good"

        panel.slider("Shutter").press("ArrowLeft", 4)
        panel.wait()
        assert panel.slider("Shutter").text == "1/500 s"
        now["camera.shutter"] = 1 / 500
        assert "a curtain covers" in same(panel, picture, now).line
        panel.slider("Shutter").press("ArrowRight", 4)

        style.press("ArrowDown", 2)
        lux.press("ArrowLeft", 13)
        panel.slider("How long the shutter is held open").press("ArrowRight", 2)
        panel.slider("Flash power").press("ArrowRight", 3)
        panel.slider("ISO").press("ArrowLeft", 3)
        panel.wait()
        assert (lux.text, panel.slider("ISO").text) == ("0.3 lx", "400")
        now = {
            "room.lux": 0.3,
            "camera.open_time": 3.0,
            "flashes.0.power": 1 / 16,
            "camera.iso": 400,
        }
        same(panel, picture, now)

        other = panel.select("What else gives light")
        for name in ("indicator", "telephone", "modelling", "beam", "again"):
            other.press("ArrowDown")
            panel.wait()
            same(panel, picture, now, other=name)

        kept = write_by_keyboard(page)
        assert (kept.room.lux, kept.camera.open_time) == (0.3, 3.0)
        assert kept.beam == tea_house().beam

        panel = page.panel(0)
        panel.button("Back to the start values").focus()
        page.page.keyboard.press("Enter")
        panel.wait()
        same(panel, picture, {})

        # Letters are commands of the notebook; none may get through from a control.
        panel.slider("Room light").press("a").press("b").press("x")
        panel.wait()
        assert len(page.cells) == cells
        assert page.axe() == []
        assert page.complaints == []
