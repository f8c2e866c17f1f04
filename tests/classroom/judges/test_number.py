"""Judging a number: the order of replies, tolerances that match the digits, units, slips."""

import decimal
import fractions
from dataclasses import replace

import numpy as np
import pytest
import sympy

from splashlib.classroom.judges.judge import judge, numbers, record
from splashlib.classroom.judges.number import tolerance
from splashlib.classroom.questions import slips
from splashlib.classroom.questions.question_kinds import Number, Slip
from splashlib.classroom.questions.wording import show
from tests.classroom.samples import STOPS, TIME, fall

LAMP = Number(
    name="lamp",
    prompt="?",
    answer=lambda v: 1e-4,
    unit="ms",
    digits=2,
    slips=(slips.double(), slips.thousandth()),
    worked="?",
)


def test_many_ways_to_say_the_same():
    value = fall(numbers(TIME).height_cm / 100)
    for answer, unit in [
        (value, "s"),
        (value * 1000, "ms"),
        (f"{value:.4f} s", None),
        (f"{value:.4f}".replace(".", ",") + " s", None),
        (show(value, "ms"), None),
        (np.float64(value), "s"),
        (np.array(value), "s"),
        (fractions.Fraction(value), "s"),
        (sympy.Float(value), "seconds"),
        (f"{value:.4f}", "s"),
        (f"{value:.4f} s", "s"),
    ]:
        assert judge(TIME, answer, unit).right, (answer, unit)


def test_untouched():
    for answer in (None, ..., "", "  ", "...", "…"):
        assert judge(TIME, answer).outcome == "not_attempted"


@pytest.mark.parametrize(
    ("answer", "unit", "outcome"),
    [
        ("what", None, "unreadable"),
        ("what", "kg", "unreadable"),  # unreadable goes before the unit
        (float("nan"), "s", "wrong_kind"),
        (float("inf"), "kg", "wrong_kind"),  # the kind goes before the unit
        (10**400, "s", "wrong_kind"),
        (1j, "s", "wrong_kind"),
        ([0.3], "s", "wrong_kind"),
        (np.array([0.3, 0.4]), "s", "wrong_kind"),
        (True, "s", "wrong_kind"),
        (decimal.Decimal(1), "s", "wrong_kind"),
        (0.3, None, "wrong_unit"),
        ("0.3", None, "wrong_unit"),
        (0.3, "kg", "wrong_unit"),
        ("303 mm", None, "wrong_unit"),
        ("303 ms", "s", "wrong_unit"),
        (0.3, "blinks", "wrong_unit"),
        (0.3, 7, "wrong_unit"),
        (1e-5, "s", "low"),
        (-0.1, "s", "low"),
        (99.0, "s", "high"),
    ],
)
def test_order_of_replies(answer, unit, outcome):
    reply = judge(TIME, answer, unit)
    assert reply.outcome == outcome
    assert reply.text
    assert "\n" not in reply.text


def test_a_unit_may_be_left_out_only_where_there_is_one():
    answer = STOPS.answer(numbers(STOPS))
    assert judge(STOPS, answer).right
    assert judge(STOPS, f"{answer:g}").right
    assert judge(STOPS, answer, "stops").right
    assert judge(STOPS, answer, "s").outcome == "wrong_unit"


def test_the_tolerance_is_half_a_unit_of_the_last_digit():
    # Two digits of 0.1 ms: 0.095 to 0.105 at the widest; a check that rounds would accept anything under 0.5 ms.
    assert judge(LAMP, 0.1049, "ms").right
    assert judge(LAMP, 0.0951, "ms").right
    assert judge(LAMP, 0.1051, "ms").outcome == "high"
    assert judge(LAMP, 0.0949, "ms").outcome == "low"
    assert judge(LAMP, 0.0, "ms").outcome == "low"
    assert tolerance(LAMP, 1e-4) == pytest.approx(5e-6)


def test_a_slip_is_told_in_the_learners_own_numbers():
    v = numbers(TIME)
    typed = 2 * v.height_cm / 100 / 9.81
    reply = judge(TIME, f"{typed:.4f} s")
    assert (reply.outcome, reply.slip) == ("slip", "no root")
    assert f"{typed:.4f}".rstrip("0") in reply.text
    assert reply.see == "Why"
    metres = judge(TIME, fall(v.height_cm), "s")
    assert metres.slip == "centimetres as metres"
    assert str(v.height_cm) in metres.text


def test_no_reply_shows_the_value_that_was_asked_for():
    right = show(fall(numbers(TIME).height_cm / 100), "ms").split()[0]
    for answer in (1e-4, 0.2, 0.3, 0.41, 5.0, -1.0, "303 kg", "x", None):
        assert right not in str(judge(TIME, answer, "s" if isinstance(answer, float) else None))


def test_close_far_and_negative_are_told_apart():
    value = fall(numbers(TIME).height_cm / 100)
    assert "near enough" in judge(TIME, value * 1.02, "s").text
    assert "digits" in judge(TIME, value * 1.03, "s").text
    assert "more than ten times off" in judge(TIME, value * 31, "s").text
    assert "more than ten times off" in judge(TIME, value / 31, "s").text
    assert "about ten times off" in judge(TIME, value / 10, "s").text
    assert "times" not in judge(TIME, value * 9, "s").text
    assert judge(TIME, -value * 1.3, "s").text.endswith("has the wrong sign, too.")
    assert judge(TIME, -value, "s").text.endswith("has the right size and the wrong sign.")


