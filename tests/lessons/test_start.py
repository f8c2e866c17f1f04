"""The lesson `start`: its exercises, its panel, and what its text says beside the numbers that the build puts in."""

import re
from pathlib import Path

import pytest

from lessons.start import panel
from lessons.start.exercises import exercises
from splashlib.classroom.judges import judge
from splashlib.physics.fall import fall_time
from splashlib.physics.light.blur import streak_length
from splashlib.physics.stops import stops_between
from splashlib.shoot import arrival, change, contact_speed, lead, save_setup, tea_house
from tests.lessons.by_hand import check_by_hand
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()
MIRROR = change(SCENE, "camera.style", "mirror")


def ms(value):
    return 1000 * value


def test_what_the_text_says_in_words():
    assert "At 3 m/s, 1/1000 s draws 3 mm; 1/10 000 s draws 0.3 mm" in TEXT
    assert streak_length(speed=3, light=1e-3) == pytest.approx(0.003)
    assert streak_length(speed=3, light=1e-4) == pytest.approx(0.0003)
    assert "From full power to a quarter are two steps" in TEXT
    assert stops_between(1, 0.25, kind="power") == -2
    assert "less than a millisecond late" in TEXT
    assert 0 < arrival(SCENE.drop).late < 0.001


def test_a_blink_lasts_seven_leads():
    """A blink takes 0.3 s, from 0.1 to 0.4 s (class value)."""
    assert "a seventh of the time that an eye takes to blink" in TEXT
    assert 0.3 / lead(SCENE) == pytest.approx(7, abs=0.5)


def test_the_fruit_falls_at_almost_3_m_s():
    assert "almost 3 m/s" in exercises["first_frame"].hints[0]
    assert 2.9 < contact_speed(SCENE) < 3


BY_HAND = {
    "first_frame": "under",
    # √(0.90 / 9.81) = 302.89 ms, √(0.66 / 9.81) = 259.38 ms
    "lead": ({"height_cm": 45, "beam_cm": 12}, "43.5 ms"),
    # full power, 1/2, 1/4, 1/8: three steps
    "streak": ({"speed": 3.0, "part": 2000}, "1.50 mm"),
    "empty_frame": "raise the beam",
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


def test_every_camera_style_is_asked_for():
    plan = exercises["first_plan"]
    assert {judge.numbers(plan, each).style for each in range(1, 13)} == set(plan.draw["style"])


@pytest.mark.parametrize(
    ("delay", "words"), [(2.5, "shutter is closed"), (0.06, "cm under the water"), (0.01, "still")]
)
def test_a_plan_that_misses_is_told_where_the_fruit_is(delay, words):
    plan = exercises["first_plan"]
    variant = next(each for each in range(1, 40) if judge.numbers(plan, each).style == "held_open")
    tried = {"beam.height": 0.12, "trigger.delay": delay, "flashes.0.power": 1 / 32}
    reply = judge.verdict(plan, judge.record(plan, tried, variant=variant), variant=variant)
    assert not reply.right
    assert words in reply.text


def test_the_derivation_gives_the_librarys_lead():
    import sympy

    code = re.search(r'id="start-derivation"\n(.*?)```', SOURCE, re.S)[1]
    found = {}
    exec(compile(code, "text.md", "exec"), found)
    law = sympy.lambdify([found[letter] for letter in "hbg"], found["to_water"] - found["to_beam"])
    for height, beam in ((0.45, 0.12), (0.8, 0.05), (0.2, 0.19)):
        assert law(height, beam, 9.81) == pytest.approx(fall_time(height) - fall_time(height - beam), rel=1e-12)


def test_what_the_text_says_to_try_comes_true():
    shown = panel.panel()
    assert "no kumquat" in shown.told.line
    shown.set("trigger.delay", 0.05)
    assert "no kumquat" in shown.told.line
    shown.reset()
    shown.set("beam.height", 0.25)
    assert shown.told.tone == "good"
    shown.set("beam.height", 0.12)
    for style in ("mirror_up", "held_open"):
        shown.set("camera.style", style)
        assert "Too late" not in shown.told.line
    streaks = []
    for power in (1.0, 1 / 8, 1 / 128):
        shown.set("flashes.0.power", power)
        streaks.append(float(dict(shown.told.readout)["Streak of a droplet"].split()[0]))
    assert streaks == sorted(streaks, reverse=True)


def test_readme_tells_what_its_picture_of_the_panel_shows():
    """The picture has the mirror up and a delay of 10 ms. If this fails, take it anew and say what it then shows."""
    shown = panel.panel()
    shown.set("camera.style", "mirror_up")
    shown.set("trigger.delay", 0.010)
    assert shown.told.line.startswith("Caught 7 ms after contact: the kumquat is 1.8 cm deep.")
    readme = (Path(panel.__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    assert "caught 7 ms after contact" in " ".join(readme.split())


def test_a_caught_drop_in_a_wrong_light_is_not_called_good():
    shown = panel.panel()
    shown.set("beam.height", 0.25)
    shown.set("flashes.0.power", 1 / 8)
    assert shown.told.tone == "bad"
    assert shown.told.line.startswith("Caught")
    assert "But the frame is burnt out: 2.1 stops too bright" in shown.told.line


def test_the_panel_starts_from_the_learners_own_file(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert panel.start(SCENE) == panel.panel().setup == MIRROR
    mine = change(SCENE, "drop.release_height", 0.6)
    save_setup(mine, tmp_path / "my_setup.toml")
    assert panel.start(mine) == panel.panel().setup == mine
    assert panel.panel().values["drop.release_height"] == pytest.approx(0.6)


def test_a_broken_file_is_told_in_one_line_and_the_scene_is_shown(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    (tmp_path / "my_setup.toml").write_text("[drop]\nrelease_height_cm = -45\n")
    shown = panel.panel()
    assert shown.values["drop.release_height"] == pytest.approx(0.45)
    assert "release_height_cm = -45" in shown.trouble


def test_a_higher_fall_wets_the_lamp_and_the_panel_says_so():
    shown = panel.panel()
    shown.set("camera.style", "mirror_up")
    assert shown.told.tone == "good"
    assert "drops land" not in shown.told.line
    shown.set("drop.release_height", 0.80)
    shown.set("beam.height", 0.30)
    assert shown.told.tone == "warning"
    assert "The flash at 100 cm stands where the fastest drops land. Move it beyond " in shown.told.line
