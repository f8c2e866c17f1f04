"""The lesson `beam`: its exercises, its panel, and what its text says beside the numbers that the build puts in."""

import re
from pathlib import Path

import numpy as np
import pytest

from lessons.beam import panel
from lessons.beam.exercises import exercises
from lessons.beam.place import PLACE
from splashlib.classroom.judges import judge
from splashlib.classroom.judges.number import tolerance
from splashlib.physics.air.release import hand_in_picture
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_speed, fall_time
from splashlib.picture.beam.beam_picture import BeamPicture
from splashlib.shoot import (
    body_height,
    breaks_beam,
    change,
    change_all,
    contact_speed,
    lead,
    my_setup_path,
    save_setup,
    sees,
    simulate,
    tea_house,
    with_body,
)
from splashlib.shoot.decide.spread import aim, spread
from tests.lessons.by_hand import check_by_hand
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()


def at(beam=0.12, style="held_open", **more):
    return change_all(SCENE, {"beam.height": beam, "camera.style": style} | more)


def thirty(setup, seed=1):
    """What the panel's first thirty drops show of a set-up."""
    return spread(aim(setup, height=0.02).setup, 30, np.random.default_rng(seed))


def sooner(beam):
    """How much sooner at the water by a hand 3 mm too high [ms]."""
    return 1e3 * (lead(at(beam)) - lead(at(beam, **{"drop.release_height": 0.453})))


def lower(beam):
    return sooner(beam) * contact_speed(SCENE)


def misses(name):
    """Share of drops that miss the beam."""
    return simulate(with_body(SCENE, name), 100_000, np.random.default_rng(0)).missed.mean()


def slipped(by):
    """How far the fruit moves in the picture when the beam has slipped down [mm]."""
    setup = aim(at(), height=0.02).setup
    return 1e3 * (sees(setup).height - sees(change(setup, "beam.height", 0.12 - by)).height)


def test_the_text_says_how_far_a_slipped_beam_moves_the_fruit():
    assert "slipped by 5 mm moves the fruit in the picture by almost 6 mm" in TEXT
    assert 5.6 < slipped(0.005) < 6


def test_the_text_states_what_misses():
    assert "hardly any kumquat misses, one glass marble in twenty, and more than half of the drops of milk" in TEXT
    assert misses("kumquat") < 0.0005
    assert misses("glass marble") == pytest.approx(1 / 20, abs=0.005)
    assert misses("drop of milk") > 0.5
    assert "With 4 mm of sideways scatter" in TEXT
    assert SCENE.drop.sideways_scatter == 0.004


def test_the_text_states_the_upper_quarter():
    assert "in the upper quarter of the fall makes more of the hand's error than there was" in TEXT
    assert hand_in_picture(0.45, beam_height=0.75 * 0.45) == pytest.approx(1)
    assert lower(0.75 * 0.45) == pytest.approx(3, abs=0.06)


def test_the_largest_part_that_a_low_beam_leaves_is_off_centre():
    assert "With a low beam that is the largest part that is left" in TEXT
    scatters = ("drop.release_scatter", "drop.sideways_scatter", "trigger.scatter", "flashes.0.route_scatter")

    def alone(kept):
        setup = at(0.09, **{name: 0.0 for name in scatters if name != kept})
        return spread(aim(setup, height=0.02).setup, 4000, np.random.default_rng(2)).heights.std()

    parts = {name: alone(name) for name in scatters}
    assert max(parts, key=parts.get) == "drop.sideways_scatter"
    assert parts["drop.sideways_scatter"] > 2 * parts["drop.release_scatter"]


def test_the_fall_is_good_to_a_per_cent():
    assert "The fall is good to a per cent" in TEXT
    without = fall_time(0.45) - fall_time(0.33)
    assert lead(at(0.12)) == pytest.approx(without, rel=0.01)


def test_two_scatters_cover_nineteen_of_twenty():
    assert "two of them cover nineteen cases of twenty" in TEXT
    inside = np.abs(np.random.default_rng(3).standard_normal(200_000)) < 2
    assert inside.mean() == pytest.approx(19 / 20, abs=0.006)