def test_ten_times_is_never_said_of_stops():
    """-3 and -40 stops are 37 stops apart, and no factor of thirteen."""
    for given in (-30, -40, -0.1, 30):
        assert "times" not in judge(STOPS, given, "stops").text


def test_stops_count_in_thirds():
    assert STOPS.answer(numbers(STOPS)) == -3
    assert judge(STOPS, -2.9, "stops").right
    assert judge(STOPS, -3.16, "stops").right
    assert judge(STOPS, "-2 2/3 stops").outcome == "high"
    assert judge(STOPS, -3.9, "stops").slip == "marks counted"


AT_LEAST = replace(LAMP, digits=3, side="least", answer=lambda v: 0.2481, unit="cm", slips=(slips.double(),))
AT_MOST = replace(AT_LEAST, side="most")
SPARE = replace(AT_LEAST, spare=lambda v: 0.40)


@pytest.mark.parametrize(
    ("question", "right", "wrong"),
    [
        # 24.81 cm to the third digit, which is worth 0.5 % at its worst; up to 25, or 2.5 % more.
        (AT_LEAST, (24.7, 24.81, 25, 25.4), (24.6, 24, 25.5, 30)),
        (AT_MOST, (24.9, 24.81, 24.2, 24), (25, 24.95, 23.9, 20)),
        (SPARE, (24.81, 30, 40), (24.6, 40.5)),
    ],
)
def test_the_least_and_the_most_are_rounded_to_the_safe_side(question, right, wrong):
    assert [judge(question, cm, "cm").right for cm in right] == [True] * len(right)
    assert [judge(question, cm, "cm").right for cm in wrong] == [False] * len(wrong)


def test_a_side_is_least_or_most():
    with pytest.raises(ValueError, match="least"):
        replace(LAMP, side="up")


def test_a_slip_is_told_only_where_two_digits_tell_it():
    """2.4 is not 2.5 rounded, though both have two digits and lie within 5 % of each other."""
    question = replace(LAMP, answer=lambda v: 1.0, slips=(Slip(name="s", value=lambda v: 2.5, reply="x"),), unit="s")
    assert judge(question, 2.54, "s").slip == "s"
    assert judge(question, 2.4, "s").slip == ""
    assert judge(question, 2.6, "s").slip == ""


def test_the_example_is_in_the_unit_of_the_question():
    assert "12.5 stops" in judge(STOPS, "many").text
    assert "12.5 ms" not in judge(STOPS, "many").text
    assert "12.5 ms" in judge(TIME, "many").text


def test_half_or_double_is_never_called_close():
    # With two digits the tolerance is 5 %, and ten of them would reach from half to one and a half.
    for share in (0.5, 0.7, 0.88, 1.12, 1.5):
        assert "close" not in judge(LAMP, 1e-4 * share, "s").text, share
    assert "close" in judge(LAMP, 1.08e-4, "s").text


def test_numbers_that_would_mix_up_two_slips_are_passed_over():
    # With b = 2 the sum and the product are both 4; with b = 1 the product is the number itself.
    question = Number(
        name="mixed",
        prompt="{a} {b}",
        draw={"a": (2,), "b": (1, 2, 3)},
        answer=lambda v: v.a + v.b,
        slips=(
            Slip(name="product", value=lambda v: v.a * v.b, reply="product"),
            Slip(name="only", value=lambda v: v.a, reply="only"),
        ),
    )
    assert {numbers(question, variant).b for variant in range(1, 30)} == {3}


def test_a_question_whose_slips_never_tell_apart_is_refused():
    question = Number(name="same", prompt="", answer=lambda v: 1.0, slips=(slips.double("a"), slips.double("b")))
    with pytest.raises(ValueError, match="apart"):
        judge(question, 1.0)


def test_a_slip_that_cannot_be_made_with_some_numbers_is_left_out():
    question = Number(
        name="some",
        prompt="{a}",
        draw={"a": (1, 2)},
        answer=lambda v: 10.0,
        slips=(Slip(name="odd", value=lambda v: 5.0 if v.a == 1 else None, reply="odd"),),
    )
    assert {judge(question, 5.0, variant=n).outcome for n in (1, 2)} == {"slip", "low"}


def test_stored_answers_are_plain_and_short():
    assert record(TIME, "303 ms") == {"text": "303 ms"}
    assert record(TIME, np.float32(0.5), "s") == {"value": 0.5, "unit": "s"}
    assert len(record(TIME, "9" * 100_000)["text"]) <= 2000


@pytest.mark.parametrize(
    ("unit", "said"), [("m", "m is a length;"), ("lx", "lx is an illuminance;"), ("ISO", "ISO is an ISO;")]
)
def test_a_unit_of_another_kind_is_told_in_good_english(unit, said):
    assert judge(STOPS, 3, unit).text.startswith(f"{said} asked for is a number of stops")
