"""The card that takes a lesson's decisions into the learner's own file."""

import pytest

from splashlib.classroom.widgets.decision_card import keep
from splashlib.shoot import change, load_setup, save_setup, show, tea_house
from tests.browser.demo import demo

PATHS = ("drop.release_height", "trigger.delay", "camera.style")


@pytest.fixture(autouse=True)
def file(tmp_path, monkeypatch):
    """Where the learner's set-up would be."""
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    return tmp_path / "my_setup.toml"


@pytest.fixture
def panel():
    return demo()


def test_nothing_is_written_untouched(panel, file):
    card = keep(panel, PATHS)
    card._repr_mimebundle_()
    card._received(None, {"look": True}, [])
    panel.set("trigger.delay", 0.1)
    assert not file.exists()
    assert card.said == card.error == ""


def test_the_table_shows_file_and_panel(panel, file):
    save_setup(change(tea_house(), "drop.release_height", 0.6), file)
    panel.set("trigger.delay", 0.1)
    rows = keep(panel, PATHS).rows
    assert [(row.label, row.in_file, row.chosen, row.new) for row in rows[:2]] == [
        ("Release height", "60.0 cm", "45.0 cm", True),
        ("Delay", "0.0 ms", "100.0 ms", True),
    ]
    assert not rows[2].new


def test_without_a_file_the_table_says_so(panel):
    assert keep(panel, PATHS).rows[0].in_file == "not yet (scene: 45.0 cm)"


def test_the_card_follows_the_panel(panel):
    card = keep(panel, PATHS)
    panel.set("trigger.delay", 0.1)
    assert card._front.state["rows"][1][2] == "100.0 ms"


def test_the_card_repeats_a_verdict_that_warns(panel):
    """A decision from a doubtful state is written if the learner wants, but not without a word."""
    other = demo()
    cards = keep(panel, PATHS), keep(lambda: panel.setup, PATHS, panels=[other, panel])
    assert [card._front.state["doubt"] for card in cards] == ["", ""]
    panel.set("drop.release_height", 1.2)
    assert panel.told.tone == "warning"
    assert [card._front.state["doubt"] for card in cards] == ["The dot is at 120.0 cm."] * 2
    panel.set("drop.release_height", 0.5)
    assert [card._front.state["doubt"] for card in cards] == ["", ""]


def test_the_button_writes_a_new_file_and_says_where(panel, file):
    card = keep(panel, PATHS)
    panel.set("trigger.delay", 0.1)
    card._received(None, {"write": True}, [])
    assert load_setup(file) == change(tea_house(), "trigger.delay", 0.1)
    assert str(file) in card.said
    assert "delay 100.0 ms" in card.said
    assert not card.rows[1].new
    assert card.rows[1].in_file == "100.0 ms"


def test_comments_and_other_settings_stay(panel, file):
    file.write_text("# my rig\n[drop]\nrelease_height_cm = 60  # from the shelf\n[room]\nlux = 3\n")
    card = keep(panel, ("drop.release_height",))
    card.write()
    text = file.read_text()
    assert "# my rig" in text
    assert "# from the shelf" in text
    assert load_setup(file).room.lux == 3
    assert load_setup(file).drop.release_height == 0.45
    assert card.said.startswith("Written into")


def test_only_the_named_decisions_are_written(panel, file):
    panel.set("flashes.0.power", 1 / 128)
    panel.set("trigger.delay", 0.1)
    keep(panel, ("trigger.delay",)).write()
    assert load_setup(file) == change(tea_house(), "trigger.delay", 0.1)


def test_what_was_not_moved_here_stays_as_the_file_says_meanwhile(panel, file):
    """Another lesson, or the learner's editor, wrote into the file after this panel had begun from it."""
    save_setup(tea_house(), file)
    card = keep(panel, PATHS)
    assert card._front.state["changed"] == ""
    save_setup(change(change(tea_house(), "drop.release_height", 0.8), "room.lux", 3.0), file)
    panel.set("trigger.delay", 0.1)
    assert card._front.state["changed"].startswith("my_setup.toml has changed since this lesson began from it.")
    assert [(row.in_file, row.chosen, row.new) for row in card.rows[:2]] == [
        ("80.0 cm", "80.0 cm", False),
        ("0.0 ms", "100.0 ms", True),
    ]
    card.write()
    found = load_setup(file)
    assert (found.drop.release_height, found.trigger.delay, found.room.lux) == (0.8, 0.1, 3.0)
    assert card._front.state["changed"] == ""


