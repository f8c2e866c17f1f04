"""Judging a choice: letters that change with the variant, keys that do not."""

import random

import pytest

from splashlib.classroom.judges.choice import LETTERS
from splashlib.classroom.judges.judge import judge, record
from splashlib.classroom.questions.variants import order
from tests.classroom.samples import EMPTY_FRAME


def letter_of(key, variant):
    return LETTERS[[option.key for option in order(EMPTY_FRAME, variant)].index(key)]


def test_letter_key_and_spelling():
    for variant in range(1, 20):
        letter = letter_of("late", variant)
        for answer in ("late", letter, letter.upper(), f" {letter}) ", f"{letter}."):
            assert judge(EMPTY_FRAME, answer, variant=variant).right
        assert record(EMPTY_FRAME, letter, variant=variant) == {"option": "late"}


def test_every_wrong_option_has_a_reply_of_its_own():
    for key, word in (("weak", "dark"), ("focus", "orange")):
        reply = judge(EMPTY_FRAME, letter_of(key, 3), variant=3)
        assert (reply.outcome, reply.slip) == ("slip", key)
        assert word in reply.text


def test_the_order_changes_with_the_variant_and_repeats():
    orders = [tuple(option.key for option in order(EMPTY_FRAME, variant)) for variant in range(1, 40)]
    assert len(set(orders)) == 6
    assert orders == [tuple(option.key for option in order(EMPTY_FRAME, variant)) for variant in range(1, 40)]


@pytest.mark.parametrize(
    ("answer", "outcome"), [("z", "unreadable"), ("a b", "unreadable"), (1, "wrong_kind"), (..., "not_attempted")]
)
def test_what_is_no_option(answer, outcome):
    assert judge(EMPTY_FRAME, answer).outcome == outcome


@pytest.mark.parametrize("answer", [1, 3.0, 0])
def test_a_plain_number_is_called_a_number(answer):
    assert judge(EMPTY_FRAME, answer).text.startswith("That is a number. Choose one of the letters")


def test_the_shared_generator_is_left_alone():
    random.seed(5)
    before = random.getstate()
    judge(EMPTY_FRAME, "a", variant=77)
    assert random.getstate() == before
