"""The lesson `splash`: its exercises, its panels, and what its text says beside the numbers that the build puts in."""

import math
import re
from pathlib import Path

import pytest

from lessons.splash import panel
from lessons.splash.exercises import exercises
from splashlib.classroom.judges import judge
from splashlib.picture.photo.description import facts
from splashlib.picture.photo.photograph import scene_of
from splashlib.shoot import (
    change_all,
    contact_speed,
    delay_for,
    hold_off_advice,
    my_setup,
    my_setup_path,
    save_setup,
    splash,
    tea_house,
    vessel_advice,
    with_body,
)
from splashlib.shoot.decide.splash_camera import on_the_clock
from tests.lessons.by_hand import check_by_hand
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
FRUIT = tea_house()
MARBLE = change_all(with_body(FRUIT, "glass marble"), {"drop.surface": "rough"})
MILK = with_body(FRUIT, "drop of milk")


def at(setup=FRUIT, **changes):
    return change_all(setup, {path.replace("__", "."): value for path, value in changes.items()})


def stage(name, setup=FRUIT):
    return next(each for each in splash(setup) if each.name == name)


def ms(seconds):
    return 1e3 * seconds


HIGH = at(drop__release_height=0.80)
NARROW = vessel_advice(at(vessel__width=0.08))
CROWN, SEAL, JET = (stage(name) for name in ("crown_peak", "cavity_seals", "jet_peak"))


def test_what_the_text_says_without_numbers():
    assert "from 20 cm or from 80 cm, the kumquat's cavity closes" in TEXT
    assert f"{ms(stage('cavity_seals', at(drop__release_height=0.20)).likely):.0f}" == f"{ms(SEAL.likely):.0f}"
    assert f"{ms(stage('cavity_seals', HIGH).likely):.0f}" == f"{ms(SEAL.likely):.0f}"
    # Filled to the brim in a tray, as the text advises: what is pushed up runs over.
    assert FRUIT.vessel.rim == 0
    assert NARROW.overflows == vessel_advice(HIGH).overflows == vessel_advice(FRUIT).overflows == "yes"
    assert vessel_advice(HIGH).wet[2] > 0.92
    tall = at(MARBLE, drop__release_height=1.0)
    assert stage("dome_closes", tall).chance > 0.9
    assert stage("dome_closes", MARBLE).chance > 0.5
    assert stage("jet_rises", tall).chance < 0.3
    dry = [each.name for each in splash(at(drop__surface="smooth_dry"))]
    assert "crown_peak" not in dry
    assert "cavity_seals" not in dry
    slow = at(camera__style="mirror")
    assert delay_for(slow, after_contact=0.050).short_by > 0
    assert delay_for(slow, event="jet_peak").short_by == 0
    assert "good to a quarter or so" in TEXT
    assert SEAL.late / SEAL.likely < 1.32
    assert SEAL.early / SEAL.likely > 0.75


def test_what_replies_say_without_numbers():
    assert 0.003 * contact_speed(FRUIT) < FRUIT.drop.height / 3
    assert stage("crown_peak", MARBLE).chance == 1
    assert "crown_peak" not in {each.name for each in splash(at(MARBLE, drop__surface="smooth_dry"))}