def test_whichever_thirty_the_lesson_holds():
    """The numbers change, what you learn from them does not."""
    for seed in range(1, 21):
        low, high = (thirty(at(beam), seed).span for beam in (0.12, 0.43))
        assert high > 5 * low


def reply_to(style, delay):
    """The reply to a low beam and a delay, in the first variant with a camera of this style."""
    variant = next(each for each in range(1, 40) if judge.numbers(PLACE, each).style == style)
    tried = {"beam.height": 0.12, "trigger.delay": delay}
    return judge.verdict(PLACE, judge.record(PLACE, tried, variant=variant), variant=variant)


def test_no_delay_is_offered_where_none_is_left():
    for delay, said in ((0.0, "no delay left to take away"), (0.01, "Less delay")):
        reply = reply_to("mirror", delay)
        assert not reply.right
        assert said in reply.text


def test_the_missed_drops_in_numbers():
    question = exercises["missed"]
    assert "about sixteen" in " ".join(question.prompt.split())
    assert 30 * misses("drop of milk") == pytest.approx(16.5, abs=0.5)
    milk = with_body(SCENE, "drop of milk")
    assert not breaks_beam(milk, 0.00238)[1]
    assert breaks_beam(milk, 0.0024)[1]
    assert simulate(change(milk, "beam.width", 0.012), 100, np.random.default_rng(0)).missed.all()


