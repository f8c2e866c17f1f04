"""What the beam leaves of a hand that is too high: published cases, limits, and a slow way to the same number."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.air.release import hand_in_picture
from splashlib.physics.fall import fall_speed, fall_time

FAST = settings(deadline=None, max_examples=150)


def moved(release, beam, height, error):
    """How much lower the body is when the light comes a set time after the beam, by two whole falls [m]."""
    wait = fall_time(release - height) - fall_time(release - beam)
    fallen = 9.81 * (fall_time(release + error - beam) + wait) ** 2 / 2
    return height - (release + error - fallen)


@pytest.mark.parametrize(("beam", "late_ms", "way_mm"), [(0.43, 3.6, 10.7), (0.12, 0.17, 0.5)])
def test_the_two_beams_of_the_course(beam, late_ms, way_mm):
    """3 mm of hand at 45 cm: the whole numbers, and the formula to its stated first order."""
    lead = [fall_time(hand) - fall_time(hand - beam) for hand in (0.45, 0.453)]
    assert 1e3 * (lead[0] - lead[1]) == pytest.approx(late_ms, rel=0.02)
    assert 1e3 * (lead[0] - lead[1]) * fall_speed(0.45) == pytest.approx(way_mm, rel=0.02)
    first = 3 * hand_in_picture(0.45, beam_height=beam)
    assert first == pytest.approx(way_mm, rel=0.003 / (4 * (0.45 - beam)) + 0.02)


@FAST
@given(release=st.floats(0.05, 2), beam=st.floats(0.02, 0.95), height=st.floats(0, 1))
def test_it_is_the_slope_of_two_falls(release, beam, height):
    at, low = beam * release, beam * release * height
    step = 1e-6 * (release - at)
    slope = (moved(release, at, low, step) - moved(release, at, low, -step)) / (2 * step)
    assert hand_in_picture(release, beam_height=at, height=low) == pytest.approx(slope, rel=1e-4, abs=1e-6)


def test_limits():
    assert hand_in_picture(0.45, beam_height=0.12, height=0.12) == 0
    assert hand_in_picture(0.45, beam_height=0) == 0
    # Near the water: half the beam's height over the release height.
    assert hand_in_picture(0.5, beam_height=0.001) == pytest.approx(0.001, rel=0.01)
    # A quarter of the fall to the beam: at the water it is twice as fast as there, so 1.
    assert hand_in_picture(0.4, beam_height=0.3) == pytest.approx(1)
    assert hand_in_picture(0.4, beam_height=0.399999) > 600


@FAST
@given(beam=st.floats(0.01, 0.43), step=st.floats(0.001, 0.015))
def test_a_lower_beam_always_leaves_less(beam, step):
    lower, higher = hand_in_picture(0.45, beam_height=np.array([beam, beam + step]))
    assert lower < higher


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ({"release_height": 0.0, "beam_height": 0.0}, "release_height is 0 m"),
        ({"release_height": 0.4, "beam_height": 0.4}, "beam_height is 0.4 m"),
        ({"release_height": 0.4, "beam_height": 0.1, "height": 0.2}, "height is 0.2 m"),
        ({"release_height": 0.4, "beam_height": -0.1}, "beam_height is -0.1 m"),
        ({"release_height": math.nan, "beam_height": 0.1}, "release_height is nan"),
    ],
)
def test_impossible_input_gets_one_line(arguments, words):
    with pytest.raises(ValueError, match=words) as caught:
        hand_in_picture(**arguments)
    assert "\n" not in str(caught.value)
