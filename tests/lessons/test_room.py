"""The lesson `room`: its exercises, its panel, and what its text says beside the numbers that the build puts in."""

import re
from pathlib import Path

import numpy as np
import pytest

from lessons.room import panel
from lessons.room.bright import BRIGHT
from lessons.room.exercises import ALLOWED, exercises
from splashlib.classroom.judges import judge
from splashlib.physics.light.exposure import room_lux_allowed, room_under_flash
from splashlib.physics.stops import exact
from splashlib.shoot import (
    Room,
    best_beam_height,
    change,
    change_all,
    contact_speed,
    load_setup,
    my_setup_path,
    sees,
    tea_house,
)
from splashlib.shoot.decide.exposure_balance import ghost_stops, room_over_metered
from splashlib.shoot.decide.room_light import AGAIN
from tests.lessons.by_hand import check_by_hand
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()
QUICK = change(SCENE, "camera.style", "mirror_up")


def under(setup, lux):
    return ghost_stops(change(setup, "room.lux", lux))


def test_claims_in_words():
    for words, computed, stated in (
        ("**5 stops** under the flash (3 % of its light)", 100 * 2**-5, 3),
        ("**7 stops** (0.8 %)", 100 * 2**-7, 0.8),
        ("**10 stops** (0.1 %)", 100 * 2**-10, 0.1),
        ("one candle, 3 m away | 0.1 lx", 1 / 3**2, 0.1),
        ("ISO 200 to ISO 25 600", 200 * 2**7, 25600),
    ):
        assert words in TEXT
        assert computed == pytest.approx(stated, rel=0.2)
    assert "is over in less than a thousandth of a second" in TEXT
    seen = sees(QUICK)
    assert seen.moved / seen.speed < 0.001
    assert "Drag **How long the shutter is held open** from 2 s to 4 s. One stop." in TEXT
    assert under(SCENE, 1) - under(change(SCENE, "camera.open_time", 4.0), 1) == pytest.approx(1)
    assert "the flash is two stops weaker" in TEXT
    assert under(SCENE, 1) - under(change(SCENE, "flashes.0.power", 1 / 128), 1) == pytest.approx(2)
    assert "passes each place in a hundredth of a second" in TEXT
    assert SCENE.drop.height / contact_speed(SCENE) == pytest.approx(0.01, abs=0.003)
    assert "it draws the splash on top" in TEXT
    assert 0.01 < AGAIN < 0.2
    for aperture, iso in ((4.0, 1600.0), (22.0, 50.0)):
        assert under(change_all(SCENE, {"camera.aperture": aperture, "camera.iso": iso}), 1) == under(SCENE, 1)
    # "Raise the ISO until it looks well exposed": with a flash that is well exposed the ISO tells the stops.
    assert "five of ISO, from 800 to 25 600, and two of time, 8 s for 2 s" in TEXT
    raised = change_all(SCENE, {"camera.iso": 25600.0, "camera.open_time": 8.0})
    assert room_over_metered(raised) == pytest.approx(0, abs=0.25)


def test_what_the_text_says_will_be_seen():
    """The numbered steps under "Drag", one after the other."""
    shown = panel.panel()
    words = []
    for lux in (10, 500, 1, 0.2, 0.02):
        shown.set("room.lux", lux)
        words.append(shown.told.line)
    assert [
        next(said for said in ("plain to see", "stronger than the flash", "hardly seen", "gone") if said in line)
        for line in words
    ] == ["plain to see", "stronger than the flash", "plain to see", "hardly seen", "gone"]
    shown.set("room.lux", 50)
    shown.set("camera.style", "mirror_up")
    assert shown.told.tone == "good"
    shown.set("camera.shutter", 1 / 500)
    assert "a curtain covers" in shown.told.line
    shown.set("camera.style", "held_open")
    shown.set("room.lux", 0.1)
    for other, said in (("indicator", "0.25 lx"), ("telephone", "3.6 lx"), ("beam", "red spot"), ("again", "adds")):
        shown.set("other", other)
        assert said in shown.told.line


# ---- the exercises


