"""Crown, dome and jet: the rim against an independent integration, limits, scaling, outlines."""

import itertools
import math

import numpy as np
import pytest

from splashlib.physics import water_entry as water
from splashlib.physics.constants import GRAVITY, WATER_DENSITY, WATER_SURFACE_TENSION
from splashlib.physics.water import rim
from splashlib.physics.water.crown import rim_track, sheet_thickness
from splashlib.physics.water.jet import jet_chance, pinch_jet

CASES = [
    water.solid_impact(diameter=0.035, density=1000, speed=2.95, surface="wet"),
    water.solid_impact(diameter=0.016, density=2500, speed=2.95, surface="rough"),
    water.solid_impact(diameter=0.015, density=2500, speed=5.2, surface="rough"),
    water.drop_impact(diameter=0.0045, speed=2.73, liquid="milk"),
    water.drop_impact(diameter=0.009, speed=4.8),
]


def impact_name(impact):
    return f"{impact.diameter * 1e3:g} mm {impact.speed:g} m/s"


def test_hollow_follows_from_the_energy_in_sympy():
    """kappa pi rho R^3 R'^2 = (pi/12) rho D^3 U^2 with kappa 1/2 gives R and R' of ``rim``."""
    sympy = pytest.importorskip("sympy")
    t, c = sympy.symbols("t c", positive=True)
    radius = c * t ** sympy.Rational(2, 5)
    coefficient = sympy.solve(sympy.simplify(radius**3 * radius.diff(t) ** 2) - sympy.Rational(1, 6), c)[0]
    at = {"diameter": 1.0, "speed": 1.0}
    assert rim.hollow_radius(time=3.0, **at) == pytest.approx(float(coefficient * 3**0.4), rel=1e-9)
    slope = (rim.hollow_radius(time=3.0001, **at) - rim.hollow_radius(time=2.9999, **at)) / 2e-4
    assert rim.release_speed(left=3.0, **at) == pytest.approx(slope, rel=1e-6)


def slow_rim(impact, steps=6000):
    """The rim as a point in space: it moves at the sheet's speed there less that of Taylor and Culick."""
    size = {"diameter": impact.diameter, "speed": impact.speed}
    tension, density = impact.liquid.tension, impact.liquid.density
    start = 0.5 * impact.diameter / impact.speed

    def height(left, t):
        return (t - left) * rim.release_speed(left=left, **size) - GRAVITY * (t - left) ** 2 / 2

    def piece_at(z, t, near):
        low, high = near, t
        for _ in range(45):
            middle = (low + high) / 2
            low, high = (middle, high) if height(middle, t) > z else (low, middle)
        return low

    t, z, left = start, 0.0, start
    dt = impact.diameter / impact.speed / 150
    for _ in range(steps):
        left = piece_at(z, t, left)
        w = rim.release_speed(left=left, **size)
        h = 1e-6 * left
        stretch = (height(left - h, t) - height(left + h, t)) / (2 * h)
        thickness = sheet_thickness(impact) * w / max(stretch, 1e-9)
        speed = w - GRAVITY * (t - left) - math.sqrt(2 * tension / (density * thickness))
        if speed <= 0:
            break
        z, t = z + speed * dt, t + dt
    return t, z


@pytest.mark.parametrize("impact", CASES, ids=impact_name)
def test_rim_against_slow_integration(impact):
    top = rim_track(impact)[-1]
    time, height = slow_rim(impact)
    assert top.time == pytest.approx(time, rel=0.06)
    assert top.height == pytest.approx(height, rel=0.10)


def test_rim_without_tension_flies_freely_and_with_much_does_not_rise():
    free = rim.rise(0.035, 2.95, 1e-7, WATER_DENSITY, 0.001)[-1]
    first = rim.release_speed(diameter=0.035, speed=2.95, left=0.5 * 0.035 / 2.95)
    assert free.height == pytest.approx(first**2 / (2 * GRAVITY), rel=0.05)
    assert free.time == pytest.approx(0.5 * 0.035 / 2.95 + first / GRAVITY, rel=0.05)
    assert len(rim.rise(0.004, 0.1, WATER_SURFACE_TENSION, WATER_DENSITY, 0.0005)) == 1


def test_rim_rises_and_stops():
    for impact in CASES:
        track = rim_track(impact)
        assert all(a.time < b.time for a, b in itertools.pairwise(track))
        assert all(a.height <= b.height * (1 + 1e-3) for a, b in itertools.pairwise(track))
        assert track[-1].speed == pytest.approx(0, abs=0.02)


def test_crowns_grow_with_speed_and_size():
    heights = [water.crown_height(water.drop_impact(diameter=0.0045, speed=u)).likely for u in (1.5, 2, 3)]
    assert heights == sorted(heights)
    heights = [
        water.crown_height(water.solid_impact(diameter=d, density=1000, speed=2.5, surface="rough")).likely
        for d in (0.01, 0.02, 0.04)
    ]
    assert heights == sorted(heights)
    # A few-centimetre body at 2 to 3 m/s: up to one or two diameters (C).
    fruit = water.crown_height(CASES[0])
    assert 0.5 * 0.035 < fruit.likely < 2 * 0.035


