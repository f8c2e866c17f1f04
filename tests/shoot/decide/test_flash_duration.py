"""Is the flash short enough: streaks, the power for points, one splash in four lights."""

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.pulse import KINDS
from splashlib.shoot import change, change_all, contact_speed, framed, pulse_of, sees, streak_in, tea_house, with_body
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from splashlib.shoot.decide.flash_duration import (
    CROP,
    DROPLET,
    MARKS,
    OVER,
    POINT,
    durations,
    heads_apart,
    in_four_lights,
    longest_light,
    on_route,
    power_for_points,
    seen_on_print,
    shortest_power,
    splash_moment,
    stops_below_full,
    unseen_from,
    usual_distance,
)
from splashlib.shoot.setup.table import ROUTES
from tests.effort import cases

SCENE = tea_house()
POWERS = st.sampled_from(MARKS)
HEIGHTS = st.floats(0.15, 1.5)


def lit(kind="quenched", power=1 / 32, height=0.45):
    return change_all(SCENE, {"flashes.0.kind": kind, "flashes.0.power": power, "drop.release_height": height})


@settings(deadline=None, max_examples=cases(60))
@given(kind=st.sampled_from(KINDS), power=POWERS, height=HEIGHTS, distance=st.floats(0.2, 2), width=st.floats(0.1, 2))
def test_a_streak_is_speed_times_duration_everywhere(kind, power, height, distance, width):
    setup = change(lit(kind, power, height), "camera.distance", distance)
    found = streak_in(setup, print_width=width)
    way = contact_speed(setup) * pulse_of(setup.flashes[0]).t01
    on_sensor = way * 0.15 / (distance - 0.15)
    assert found.on_object == pytest.approx(way)
    assert found.pixels == pytest.approx(on_sensor / 0.036 * 6000)
    assert found.on_print == pytest.approx(on_sensor / 0.036 * width)


def test_without_a_print_the_streak_is_that_on_the_sensor():
    found = streak_in(SCENE)
    assert found.on_print == pytest.approx(found.on_sensor)


@settings(deadline=None, max_examples=cases(60))
@given(kind=st.sampled_from(KINDS), height=HEIGHTS)
def test_the_power_for_points_is_the_highest_that_does_it(kind, height):
    setup = lit(kind, height=height)
    enough = [power for power in MARKS if streak_in(lit(kind, power, height)).on_object <= POINT * DROPLET]
    assert power_for_points(setup) == max(enough, default=None)
    shortest = shortest_power(setup)
    times = {power: pulse_of(replace(setup.flashes[0], power=power)).t01 for power in MARKS}
    assert times[shortest] == pytest.approx(min(times.values()))
    assert durations(setup.flashes[0], kind) == pytest.approx([times[power] for power in MARKS])


def test_only_one_kind_gets_longer_when_it_is_turned_down():
    head = SCENE.flashes[0]
    quenched, switched, voltage, row = (durations(head, kind) for kind in KINDS)
    down = sorted(range(len(MARKS)), key=lambda at: -MARKS[at])
    for times in (quenched, switched):
        assert all(times[a] > times[b] for a, b in pairwise(down))
    assert all(voltage[a] < voltage[b] for a, b in pairwise(down))
    assert len(set(row)) == 1
    assert shortest_power(lit("voltage_controlled")) == 1.0
    assert power_for_points(lit("high_speed_sync")) is None


def test_the_longest_light_is_a_fifth_of_a_droplet():
    assert longest_light(SCENE) * contact_speed(SCENE) == pytest.approx(0.0002)
    assert stops_below_full(lit(power=1 / 8)) == pytest.approx(3)


def test_too_small_to_see_is_one_minute_of_arc():
    assert unseen_from(0.001) == pytest.approx(0.001 / math.radians(1 / 60), rel=1e-4)


@settings(deadline=None, max_examples=cases(25))
@given(
    kind=st.sampled_from(KINDS), power=POWERS, height=st.floats(0.2, 1), apart=st.floats(0, 0.002),
    style=st.sampled_from(["mirror", "mirror_up", "no_mirror", "held_open"]),
)  # fmt: skip
def test_four_lights_differ_in_nothing_but_the_light_in_time(kind, power, height, apart, style):
    setup = change(lit(kind, power, height), "camera.style", style)
    four = in_four_lights(setup, apart=apart)
    for each in four:
        assert flash_over_metered(each) == pytest.approx(OVER)
        assert sees(each).after_contact == pytest.approx(splash_moment(setup), abs=1e-6)
        assert (each.camera.style, each.room.lux) == ("held_open", 0.0)
        assert framed(each).width * CROP == pytest.approx(framed(setup).width)
        assert replace(each, flashes=four[1].flashes, trigger=four[1].trigger) == four[1]
    full, own, row, two = four
    assert full.flashes[0].power == 1.0
    assert pulse_of(own.flashes[0]).t01 == pulse_of(setup.flashes[0]).t01
    assert row.flashes[0].kind == "high_speed_sync"
    assert heads_apart(own) == 0.0
    assert heads_apart(two) == pytest.approx(apart * sees(own).speed, rel=1e-3, abs=1e-9)


def test_bodies_without_a_crown_have_a_moment_too():
    assert 0.001 < splash_moment(with_body(SCENE, "drop of milk")) < 0.01
    assert splash_moment(with_body(SCENE, "glass marble")) == pytest.approx(0.012)


@pytest.mark.parametrize("route", ["cable", "optical", "radio"])
def test_another_route_keeps_the_instant(route):
    setup = change(SCENE, "trigger.delay", 0.012)
    moved = on_route(setup, route)
    assert moved.flashes[0].route == route
    assert (moved.flashes[0].route_lag, moved.flashes[0].route_scatter) == ROUTES[route]
    assert sees(moved).after_contact == pytest.approx(sees(setup).after_contact, abs=1e-6)
    assert on_route(moved, route) == moved
    short = change(setup, "trigger.delay", 0.0)
    assert on_route(short, "radio").trigger.delay == 0.0


@pytest.mark.parametrize(
    ("width", "distance", "smallest"), [(0.30, 0.36056, 1.0488e-4), (0.10, 0.25, 7.2722e-5), (1.00, 1.20185, 3.4961e-4)]
)
def test_a_print_is_looked_at_from_its_diagonal_but_no_nearer_than_25_cm(width, distance, smallest):
    """By hand: 36 x 24 mm has a diagonal of 1.2019 widths; one minute of arc is 2.9089e-4."""
    assert usual_distance(SCENE, width) == pytest.approx(distance, rel=1e-4)
    assert not seen_on_print(SCENE, 0.999 * smallest, width)
    assert seen_on_print(SCENE, 1.001 * smallest, width)


def test_four_lights_are_made_up_for_any_unit():
    """A guide number that no unit has is not asked for: the ISO gives the rest."""
    weak = change_all(SCENE, {"flashes.0.power": 1e-4, "camera.aperture": 128.0, "flashes.0.distance": 2.0})
    for setup in in_four_lights(weak, apart=0.001):
        assert flash_over_metered(setup) == pytest.approx(OVER)
