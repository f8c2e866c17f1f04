"""The lesson `camera`: its exercises, its panels, and what its text says beside the numbers that the build puts in."""

import re
from pathlib import Path

import numpy as np
import pytest

from lessons.camera import panel
from lessons.camera.exercises import exercises
from lessons.camera.rescue import LOWEST_BEAM, RESCUE, _high_beam
from splashlib.classroom.judges import judge
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import distance_fallen, fall_speed, fall_time
from splashlib.shoot import (
    body_height,
    change_all,
    delay_for,
    framed,
    lead,
    light_lag,
    load_setup,
    my_setup_path,
    save_setup,
    sees,
    tea_house,
)
from splashlib.shoot.decide.style_comparison import in_curtains, in_styles
from tests.lessons.by_hand import check_by_hand, check_edges, variant_with
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()
STYLES = ("mirror", "mirror_up", "no_mirror", "held_open")


def shot(style, aim="contact", **changes):
    """One style's shot of the scene, some settings changed."""
    setup = change_all(SCENE, {path.replace("__", "."): value for path, value in changes.items()})
    return next(each for each in in_styles(setup, aim=aim) if each.style == style)


def curtain(kind, shutter):
    setup = change_all(SCENE, {"camera.shutter": shutter, "beam.height": 0.25})
    return next(each for each in in_curtains(setup) if each.setup.camera.first_curtain == kind).seen.lit


def test_claims_in_words():
    assert "more than half of the way up to the hand" in TEXT
    assert distance_fallen(fall_time(0.45) - 0.1) < 0.45 / 2
    assert "Most of a mirror camera's lag is the mirror" in TEXT
    assert SCENE.camera.mirror.lag - SCENE.camera.mirror_up.lag > SCENE.camera.mirror.lag / 2
    assert "half a second before the hand does" in TEXT
    assert SCENE.camera.open_before == 0.5
    assert "well under a millisecond" in TEXT
    assert shot("held_open", None).lag < 0.0007
    assert "more than a third of the frame stays dark" in TEXT
    assert 1 / 3 < 1 - curtain("mechanical", 1 / 500) < 0.4
    assert "With 60 pictures a second" in TEXT
    assert SCENE.camera.no_mirror.scatter == pytest.approx(1 / 60, abs=5e-5)
    assert "it needs 1/40 s" in TEXT
    assert curtain("rolling", 1 / 40) == 1
    assert curtain("rolling", 1 / 50) < 1
    assert "1/200 s or 1/250 s for most curtains" in TEXT
    assert curtain("mechanical", 1 / 250) == 1
    assert curtain("mechanical", 1 / 400) < 1
    assert "The flash is over in less than a millisecond" in TEXT


def test_what_the_text_says_will_be_seen():
    """The numbered steps under "Drag", one after the other."""
    first = shot("mirror", None)
    assert first.outcome == "late"
    long = {style: shot(style, None, trigger__delay=0.043).outcome for style in STYLES}
    assert long == dict.fromkeys(STYLES[:3], "late") | {"held_open": "caught"}
    for delay in np.arange(0, 0.15, 0.0125):
        assert shot("mirror", None, trigger__delay=float(delay)).outcome == "late"
    assert [shot(style).short_by == 0 for style in STYLES] == [False, True, False, True]
    assert all(shot(style, beam__height=0.255).short_by == 0 for style in STYLES)
    assert all(shot(style, "jet_peak", beam__height=0.12).outcome == "caught" for style in STYLES)
    assert shot("mirror", "jet_peak", beam__height=0.12).setup.trigger.delay > 0.1


# ---- the exercises


RESCUE_NUMBERS = {"lag_ms": 100, "height_cm": 45, "beam_cm": 12}

