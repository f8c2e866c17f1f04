"""A learner's file with a mistake, as it is seen: the lesson is all there, and one line over the picture says why."""

import re

from splashlib.shoot import tea_house

LINE = (
    "! my_setup.toml, line 2: release_height_cm = 55,5 in [drop] cannot be read; 55,5: write 55.5. "
    "Until that is mended, this panel starts from the scene."
)


def test_a_decimal_comma_is_told_over_the_picture_and_takes_nothing_away(notebook):
    with notebook("01_start.ipynb") as page:
        (page.home / "my_setup.toml").write_text("[drop]\nrelease_height_cm = 55,5\n")
        page.run_all()
        panel = page.panel(0)
        told = panel.root.locator(".splash-trouble")
        assert told.inner_text() == LINE
        assert told.bounding_box()["y"] + told.bounding_box()["height"] <= panel.box["y"]
        # In full ink and not smaller than the words under the picture.
        ink = "node => [getComputedStyle(node).color, parseFloat(getComputedStyle(node).fontSize)]"
        (colour, size), (ground, least) = told.evaluate(ink), panel.root.evaluate(ink)
        assert colour == ground
        assert size >= min(least, 14)
        assert panel.slider("Release height").text == f"{100 * tea_house().drop.release_height:.1f} cm"
        panel.slider("Release height").press("ArrowRight")
        panel.wait()
        assert told.inner_text() == LINE
        # The card asks Python once it is in sight, and has its answer a moment later.
        line = page.keep(0).root.get_by_role("alert").filter(has_text=re.compile(r"^my_setup\.toml, line 2"))
        line.wait_for()
        assert page.page.locator(".jp-OutputArea-output[data-mime-type='application/vnd.jupyter.stderr']").count() == 0
        assert page.axe() == []
