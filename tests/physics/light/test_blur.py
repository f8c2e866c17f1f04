"""Streaks: published values, limits, and profiles summed instant by instant."""

import math

import numpy as np
import pytest

from splashlib.physics import pulse
from splashlib.physics.light import blur
from tests.reference import rows

PUBLISHED = {row["what"]: row["answer"] for row in rows("sharpness.csv")}
LIGHTS = {
    "even": 1 / 2000,
    "exponential": pulse.exponential(2e-4),
    "quenched": pulse.quenched(1e-3, 1e-4, rise=50e-6, tail=17e-6),
    "cut in the rise": pulse.quenched(1e-3, 2e-5, rise=50e-6, tail=17e-6),
    "tube": pulse.tube(1e-4, cut=2e-3),
    "train": pulse.train(2e-3, 5),
}
EVERY = pytest.mark.parametrize("light", LIGHTS.values(), ids=LIGHTS.keys())


def test_published_streaks():
    got = blur.streak(speed=3, light=1 / 20000, magnification=0.25, pixel_pitch=6e-6, enlargement=10)
    assert got.on_sensor == pytest.approx(PUBLISHED["streak_3_m_s_20000th_quarter_size"], rel=1e-12)
    assert got.on_object == pytest.approx(150e-6)
    assert got.pixels == pytest.approx(6.25)
    assert got.on_print == pytest.approx(375e-6)
    two_heads = blur.streak_length(speed=3, light=0.5e-3)
    assert two_heads == pytest.approx(PUBLISHED["double_edge_two_heads_0.5_ms_apart_at_3_m_s"])
    sync = blur.streak_length(speed=3, light=pulse.train(5e-3, 150))
    assert sync == pytest.approx(PUBLISHED["smear_of_5_ms_at_3_m_s"])


def test_published_disc():
    edge = math.pi * 0.22 * 53
    assert edge == pytest.approx(PUBLISHED["worthington_edge_speed"], abs=0.05)
    allowed = blur.allowed_duration(blur=0.1e-3, speed=edge)
    assert allowed == pytest.approx(PUBLISHED["worthington_duration_for_0.1_mm"], abs=0.005e-6)


def test_published_limits_of_seeing():
    assert blur.smallest_seen() == pytest.approx(PUBLISHED["arc_minute_at_250_mm"], rel=1e-3)
    assert blur.smallest_seen(distance=1.0) == pytest.approx(math.tan(math.radians(1 / 60)), rel=1e-6)


def test_t01_is_what_a_streak_shows_and_t05_what_tables_quote():
    light = pulse.exponential(1e-4)
    long, short = blur.streak_length(speed=3, light=light), blur.streak_length(speed=3, light=light, fraction=0.5)
    assert long == pytest.approx(3 * light.t01)
    assert long / short == pytest.approx(3.3219, abs=5e-5)


@EVERY
def test_allowed_duration_is_the_inverse(light):
    got = blur.streak(speed=2.5, light=light, magnification=0.3, pixel_pitch=6e-6)
    back = blur.allowed_duration(blur=got.on_sensor, speed=2.5, magnification=0.3)
    assert back * 2.5 == pytest.approx(got.on_object, rel=1e-12)


def test_limits():
    assert blur.streak_length(speed=0, light=1e-3) == 0
    speeds = np.array([0, 1, 3.0])
    assert blur.streak_length(speed=speeds, light=1e-3).tolist() == [0, 1e-3, 3e-3]
    assert blur.streak(speed=speeds, light=1e-3, magnification=0.5, pixel_pitch=5e-6).pixels == pytest.approx(
        [0, 100, 300]
    )


@EVERY
def test_a_point_is_the_pulse_laid_along_the_way(light):
    """Against a histogram of where the point was in 20 000 instants of equal light."""
    speed, instants = 3.0, blur._pulse(light).moments(20_000)
    edges = np.linspace(0, 1.5e-3, 31)
    counted = np.histogram(speed * instants, edges)[0] / 20_000
    fine = np.linspace(0, 1.5e-3, 30_001)
    middles = (fine[1:] + fine[:-1]) / 2
    summed = blur.point_profile(middles, speed=speed, light=light).reshape(30, 1000).mean(axis=1) * 5e-5
    assert summed == pytest.approx(counted, abs=2e-3)
    assert blur.point_profile(-1e-6, speed=speed, light=light) == 0


@EVERY
@pytest.mark.parametrize("size", [0.2e-3, 3e-3])
def test_a_bar_summed_over_equal_moments(light, size):
    """The slow picture: the bar drawn sharp at each of 5000 instants of equal light, and averaged."""
    speed, instants = 3.0, blur._pulse(light).moments(5000)
    place = np.linspace(-3e-3, 9e-3, 241)
    covered = abs(place[:, None] - speed * instants) <= size / 2
    profile = blur.bar_profile(place, speed=speed, light=light, size=size)
    assert profile == pytest.approx(covered.mean(axis=1), abs=1e-3)
    # The light is moved, not lost.
    wide = np.linspace(-0.01, 0.05, 60_001)
    total = blur.bar_profile(wide, speed=speed, light=light, size=size).sum() * 1e-6
    assert total == pytest.approx(size, rel=2e-3)


def test_a_bar_much_longer_than_its_streak_has_soft_edges_only():
    profile = blur.bar_profile(np.array([-2e-3, 0.0, 2e-3]), speed=1, light=1e-5, size=3e-3)
    assert profile.tolist() == [0, 1, 0]
    drawn_out = blur.bar_profile(0.5e-3, speed=1, light=1e-3, size=1e-5)
    assert drawn_out == pytest.approx(0.01)
    assert type(drawn_out) is float


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (lambda: blur.streak_length(speed=-1, light=1), "speed is -1 m/s; it must be 0 m/s or more"),
        (lambda: blur.streak_length(speed=1, light=0), "light is 0 s; it must be above 0 s"),
        (
            lambda: blur.streak_length(speed=1, light="fast"),
            "light is 'fast'; it must be a number in s or an array of them",
        ),
        (lambda: blur.point_profile(0, speed=0, light=1), "speed is 0 m/s; it must be above 0 m/s"),
        (lambda: blur.bar_profile(0, speed=1, light=1, size=0), "size is 0 m; it must be above 0 m"),
        (lambda: blur.allowed_duration(blur=0, speed=1), "blur is 0 m; it must be above 0 m"),
        (lambda: blur.smallest_seen(distance=-1), "distance is -1 m; it must be above 0 m"),
        (
            lambda: blur.streak(speed=1, light=1, magnification=0, pixel_pitch=1),
            "magnification is 0; it must be above 0",
        ),
    ],
)
def test_refusals(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line