def test_what_was_moved_here_is_written_over_what_the_file_says_meanwhile(panel, file):
    card = keep(panel, PATHS)
    panel.set("drop.release_height", 0.5)
    save_setup(change(tea_house(), "drop.release_height", 0.8), file)
    card.write()
    assert load_setup(file).drop.release_height == 0.5
    file.write_text(file.read_text().replace("release_height_cm = 50", "release_height_cm = 70"))
    card.write()
    assert load_setup(file).drop.release_height == 0.7


def test_a_mended_file_is_not_put_back_to_the_scene(panel, file):
    file.write_text("[drop]\nrelease_height_cm = 55,5\n")
    card = keep(panel, PATHS)
    file.write_text("[drop]\nrelease_height_cm = 55.5\n")
    panel.set("trigger.delay", 0.1)
    card.write()
    assert load_setup(file).drop.release_height == 0.555


def test_a_decision_that_cannot_be_made_leaves_the_card_standing(panel, file):
    def undecided():
        raise ValueError("the beam reaches up to 70 cm")

    card = keep(undecided, PATHS, panels=[panel])
    assert card._front.state["error"] == "There is nothing to write here: the beam reaches up to 70 cm"
    card.write()
    assert "70 cm" in card.error
    card._repr_mimebundle_()
    assert not file.exists()


def test_writing_twice_changes_nothing_and_says_so(panel, file):
    card = keep(panel, PATHS)
    card.write()
    before = file.read_bytes()
    card.write()
    assert file.read_bytes() == before
    assert card.said == "my_setup.toml says all this already; nothing was written."


def test_a_broken_file_is_named_and_not_touched(panel, file):
    file.write_text("[drop]\nrelease_height_cm = -4\n")
    card = keep(panel, PATHS)
    assert "release_height_cm" in card._front.state["error"]
    card.write()
    assert "release_height_cm = -4" in card.error
    assert "\n" not in card.error
    assert card.said == ""
    assert file.read_text() == "[drop]\nrelease_height_cm = -4\n"


def test_what_cannot_stand_together_is_one_line_and_not_written(panel, file):
    text = "[beam]\nheight_cm = 40\n[drop]\nrelease_height_cm = 60\n"
    file.write_text(text)
    panel.set("drop.release_height", 0.3)
    card = keep(panel, PATHS)
    card.write()
    assert "the whole beam must lie under the hand" in card.error
    assert file.read_text() == text


def test_a_folder_that_is_not_there_is_one_line(panel, monkeypatch, tmp_path):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path / "nowhere"))
    card = keep(panel, PATHS)
    card.write()
    assert "cannot be written" in card.error
    assert "\n" not in card.error


def test_the_lag_goes_to_the_style_that_was_chosen(panel, file):
    panel.set("camera.style", "mirror_up")
    panel.set("camera.lag", 0.06)
    keep(panel, ("camera.style", "camera.lag")).write()
    written = load_setup(file).camera
    assert (written.style, written.mirror_up.lag) == ("mirror_up", 0.06)
    assert written.mirror == tea_house().camera.mirror


def test_a_function_or_a_set_up_is_a_source_too(file):
    setups = [change(tea_house(), "trigger.delay", 0.02)]
    card = keep(lambda: setups[-1], PATHS)
    setups.append(change(tea_house(), "trigger.delay", 0.03))
    assert card.rows[1].chosen == show("trigger.delay", 0.03)
    keep(setups[0], PATHS).write()
    assert load_setup(file).trigger.delay == 0.02


def test_units_are_the_panels():
    card = keep(demo(system="imperial"), PATHS)
    assert card.rows[0].chosen == "17.72 in"


@pytest.mark.parametrize(("paths", "line"), [((), "one setting or more"), (("drop.hight",), "there is no setting")])
def test_mistakes_get_one_line(panel, paths, line):
    with pytest.raises(ValueError, match=line):
        keep(panel, paths)


def test_a_saved_notebook_shows_the_table(panel):
    data, _ = keep(panel, PATHS)._repr_mimebundle_()
    assert "application/vnd.jupyter.widget-view+json" in data
    assert "<td>45.0 cm</td>" in data["text/html"]
    assert "Delay: not yet" in data["text/plain"]
