"""The panel in a real JupyterLab: keys, pictures, words, errors, a lost kernel, and what a saved notebook shows."""

import io

import numpy as np
import pytest
from PIL import Image

from splashlib.shoot import change, load_setup, tea_house
from tests.browser.demo import Dot
from tests.browser.harness import notebook_of

DEMO = "from tests.browser.demo import demo\npanel = demo()\npanel"
KEEP = (
    "from splashlib.classroom.widgets.decision_card import keep\nkeep(panel, ('drop.release_height', 'trigger.delay'))"
)
BELOW = ("markdown", "# What comes below")


def drawn(clock=0.04, system="metric", **settings):
    """What the library draws and says: pixels and words."""
    setup = tea_house()
    for path, value in settings.items():
        setup = change(setup, path.replace("__", "."), value)
    picture = Dot()
    picture.system = system
    told = picture.update(setup, clock=clock)
    return np.asarray(Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB")), told


def same(panel, **state):
    """The panel shows and says what the library computes."""
    pixels, told = drawn(**state)
    assert panel.readout == dict(told.readout)
    assert panel.alt == told.alt
    assert told.line in panel.line
    assert np.array_equal(panel.picture(), pixels)


def test_every_control_by_keyboard(notebook):
    with notebook(notebook_of(DEMO, "1 + 1", BELOW)) as page:
        page.run_all()
        panel = page.panel(0)
        same(panel)
        height = panel.slider("Release height").focus()
        before, active = page.cells, page.active_cell
        assert height.text == "45.0 cm"
        height.press("ArrowRight").press("ArrowUp").press("ArrowLeft")
        assert height.text == "45.5 cm"
        panel.wait()
        same(panel, drop__release_height=0.455)
        height.press("PageUp")
        step = height.at - 81
        assert step >= 10, "a page is more than a step"
        height.press("PageDown")
        assert height.at == 81
        height.press("End")
        panel.wait()
        assert height.text == "150.0 cm"
        assert panel.tone == "warning"
        same(panel, drop__release_height=1.5)

        delay = panel.slider("Delay").press("End")
        panel.wait()
        same(panel, drop__release_height=1.5, trigger__delay=0.3)
        delay.press("Home")
        assert delay.text == "0.0 ms"

        power = panel.slider("Flash power").press("End")
        assert power.text == "1/1"
        panel.slider("Clock").press("ArrowRight", 5)
        panel.wait()
        same(panel, drop__release_height=1.5, clock=0.045)

        style = panel.choice("Camera style")
        assert style.text == "shutter held open"
        style.press("ArrowUp")
        panel.wait()
        assert style.text == "no mirror"
        assert page.python("panel.setup.camera.style") == "no_mirror"

        mood = panel.select("Mood").press("ArrowDown")
        panel.wait()
        assert mood.text == "far"
        assert panel.notes == ["the model ends at 1 m"]

        odd = panel.tick("Odd").press("Space")
        panel.wait()
        assert odd.on
        assert page.python("panel.values['odd']") is True

        panel.select("Units").press("ArrowDown")
        panel.wait()
        assert height.text == "59.06 in"
        same(panel, drop__release_height=1.5, clock=0.045, system="imperial")

        panel.select("Units").press("ArrowUp")
        panel.button("Back to the start values").press("Enter")
        panel.wait()
        same(panel)
        assert (height.text, power.text, mood.text, odd.on) == ("45.0 cm", "1/32", "calm", False)

        # In JupyterLab these letters and arrows insert, delete, copy and move cells.
        for key in ("a", "b", "x", "c", "v", "d", "d", "m", "y", "ArrowUp", "ArrowDown", "Enter", "j", "k"):
            height.press(key)
        panel.wait()
        assert page.cells == before
        assert page.active_cell == active
        assert height.focused
        assert page.complaints == []


FOCUSED = """() => {
    const node = document.activeElement;
    return (node.ariaLabel ?? node.labels?.[0]?.textContent) || 'Back';
}"""


def test_the_tab_key_goes_through_all_controls_in_order(notebook):
    with notebook(notebook_of(DEMO, BELOW)) as page:
        page.run_all()
        panel = page.panel(0)
        panel.slider("Release height").focus()
        names = []
        for _ in range(12):
            names.append(panel.root.evaluate(FOCUSED))
            page.page.keyboard.press("Tab")
        sliders = ["Release height", "Delay", "Flash power", "Clock"]
        beside = [word for label in sliders for word in (label, f"{label}, typed")]
        assert names == [*beside[:6], "shutter held open", *beside[6:], "Mood", "Odd", "Back"]


# Kept in the page while a learner drags: how the picture and the page below it behave from frame to frame.
WATCH = """(root) => {
    const image = root.querySelector('img');
    const below = document.querySelector('.jp-MarkdownCell');
    const spoken = root.querySelector('[role=status]');
    const log = window.log = {blank: 0, frames: 0, tops: new Set(), loads: 0, spoken: 0};
    image.addEventListener('load', () => { log.loads += 1; });
    const said = new MutationObserver(() => { log.spoken += 1; });
    said.observe(spoken, {childList: true, characterData: true, subtree: true});
    const look = () => {
        log.frames += 1;
        if (!image.complete || image.naturalWidth < 900) log.blank += 1;
        log.tops.add(Math.round(below.getBoundingClientRect().top));
        requestAnimationFrame(look);
    };
    look();
}"""


def test_a_fast_drag_leaves_no_queue_no_blank_and_no_jump(notebook):
    with notebook(notebook_of(DEMO, BELOW), height=1400) as page:
        page.run_all()
        panel = page.panel(0)
        panel.root.evaluate(WATCH)
        slider = panel.slider("Release height")
        shares = [*np.linspace(0.2, 1, 60), *np.linspace(1, 0.4, 60)]
        slider.drag(*shares)
        panel.wait()
        log = page.page.evaluate("() => ({...window.log, tops: [...window.log.tops]})")
        assert log["blank"] == 0
        assert len(log["tops"]) == 1, "the page below must not move"
        assert 2 <= log["loads"] < 120, "not every position has its picture, but the drag is followed"
        assert log["spoken"] <= 2, "a screen reader hears the end, not every step"
        at = slider.at
        assert at == round(0.4 * slider.last)
        same(panel, drop__release_height=page.python(f"panel._handles['drop.release_height'].values[{at}]"))
        assert slider.text in panel.spoken
        assert "Delay" not in panel.spoken, "what did not change is not said again"
        page.page.wait_for_timeout(600)
        assert page.page.evaluate("() => window.log.loads") == log["loads"], "nothing comes late"


def test_errors_stand_in_the_panel(notebook):
    with notebook(notebook_of(DEMO, BELOW)) as page:
        page.run_all()
        panel = page.panel(0)
        height, mood = panel.slider("Release height").press("Home"), panel.select("Mood")
        panel.wait()
        assert "the whole beam must lie under the hand" in panel.alert
        assert height.text == "12.5 cm", "it stops where the hand is just over the beam"
        same(panel, drop__release_height=0.125)
        assert page.axe() == []
        height.press("End")
        panel.wait()
        assert panel.alert == ""
        same(panel, drop__release_height=1.5)

        mood.press("End").press("ArrowUp")
        panel.wait()
        assert panel.alert.startswith("This went wrong: RuntimeError: a bug in the picture")
        fold = panel.root.locator("details")
        assert not fold.evaluate("(node) => node.open")
        fold.locator("summary").focus()
        page.page.keyboard.press("Enter")
        assert "demo.py" in fold.locator("pre").inner_text()
        mood.press("Home")
        panel.wait()
        assert panel.alert == ""
        assert not fold.is_visible()
        assert page.errors == []


def test_two_views_of_one_panel_go_together(notebook):
    with notebook(
        notebook_of(
            "from tests.browser.demo import demo\npanel = demo()\n"
            "from IPython.display import display\ndisplay(panel, panel)"
        )
    ) as page:
        page.run_all()
        one, other = page.panel(0), page.panel(1)
        one.slider("Delay").press("End")
        one.wait()
        page.page.wait_for_timeout(300)
        same(one, trigger__delay=0.3)
        page.python("panel.set('trigger.delay', 0.1)")
        page.page.wait_for_timeout(500)
        for panel in (one, other):
            assert panel.slider("Delay").text == "100.0 ms"
            same(panel.wait(), trigger__delay=0.1)


def test_a_busy_kernel_is_told_and_waited_for(notebook):
    with notebook(notebook_of(DEMO)) as page:
        page.run_all()
        panel = page.panel(0)
        page.page.evaluate(
            """() => { jupyterapp.shell.currentWidget.sessionContext.session.kernel.requestExecute({code:
              'import time; from splashlib.classroom.widgets.panel import _DRAWING as d\\nwith d: time.sleep(8)'}); }"""
        )
        page.page.wait_for_timeout(500)
        panel.slider("Delay").press("End")
        panel.wait("slow")
        assert "Python has not answered yet" in panel.alert
        panel.wait("rest")
        assert panel.alert == ""
        same(panel, trigger__delay=0.3)


@pytest.mark.parametrize("how", ["restart", "shut_down"])
def test_a_lost_kernel_is_told(notebook, how):
    with notebook(notebook_of(DEMO, KEEP)) as page:
        page.run_all()
        panel, card = page.panel(0), page.keep(0)
        getattr(page, how)()
        if how == "shut_down":
            # Nothing tells a widget that its kernel is gone for good; it finds out when it asks.
            panel.slider("Delay").press("End")
            page.page.wait_for_function(
                "(root) => ['gone', 'slow'].includes(root.dataset.phase)", arg=panel.root.element_handle()
            )
        else:
            panel.wait("gone")
            assert panel.controls == [], "what cannot answer takes no input"
            assert "run the notebook again" in card.alert.lower()
        assert "Python" in panel.alert
        assert "run the notebook again" in panel.alert.lower()


def test_the_panel_comes_back_when_the_page_is_loaded_again(notebook):
    with notebook(notebook_of(DEMO, BELOW)) as page:
        page.run_all()
        panel = page.panel(0)
        panel.slider("Delay").press("End")
        panel.select("Units").press("ArrowDown")
        panel.wait()
        page.save()
        page.open()
        panel = page.panel(0)
        assert panel.slider("Delay").text == "300.0 ms"
        assert panel.slider("Release height").text == "17.72 in"
        same(panel, trigger__delay=0.3, system="imperial")
        panel.slider("Delay").press("Home")
        panel.wait()
        same(panel, system="imperial")


def test_a_saved_notebook_shows_the_first_picture_and_live_shows_it_once(notebook):
    with notebook(notebook_of(DEMO, BELOW)) as page:
        page.run_all()
        page.panel(0)
        assert page.page.locator(".jp-OutputArea-output img:visible").count() == 1
        saved = page.save()
        page.shut_down()
        page.open()
        image = page.page.locator(".jp-OutputArea-output img")
        image.wait_for()
        assert page.page.locator(".splash").count() == 0
        assert page.page.get_by_text("model not found").locator("visible=true").count() == 0
        assert image.get_attribute("alt") == "A dot at 45.0 cm and 0.0 ms."
        assert image.evaluate("(image) => image.naturalWidth") == 900
        assert "Release height" in page.page.locator(".jp-OutputArea-output table").inner_text()
        assert page.axe() == []
    # The same notebook from somebody else: JupyterLab does not trust it and strips what it shows.
    saved.cells[0].source += "  # as sent by mail"
    with notebook(saved) as page:
        image = page.page.locator(".jp-OutputArea-output img:visible")
        image.wait_for()
        assert image.count() == 1
        assert image.get_attribute("alt") == "A dot at 45.0 cm and 0.0 ms."


def test_running_the_cell_again_shows_one_panel(notebook):
    with notebook(notebook_of(DEMO, BELOW)) as page:
        page.run_all()
        page.panel(0).slider("Delay").press("End")
        page.run_all()
        panel = page.panel(0)
        assert page.page.locator(".splash").count() == 1
        same(panel)


@pytest.mark.parametrize(("width", "dark"), [(1600, False), (1000, True), (640, False)])
def test_axe_finds_nothing_and_nothing_sticks_out(notebook, width, dark):
    with notebook(notebook_of(DEMO, KEEP, BELOW), width=width, dark=dark) as page:
        page.run_all()
        panel, card = page.panel(0), page.keep(0)
        page.panel(0)
        assert page.axe() == []
        for root in (panel.root, card.root):
            assert root.evaluate("(root) => root.scrollWidth <= root.clientWidth")
        box = panel.box
        assert box["width"] / box["height"] == pytest.approx(900 / 400, rel=0.01)
        if width == 1600:
            assert box["width"] > 700, "at the back of a room the picture counts"


def test_the_card_writes_only_when_its_button_is_pressed(notebook):
    with notebook(notebook_of(DEMO, KEEP)) as page:
        page.run_all()
        panel = page.panel(0)
        panel.slider("Release height").press("ArrowRight", 4)
        panel.wait()
        card, file = page.keep(0), page.home / "my_setup.toml"
        page.page.wait_for_timeout(300)
        assert card.doubt == ""
        assert card.rows[0] == ["Release height", "not yet (scene: 45.0 cm)", "47.0 cm new"]
        assert not file.exists()
        card.write()
        assert load_setup(file) == change(tea_house(), "drop.release_height", 0.47)
        assert str(file) in card.said
        assert card.rows[0][1:] == ["47.0 cm", "47.0 cm the same"]
        file.write_text("[drop]\nrelease_height_cm = 'high'\n")
        card.write()
        page.page.wait_for_function(
            "(root) => root.querySelector('.splash-alert').textContent", arg=card.root.element_handle()
        )
        assert "release_height_cm" in card.alert
        assert file.read_text() == "[drop]\nrelease_height_cm = 'high'\n"
        assert page.axe() == []
