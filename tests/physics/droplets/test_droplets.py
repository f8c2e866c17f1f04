"""Droplets: thresholds, sizes, flight against a slow integration with the real drag, ceiling, reach, chance."""

import math

import numpy as np
import pytest

from splashlib.physics import droplets
from splashlib.physics import water_entry as water
from splashlib.physics.constants import AIR_DENSITY, AIR_VISCOSITY, GRAVITY
from splashlib.physics.droplets import height_at, straight_up
from splashlib.physics.droplets.landing import LEAN
from splashlib.physics.droplets.spray import rim_table
from splashlib.physics.fall import sphere_drag_coefficient
from splashlib.physics.water.crown import rim_track

FRUIT = water.solid_impact(diameter=0.035, density=1000, speed=2.95, surface="wet")
MARBLE = water.solid_impact(diameter=0.016, density=2500, speed=2.95, surface="rough")
MILK = water.drop_impact(diameter=0.0045, speed=2.73, liquid="milk")
ALL = [FRUIT, MARBLE, MILK]


def slow_flight(diameter, up, out, until):
    """Place of a droplet by stepping both components with the drag of its speed at the moment."""
    x = z = t = 0.0
    dt = 1e-4
    while t < until:
        v = math.hypot(up, out)
        cd = float(sphere_drag_coefficient(max(AIR_DENSITY * v * diameter / AIR_VISCOSITY, 1e-3)))
        k = 0.75 * cd * AIR_DENSITY / (998.2 * diameter) * v
        up, out = up - (GRAVITY + k * up) * dt, out - k * out * dt
        x, z, t = x + out * dt, z + up * dt, t + dt
    return x, z


@pytest.mark.parametrize("diameter", [0.0005, 0.001, 0.002, 0.004])
@pytest.mark.parametrize(("speed", "at_top", "down"), [(1.0, 0.10, 0.20), (3.0, 0.10, 0.20), (5.0, 0.23, 0.33)])
@pytest.mark.parametrize("lean", [0.2, 1.0, 2.0])
def test_flight_within_the_stated_share_of_the_real_path(diameter, speed, at_top, down, lean):
    relax = float(droplets.relax_time(diameter, speed, 998.2))
    up = speed / math.hypot(1, lean)
    for share, within in ((0.5, at_top), (1.0, at_top), (2.0, down)):
        time = share * up / GRAVITY
        x, z = slow_flight(diameter, up, lean * up, time)
        assert lean * up * relax * -math.expm1(-time / relax) == pytest.approx(x, rel=within)
        # Near the landing the height is nearly nothing; there it is measured by the top of the flight.
        top = up**2 / (2 * GRAVITY)
        assert float(height_at(up, relax, time)) == pytest.approx(z, abs=within * max(abs(z), 0.15 * top))


def test_ballistic_ceiling():
    time, height, _ = straight_up(0.02, 1.5, 998.2)
    assert height == pytest.approx(1.5**2 / (2 * GRAVITY), rel=0.01)
    assert time == pytest.approx(1.5 / GRAVITY, rel=0.01)
    for impact in ALL:
        found = droplets.highest(impact)
        for speed, height in zip(droplets.droplet_speed(impact), found.height, strict=True):
            assert 0.5 * speed**2 / (2 * GRAVITY) < height < speed**2 / (2 * GRAVITY)


def test_straight_up_against_slow_integration():
    time, height, _ = straight_up(0.002, 1.8, 998.2)
    assert slow_flight(0.002, 1.8, 0.0, time)[1] == pytest.approx(height, rel=0.03)


def test_droplets_of_a_fruit_are_highest_when_it_is_told():
    """Thrown drops highest at 100-200 ms for a 3-4 cm body at 1-3 m/s (C)."""
    assert 0.1 < droplets.highest(FRUIT).time.likely < 0.2
    assert droplets.droplet_size(FRUIT).early > 1e-4
    assert droplets.droplet_size(FRUIT).late < 0.01


