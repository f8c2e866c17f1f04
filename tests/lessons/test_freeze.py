"""The lesson `freeze`: its exercises, its panel, and every number that its text states."""

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest

from lessons.freeze import panel
from lessons.freeze.exercises import exercises
from lessons.freeze.mend import DARKEST, MEND
from splashlib.classroom.judges.judge import numbers
from splashlib.classroom.testing.proof import check_exercises
from splashlib.physics.droplets import droplet_speed
from splashlib.physics.light.blur import smallest_seen
from splashlib.physics.pulse import exponential, head_pulse, tube
from splashlib.shoot import change, change_all, contact_speed, framed, impact_of, pulse_of, show, tea_house
from splashlib.shoot.chain.framing import sees
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from splashlib.shoot.decide.flash_duration import (
    heads_apart,
    in_four_lights,
    longest_light,
    power_for_points,
    stops_below_full,
    streak_in,
    unseen_from,
)
from splashlib.shoot.files.learner_files import my_setup, my_setup_path
from splashlib.shoot.files.setup_file import save_setup
from splashlib.shoot.setup.table import ROUTES
from tests.lessons.by_hand import check_by_hand

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()
SPEED = contact_speed(SCENE)


def light(kind, power):
    return pulse_of(replace(SCENE.flashes[0], kind=kind, power=power))


def parts(seconds):
    """The n of 1/n s."""
    return 1 / seconds


def at_power(power):
    return change(SCENE, "flashes.0.power", power)


def from_height(height):
    return change(SCENE, "drop.release_height", height)


def longer(lengthening):
    """How much longer a voltage-controlled head is at 1/32 than at full power [-]."""
    low, full = (
        head_pulse("voltage_controlled", power=power, full_t05=1e-3, lengthening=lengthening).t01
        for power in (1 / 32, 1)
    )
    return low / full


def on_print(width):
    return streak_in(SCENE, print_width=width).on_print


ROW = {
    "quenched": "| quenched | 1/310 s | 1/4300 s | 1/11 000 s | 1/17 000 s |",
    "capacitor_switched": "| capacitor-switched | 1/230 s | 1/1700 s | 1/5300 s | 1/11 000 s |",
    "voltage_controlled": "| voltage-controlled | 1/230 s | 1/140 s | 1/97 s | 1/69 s |",
}

