"""Predict means predict, in a real browser: what a panel tells is hidden until a guess is noted or waived."""

from lessons.stops.panel import in_sight
from splashlib.picture.stops.stops_picture import StopsPicture
from splashlib.shoot import tea_house

SEEN = """(selector) => [...document.querySelectorAll(selector)].filter(
    (each) => each.checkVisibility({visibilityProperty: true, contentVisibilityAuto: false})).length"""
TOP = """() => {
    const notebook = document.querySelector('.jp-Notebook');
    const parts = [notebook, ...notebook.querySelectorAll('.jp-WindowedPanel-outer')];
    return Math.max(...parts.map((each) => each.scrollTop));
}"""


def answered(page):
    return page.python("[each.act for each in exercises.progress.attempts()]")


def test_a_veil_until_the_guess_is_noted(notebook):
    with notebook("08_stops.ipynb") as page:
        page.run_all()
        # Not at the card that tells how it turns out.
        assert page.page.evaluate(TOP) == 0
        assert page.active_cell == 0
        assert list(page.home.glob("my_*")) == []
        panel = page.panel(0, veiled=True)
        veil = page.page.locator(".splash-veil")
        assert "Veiled until you have noted your guess" in veil.inner_text()
        seen = {part: page.page.evaluate(SEEN, part) for part in (".splash-line", ".splash-readout", ".splash-keep")}
        assert seen == {".splash-line": 0, ".splash-readout": 0, ".splash-keep": 0}
        assert page.page.get_by_role("img", name="photograph").count() == 0
        # Handles move, and nothing is spoken.
        panel.slider("Flash power").press("ArrowLeft")
        panel.wait()
        assert page.page.locator(".splash [role=status]").first.inner_text() == ""
        assert page.page.get_by_role("button", name="Enlarge the picture").is_disabled()
        assert page.axe(".splash") == []

        form = page.page.locator(".sl-form").first
        form.get_by_label("Four stops").check()
        form.get_by_role("button", name="Note my prediction").click()
        veil.wait_for(state="hidden")
        panel.slider("Flash power").press("ArrowRight")
        panel.wait()
        picture = StopsPicture()
        panel.expect(picture, picture.update(in_sight(tea_house()), heads=1))
        assert page.page.evaluate(SEEN, ".splash-readout") == 1
        assert page.page.evaluate(SEEN, ".splash-keep") == 1
        assert answered(page) == ["prediction"]


def test_the_veil_is_lifted_by_its_button_also_for_the_next_day(notebook):
    with notebook("07_freeze.ipynb") as page:
        page.run_all()
        page.panel(0, veiled=True)
        button = page.page.get_by_role("button", name="Show without a guess")
        button.focus()
        page.page.keyboard.press("Enter")
        page.page.locator(".splash-veil").wait_for(state="hidden")
        assert page.page.evaluate("() => document.activeElement.className") == "splash-line"
        page.page.wait_for_timeout(500)
        assert answered(page) == ["waived"]
        page.restart()
        page.wait_idle()
        page.run_all()
        assert page.page.evaluate(SEEN, ".splash-readout") == 1
        assert page.python("exercises.standing().html").count("right.") == 1