@pytest.mark.parametrize("impact", ALL)
def test_bands_are_in_order_and_finite(impact):
    found = droplets.highest(impact)
    for band in (
        found.time,
        found.height,
        droplets.droplet_size(impact),
        droplets.droplet_speed(impact),
        droplets.reach(impact),
    ):
        assert 0 < band.early <= band.likely <= band.late < 5


def test_back_through_the_beam():
    low = droplets.falls_through(FRUIT, 0.02)
    high = droplets.falls_through(FRUIT, 0.12)
    peak = droplets.highest(FRUIT)
    assert all(a >= b for a, b in zip(low, peak.time, strict=True))
    assert high.late < low.late
    assert high.early == pytest.approx(peak.time.early)
    assert droplets.falls_through(FRUIT, 1.0) is None
    # Down through the surface: about twice the time up.
    down = droplets.falls_through(FRUIT, 0.0).likely
    assert down == pytest.approx(2 * peak.time.likely, rel=0.1)
    with pytest.raises(ValueError, match="height is -1 m"):
        droplets.falls_through(FRUIT, -1)


@pytest.mark.parametrize("height", [-0.18, 0.0, 0.03])
def test_paths_fly_as_newton_says_and_end_where_reach_does(height):
    """Against the equation of motion in small steps: drag in proportion to the speed, as `height_at` has it."""
    ends = droplets.reach(FRUIT, height=height)
    for (out, up), end, speed, lean in zip(
        droplets.paths(FRUIT, height=height, points=9), ends, droplets.droplet_speed(FRUIT), LEAN, strict=True
    ):
        assert (out[-1], up[-1]) == pytest.approx((end, height), abs=1e-6)
        assert up[0] == 0
        size = droplets.droplet_size(FRUIT).likely
        relax = float(droplets.relax_time(size, speed * math.hypot(1, lean), FRUIT.liquid.density))
        x, z, u, w, step, way = out[0], 0.0, lean * speed, speed, 2e-5, []
        while w > 0 or z > height:
            way.append((x, z))
            x, z = x + u * step, z + w * step
            u, w = u - u / relax * step, w - (GRAVITY + w / relax) * step
        slow = np.array(way).T
        assert np.interp(out, *slow) == pytest.approx(up, abs=1e-3)


def test_paths_are_nan_where_drops_do_not_get_so_high():
    assert all(np.isnan(way[:, -1]).all() for way in droplets.paths(FRUIT, height=5.0))


def test_faster_and_larger_splashes_reach_farther():
    bodies = [water.solid_impact(diameter=0.035, density=1000, speed=u, surface="wet") for u in (1.5, 2.5, 4)]
    reaches = [droplets.reach(b).likely for b in bodies]
    assert reaches == sorted(reaches)
    assert 0.1 < droplets.reach(FRUIT).likely < 0.6


def test_film_threshold_of_cossali():
    drop = water.drop_impact(diameter=0.0045, speed=2.73, film_depth=0.0009)
    strength, needed = droplets.film_threshold(drop)
    assert needed == pytest.approx(2100 + 5880 * 0.2**1.44)
    assert strength == pytest.approx(drop.weber * drop.ohnesorge**-0.4)
    pool = water.drop_impact(diameter=0.0045, speed=2.73)
    assert droplets.film_threshold(pool)[1] == pytest.approx(7980)
    assert droplets.wall_threshold(drop)[1] == 57.7
    chances = [
        droplets.throwing_chance(water.drop_impact(diameter=0.004, speed=u, film_depth=0.001))
        for u in np.linspace(0.5, 5, 20)
    ]
    assert chances == sorted(chances)
    assert (chances[0], chances[-1]) == (0, 1)


def test_discs_throw_from_140():
    """Half-way of the ramp for bodies lies near the Weber number from which discs throw (Peters et al. 2013)."""
    speed = math.sqrt(140 * FRUIT.liquid.tension / FRUIT.liquid.density / 0.0175)
    body = water.solid_impact(diameter=0.035, density=1000, speed=speed, surface="rough")
    assert 0.1 < droplets.throwing_chance(body) < 0.5


