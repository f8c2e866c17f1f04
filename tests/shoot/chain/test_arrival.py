"""How a body arrives at the water: against the floors below, and the limits."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.fall import fall_speed, fall_time
from splashlib.shoot import BODIES, Drop, arrival, body_terminal_speed, tea_house, with_body
from splashlib.shoot.chain.arrival import mass, way
from tests.effort import cases

HEIGHTS = st.floats(0.02, 2.0)
NAMES = st.sampled_from(sorted(BODIES))
FAST = settings(deadline=None, max_examples=cases(60))


def drop_of(name):
    return with_body(tea_house(), name).drop


def test_the_fruit_of_the_scene():
    """45 cm: 302.9 ms and 2.971 m/s without air by hand; 22.4 g times half the speed squared is 0.1 J."""
    now = arrival(tea_house().drop)
    assert now.free_time == pytest.approx(math.sqrt(0.9 / 9.81), rel=1e-12)
    assert now.free_speed == pytest.approx(math.sqrt(0.9 * 9.81), rel=1e-12)
    assert now.late * 1e3 == pytest.approx(0.56, abs=0.02)
    assert mass(tea_house().drop) == pytest.approx(math.pi / 6 * 0.035**3 * 1000)
    assert now.energy == pytest.approx(0.5 * mass(tea_house().drop) * now.speed**2)
    assert now.energy == pytest.approx(mass(tea_house().drop) * 9.81 * 0.45, rel=0.01)


@FAST
@given(height=HEIGHTS, name=NAMES)
def test_late_and_behind_tell_the_same(height, name):
    """What is missing when the free fall ends is fallen in the time by which it is late, at nearly full speed."""
    now = arrival(drop_of(name), height)
    assert now.late > 0
    assert 0.95 * now.speed * now.late < now.behind <= now.speed * now.late
    assert now.speed < now.free_speed


@FAST
@given(height=HEIGHTS, name=NAMES)
def test_drag_is_part_of_it(height, name):
    drop = drop_of(name)
    drag = fall_time(height, terminal_speed=body_terminal_speed(drop)) - fall_time(height)
    carried = 0.75 * 1.204 / drop.density * fall_time(height)
    assert arrival(drop, height).late == pytest.approx(drag + carried, rel=0.03)


@FAST
@given(height=HEIGHTS, name=NAMES)
def test_the_way_ends_at_the_water(height, name):
    now = arrival(drop_of(name), height)
    with_air, _ = way(drop_of(name), np.array([0.0, now.time]), height)
    _, without = way(drop_of(name), np.array([0.0, now.free_time]), height)
    assert with_air == pytest.approx([height, 0], abs=1e-9)
    assert without == pytest.approx([height, 0], abs=1e-9)


def test_an_oval_body_weighs_more_and_a_denser_one_is_less_late():
    oval = Drop(diameter=0.03, length=0.045)
    assert mass(oval) == pytest.approx(1.5 * mass(Drop(diameter=0.03)))
    assert arrival(Drop(density=2000), 1.0).late < 0.6 * arrival(Drop(density=1000), 1.0).late


def test_no_height_is_below_the_water():
    with pytest.raises(ValueError, match="height"):
        arrival(tea_house().drop, -0.1)
    assert arrival(tea_house().drop, 0.0).speed == 0 == fall_speed(0.0)
