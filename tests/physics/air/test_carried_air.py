"""The air that a falling body pushes aside: limits, measured size, and a slow integration of the whole equation."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.air import carried_air as air
from splashlib.physics.constants import AIR_DENSITY, AIR_VISCOSITY, GRAVITY, WATER_DENSITY
from splashlib.physics.fall import (
    fall_speed,
    fall_time,
    sphere_drag_coefficient,
    terminal_speed,
    water_drop_terminal_speed,
)

BALL = {"diameter": 0.040, "density": 2.7e-3 / (math.pi / 6 * 0.040**3)}
FRUIT = {"diameter": 0.035, "density": 1000.0}
FAST = settings(deadline=None, max_examples=100)


def slow_fall(height, *, diameter, density, drag, added=0.5, step=2e-5):
    """Newton's second law for body and carried air, step by step: time and speed at the end."""
    volume, area = math.pi / 6 * diameter**3, math.pi / 4 * diameter**2
    mass, displaced = density * volume, AIR_DENSITY * volume
    fallen = speed = time = 0.0
    while fallen < height:
        force = (mass - displaced) * GRAVITY - 0.5 * AIR_DENSITY * area * drag(speed) * speed**2
        change = force / (mass + added * displaced)
        before = fallen, speed
        fallen += speed * step + change * step**2 / 2
        speed, time = speed + change * step, time + step
    back = (fallen - height) / (fallen - before[0])
    return time - back * step, speed - back * (speed - before[1])


@pytest.mark.parametrize("body", [BALL, FRUIT], ids=["ball", "fruit"])
@pytest.mark.parametrize("height", [0.1, 0.45, 1.5])
def test_against_a_slow_integration_with_the_same_drag(body, height):
    vt = terminal_speed(**body)
    constant = float(sphere_drag_coefficient(AIR_DENSITY * vt * body["diameter"] / AIR_VISCOSITY))
    time, speed = slow_fall(height, **body, drag=lambda _: constant)
    known = {"density": body["density"], "terminal_speed": vt}
    assert air.time_in_air(height, **known) == pytest.approx(time, rel=2e-4)
    assert air.speed_in_air(height, **known) == pytest.approx(speed, rel=2e-4)


@pytest.mark.parametrize("body", [BALL, FRUIT], ids=["ball", "fruit"])
@pytest.mark.parametrize("height", [0.45, 1.0, 1.5])
def test_the_stated_error_of_a_constant_drag_coefficient(body, height):
    """The docstring says that the air's share is about a fifth too large, never too small."""

    def drag(speed):
        return sphere_drag_coefficient(AIR_DENSITY * max(speed, 1e-3) * body["diameter"] / AIR_VISCOSITY)

    free = fall_time(height)
    real = slow_fall(height, **body, drag=drag)[0] - free
    ours = air.time_in_air(height, density=body["density"], terminal_speed=terminal_speed(**body)) - free
    assert 1.0 < ours / real < 1.22


@pytest.mark.parametrize("height", [0.45, 1.0, 1.5])
def test_the_stated_error_for_a_drop(height):
    """A drop of 5 mm that stays round falls faster than one as flat as at its terminal speed: a third less share."""
    drop = {"diameter": 0.005, "density": WATER_DENSITY}

    def drag(speed):
        return sphere_drag_coefficient(AIR_DENSITY * max(speed, 1e-3) * drop["diameter"] / AIR_VISCOSITY)

    free, flat = fall_time(height), water_drop_terminal_speed(drop["diameter"])
    round_one = slow_fall(height, **drop, drag=drag)[0] - free
    ours = air.time_in_air(height, density=drop["density"], terminal_speed=flat) - free
    assert 2 / 3 < round_one / ours < 0.9


def test_a_beach_ball_in_slow_motion():
    """At three times the density of air: (1 - 1/3) / (1 + 1/6) of g, 4/7. Far denser bodies feel all of g."""
    assert air.gravity_in_air(3 * AIR_DENSITY) == pytest.approx(GRAVITY * 4 / 7, rel=1e-12)
    assert air.gravity_in_air(1e12) == pytest.approx(GRAVITY, rel=1e-9)
    assert 1 - air.gravity_in_air(BALL["density"]) / GRAVITY == pytest.approx(0.022, abs=0.0005)
    assert 1 - air.gravity_in_air(1000.0) / GRAVITY == pytest.approx(0.0018, abs=0.00005)


@FAST
@given(height=st.floats(1e-4, 3), density=st.floats(20, 10000), vt=st.floats(2, 100))
def test_there_and_back(height, density, vt):
    known = {"density": density, "terminal_speed": vt}
    time = air.time_in_air(height, **known)
    assert air.distance_in_air(time, **known) == pytest.approx(height, rel=1e-9)
    assert time > fall_time(height, terminal_speed=vt)
    assert air.speed_in_air(height, **known) < fall_speed(height, terminal_speed=vt) * (1 + 1e-12)


@FAST
@given(height=st.floats(1e-3, 3), density=st.floats(20, 10000), vt=st.floats(2, 100))
def test_speed_is_the_slope_of_the_way(height, density, vt):
    known = {"density": density, "terminal_speed": vt}
    time, step = air.time_in_air(height, **known), 1e-5
    ahead, behind = (air.distance_in_air(time + s, **known) for s in (step, -step))
    assert (ahead - behind) / (2 * step) == pytest.approx(air.speed_in_air(height, **known), rel=1e-5)


def test_arrays():
    heights = np.array([0.0, 0.1, 1.0])
    found = air.time_in_air(heights, density=100.0, terminal_speed=9.0)
    assert found.shape == (3,)
    assert found[0] == 0
    assert found[2] == air.time_in_air(1.0, density=100.0, terminal_speed=9.0)


@pytest.mark.parametrize("density", [0.0, -1.0, math.nan, 1.0, AIR_DENSITY])
def test_nothing_lighter_than_air(density):
    with pytest.raises(ValueError, match=r"^density"):
        air.gravity_in_air(density)


@pytest.mark.parametrize("height", [-0.1, math.nan, math.inf])
def test_bad_heights(height):
    with pytest.raises(ValueError, match="height"):
        air.time_in_air(height, density=1000.0)
