"""The proof that authors run: it passes the samples, and finds every kind of flaw that it is there to find."""

from dataclasses import replace

import pytest

from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions import slips
from splashlib.classroom.questions.question_kinds import BadSetting, Number, Option, Slip
from splashlib.classroom.questions.wording import show
from splashlib.classroom.record.progress_file import Progress
from tests.classroom.samples import EMPTY_FRAME, IN_TIME, LEAD, QUESTIONS, TIME, TIME_FORMULA, sample_exercises
from tests.proof.exercise_proof import check_exercises


def test_the_samples_pass_over_500_variants(tmp_path):
    check_exercises(sample_exercises(progress=Progress(tmp_path / "p.sqlite")), variants=500)
    assert not list(tmp_path.iterdir())  # a proof keeps nothing


def test_a_share_asked_for_in_per_cent_passes():
    """Its unit in SI has no name; a bare number is then one in per cent."""
    share = Number(
        name="share",
        prompt="The frame is {tall} mm tall, the fruit {fruit} mm. Which share of the frame is the fruit?",
        draw={"tall": (60, 80, 100), "fruit": (25, 35, 40)},
        answer=lambda v: v.fruit / v.tall,
        unit="%",
        slips=(
            Slip(name="turned round", value=lambda v: v.tall / v.fruit, reply="That is frame over fruit."),
            Slip(name="the rest", value=lambda v: 1 - v.fruit / v.tall, reply="That is what is left of the frame."),
        ),
        hints=("Divide the part by the whole.",),
        worked=lambda v: f"{v.fruit} of {v.tall} mm: {show(v.fruit / v.tall, '%')}.",
    )
    check_exercises(Exercises("shares", (share,)), variants=100)


def flawed(question, **changes):
    return Exercises("flawed", (replace(question, **changes),))


FLAWS = {
    "no prompt": (flawed(TIME, prompt=" "), "no prompt"),
    "no solution": (flawed(TIME, worked=""), "worked solution"),
    "a solution that shows another number": (
        flawed(TIME, worked=lambda v: f"t = √(2h/g) = {show(1.03 * TIME.answer(v), 'ms')}."),
        "shows another answer",
    ),
    "a solution without the unit": (
        flawed(TIME, worked=lambda v: f"t = √(2h/g) = {1000 * TIME.answer(v):.0f}."),
        "shows another answer",
    ),
    "a solution with a digit less than is asked for": (
        flawed(TIME, worked=lambda v: f"t = √(2h/g) = {show(TIME.answer(v), 'ms', 2)}."),
        "shows another answer",
    ),
    "a solution with another formula": (
        flawed(TIME_FORMULA, worked="Solve h = g·t²/2 for t: t = sqrt(h/g)."),
        "shows another answer",
    ),
    "a solution with another function": (
        flawed(LEAD, worked="```python\ndef lead(height, beam):\n    return (2 * height / 9.81) ** 0.5\n```"),
        "shows another answer",
    ),
    "a solution without its function": (flawed(LEAD, worked="Subtract the two."), "shows another answer"),
    "a solution with other settings": (flawed(IN_TIME, worked="Raise the beam to 22 cm."), "shows another answer"),
    "no hints": (flawed(TIME, hints=()), "no hint"),
    "one slip": (flawed(TIME, slips=TIME.slips[:1]), "two or more slips"),
    "a name twice": (flawed(TIME, slips=(slips.half("a"), slips.half("b"))), "apart|same name"),
    "an empty reply": (flawed(TIME, slips=(slips.half(" "), slips.double())), "half"),
    "a reply that tells": (
        flawed(
            TIME,
            slips=(
                Slip(name="telling", times=3, reply=lambda v, given: f"It is {1000 * TIME.answer(v):.0f} ms."),
                slips.half(),
            ),
        ),
        "tells the right value",
    ),
    "a reply that tells a formula": (
        flawed(
            TIME_FORMULA,
            slips=(Slip(name="telling", value="h", reply="It is sqrt(2*h/g)."), TIME_FORMULA.slips[0]),
        ),
        "tells the right value",
    ),
    "an answer that is not finite": (flawed(TIME, answer=lambda v: float("nan")), "right answer"),
    "a slip that is never made": (
        flawed(TIME, slips=(Slip(name="never", value=lambda v: None, reply="x"), *TIME.slips)),
        "no variant shows the slip never",
    ),
    "a rubbish answer that passes": (
        flawed(
            EMPTY_FRAME,
            options=(
                Option(key="nan", text="a", reply="a", right=True),
                Option(key="bb", text="b", reply="b"),
                Option(key="cc", text="c", reply="c"),
            ),
        ),
        "rubbish",
    ),
}


@pytest.mark.parametrize("flaw", FLAWS)
def test_finds(flaw):
    exercises, words = FLAWS[flaw]
    with pytest.raises((AssertionError, ValueError), match=words):
        check_exercises(exercises, variants=40)


def test_finds_a_formula_slip_that_is_right():
    same = (Slip(name="other writing", value="sqrt(2*h)/sqrt(g)", reply="x"), TIME_FORMULA.slips[0])
    with pytest.raises(ValueError, match="apart"):
        check_exercises(flawed(TIME_FORMULA, slips=same))


def test_finds_a_function_slip_that_the_inputs_do_not_tell():
    same = (Slip(name="same", value=LEAD.reference, reply="x"), LEAD.slips[0])
    with pytest.raises(ValueError, match="apart"):
        check_exercises(flawed(LEAD, slips=same))


def test_finds_a_setting_that_is_worked_wrongly_or_a_slip_that_is_no_slip():
    with pytest.raises(ValueError, match="apart"):
        check_exercises(flawed(IN_TIME, answer=lambda v: {"beam.height": 0.06}))
    deaf = BadSetting(name="deaf", example=lambda v: {"beam.height": 0.02}, test=lambda v, s: False, reply="x")
    with pytest.raises(ValueError, match="apart"):
        check_exercises(flawed(IN_TIME, slips=(deaf, IN_TIME.slips[0])))


def test_two_questions_of_one_name_are_refused():
    with pytest.raises(ValueError, match="same name"):
        Exercises("twice", (*QUESTIONS, TIME))
