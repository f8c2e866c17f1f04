"""What stands with a panel's picture: the steps with a mark at the one at hand, and the picture enlarged."""

from tests.browser.harness import notebook_of

DEMO = "from tests.browser.demo import demo\npanel = demo(steps=('Drag it up.', 'Drag it down.', 'Rest.'))\npanel"


def step(panel):
    """The step that is shown, and the number of the mark on it."""
    marked = panel.root.locator(".splash-marks [aria-current=step]").all_inner_texts()
    return panel.root.locator(".splash-step").inner_text(), marked


def test_steps_by_keyboard_and_what_comes_back(notebook):
    with notebook(notebook_of(DEMO)) as page:
        page.run_all()
        panel = page.panel(0)
        assert step(panel) == ("Drag it up.", ["1"])
        panel.button("Next step").press("Enter")
        assert step(panel) == ("Drag it down.", ["2"])
        panel.button("Next step").press("Enter")
        panel.button("Next step").press("Enter")
        assert step(panel) == ("Rest.", ["3"])
        panel.button("Step back").press("Enter")
        assert step(panel) == ("Drag it down.", ["2"])
        panel.button("Step 1").press("Enter")
        assert step(panel) == ("Drag it up.", ["1"])
        panel.button("Step 3").click()
        page.save()
        page.open()
        assert step(page.panel(0)) == ("Rest.", ["3"]), "the step at hand outlasts a reload"
        assert page.axe() == []
        assert page.complaints == []


def test_the_picture_is_enlarged_by_key_and_by_click(notebook):
    with notebook(notebook_of(DEMO), width=1366, height=640) as page:
        page.run_all()
        panel = page.panel(0)
        small, alt = panel.box["width"], panel.alt
        button = panel.button("Enlarge the picture")
        button.press("Enter")
        large = panel.root.locator("dialog img")
        large.wait_for()
        assert large.get_attribute("alt") == alt
        assert large.bounding_box()["width"] > 1.4 * small
        box = large.bounding_box()
        assert box["x"] >= 0
        assert box["y"] >= 0
        assert box["x"] + box["width"] <= 1366
        assert box["y"] + box["height"] <= 640
        page.page.wait_for_timeout(500)
        assert large.evaluate("(image) => image.naturalWidth") > 1000, "it is drawn as fine as it is shown"
        assert page.axe() == []
        page.page.keyboard.press("Escape")
        large.wait_for(state="detached")
        assert button.evaluate("(node) => node === document.activeElement"), "the focus goes back"
        panel.root.locator(".splash-picture").click()
        large.wait_for()
        large.click()
        large.wait_for(state="detached")
        assert page.complaints == []