def test_draws_repeat_with_the_seed_and_differ_without():
    first = droplets.throw(FRUIT, np.random.default_rng(1))
    again = droplets.throw(FRUIT, np.random.default_rng(1))
    other = droplets.throw(FRUIT, np.random.default_rng(2))
    assert all(np.array_equal(a, b) for a, b in zip(first, again, strict=True))
    assert not np.array_equal(first.upward, other.upward)
    assert len(first.diameter) == droplets.usual_count(FRUIT) > 20


def test_drawn_sizes_and_speeds_belong_to_the_splash():
    drawn = droplets.throw(FRUIT, np.random.default_rng(1), count=4000)
    size, speed = droplets.droplet_size(FRUIT), droplets.droplet_speed(FRUIT)
    assert np.median(drawn.diameter) == pytest.approx(size.likely, rel=0.35)
    assert drawn.upward.max() < 1.7 * speed.late
    assert np.percentile(drawn.upward, 99) > speed.early
    peak = water.crown_peak(FRUIT).late
    assert np.all((drawn.released > 0) & (drawn.released <= peak))
    assert np.all(np.diff(drawn.released) >= 0)


def test_places_in_time():
    drawn = droplets.throw(FRUIT, np.random.default_rng(1), count=300)
    assert all(np.isnan(part).all() for part in droplets.places(drawn, 0.0))
    assert all(np.isnan(part).all() for part in droplets.places(drawn, 3.0))
    x, y, z = droplets.places(drawn, 0.05)
    seen = ~np.isnan(z)
    assert seen.sum() > 100
    assert np.all(z[seen] >= 0)
    # Place by place: a step of time moves a droplet by its speed.
    out, up = droplets.speeds(drawn, 0.05)
    x2, y2, z2 = droplets.places(drawn, 0.0501)
    both = seen & ~np.isnan(z2)
    assert (z2 - z)[both] / 1e-4 == pytest.approx(up[both], abs=0.02)
    assert (np.hypot(x2, y2) - np.hypot(x, y))[both] / 1e-4 == pytest.approx(out[both], abs=0.02)


def test_a_count_of_zero_and_a_wrong_one():
    assert droplets.throw(FRUIT, np.random.default_rng(1), count=0).diameter.size == 0
    with pytest.raises(ValueError, match="count"):
        droplets.throw(FRUIT, np.random.default_rng(1), count=-1)


def test_every_case_can_be_thrown():
    rng = np.random.default_rng(3)
    for _ in range(300):
        drop = water.drop_impact(diameter=float(np.exp(rng.uniform(-9, -3.5))), speed=float(np.exp(rng.uniform(-4, 3))))
        thrown = droplets.throw(drop, rng, count=5)
        assert all(np.isfinite(part).all() for part in thrown)
        assert np.all(thrown.diameter > 0)


def test_sizes_follow_from_how_fast_the_rim_slows():
    """1.89 sqrt(sigma/(rho a)), a the slowing of the rim, taken here from a fit to the middle of its rise."""
    track = rim_track(FRUIT)[10:-10]
    times, speeds = [r.time for r in track], [r.speed for r in track]
    middle = times[len(times) // 2]
    slowing = -np.polyval(np.polyder(np.polyfit(times, speeds, 4)), middle)
    expected = 1.89 * math.sqrt(FRUIT.liquid.tension / (FRUIT.liquid.density * slowing))
    found = 1.89 * np.interp(middle, rim_table(FRUIT)[0], rim_table(FRUIT)[3])
    assert found == pytest.approx(expected, rel=0.05)
    size = droplets.droplet_size(FRUIT)
    assert size.late == pytest.approx(1.89 * rim_table(FRUIT)[3].max())
    assert 2 * size.early < expected < size.late
