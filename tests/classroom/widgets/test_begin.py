"""A panel is there whatever the learner's file says."""

import pytest

from splashlib.classroom.widgets.begin import begin
from splashlib.shoot import change, save_setup, tea_house
from tests.browser.demo import demo


@pytest.fixture(autouse=True)
def file(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    return tmp_path / "my_setup.toml"


def build(setup):
    """A panel that shows no release from more than a metre, and breaks at 99 cm."""
    if setup.drop.release_height == 0.99:
        raise KeyError("99 cm")
    if setup.drop.release_height > 1:
        raise ValueError("the picture ends at 1 m")
    return demo(setup=setup)


def test_it_begins_from_the_learners_own(file):
    assert begin(build).setup == tea_house()
    mine = change(tea_house(), "drop.release_height", 0.6)
    save_setup(mine, file)
    panel = begin(build)
    assert (panel.setup, panel.trouble) == (mine, "")


@pytest.mark.parametrize(("height", "why"), [(1.2, "the picture ends at 1 m"), (0.99, "'99 cm'")])
def test_what_it_cannot_show_is_said_and_the_scene_shown(file, height, why):
    save_setup(change(tea_house(), "drop.release_height", height), file)
    panel = begin(build)
    assert panel.setup == tea_house()
    assert panel.trouble == f"This panel cannot show what my_setup.toml says: {why}. It starts from the scene."
    assert panel._front.state["trouble"] == panel.trouble


def test_a_picture_that_refuses_the_learners_own_is_no_empty_panel(file):
    save_setup(change(tea_house(), "drop.release_height", 1.5), file)

    def refusing(setup):
        panel = demo(setup=setup)
        if setup.drop.release_height > 1:
            panel._advance({"mood": "impossible"})
        return panel

    panel = begin(refusing)
    assert panel.error == ""
    assert "mood is impossible" in panel.trouble


def test_a_mistake_in_the_file_is_said_with_its_mend(file):
    file.write_text("[beam]\nheight_cm = 14 cm\n")
    panel = begin(build)
    assert panel.setup == tea_house()
    assert "line 2" in panel.trouble
    assert "14 cm: write 14. Until that is mended, this panel starts from the scene." in panel.trouble
