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


def test_a_number_is_typed_beside_a_slider(notebook):
    with notebook(notebook_of(DEMO)) as page:
        page.run_all()
        panel = page.panel(0)
        height = panel.slider("Release height").type("55,3")
        panel.wait()
        assert height.text == "55.3 cm"
        assert page.python("panel.setup.drop.release_height") == 0.553
        assert panel.readout["Release height"] == "55.3 cm"
        field = panel.root.get_by_role("textbox", name="Release height, typed")
        assert field.evaluate("(node) => node === document.activeElement"), "the focus stays for the next try"
        height.type("12.1")
        panel.wait()
        assert "beam reaches up to" in panel.alert
        assert height.text == "55.3 cm"
        height.type("high")
        panel.wait()
        assert 'Release height is "high"' in panel.alert
        power = panel.slider("Flash power").type("1/64")
        panel.wait()
        assert (panel.alert, power.text) == ("", "1/64")
        field.fill("40")
        panel.slider("Delay").focus()
        panel.wait()
        assert height.text == "40.0 cm", "leaving the field sends it too"
        panel.slider("Release height").press("ArrowRight")
        panel.wait()
        assert height.text == "40.5 cm"
        assert page.axe() == []
        assert page.complaints == []
