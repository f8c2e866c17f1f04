"""Judging settings: many right answers, bad ones recognised, everything by the library's own table of fields."""

import re

import pytest

from splashlib.classroom.judges.judge import judge, numbers, record, verdict
from splashlib.classroom.judges.settings import start
from splashlib.classroom.questions.question_kinds import Condition, Settings
from splashlib.shoot import change, tea_house
from tests.classroom.samples import IN_TIME

DIAL = Settings(
    name="dial",
    prompt="",
    start={"flashes.0.power": 1.0},
    asked=("flashes.0.power", "camera.style", "camera.aperture", "drop.density", "camera.lag"),
    conditions=(Condition(text="an eighth", test=lambda v, s: s.flashes[0].power == 1 / 8, reply="Not an eighth."),),
    answer=lambda v: {"flashes.0.power": 1 / 8},
)


def begun(variant=1):
    return start(IN_TIME, numbers(IN_TIME, variant))


@pytest.mark.parametrize(
    "answer",
    [
        {"beam.height": 0.3},
        {"beam.height": "30"},
        {"beam.height": "30 cm"},
        {"beam.height": "0,3 m"},
        {"beam.height": "300 mm"},
        {"beam.height": 0.35, "trigger.delay": "0 ms"},
        {"beam.height": 0.39},
    ],
)
def test_many_right_answers(answer):
    assert judge(IN_TIME, answer).right


def test_a_set_up_is_an_answer_too():
    assert judge(IN_TIME, change(begun(), "beam.height", 0.3)).right
    assert judge(IN_TIME, begun()).outcome == "not_attempted"
    assert judge(IN_TIME, {}).outcome == "not_attempted"
    assert judge(IN_TIME, {"trigger.delay": 0.0}).outcome == "not_attempted"


def test_only_what_is_asked_may_be_changed():
    reply = judge(IN_TIME, change(change(begun(), "beam.height", 0.3), "drop.release_height", 1.0))
    assert reply.outcome == "wrong_kind"
    assert reply.text == "Leave *release height* alone; only *beam height* and *delay* may be changed here."
    assert judge(IN_TIME, {"drop.release_height": 1.0}).outcome == "wrong_kind"
    assert judge(IN_TIME, {"beam.hight": 0.3}).outcome == "wrong_kind"
    assert judge(IN_TIME, {"beam.hight": 0.3}).text.startswith("Leave `beam.hight` alone")


@pytest.mark.parametrize("path", ["beam.height", "trigger.delay"])
@pytest.mark.parametrize("value", [-1, 1e9, "60 cm", "x", "3 kg", "1,234", [1], None, float("nan"), 10**400])
def test_no_reply_speaks_in_paths(path, value):
    """A path such as beam.height is how code names a setting; a reply is read by people who drag."""
    text = judge(IN_TIME, {path: value}).text
    assert text
    assert not re.search(r"\b(beam|trigger|drop|camera|flashes|room|vessel)\.[a-z_]", text)


def test_an_example_is_in_the_unit_of_its_setting():
    assert "12.5 cm" in judge(IN_TIME, {"beam.height": "high"}).text
    assert "12.5 ms" in judge(IN_TIME, {"trigger.delay": "late"}).text


@pytest.mark.parametrize(
    ("answer", "outcome", "word"),
    [
        ({"beam.height": "high"}, "unreadable", "high"),
        ({"beam.height": "1,234"}, "unreadable", "two ways"),
        ({"beam.height": [1]}, "unreadable", "list"),
        ({"beam.height": float("nan")}, "unreadable", "nan"),
        ({"beam.height": None}, "unreadable", "None"),
        ({"beam.height": "30 s"}, "wrong_unit", "time"),
        ({"beam.height": -0.1}, "wrong_kind", "-10 cm"),
        ({"beam.height": "-10"}, "wrong_kind", "-10 cm"),
        ("30 cm", "wrong_kind", "set-up"),
        (0.3, "wrong_kind", "set-up"),
        (tea_house, "wrong_kind", "set-up"),
    ],
)
def test_what_cannot_be_set(answer, outcome, word):
    reply = judge(IN_TIME, answer)
    assert reply.outcome == outcome
    assert word in reply.text


def test_a_bare_number_out_of_range_is_told_what_it_counts_in():
    """Thirty for 30 cm, in code: it counts in metres there. In a form, and with a unit typed, nothing is to be said."""
    told = judge(IN_TIME, {"beam.height": 30})
    assert told.outcome == "wrong_kind"
    assert told.text.endswith("A bare number in code counts in m, not in cm.")
    assert "bare number" not in judge(IN_TIME, {"beam.height": "3000 cm"}).text
    assert "bare number" not in judge(DIAL, {"camera.aperture": 3000}).text


def test_slips_come_before_the_list_of_conditions():
    assert judge(IN_TIME, {"trigger.delay": 0.05}).slip == "more delay"
    assert judge(IN_TIME, {"beam.height": 0.01}).slip == "lower beam"


def test_a_miss_says_what_is_missing_in_its_own_numbers():
    reply = judge(IN_TIME, {"beam.height": "12"})
    assert reply.outcome == "wrong"
    assert "too late" in reply.text
    assert "ms" in reply.text
    assert "✗ the light comes at contact or before" in reply.text
    assert "✓ the beam is below the hand" in reply.text
    high = judge(IN_TIME, {"beam.height": 0.44})
    assert "hand would break" in high.text
    assert "✓ the light comes" in high.text


def test_dials_choices_and_units_of_other_kinds():
    assert judge(DIAL, {"flashes.0.power": "1/8"}).right
    assert judge(DIAL, {"flashes.0.power": 0.125, "camera.aperture": "f/8"}).right
    assert judge(DIAL, {"flashes.0.power": "1/8", "camera.style": "mirror must rise first"}).right
    assert judge(DIAL, {"flashes.0.power": "1/8", "camera.style": "mirror"}).right
    assert judge(DIAL, {"flashes.0.power": "1/8", "drop.density": "1.2 g/cm3"}).right
    assert judge(DIAL, {"camera.style": "sideways"}).outcome == "unreadable"
    assert judge(DIAL, {"flashes.0.power": "1/8 s"}).outcome == "wrong_unit"
    assert judge(DIAL, {"drop.density": "1 kg"}).outcome == "wrong_unit"


def test_a_style_may_keep_its_own_lag():
    setup = change(start(DIAL, numbers(DIAL)), "camera.style", "mirror")
    setup = change(change(setup, "camera.lag", 0.08), "flashes.0.power", 1 / 8)
    assert judge(DIAL, setup).right


def test_a_condition_that_cannot_be_computed_does_not_hold():
    def refuses(v, setup):
        raise ValueError("height is 0 m; it must be more than 0 m")

    question = Settings(
        name="x",
        prompt="",
        asked=("beam.height",),
        conditions=(Condition(text="c", test=refuses, reply="r"),),
        answer=lambda v: {"beam.height": 0.2},
    )
    stored = record(IN_TIME, {"beam.height": 0.2})
    from splashlib.classroom.judges import settings

    reply = settings.verdict(question, stored, 1, numbers(IN_TIME))
    assert reply.outcome == "wrong"
    assert "must be more than 0 m" in reply.text


def test_a_stored_answer_keeps_what_was_typed():
    stored = record(IN_TIME, {"beam.height": "0,3 m"})
    assert stored["settings"] == {"beam.height": "0,3 m"}
    assert verdict(IN_TIME, stored).right
