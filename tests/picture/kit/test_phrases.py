"""Lengths, times and names in words."""

import math

import pytest

from splashlib.picture.kit import phrases as words
from splashlib.shoot import change, tea_house


@pytest.mark.parametrize(
    ("value", "unit", "metric", "imperial"),
    [
        (0.45, "cm", "45.0 cm", "17.72 in"),
        (0.0002, "mm", "0.20 mm", "0.0079 in"),
        (1.0, "m", "1.00 m", "39.4 in"),
        (-0.0001, "cm", "0.0 cm", "0.00 in"),
        (-0.02, "cm", "−2.0 cm", "−0.79 in"),
        (math.nan, "cm", "-", "-"),
        (math.inf, "mm", "-", "-"),
    ],
)
def test_lengths_are_as_fine_in_inches_as_in_centimetres(value, unit, metric, imperial):
    assert words.length(value, unit) == metric
    assert words.length(value, unit, "imperial") == imperial


def test_inches_keep_apart_what_centimetres_keep_apart():
    for tenths in range(1, 600):
        low, high = (words.length(count / 1000, "cm", "imperial") for count in (tenths, tenths + 1))
        assert low != high


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (words.ms(math.inf), "-"),
        (words.ms(-0.0001, 0), "0 ms"),
        (words.stops(-0.04), "+0.0 stops"),
        (words.stops(-math.inf), "-"),
        (words.part_of_second(0.0), "-"),
        (words.part_of_second(1 / 12000), "1/12\N{NARROW NO-BREAK SPACE}000 s"),
        (words.part_of_second(2.0), "2 s"),
        (words.speed(math.nan), "-"),
    ],
)
def test_what_has_no_number_is_a_dash(said, expected):
    assert said == expected


def test_a_name_from_right_to_left_does_not_turn_the_sentence():
    drop = change(tea_house(), "drop.name", "תפוז").drop
    assert words.name_of(drop) == "\u2068תפוז\u2069"
    assert words.name_of(tea_house().drop) == "kumquat"
