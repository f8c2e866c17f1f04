"""The second day in a real browser: the panel begins from the scene, and a switch goes to the learner's own."""

from splashlib.shoot import change, save_setup, tea_house


def test_the_switch_by_keyboard(notebook):
    with notebook("01_start.ipynb") as page:
        save_setup(change(tea_house(), "drop.release_height", 0.6), page.home / "my_setup.toml")
        page.run_all()
        panel = page.panel(0)
        assert panel.slider("Release height").text == "45.0 cm"
        mine = page.page.get_by_role("radio", name="mine, my_setup.toml")
        page.page.get_by_role("radio", name="the scene of the course").focus()
        page.page.keyboard.press("ArrowDown")
        page.page.wait_for_function(
            "() => document.querySelector('.splash-origin input[value=mine]')?.checked"
            " && document.querySelector('.splash .splash-value')?.value === '60.0 cm'"
        )
        assert mine.is_checked()
        assert page.page.evaluate("() => document.activeElement.value") == "mine"
        panel = page.panel(0)
        assert panel.slider("Release height").text == "60.0 cm"
        panel.slider("Release height").press("ArrowRight", 2)
        panel.wait()
        assert panel.slider("Release height").text == "61.0 cm"
        page.page.get_by_role("button", name="Back to the start values").first.click()
        panel.wait()
        assert panel.slider("Release height").text == "60.0 cm"
        assert page.axe(".splash") == []
        assert page.complaints == []