@pytest.mark.parametrize("impact", CASES, ids=impact_name)
def test_crown_outline_in_time(impact):
    peak = water.crown_peak(impact).likely
    height, radius, thickness = water.crown_outline(impact, 0.98 * peak)
    assert height[0] == pytest.approx(0, abs=1e-9)
    assert np.all(np.diff(height) >= 0)
    assert height[-1] == pytest.approx(water.crown_height(impact).likely, rel=0.08)
    assert np.all(radius > 0)
    assert np.all((thickness > 0) & (thickness <= 5 * sheet_thickness(impact)))
    rising = [water.rim_height(impact, t) for t in np.linspace(0, peak, 30)]
    assert all(a <= b * (1 + 1e-3) for a, b in itertools.pairwise(rising))
    for time in (0.0, 3 * water.crown_fall(impact).late):
        assert all(part.size == 0 for part in water.crown_outline(impact, time))


def test_a_dome_meets_on_the_axis_when_it_closes():
    fast = CASES[2]
    closed = water.dome_time(fast).likely
    rims = [water.crown_outline(fast, share * closed)[1][-1] for share in (0.4, 0.7, 0.95, 1.0)]
    assert rims[-1] == pytest.approx(0, abs=1e-9)
    assert rims[1] > rims[2] > rims[3]


def test_dome_law():
    """Time in D/U is constant below the cap by the seal; chance grows with speed, and small bodies need We."""
    times = []
    for speed in (4.5, 6.0):
        body = water.solid_impact(diameter=0.02, density=2500, speed=speed, surface="rough")
        times.append(water.dome_time(body).likely * speed / 0.02)
    assert times == pytest.approx([7.5, 7.5])
    chances = [
        water.dome_chance(water.solid_impact(diameter=0.02, density=2500, speed=u, surface="rough"))
        for u in np.linspace(1, 7, 25)
    ]
    assert chances == sorted(chances)
    assert (chances[0], chances[-1]) == (0, 1)
    # At the same Froude number 100 the small sphere, of lower Weber number, is the less likely.
    pair = [
        water.dome_chance(
            water.solid_impact(diameter=d, density=2500, speed=math.sqrt(100 * GRAVITY * d / 2), surface="rough")
        )
        for d in (0.03, 0.008)
    ]
    assert pair[0] > pair[1]


def test_dome_of_a_drop_by_slow_collapse():
    """A ring of tension 2 sigma and mass rho e per area, r r'' = -2 sigma/(rho e), let go at rest."""
    drop = CASES[4]
    r, v, t, dt = 1.5 * 0.009, 0.0, 0.0, 1e-7
    pull = 2 * WATER_SURFACE_TENSION / (WATER_DENSITY * 0.025 * 0.009)
    while r > 1e-5:
        v -= pull / r * dt
        r += v * dt
        t += dt
    assert water.dome_time(drop).likely == pytest.approx(5 * 0.009 / 4.8 + t, rel=0.01)


def test_jet_from_the_pinch_is_a_free_flight():
    for body in CASES[:2]:
        column = pinch_jet(body)
        seal, depth = water.seal_time(body).likely, water.seal_depth(body).likely
        launch = math.sqrt(2 * GRAVITY * (column.height.likely + depth))
        assert column.peak.likely == pytest.approx(seal + launch / GRAVITY)
        out = (launch - math.sqrt(launch**2 - 2 * GRAVITY * depth)) / GRAVITY
        assert column.rises.likely == pytest.approx(seal + out)


def test_a_dome_weakens_the_jet():
    """Checked at 3.4 m/s, none at 5.2 m/s (Worthington 1908)."""
    speeds = (1.7, 3.4, 5.2)
    bodies = [water.solid_impact(diameter=0.015, density=2500, speed=u, surface="rough") for u in speeds]
    chances = [jet_chance(body) for body in bodies]
    assert chances[0] == 1
    assert chances[1] == pytest.approx(0.5, abs=0.1)
    assert chances[2] == 0
    heights = [pinch_jet(b).height.likely / water.seal_depth(b).likely for b in bodies]
    assert heights[1] < 0.5 * heights[0]


def test_a_body_that_slips_in_has_a_spout_only():
    slick = water.solid_impact(diameter=0.016, density=2500, speed=2.95, surface="smooth_dry")
    column = water.jet(slick)
    assert column.rises.likely < 0.3 * water.seal_time(slick).likely
    assert column.height.likely < 4 * 0.016


@pytest.mark.parametrize("impact", CASES[:2] + CASES[3:4], ids=impact_name)
def test_the_last_piece_of_the_drawn_sheet_is_at_the_rim(impact):
    """The drawing only scales the pieces to the rim; before that they must be there by themselves."""
    from splashlib.physics.water.crown import _left_at_rim, _pieces

    for time in (0.4, 0.7, 0.95) * np.array(water.crown_peak(impact).likely):
        last = np.array([_left_at_rim(impact, time)])
        assert _pieces(impact, last, time)[0][0] == pytest.approx(water.rim_height(impact, time), rel=0.05)


@pytest.mark.parametrize("diameter", [0.035, 0.05])
def test_a_crown_as_high_as_its_band_says_is_down_within_the_band(diameter):
    """The late edge: a crown of the highest likely height, sinking step by step as its rim eats into it."""
    impact = water.solid_impact(diameter=diameter, density=950.0, speed=2.97, surface="wet")
    tall, usual = water.crown_height(impact).late, water.crown_height(impact).likely
    took = water.crown_fall(impact).likely - water.crown_peak(impact).likely
    eaten = (usual - GRAVITY * took**2 / 2) / took
    height, speed, time, step = tall, 0.0, 0.0, 1e-5
    while height > 0:
        speed += GRAVITY * step
        height -= (eaten + speed) * step
        time += step
    assert took < time
    assert water.crown_fall(impact).late >= water.crown_peak(impact).late + time
