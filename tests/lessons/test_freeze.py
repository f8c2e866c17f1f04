"""The lesson `freeze`: its exercises, its panel, and what its text says beside the numbers that the build puts in."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from lessons.freeze import panel
from lessons.freeze.exercises import exercises
from lessons.freeze.mend import DARKEST, MEND
from splashlib.classroom.judges.judge import numbers
from splashlib.physics.droplets import droplet_speed
from splashlib.physics.pulse import exponential, head_pulse, tube
from splashlib.shoot import (
    change,
    change_all,
    contact_speed,
    impact_of,
    my_setup,
    my_setup_path,
    pulse_of,
    save_setup,
    sees,
    show,
    streak_in,
    tea_house,
)
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from splashlib.shoot.decide.flash_duration import heads_apart, in_four_lights, power_for_points
from splashlib.shoot.setup.table import ROUTES
from tests.lessons.by_hand import check_by_hand
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()
SPEED = contact_speed(SCENE)


def light(kind, power):
    return pulse_of(replace(SCENE.flashes[0], kind=kind, power=power))


def from_height(height):
    return change(SCENE, "drop.release_height", height)


def longer(lengthening):
    """How much longer a voltage-controlled head is at 1/32 than at full power [-]."""
    low, full = (
        head_pulse("voltage_controlled", power=power, full_t05=1e-3, lengthening=lengthening).t01
        for power in (1 / 32, 1)
    )
    return low / full


def test_what_the_text_says_in_words():
    assert "anything from the same to nearly 6 times is possible" in TEXT
    assert longer(0.0) == pytest.approx(1, abs=0.01)
    assert longer(0.5) == pytest.approx(5.7, abs=0.05)
    assert "half as fast as the kumquat" in " ".join(TEXT.split())
    assert droplet_speed(impact_of(SCENE)).likely / SPEED == pytest.approx(0.5, abs=0.05)
    assert "The flash at 1/32 alone draws about a third of that" in TEXT
    assert streak_in(SCENE).on_object / (SPEED / 4096) == pytest.approx(0.33, abs=0.05)
    assert "1 ms is 3 mm" in TEXT
    assert pytest.approx(3, abs=0.05) == SPEED


def test_heights_and_powers():
    assert "from 20 cm 1/32 will do" in TEXT
    assert power_for_points(from_height(0.20)) == pytest.approx(1 / 32)
    assert "from 90 cm no power of this unit does it" in TEXT
    assert power_for_points(from_height(0.90)) is None
    assert show("flashes.0.power", power_for_points(SCENE)) == "1/128 +1/3"


def test_little_is_gained_below_a_64th():
    assert "Below 1/64 little is gained" in TEXT
    assert light("quenched", 1 / 256).t01 > 0.6 * light("quenched", 1 / 64).t01
    assert light("quenched", 1 / 4).t01 < 0.5 * light("quenched", 1).t01


def test_two_heads_lie_2_to_3_mm_apart():
    assert "2 to 3 mm apart" in exercises["four_lights"].worked
    assert 2 < 1e3 * heads_apart(in_four_lights(SCENE, apart=0.95e-3)[3]) < 3


BY_HAND = {
    "four_lights": "low power",
    # ln 10 / ln 2 = 3.3219; 2 m/s · 3.3219 / 800 s
    "table": ({"part": 800, "speed": 2.0}, "8.30 mm"),
    # 10 · 160 mm / 6000 = 0.26667 mm at 3 m/s
    "longest": ({"frame_mm": 160, "across": 6000, "speed": 3.0, "pixels": 10}, "88.9 µs"),
    # 950 µs at 3 m/s
    "routes": ({"cable_us": 50, "radio_us": 1000, "speed": 3.0}, "2.85 mm"),
    "turned_down": "longer",
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


@pytest.mark.parametrize("variant", range(1, 13))
def test_the_set_up_must_be_paid_for_in_every_variant(variant):
    """The worked solution says so: with the short flash alone the frame is too dark."""
    values = numbers(MEND, variant)
    found = MEND.answer(values)
    setup = change_all(SCENE, {**MEND.start(values), **found})
    assert abs(flash_over_metered(setup)) <= DARKEST
    assert flash_over_metered(change(setup, "camera.iso", SCENE.camera.iso)) < -DARKEST


@pytest.fixture(scope="module")
def derived():
    code = re.search(r'id="freeze-derivation"\n(.*?)```', SOURCE, re.S)[1]
    shown = []
    found = {"display": lambda *laws: shown.extend(laws), "shown": shown}
    exec(compile(code, "text.md", "exec"), found)
    return found


@pytest.mark.parametrize("fraction", [0.1, 0.25, 0.5])
def test_the_derivation_gives_the_librarys_durations(derived, fraction):
    short = derived["exponential"].subs({derived["f"]: fraction, derived["tau"]: 0.002})
    assert float(short) == pytest.approx(exponential(0.002).duration(fraction))
    long = derived["tube"].subs({derived["f"]: fraction, derived["T"]: 0.003})
    assert float(long) == pytest.approx(tube(0.003).duration(fraction))


def test_the_derivation_gives_the_ratios(derived):
    assert float(derived["ratio_exponential"]) == pytest.approx(exponential(1).t01 / exponential(1).t05)
    assert float(derived["ratio_tube"]) == pytest.approx(tube(1).t01 / tube(1).t05)
    assert len(derived["shown"]) == 4


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    return tmp_path


def test_the_panel_starts_from_the_scene(home):
    shown = panel.panel()
    assert not shown.error
    assert shown.setup == SCENE
    assert "nearly points" in shown.told.line
    shown.set("flashes.0.power", 1 / 128)
    assert shown.told.tone == "good"
    shown.set("flashes.0.kind", "voltage_controlled")
    assert shown.told.tone == "bad"
    shown.set("apart", 0.0)
    assert dict(shown.told.readout)["Two heads draw the body apart by"] == "0.00 mm"


def test_the_card_writes_kind_and_power_when_asked(home):
    shown = panel.show()
    made = panel.keep()
    assert list(home.iterdir()) == []
    shown.set("flashes.0.kind", "capacitor_switched")
    shown.set("flashes.0.power", 1 / 64)
    shown.set("camera.distance", 0.80)
    made.write()
    assert made.error == ""
    written = my_setup()
    assert (written.flashes[0].kind, written.flashes[0].power) == ("capacitor_switched", pytest.approx(1 / 64))
    assert written.camera == SCENE.camera
    assert written.drop == SCENE.drop


def test_the_card_writes_the_route_and_keeps_the_instant(home):
    begun = change(SCENE, "trigger.delay", 0.012)
    save_setup(begun, my_setup_path())
    shown = panel.show()
    shown.begin_from("mine")
    made = panel.keep()
    before = dict(shown.told.readout)
    shown.set("route", "radio")
    assert dict(shown.told.readout)["Fires after the trigger"] == "1.00 ms (radio)"
    assert {**before, "Fires after the trigger": ""} == {**dict(shown.told.readout), "Fires after the trigger": ""}
    for _ in range(2):  # pressed twice it writes the same
        made.write()
        assert made.error == ""
        head, trigger = my_setup().flashes[0], my_setup().trigger
        assert (head.route, head.route_lag, head.route_scatter) == ("radio", *ROUTES["radio"])
        assert trigger.delay + head.route_lag == pytest.approx(0.012 + begun.flashes[0].route_lag)
        assert sees(my_setup()).height == pytest.approx(sees(begun).height, abs=1e-6)


def test_a_measured_lag_stays_while_the_route_does(home):
    save_setup(change_all(SCENE, {"flashes.0.route": "radio", "flashes.0.route_lag": 0.0004}), my_setup_path())
    shown = panel.show()
    shown.begin_from("mine")
    made = panel.keep()
    assert shown.values["route"] == "radio"
    shown.set("flashes.0.power", 1 / 64)
    made.write()
    assert my_setup().flashes[0].route_lag == pytest.approx(0.0004)
    assert my_setup().trigger.delay == pytest.approx(SCENE.trigger.delay)


def test_a_file_with_a_mistake_is_told(home):
    my_setup_path().write_text("[drop]\nrelease_height_cm = -3\n")
    shown = panel.show()
    assert shown.setup == SCENE
    assert "release_height_cm = -3" in shown.trouble
    assert "release_height_cm = -3" in panel.keep()._state()["error"]