CLAIMS = [
    ("The streak shrinks from 360 pixels", streak_in(at_power(1.0)).pixels, 360, 0.5),
    ("to 10 at 1/32", streak_in(SCENE).pixels, 10, 0.5),
    ("At 1/102 (on the dial 1/128 and a third)", 1 / power_for_points(SCENE), 102, 0.5),
    ("In the scene $m$ is 0.22", framed(SCENE).magnification, 0.22, 0.005),
    ("a pixel covers 0.027 mm of the set", 6e-3 / framed(SCENE).magnification, 0.027, 0.0005),
    ("At 3 m/s, 91 µs draw 0.27 mm", SPEED, 3, 0.05),
    ("At 3 m/s, 91 µs draw 0.27 mm", 1e6 * light("quenched", 1 / 32).t01, 91, 0.5),
    ("At 3 m/s, 91 µs draw 0.27 mm", 1e3 * streak_in(SCENE).on_object, 0.27, 0.005),
    ("this is 68 µs, or 1/15 000 s", 1e6 * longest_light(SCENE), 68, 0.5),
    ("this is 68 µs, or 1/15 000 s", parts(longest_light(SCENE)), 15000, 500),
    ("An eye separates 0.07 mm from 25 cm", 1e3 * smallest_seen(), 0.07, 0.005),
    ("30 cm wide the 10 pixels are 0.50 mm long", 1e3 * on_print(0.30), 0.50, 0.005),
    ("too small to see from 1.7 m", unseen_from(on_print(0.30)), 1.7, 0.05),
    ("10 cm wide it is 0.58 m", unseen_from(on_print(0.10)), 0.58, 0.005),
    ("One pixel takes 9 µs", 1e6 * 6e-6 / framed(SCENE).magnification / SPEED, 9, 0.5),
    ("half as fast as the kumquat", droplet_speed(impact_of(SCENE)).likely / SPEED, 0.5, 0.05),
    ("| 1/1000 s | 1/300 s | 3.3 times |", parts(exponential(1e-3 / math.log(2)).t01), 300, 5),
    ("| 1/1000 s | 1/300 s | 3.3 times |", exponential(1).t01 / exponential(1).t05, 3.3, 0.05),
    ("| 1/1000 s | 1/230 s | 4.4 times |", light("capacitor_switched", 1.0).t01 * 230, 1, 0.01),
    ("| 1/1000 s | 1/230 s | 4.4 times |", tube(1).t01 / tube(1).t05, 4.4, 0.05),
    ("| quenched at 1/8 | 1/5600 s | 1/4300 s | 1.3 times |", parts(light("quenched", 1 / 8).t05), 5600, 50),
    ("| quenched at 1/8 | 1/5600 s | 1/4300 s | 1.3 times |", parts(light("quenched", 1 / 8).t01), 4300, 50),
    ("| quenched at 1/32 | 1/24 000 s | 1/11 000 s | 2.2 times |", parts(light("quenched", 1 / 32).t05), 24000, 500),
    ("| quenched at 1/32 | 1/24 000 s | 1/11 000 s | 2.2 times |", parts(light("quenched", 1 / 32).t01), 11000, 500),
    ("needs 60 µs to rise", 1e6 * SCENE.flashes[0].rise, 60, 0.5),
    ("for some 20 µs after the cut", 1e6 * SCENE.flashes[0].tail, 20, 5),
    ("about 2.4 times as long as at full power", longer(0.25), 2.4, 0.05),
    ("anything from the same to nearly 6 times", longer(0.0), 1, 0.01),
    *((ROW["quenched"], parts(light("quenched", p).t01) / n, 1, 0.025)
      for p, n in ((1, 310), (1 / 8, 4300), (1 / 32, 11000), (1 / 128, 17000))),
    *((ROW["capacitor_switched"], parts(light("capacitor_switched", p).t01) / n, 1, 0.04)
      for p, n in ((1, 230), (1 / 8, 1700), (1 / 32, 5300), (1 / 128, 11000))),
    *((ROW["voltage_controlled"], parts(light("voltage_controlled", p).t01) / n, 1, 0.025)
      for p, n in ((1, 230), (1 / 8, 140), (1 / 32, 97), (1 / 128, 69))),
    ("here 6 ms in all", 1e3 * light("high_speed_sync", 1 / 32).t01, 6, 0.01),
    ("that is 18 mm of smear", 1e3 * SPEED * light("high_speed_sync", 1.0).t01, 18, 0.5),
    ("to 0.74 mm", 1e3 * SPEED / 4000, 0.74, 0.005),
    ("about a third of that", streak_in(SCENE).on_object / (SPEED / 4000), 0.33, 0.05),
    ("A cable takes some 0.05 ms", 1e3 * ROUTES["cable"][0], 0.05, 0.001),
    ("At 3 m/s 1 ms is 3 mm", SPEED, 3, 0.05),
    ("from 45 cm it is 1/102", 1 / power_for_points(from_height(0.45)), 102, 0.5),
    ("from 1/32 to 1/102 costs 1.7 stops", stops_below_full(at_power(power_for_points(SCENE))) - 5, 1.7, 0.05),
]  # fmt: skip


@pytest.mark.parametrize(("words", "computed", "stated", "within"), CLAIMS)
def test_the_text_states_computed_numbers(words, computed, stated, within):
    assert words in TEXT
    assert computed == pytest.approx(stated, abs=within)


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


def test_nearly_6_times_is_the_end_of_the_band_of_the_voltage_law():
    assert longer(0.5) == pytest.approx(5.7, abs=0.05)


def test_the_prediction_tells_computed_numbers():
    question = exercises["four_lights"]
    two = in_four_lights(SCENE, apart=0.95e-3)[3]
    assert "1/11 000 s: 0.27 mm" in question.worked
    assert parts(light("quenched", 1.0).t01) == pytest.approx(310, abs=5)
    assert 1e3 * streak_in(at_power(1.0)).on_object == pytest.approx(9.7, abs=0.05)
    assert 2 < 1e3 * heads_apart(two) < 3


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
    assert "release_height_cm = -3" in shown._state()["notes"][0]
    assert "release_height_cm = -3" in panel.keep()._state()["error"]