BY_HAND = {
    "evening": "held open",
    # 280 / (1 · 2) = 140; 2^7 = 128, and 140 / 128 = 1.094 = 2^0.129
    "under": ({"flash": 280, "lux": 1, "time": 2}, "7.13 stops"),
    # 200, 400, 800, 1600, 3200, 6400
    "meter": ({"iso": 200, "bright": 6400}, "5.00 stops"),
    # 277 / (2 · 128)
    "allowed": ({"flash": 277, "time": 2, "stops": 7}, "1.08"),
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


def test_two_seconds_are_400_times_a_200th():
    assert 2 / (1 / 200) == 400
    assert "400 times" in exercises["evening"].options[0].reply


def test_the_worked_function_is_right():
    found = {}
    exec(re.search(r"```python\n(.*?)```", ALLOWED.worked, re.S)[1], found)
    assert found["allowed"](277, 2, 7) == pytest.approx(1.1, abs=0.05)
    assert found["allowed"](277, 2, 7) == pytest.approx(room_lux_allowed(flash=277, shutter=2, stops=7))


@pytest.mark.parametrize("variant", range(1, 20))
def test_the_bright_room_has_other_ways_out_too(variant):
    def tried(**answer):
        read = {path.replace("__", "."): value for path, value in answer.items()}
        return judge.verdict(BRIGHT, judge.record(BRIGHT, read, variant=variant), variant=variant)

    for style in ("mirror", "mirror_up", "no_mirror"):
        assert tried(camera__style=style, camera__shutter=1 / 200).right
    # The style alone is not enough, nor is a shorter open time: it may end before the flash.
    assert not tried(camera__style="mirror_up", camera__shutter=1 / 60).right
    closed = tried(camera__open_time=0.5)
    assert "closed when the flash fires" in closed.text
    assert "nan" not in closed.text


def test_the_beam_of_the_bright_room_is_high_enough():
    begun = exercises.start("bright", 1)
    for style in ("mirror", "mirror_up", "no_mirror", "held_open"):
        assert best_beam_height(change(begun, "camera.style", style)) <= begun.beam.height


# ---- the derivation


def test_the_derivation_is_the_library():
    import sympy

    code = re.search(r'id="room-derivation"\n(.*?)```', SOURCE, re.S)[1]
    shown = []
    found = {"display": shown.append}
    exec(compile(code, "text.md", "exec"), found)
    under_flash = sympy.lambdify([found[name] for name in ("H", "E", "t")], found["under"])
    allowed = sympy.lambdify([found[name] for name in ("H", "t", "n")], found["allowed"])
    rng = np.random.default_rng(5)
    for flash, lux, time, stops in rng.uniform(0.1, 10, (40, 4)):
        expected = room_under_flash(room=lux * exact(time, kind="shutter"), flash=flash)
        assert under_flash(flash, lux, float(exact(time, kind="shutter"))) == pytest.approx(expected)
        expected = room_lux_allowed(flash=flash, shutter=time, stops=stops)
        assert allowed(flash, float(exact(time, kind="shutter")), stops) == pytest.approx(expected)
    assert len(shown) == 2


# ---- the panel


def test_what_is_dragged_is_what_is_kept(monkeypatch, tmp_path):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    shown = panel.show()
    card = panel.keep()
    shown.set("room.lux", 0.3)
    shown.set("camera.open_time", 1.5)
    shown.set("camera.shutter", 1 / 160)
    shown.set("other", "modelling")
    assert list(tmp_path.iterdir()) == []
    assert {row.label: row.chosen for row in card.rows}["Room light at the set"] == "0.3 lx"
    card.write()
    kept = load_setup(my_setup_path())
    assert (kept.room.lux, kept.camera.open_time) == (0.3, 1.5)
    assert kept.camera.shutter == pytest.approx(1 / 160)
    # The panel puts every camera in time for its picture; that is no decision of this lesson.
    assert (kept.beam, kept.trigger) == (SCENE.beam, SCENE.trigger)


def test_full_darkness_and_daylight_are_told_too():
    shown = panel.panel()
    for lux, said in ((0.0, "no light"), (50_000.0, "stronger than the flash")):
        picture = shown._picture
        told = picture.update(change(SCENE, "room.lux", lux))
        assert said in told.line
        assert "nan" not in str(told)
        assert "inf" not in str(told)
        assert picture.frame(moving=True)
    assert Room().lux == 0.2