BY_HAND = {
    "two_beams": "under the hand",
    # 302.89 ms to the water, 259.38 ms to the beam, 20 ms for the rig
    "delay": ({"height_cm": 45, "beam_cm": 12, "lag_ms": 20}, "23.5 ms"),
    # 3 mm · (√(45 / 25) − 1) = 3 mm · 0.34164
    "hand_in_picture": ({"height_cm": 45, "beam_cm": 20, "off_mm": 3}, "1.02 mm"),
    # ½ · 9.81 · 0.20289² = 0.2019 m are fallen 100 ms before the water
    "lowest": ({"height_cm": 45, "lag_ms": 100}, "24.8 cm"),
    "missed": "guide",
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


def test_a_delay_longer_than_the_open_shutter_is_told_so():
    for delay, words in ((2.5, "shutter is closed"), (0.06, "cm under the water")):
        reply = reply_to("held_open", delay)
        assert not reply.right
        assert words in reply.text


@pytest.mark.parametrize("variant", range(1, 121))
def test_both_ways_to_the_hand_in_the_picture_are_right(variant):
    """By two whole falls, as in the first hint, or in one step, as in the second."""
    v = judge.numbers(exercises["hand_in_picture"], variant)
    release, beam, off = v.height_cm / 100, v.beam_cm / 100, v.off_mm / 1000
    leads = [fall_time(hand) - fall_time(hand - beam) for hand in (release, release + off)]
    by_falls = (leads[0] - leads[1]) * fall_speed(release)
    question = exercises["hand_in_picture"]
    assert abs(by_falls - question.answer(v)) < tolerance(question, question.answer(v))


@pytest.mark.parametrize("variant", range(1, 31))
def test_the_lowest_beam_leaves_just_the_lag(variant):
    v = judge.numbers(exercises["lowest"], variant)
    beam = exercises["lowest"].answer(v)
    assert fall_time(v.height_cm / 100) - fall_time(v.height_cm / 100 - beam) == pytest.approx(v.lag_ms / 1000)


@pytest.mark.parametrize("style", ["held_open", "mirror_up", "no_mirror", "mirror"])
@pytest.mark.parametrize("height_cm", [45, 50, 60])
def test_the_place_can_be_found_with_room_to_spare(style, height_cm):
    """Two centimetres higher than the best is right, too: nobody has to hit a millimetre."""
    variants = (judge.numbers(PLACE, number) for number in range(1, 60))
    v = next(v for v in variants if (v.style, v.height_cm) == (style, height_cm))
    begun = change_all(SCENE, {"camera.style": style, "drop.release_height": height_cm / 100})
    for more in (0.0, 0.01, 0.02):
        beam = PLACE.answer(v)["beam.height"] + more
        setup = aim(change(begun, "beam.height", beam), height=0.02).setup
        answer = {"beam.height": beam, "trigger.delay": setup.trigger.delay}
        variant = next(n for n in range(1, 60) if judge.numbers(PLACE, n) == v)
        assert judge.verdict(PLACE, judge.record(PLACE, answer, variant=variant), variant=variant).right


@pytest.fixture(scope="module")
def derived():
    """What the folded derivation ends with."""
    code = re.search(r'id="beam-derivation"\n(.*?)```', SOURCE, re.S)[1]
    found = {"display": lambda law: shown.append(law)}
    shown = found["shown"] = []
    exec(compile(code, "text.md", "exec"), found)
    return found


@pytest.mark.parametrize(("release", "beam"), [(0.45, 0.12), (0.45, 0.43), (1.0, 0.3), (0.2, 0.01)])
def test_the_derivation_gives_the_librarys_functions(derived, release, beam):
    import sympy

    def numeric(name):
        law = sympy.lambdify([derived[letter] for letter in "hbg"], derived[name], "numpy")
        return float(law(release, beam, GRAVITY))

    assert numeric("k") == pytest.approx(hand_in_picture(release, beam_height=beam), rel=1e-12)
    assert numeric("lead") == pytest.approx(fall_time(release) - fall_time(release - beam), rel=1e-12)
    assert numeric("upper_quarter") == pytest.approx(0.75 * release)
    if beam < 0.1 * release:
        assert numeric("low") == pytest.approx(hand_in_picture(release, beam_height=beam), rel=0.05)
    assert len(derived["shown"]) == 4


def test_the_panel_starts_from_the_scene():
    shown = panel.panel()
    assert shown.values == {
        "beam.height": 0.12,
        "camera.style": "held_open",
        "wanted": 0.02,
        "drop.release_scatter": 0.003,
        "body": "kumquat",
        "seed": 1,
    }
    told = BeamPicture().update(SCENE, wanted=0.02, body="kumquat", seed=1)
    assert shown.told == told
    assert not shown.error


def test_the_delay_that_is_kept_belongs_to_the_beam():
    shown = panel.panel()
    shown.set("camera.style", "mirror")
    shown.set("beam.height", 0.30)
    shown.set("wanted", 0.03)
    shown.set("body", "drop of milk")
    kept = panel.chosen(shown)
    assert kept.drop.name == "kumquat"
    assert kept.trigger.delay == aim(at(0.30, "mirror"), height=0.03).setup.trigger.delay > 0
    assert body_height(kept, sees(kept).light) == pytest.approx(0.03, abs=0.00016)
    assert (kept.beam.height, kept.camera.style) == (0.30, "mirror")


def test_the_beam_goes_no_higher_than_under_the_hand(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    save_setup(change_all(SCENE, {"drop.release_height": 0.8, "drop.name": "plum"}), my_setup_path())
    shown = panel.panel()
    shown.set("beam.height", 0.78)
    assert (
        dict(shown.told.readout)["Thirty drops, your beam"]
        == dict(shown.told.readout)["Thirty drops, beam under the hand"]
    )
    shown.set("body", "glass marble")
    shown.set("body", "plum")
    assert not shown.error


def test_a_file_with_a_mistake_is_told(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    my_setup_path().write_text("[beam]\nheight_cm = -3\n")
    shown = panel.panel()
    assert shown.setup == SCENE
    data, _ = shown._repr_mimebundle_()
    assert "text/html" in data


def test_decided_settings_are_written(tmp_path, monkeypatch):
    from splashlib.shoot import load_setup

    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    shown = panel.show()
    shown.set("beam.height", 0.09)
    card = panel.keep()
    assert not my_setup_path().exists()
    card.write()
    kept = load_setup(my_setup_path())
    assert kept.beam.height == 0.09
    assert kept.trigger.delay == aim(at(0.09), height=0.02).setup.trigger.delay
