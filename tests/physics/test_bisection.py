"""Halving an interval: against roots that are known, on both scales."""

import math

import pytest

from splashlib.physics.bisection import last_held, last_held_ratio


def test_the_root_of_two():
    assert last_held(lambda x: x * x < 2, 0.0, 2.0) == pytest.approx(math.sqrt(2), abs=1e-15)


def test_a_size_that_is_not_known():
    assert last_held_ratio(lambda x: x < 3e-7, 1e-12, 1e6, steps=80) == pytest.approx(3e-7, rel=1e-12)


def test_each_step_halves_what_is_unknown():
    for steps in (1, 5, 20):
        assert 0 <= last_held(lambda x: x < 1 / 3, 0.0, 1.0, steps=steps) - 1 / 3 <= 0.5**steps


def test_what_holds_nowhere_or_everywhere_gives_the_end():
    assert last_held(lambda x: False, 1.0, 2.0) == pytest.approx(1.0)
    assert last_held(lambda x: True, 1.0, 2.0) == 2.0