BY_HAND = {
    "four_cameras": "two",
    # 100 ms less the lead, 302.89 − 259.38 = 43.51 ms
    "too_late": ({"height_cm": 45, "beam_cm": 12, "lag_ms": 100}, "56.5 ms"),
    # 3 m/s for 1/60 s
    "spread": ({"speed": 3.0, "per_second": 60}, "50.0 mm"),
    # of 3 ms the second curtain has had 3 − 2 = 1 ms
    "dark_band": ({"travel_ms": 3.0, "part": 500}, "0.333"),
    # 0.45 − ½ · 9.81 · (0.30289 − 0.1)² m
    "lowest_beam": ({"height": 0.45, "lag": 0.1}, "0.248"),
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


def test_answers_by_hand():
    """Worked on paper: √(2·0.45/9.81) = 302.89 ms, √(2·0.33/9.81) = 259.38 ms; 3/60; 1 ms of 3."""
    assert answer("too_late") == pytest.approx(0.100 - (0.30289 - 0.25938), abs=2e-5)
    assert answer("spread") == pytest.approx(0.050)
    assert answer("dark_band") == pytest.approx(1 / 3)


def answer(name):
    """The right answer of the first variant."""
    return exercises[name].answer(judge.numbers(exercises[name], 1))


def test_the_grey_cell_of_the_function_runs_once_it_is_uncommented_as_told():
    assert "take the # and the one blank after it away from both lines" in TEXT
    cell = re.search(r'id="camera-answer-lowest-beam"\n(.*?)```', SOURCE, re.S)[1]
    lines = [line for line in cell.splitlines() if line.startswith("# ")]
    found = {}
    exec("\n".join(line.removeprefix("# ") for line in lines), found)
    assert len(lines) == 2
    assert judge.judge(LOWEST_BEAM, found["lowest_beam"]).outcome == "high"
    assert judge.judge(LOWEST_BEAM, lambda h, lag: 100 * _beam_by_hand(h, lag)).slip == "in centimetres"
    assert judge.judge(LOWEST_BEAM, LOWEST_BEAM.reference).outcome == "wrong_kind"
    assert judge.judge(LOWEST_BEAM, _beam_by_hand).right
    assert judge.judge(LOWEST_BEAM, lambda h, lag: _beam_by_hand(h, lag, g=9.8)).right
    assert judge.judge(LOWEST_BEAM, lambda h, lag: _beam_by_hand(h, lag, g=10)).outcome == "high"


def _beam_by_hand(height, lag, g=9.81):
    """The fall to the beam ends one lag before the whole fall does."""
    return height - g / 2 * ((2 * height / g) ** 0.5 - lag) ** 2


def test_the_set_up_to_be_mended_is_judged_by_the_bounds_that_it_states():
    """100 ms of lag, 45 cm, a beam at 12 cm; the shutter held open. A bell is shown two scatters wide to each side."""
    begun = exercises.start("rescue", variant_with(RESCUE, RESCUE_NUMBERS))
    held = change_all(begun, {"camera.style": "held_open"})
    lead_left, top = lead(held) - light_lag(held), framed(held).top
    right = {"camera.style": "held_open", "trigger.delay": delay_for(held, height=0.015).value}
    delay = {height: {"trigger.delay": delay_for(held, height=height).value} for height in (0.0298, 0.0302)}
    check_edges(
        RESCUE,
        RESCUE_NUMBERS,
        right,
        [
            (
                "the light does not come after the contact",
                {"trigger.delay": lead_left - 1e-4},
                {"trigger.delay": lead_left + 1e-4},
            ),
            ("the kumquat is at most 3 cm over the water", delay[0.0298], delay[0.0302]),
            (
                "the beam stays out of the frame",
                {"beam.height": top + held.beam.width / 2 + 1e-4},
                {"beam.height": top + held.beam.width / 2 - 1e-4},
            ),
            (
                "the light is at most 4 ms early or late from drop to drop",
                {"camera.style": "mirror_up", "camera.mirror_up.scatter": 0.00199},
                {"camera.style": "mirror_up", "camera.mirror_up.scatter": 0.00201},
            ),
        ],
    )
    assert "must not be more than 4 ms early or late" in " ".join(RESCUE.prompt.split())


def test_the_worked_function_is_right():
    code = re.search(r"```python\n(.*?)```", LOWEST_BEAM.worked, re.S)[1]
    found = {}
    exec(code, found)
    assert found["lowest_beam"](0.45, 0.1) == pytest.approx(0.248, abs=0.0005)
    assert "24.8 cm" in LOWEST_BEAM.worked
    assert found["lowest_beam"](0.6, 0.05) == pytest.approx(LOWEST_BEAM.reference(height=0.6, lag=0.05))


@pytest.mark.parametrize("variant", range(1, 25))
def test_the_worked_rescues_both_work(variant):
    """The open shutter, and the high beam with the mirror as it is; number 3 fails by its scatter alone."""
    values = judge.numbers(RESCUE, variant)
    high = {"beam.height": _high_beam(values), "trigger.delay": 0.0}
    assert judge.verdict(RESCUE, judge.record(RESCUE, high, variant=variant), variant=variant).right
    assert f"{100 * _high_beam(values):.1f} cm" in RESCUE.worked(values)
    begun = exercises.start("rescue", variant)
    waiting = change_all(begun, {"camera.style": "no_mirror", "beam.height": 0.25})
    delay = delay_for(waiting, height=0.015).value
    tried = {"camera.style": "no_mirror", "beam.height": 0.25, "trigger.delay": delay}
    reply = judge.verdict(RESCUE, judge.record(RESCUE, tried, variant=variant), variant=variant)
    assert not reply.right
    assert "waits for its viewfinder" in reply.text


@pytest.mark.parametrize(
    ("tried", "said", "unsaid"),
    [
        ({"camera.style": "held_open", "trigger.delay": 0.08}, "less delay", "quicker camera"),
        ({"camera.style": "no_mirror"}, "a higher beam, or a quicker camera", "less delay"),
    ],
)
def test_the_remedy_for_lateness_is_one_that_can_help(tried, said, unsaid):
    reply = judge.judge(RESCUE, tried)
    assert not reply.right
    assert said in reply.text
    assert unsaid not in reply.text


def test_a_third_may_be_given_as_people_write_it():
    dark = exercises["dark_band"]
    assert all(judge.judge(dark, said).right for said in ("33 %", "0.33", "0,33", "1/3"))
    reply = judge.judge(dark, "33")
    assert reply.slip == "per cent without its sign"
    assert "write the % behind the number" in reply.text


def test_a_delay_longer_than_the_open_shutter_is_told_so():
    tried = {"camera.style": "held_open", "trigger.delay": 2.5}
    reply = judge.verdict(RESCUE, judge.record(RESCUE, tried, variant=1), variant=1)
    assert "shutter is closed" in reply.text
    assert "nan" not in reply.text


# ---- the derivation


@pytest.fixture(scope="module")
def derived():
    """What the folded derivation ends with."""
    code = re.search(r'id="camera-derivation"\n(.*?)```', SOURCE, re.S)[1]
    shown = []
    found = {"display": shown.append}
    exec(compile(code, "text.md", "exec"), found)
    return found | {"shown": shown}


def test_the_derivation_is_the_law_in_the_text_and_in_the_library(derived):
    import sympy

    h, g, lag, way, exposure = (derived[letter] for letter in "hgLTE")
    written = sympy.sqrt(2 * g * h) * lag - g * lag**2 / 2
    assert sympy.simplify(derived["beam"] - written) == 0
    beam = sympy.lambdify([h, g, lag], derived["beam"])
    for height in (0.3, 0.45, 0.8):
        for time in (0.04, 0.1, 0.2):
            expected = height - distance_fallen(fall_time(height) - time)
            assert beam(height, GRAVITY, time) == pytest.approx(expected, rel=1e-12)
    assert fall_speed(0.45) == pytest.approx(float(sympy.sqrt(2 * GRAVITY * 0.45)))
    dark = sympy.lambdify([way, exposure], derived["dark"])
    instant = change_all(SCENE, {"beam.height": 0.25, "flashes.0.route_lag": 0.0, "camera.shutter": 1 / 800})
    lit = in_curtains(instant)[0].seen.lit
    # The library counts to the middle of the flash, 0.05 ms after it was fired.
    assert 1 - lit == pytest.approx(dark(0.003, 1 / 800), abs=0.02)
    assert len(derived["shown"]) == 3


# ---- the panels


def test_the_panel_starts_with_the_empty_frame():
    shown = panel.panel()
    assert shown.values["camera.style"] == "mirror"
    assert shown.values["beam.height"] == 0.12
    assert shown.told.tone == "bad"
    assert "gone" in shown.told.line


def test_what_is_marked_is_what_is_kept(monkeypatch, tmp_path):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    shown = panel.show()
    card = panel.keep()
    assert card.doubt == shown.told.line
    assert "No delay repairs that" in card.doubt
    shown.set("camera.style", "held_open")
    shown.set("aim", "contact")
    assert panel.chosen(shown).trigger.delay == pytest.approx(0.0430)
    assert card.doubt == ""
    assert {row.label: row.chosen for row in card.rows}["Delay"] == "43.0 ms"
    assert list(tmp_path.iterdir()) == []
    card.write()
    kept = load_setup(my_setup_path())
    assert (kept.camera.style, kept.trigger.delay) == ("held_open", 0.043)
    shown.set("camera.style", "mirror_up")
    shown.set("camera.lag", 0.035)
    card.write()
    kept = load_setup(my_setup_path())
    assert (kept.camera.style, kept.camera.lag, kept.camera.mirror.lag) == ("mirror_up", 0.035, 0.1)
    assert kept.trigger.delay == pytest.approx(delay_for(kept, event="contact").value, abs=0.00006)
    assert sees(kept).height == pytest.approx(0, abs=0.0003)


def test_the_panel_starts_from_the_learners_own_file(monkeypatch, tmp_path):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    own = change_all(SCENE, {"camera.style": "no_mirror", "beam.height": 0.2, "drop.surface": "smooth_dry"})
    save_setup(own, my_setup_path())
    shown = panel.panel()
    assert shown.setup == own
    assert panel.before_curtains(own).camera.style == "mirror_up"


def test_a_mistake_in_the_learners_file_is_told_in_the_panel(monkeypatch, tmp_path):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    (tmp_path / "my_setup.toml").write_text("[beam]\nheight_cm = -1\n")
    for shown in (panel.panel(), panel.curtains()):
        assert "height_cm" in shown._front.state["trouble"]
        assert shown.image


def test_an_open_shutter_has_no_lag_to_drag():
    shown = panel.panel()
    shown.set("camera.style", "held_open")
    with pytest.raises(ValueError, match="has no lag"):
        shown.set("camera.lag", 0.05)
    assert shown.setup.camera.lag == 0


def test_the_curtains_panel_shows_the_body_behind_every_curtain():
    shown = panel.curtains()
    assert all(body_height(each.setup, each.seen.light) > -0.001 for each in in_curtains(shown.setup, height=0.01))
    shown.set("camera.shutter", 1 / 500)
    assert "37 % of it is dark" in shown.told.alt
    shown.set("camera.readout", 0.06)
    assert not shown.error
