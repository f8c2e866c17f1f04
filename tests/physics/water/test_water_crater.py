"""The crater of a drop: energy bound, equations of motion derived in sympy, slow integration, film, outline."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics import water_entry as water
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.crater import _rates, crater, crater_room, widening

SIZES = st.floats(1e-3, 1e-2)
SPEEDS = st.floats(0.3, 10)


@settings(deadline=None, max_examples=300)
@given(diameter=SIZES, speed=SPEEDS, liquid=st.sampled_from(["water", "milk"]))
def test_the_bound_is_never_exceeded(diameter, speed, liquid):
    drop = water.drop_impact(diameter=diameter, speed=speed, liquid=liquid)
    bound = diameter * (speed**2 / (GRAVITY * diameter) / 3) ** 0.25
    assert water.crater_bound(drop) == pytest.approx(bound, rel=1e-12)
    radius, depth = water.crater_radius(drop), water.crater_depth(drop)
    assert 0 < radius.early <= radius.likely < radius.late <= bound * (1 + 1e-12)
    # The bound is for the radius of a half sphere, for the volume that is; a crater may be a fifth deeper than wide.
    assert 0 < depth.early <= depth.likely <= bound
    assert depth.likely < depth.late <= 1.2 * bound


def test_bound_from_the_energies_in_sympy():
    sympy = pytest.importorskip("sympy")
    r, d, u, g, rho, z = sympy.symbols("r D U g rho z", positive=True)
    weight = sympy.integrate(rho * g * z * sympy.pi * (r**2 - z**2), (z, 0, r))
    kinetic = rho * sympy.pi * d**3 / 6 * u**2 / 2
    fourth = sympy.solve(sympy.Eq(weight, kinetic), r**4)[0]
    wanted = (d * (u**2 / (g * d) / 3) ** sympy.Rational(1, 4)) ** 4
    assert sympy.simplify(fourth - wanted) == 0


@pytest.mark.parametrize(("diameter", "speed"), [(0.003, 3.0), (0.0045, 2.73), (0.007, 2.7), (0.009, 4.8)])
def test_real_craters_reach_075_to_1_of_the_bound(diameter, speed):
    drop = water.drop_impact(diameter=diameter, speed=speed)
    share = water.crater_radius(drop).likely / water.crater_bound(drop)
    assert 0.75 <= share <= 1.0
    assert water.crater_depth(drop).likely / water.crater_bound(drop) > 0.7


def test_a_known_crater_has_about_fifty_volumes_of_its_drop():
    """0.176 g of water from 0.40 m (Worthington 1908): "about 50", read as 40 to 60."""
    diameter = (0.176e-3 / 998.2 * 6 / math.pi) ** (1 / 3)
    drop = water.drop_impact(diameter=diameter, speed=math.sqrt(2 * GRAVITY * 0.40))
    volumes = [4 * (radius / diameter) ** 3 for radius in water.crater_radius(drop)]
    assert volumes[0] < 50 < volumes[2]
    assert 40 <= volumes[1] <= 60


def test_surface_tension_makes_small_craters_smaller():
    shares = []
    for diameter in (0.001, 0.002, 0.004, 0.008):
        drop = water.drop_impact(diameter=diameter, speed=3.0)
        shares.append(water.crater_radius(drop).likely / water.crater_bound(drop))
    assert shares == sorted(shares)
    large = water.drop_impact(diameter=0.05, speed=3.0)
    share = water.crater_radius(large).likely / water.crater_bound(large)
    assert share == pytest.approx(0.85**0.25, rel=0.005)


def test_equations_of_motion_follow_from_bernoulli_in_sympy():
    """Pressure on a widening, sinking sphere set to that of the air at the floor and next to it."""
    sympy = pytest.importorskip("sympy")
    t, r, th, g, s = sympy.symbols("t r theta g s", positive=True)
    a, z = sympy.Function("a")(t), sympy.Function("z")(t)
    ad, zd = a.diff(t), z.diff(t)
    # Around the moving middle; th from straight down. Its radial speed at r = a is a' + z' cos th.
    phi = -(a**2) * ad / r - zd * a**3 / (2 * r**2) * sympy.cos(th)
    u, v = phi.diff(r), phi.diff(th) / r
    assert sympy.simplify(u.subs(r, a) - ad - zd * sympy.cos(th)) == 0
    rate = phi.diff(t) - zd * (sympy.cos(th) * u - sympy.sin(th) * v)
    pressure = g * (z + a * sympy.cos(th)) - rate - (u**2 + v**2) / 2
    surface = (pressure.subs(r, a) + 2 * s / a).series(th, 0, 3).removeO()
    at_floor, beside = surface.coeff(th, 0), surface.coeff(th, 2)
    second = sympy.solve([at_floor, beside], [a.diff(t, 2), z.diff(t, 2)], dict=True)[0]
    numbers = {g: 1 / 169.0, s: 1 / 735.0, ad: 0.1, zd: 0.2, a: 1.5, z: -0.1}
    wide, widen, sink, slow = _rates((1.5, 0.1, -0.1, 0.2), 169.0, 735.0)
    found = [float(sympy.sympify(second[x]).subs(numbers)) for x in (a.diff(t, 2), z.diff(t, 2))]
    assert (wide, sink) == (0.1, 0.2)
    assert found == pytest.approx([widen, slow], rel=1e-9)


def test_the_turn_of_the_floor_against_slow_integration():
    drop = water.drop_impact(diameter=0.0045, speed=2.73, liquid="milk")
    state, dt, tau, best = np.array([1.11, 0.17, -0.23, 0.27]), 0.002, 2.0, (0.0, 0.0)
    while state[1] + state[3] > 0:
        state = state + dt * np.array(_rates(state, drop.froude, drop.weber))
        tau += dt
        best = (tau * 0.0045 / 2.73, (state[0] + state[2]) * 0.0045)
    assert crater(drop).deepest == pytest.approx(best, rel=3e-3)
    # It is the early limit of the time, and near the lower one of the depth.
    assert water.crater_time(drop).early == pytest.approx(best[0], rel=3e-3)
    assert water.crater_depth(drop).early == pytest.approx(best[1], rel=0.05)


@pytest.mark.parametrize(("diameter", "speed", "liquid"), [(0.0045, 2.73, "milk"), (0.0063, 2.74, "water")])
def test_widening_against_slow_integration(diameter, speed, liquid):
    """R' from kappa pi rho R^3 R'^2 = e E - (pi/4) rho g R^4 - pi sigma R^2, stepped; kappa 0.5, e 0.85."""
    drop = water.drop_impact(diameter=diameter, speed=speed, liquid=liquid)
    density, tension = drop.liquid.density, drop.liquid.tension
    energy = 0.85 * math.pi / 12 * density * diameter**3 * speed**2
    t = 1e-6
    r = diameter * (25 / 24 * 0.85) ** 0.2 * (t * speed / diameter) ** 0.4
    dt = 1e-6

    def left(r):
        return energy - math.pi / 4 * density * GRAVITY * r**4 - math.pi * tension * r**2

    seen = {}
    while left(r) > 1e-5 * energy:
        r, t = r + math.sqrt(left(r) / (0.5 * math.pi * density * r**3)) * dt, t + dt
        seen[round(t * 1e6)] = r
    times, radii = widening(drop)
    for share in (0.1, 0.4, 0.8):
        at = round(share * t * 1e6)
        assert np.interp(at * 1e-6, times, radii) == pytest.approx(seen[at], rel=5e-3)
    assert times[-1] == pytest.approx(t, rel=0.02)
    assert radii[-1] == pytest.approx(r, rel=1e-3)


def test_without_tension_the_time_is_a_beta_function():
    """(1/2) sqrt(kappa) B(5/8, 1/2) sqrt(R/g): 0.954 sqrt(R/g) for kappa 0.5, as a large drop comes near."""
    large = water.drop_impact(diameter=0.1, speed=6.0)
    beta = math.gamma(5 / 8) * math.gamma(1 / 2) / math.gamma(9 / 8)
    law = math.sqrt(0.5) / 2 * beta * math.sqrt(water.crater_radius(large).likely / GRAVITY)
    assert water.crater_time(large).likely == pytest.approx(law, rel=0.005)


def test_the_floor_stays_down_to_six_tenths_of_the_start_of_the_column():
    """A 6 to 7 mm drop from 40 cm (Worthington 1908); the column passes the surface at 60 ms (56 to 64)."""
    for diameter in (0.0063, 0.0073):
        drop = water.drop_impact(diameter=diameter, speed=2.74)
        assert water.crater_time(drop).likely / water.jet(drop).rises.likely == pytest.approx(0.6, abs=0.05)


def test_time_grows_about_as_gravity_alone_would_have_it():
    """Without tension t ~ sqrt(R/g) ~ (D/U) Fr^(5/8): within 15 % for large drops."""
    times = []
    for speed in (4.0, 8.0):
        drop = water.drop_impact(diameter=0.02, speed=speed)
        times.append(water.crater_time(drop).likely / (0.02 / speed * drop.froude**0.625))
    assert times[1] / times[0] == pytest.approx(1, abs=0.15)


def test_a_shallow_layer_stops_the_floor():
    deep = water.drop_impact(diameter=0.0045, speed=2.73)
    shallow = water.drop_impact(diameter=0.0045, speed=2.73, film_depth=0.005)
    assert water.crater_time(shallow).likely < 0.5 * water.crater_time(deep).likely
    assert water.crater_depth(shallow).late == 0.005
    # The layer just as deep as the crater changes nothing.
    just = water.drop_impact(diameter=0.0045, speed=2.73, film_depth=water.crater_radius(deep).likely * 1.0001)
    assert water.crater_time(just).likely == pytest.approx(water.crater_time(deep).likely, rel=1e-3)


def test_room_for_a_column_follows_the_depth_of_the_layer():
    """No drops from the column under 3 mm of water, unhindered from 7 mm (Hobbs and Osheroff 1967)."""
    depths = (0.002, 0.003, 0.005, 0.007, 0.02, math.inf)
    rooms = [crater_room(water.drop_impact(diameter=0.0035, speed=3.0, film_depth=d)) for d in depths]
    assert rooms == sorted(rooms)
    assert rooms[0] == 0
    assert rooms[1] < 0.35
    assert rooms[3] > 0.85
    assert rooms[-1] == 1


def test_outline_in_time():
    drop = water.drop_impact(diameter=0.0045, speed=2.73, liquid="milk")
    likely = water.crater_time(drop).likely
    deepest = [water.crater_outline(drop, t)[1].max() for t in np.linspace(0.05, 1, 20) * likely]
    assert deepest == sorted(deepest)
    assert deepest[-1] == pytest.approx(water.crater_depth(drop).likely, rel=0.01)
    away, depth = water.crater_outline(drop, likely)
    assert depth[0] == depth.max()
    assert depth[-1] == pytest.approx(0, abs=1e-9)
    assert away[-1] == pytest.approx(water.crater_radius(drop).likely)
    # Back at the surface when the column passes it.
    rises = water.jet(drop).rises.likely
    assert 0 < water.crater_outline(drop, 0.98 * rises)[1].max() < 0.1 * depth[0]
    assert water.crater_outline(drop, 0.0)[0].size == 0
    assert water.crater_outline(drop, 2 * likely)[0].size == 0
    layer = water.drop_impact(diameter=0.0045, speed=2.73, film_depth=0.004)
    assert water.crater_outline(layer, water.crater_time(layer).likely)[1].max() <= 0.004


@pytest.mark.parametrize("depth", [math.inf, 0.008])
def test_column_of_a_drop(depth):
    drop = water.drop_impact(diameter=0.0045, speed=2.73, film_depth=depth)
    column = water.jet(drop)
    assert column.rises.likely > water.crater_time(drop).likely
    flight = column.peak.likely - column.rises.likely
    # It is fed while it rises: a fifth slower than free flight.
    assert GRAVITY * (flight / 1.2) ** 2 / 2 == pytest.approx(column.height.likely)
    times = np.linspace(0, 2 * column.peak.likely, 4001)
    heights = water.jet_height(drop, times)
    assert heights.max() == pytest.approx(column.height.likely, rel=1e-3)
    assert times[heights.argmax()] == pytest.approx(column.peak.likely, rel=1e-3)
    assert heights[times < column.rises.likely].max() == 0
    early = [water.jet_height(drop, column.rises.likely + share * flight) for share in (0.001, 0.008)]
    assert early[1] / early[0] == pytest.approx(4, rel=0.01)
    height, radius = water.jet_outline(drop, column.peak.likely)
    assert height[-1] == pytest.approx(column.height.likely)
    assert radius[-1] == 0
    assert radius.min() >= 0