BY_HAND = {
    "jet_when": "250 ms",
    # 1.73 · √(0.020 / 9.81) = 1.73 · 45.152 ms
    "seal": ({"diameter_mm": 40}, "78.1 ms"),
    # 44 + 73 − 41
    "stage_delay": ({"lead_ms": 44, "stage_ms": 73, "lag_ms": 41}, "76.0 ms"),
    "no_crown": "wet it",
    # 3 s, less 0.5 s before the hand opens, less √(0.66 / 9.81) = 0.2594 s of fall
    "hold_off": ({"open_s": 3.0, "before_s": 0.5, "way_cm": 33}, "2.24 s"),
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


def test_the_derivation_gives_the_librarys_law(capsys):
    import sympy

    code = re.search(r'id="splash-derivation"\n(.*?)```', SOURCE, re.S)[1]
    shown = []
    found = {"display": lambda *laws: shown.extend(laws)}
    exec(compile(code, "text.md", "exec"), found)
    law = sympy.lambdify([found["R"], found["g"]], found["law"])
    assert law(0.0175, 9.81) == pytest.approx(SEAL.likely, rel=0.01)
    assert found["twice"] == 2
    assert len(shown) == 1
    assert capsys.readouterr().out == "four times the size, 2 times the time\n"


def test_the_clock_starts_at_the_scenes_crown():
    shown = panel.panel()
    assert shown.values["clock"] == pytest.approx(CROWN.likely, abs=5e-4)
    delay = delay_for(FRUIT, after_contact=shown.values["clock"]).value
    assert shown.told.line.startswith(f"Set the delay to {ms(delay):.1f} ms.")
    for body in ("glass marble", "drop of milk", "kumquat"):
        shown.set("body", body)
        assert not shown.error
        assert panel.chosen(shown).drop.name == body
    shown.set("camera.style", "mirror")
    assert shown.told.tone == "bad"
    assert "Out of reach" in shown.told.line


def test_the_photograph_shows_the_clocks_instant():
    for clock in (-0.02, 0.0, 0.05, 0.32):
        for setup in (FRUIT, MARBLE, MILK, at(camera__style="mirror")):
            judged = facts(scene_of(on_the_clock(setup, clock, shape=1.52))).judged
            assert judged.seen.after_contact == pytest.approx(clock, abs=2e-5)
            assert judged.shutter == "open"
            assert abs(judged.flash) < 0.01


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    return tmp_path


def test_the_card_writes_body_delay_hold_off_and_vessel_when_asked(home):
    shown, vessel = panel.show(), panel.show_vessel()
    made = panel.keep()
    assert list(home.iterdir()) == []
    shown.set("body", "glass marble")
    shown.set("drop.surface", "rough")
    shown.set("clock", 0.031)
    vessel.set("trigger.hold_off", 3.0)
    vessel.set("vessel.width", 0.20)
    made.write()
    assert made.error == ""
    written = my_setup()
    assert (written.drop.name, written.drop.surface, written.drop.diameter) == ("glass marble", "rough", 0.016)
    assert written.trigger.delay == pytest.approx(delay_for(MARBLE, after_contact=0.031).value, abs=5e-5)
    assert (written.trigger.hold_off, written.vessel.width) == (3.0, 0.20)
    assert written.beam == FRUIT.beam


def test_the_vessel_panel_tells_the_advice():
    shown = panel.vessel_panel()
    said = dict(shown.told.readout)
    assert said["Hold-off needed"] == "1.3 s"
    assert said["Water rises"].startswith("1.5 cm")
    assert shown.told.tone == "good"
    shown.set("trigger.hold_off", 0.5)
    assert shown.told.tone == "bad"
    shown.set("trigger.hold_off", 2.0)
    shown.set("vessel.tray", "none")
    assert shown.told.tone == "warning"
    assert "The vessel overflows. Stand it in a tray" in shown.told.line
    shown.set("vessel.rim", 0.03)
    assert shown.told.tone == "warning"
    assert "through a splashed rim: fill to the brim, in a tray" in shown.told.line
    shown.set("vessel.rim", 0.0)
    shown.set("vessel.tray", "tray")
    shown.set("flashes.0.distance", 0.40)
    assert shown.told.tone == "warning"
    far = math.ceil(100 * vessel_advice(FRUIT).wet[2])
    assert f"The flash at 40 cm stands where the fastest drops land. Move it beyond {far} cm" in shown.told.line
    shown.set("flashes.0.distance", 0.25)
    assert shown.told.tone == "bad"
    shown.set("flashes.0.shield", "sheet")
    assert shown.told.tone == "good"
    shown.set("body", "drop of milk")
    assert dict(shown.told.readout)["Water rises"].startswith("0.0 cm")


def test_the_vessel_panel_warns_of_a_shutter_that_closes_before_the_light():
    shown = panel.vessel_panel()
    shown.set("camera.open_time", 0.5)
    assert shown.told.tone == "bad"
    assert "The frame is black." in shown.told.line


def test_the_set_up_question_gives_no_number_away():
    crown = exercises["crown"]
    right = crown.answer(judge.numbers(crown, 1))
    for path, off in (("trigger.delay", 0.06), ("trigger.hold_off", 0.1), ("trigger.hold_off", 1.2), ("vessel.rim", 0)):
        reply = judge.judge(crown, right | {path: off})
        assert not reply.right
        for told in (ms(CROWN.likely), hold_off_advice(FRUIT).shutter, hold_off_advice(FRUIT).droplets):
            assert f"{told:.3g}" not in reply.text


def test_the_cell_in_code_names_the_stages_in_words(capsys):
    code = re.search(r'id="splash-code"\n(.*?)```', SOURCE, re.S)[1]
    exec(compile(code, "text.md", "exec"), {})
    lines = capsys.readouterr().out.splitlines()
    assert any(line.startswith("crown at its highest: ") for line in lines)
    assert "_" not in "".join(lines)
    exec(
        compile(code.replace("my_setup({", "change_all(slow, {"), "text.md", "exec"),
        {"slow": change_all(FRUIT, {"camera.style": "mirror"}), "change_all": change_all},
    )
    crown = stage("crown_peak", at(drop__release_height=0.60))
    assert f"crown at its highest: {ms(crown.likely):.0f} ms after contact, out of reach" in capsys.readouterr().out


def test_plugs_are_kept_beyond_the_fastest_drops():
    # What stands on the table gets more than what stands level with the water.
    far = math.ceil(100 * vessel_advice(FRUIT).on_table[2])
    assert far > 100 * vessel_advice(FRUIT).wet[2]
    assert f"Plugs and power packs beyond {far} cm" in panel.vessel_panel().told.line


def test_a_beam_above_the_hand_is_told_in_one_line(home):
    scene = my_setup_path()
    save_setup(FRUIT, scene)
    broken = scene.read_text(encoding="utf-8").replace("\nheight_cm = 12 ", "\nheight_cm = 60 ")
    scene.write_text(broken, encoding="utf-8")
    for shown in (panel.show(), panel.show_vessel()):
        note = shown.trouble
        assert re.match(r"my_setup\.toml, lines \d+ and \d+: the beam reaches up to 60\.15 cm and the body", note)
        assert "\n" not in note
        assert not shown.error
    made = panel.keep()
    made.write()
    assert "must lie under the hand" in made.error
    assert scene.read_text(encoding="utf-8") == broken


def test_the_clock_warns_of_a_lamp_in_the_spray():
    shown = panel.panel()
    assert shown.told.tone == "good"
    shown.set("drop.release_height", 0.80)
    assert shown.told.tone == "warning"
    assert "The flash at 100 cm stands where the fastest drops land" in shown.told.line


def test_the_brim_is_the_scenes_and_the_text_compares_it():
    for words in ("fills the vase to the brim, stands it in a tray", "| a rim, 3 cm or more |", "| a wide tank,"):
        assert words in TEXT
    for words in (
        "test button first",
        "not protect on the flash side",
        "cut the supply at the board",
        "not test-fired",
    ):
        assert words in TEXT
    for words in ("Never wrap a mains head", "a loose clear bag", "A lamp above water is tied", "Most citrus floats"):
        assert words in TEXT
