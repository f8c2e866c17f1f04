"""What a photographer would call right is right, and is told from every known mistake."""

import importlib

import pytest

from splashlib.classroom.judges import judge
from splashlib.classroom.judges.number import accepted

# Lesson, question, answer, unit, what the judge says of it in the first variant, whose numbers are the scene's.
CASES = [
    ("start", "lead", 22, "ms", "right"),  # 21.55
    ("start", "lead", 21, "ms", "low"),
    ("start", "lead", 23, "ms", "high"),
    ("room", "under", 7, "stops", "right"),  # 7.13
    ("room", "under", 7.2, "stops", "right"),
    ("room", "under", 6.5, "stops", "low"),
    ("room", "under", 7.5, "stops", "high"),
    ("camera", "too_late", 57, "ms", "right"),  # 56.49
    ("camera", "too_late", 56, "ms", "right"),
    ("camera", "too_late", 59, "ms", "high"),
    ("beam", "lowest", 25, "cm", "right"),  # at least 24.81
    ("beam", "lowest", 24.8, "cm", "right"),
    ("beam", "lowest", 24.5, "cm", "low"),
    ("beam", "lowest", 24, "cm", "low"),
    ("beam", "lowest", 27, "cm", "high"),
    ("splash", "hold_off", 2.24, "s", "right"),  # at least 2.241
    ("splash", "hold_off", 2.3, "s", "right"),
    ("splash", "hold_off", 2.4, "s", "right"),
    ("splash", "hold_off", 2.5, "s", "right"),
    ("splash", "hold_off", 3, "s", "right"),
    ("splash", "hold_off", 2.2, "s", "low"),
    ("splash", "hold_off", 2, "s", "low"),
    ("freeze", "longest", 88, "µs", "right"),  # at most 88.9
    ("freeze", "longest", 90, "µs", "high"),
    ("stops", "owed", "-2 1/3", "stops", "low"),  # -2
]


def question(lesson, name):
    return importlib.import_module(f"lessons.{lesson}.exercises").exercises[name]


@pytest.mark.parametrize(("lesson", "name", "answer", "unit", "outcome"), CASES)
def test_a_rounded_answer_is_judged_as_at_the_set(lesson, name, answer, unit, outcome):
    reply = judge.judge(question(lesson, name), answer, unit)
    assert reply.outcome == outcome
    assert reply.slip == ""


def test_a_rounded_answer_is_told_so_and_a_short_one_why():
    assert "22 ms is rounded, and near enough" in judge.judge(question("start", "lead"), 22, "ms").text
    assert "25 cm is rounded up, to the safe side" in judge.judge(question("beam", "lowest"), 25, "cm").text
    assert "round up where it says at least" in judge.judge(question("beam", "lowest"), 24.5, "cm").text
    assert "the least that will do is asked for" in judge.judge(question("beam", "lowest"), 27, "cm").text
    assert "round down where it says at most" in judge.judge(question("freeze", "longest"), 90, "µs").text


@pytest.mark.parametrize("variant", range(1, 201))
def test_a_safe_hold_off_is_right_and_an_unsafe_one_is_not(variant):
    """In every variant: as long as the shutter is open is safe; a twentieth of a second too short is not."""
    asked = question("splash", "hold_off")
    v = judge.numbers(asked, variant)
    needed = v.open_s - v.before_s - (2 * v.way_cm / 100 / 9.81) ** 0.5
    for share in (0.001, 0.3, 0.7, 1.0):
        reply = judge.judge(asked, needed + share * (v.open_s - needed), "s", variant=variant)
        assert reply.right, (share, reply)
    assert judge.judge(asked, needed - 0.05, "s", variant=variant).outcome == "low"


@pytest.mark.parametrize(
    ("lesson", "name", "digit"),
    [("start", "lead", 1e-3), ("start", "streak", 1e-4), ("beam", "delay", 1e-3), ("splash", "stage_delay", 1e-3)],
)
def test_what_two_digits_tell_is_right(lesson, name, digit):
    """Half a unit of the second digit, or 2.5 %, whichever is more; 21.55 ms, 2 mm, 23.51 ms and 53 ms here."""
    asked = question(lesson, name)
    right = asked.answer(judge.numbers(asked))
    low, high = accepted(asked, judge.numbers(asked))
    assert high - right == pytest.approx(max(0.025 * right, digit / 2), rel=1e-6)
    assert right - low == pytest.approx(high - right)
