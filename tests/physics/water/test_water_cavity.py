"""The cavity: published law, the derivation in sympy, slow slices, the body under water, threshold, vessel."""

import math

import numpy as np
import pytest

from splashlib.physics import water_entry as water
from splashlib.physics.constants import GRAVITY, WATER_DENSITY, WATER_SURFACE_TENSION
from splashlib.physics.water.sinking import CAVITY_ADDED, CAVITY_DRAG, WET_ADDED, WET_DRAG, legs
from tests.reference import rows

SEAL = {row["what"]: row["coefficient"] for row in rows("water_seal.csv")}
FRUIT = {"diameter": 0.035, "density": 1000, "speed": 2.95, "surface": "wet"}


def body(**change):
    return water.solid_impact(**{**FRUIT, **change})


@pytest.mark.parametrize("diameter", [0.02, 0.035, 0.057])
@pytest.mark.parametrize("speed", [2.0, 3.0, 5.0])
def test_seal_holds_the_published_law(diameter, speed):
    seal = water.seal_time(body(diameter=diameter, speed=speed))
    law = SEAL["sphere"] * math.sqrt(diameter / 2 / GRAVITY)
    assert seal.likely == pytest.approx(law, rel=0.02)
    assert seal.early < 0.96 * law
    assert seal.late > 1.04 * law
    assert seal.late >= SEAL["theory"] / SEAL["sphere"] * seal.likely * 0.999


def test_seal_grows_as_the_root_of_size_and_hardly_with_speed():
    times = [water.seal_time(body(diameter=d)).likely for d in (0.01, 0.04)]
    assert times[1] / times[0] == pytest.approx(2, rel=0.03)
    times = [water.seal_time(body(speed=u)).likely for u in np.linspace(1, 5.4, 9)]
    assert max(times) / min(times) < 1.02


def test_seal_law_follows_from_slices_in_sympy():
    """Slice z closes at z/U + b N/(g z + sigma/(rho R)); the soonest, with b N = (c/2)^2 R U, is the law."""
    sympy = pytest.importorskip("sympy")
    z, speed, radius, g, c, capillary = sympy.symbols("z U R g c s", positive=True)
    closes = z / speed + (c / 2) ** 2 * radius * speed / (g * z + capillary)
    where = [root for root in sympy.solve(sympy.diff(closes, z), z) if root.has(c)]
    values = {speed: 2.95, radius: 0.008, g: GRAVITY, c: SEAL["sphere"]}
    values[capillary] = WATER_SURFACE_TENSION / (WATER_DENSITY * 0.008)
    soonest = min(float(closes.subs(z, root).subs(values)) for root in where if root.subs(values) > 0)
    assert water.seal_time(body(diameter=0.016)).likely == pytest.approx(soonest, rel=1e-9)


def test_small_slow_bodies_close_at_the_surface():
    """Below the capillary length both formulas meet, and the shallow one grows as the speed."""
    small = [water.seal_time(body(diameter=0.002, speed=u)).likely for u in (0.2, 0.4)]
    assert small[1] == pytest.approx(2 * small[0], rel=1e-9)
    around = [water.seal_time(body(diameter=0.002, speed=u)).likely for u in np.linspace(0.3, 2, 400)]
    assert np.abs(np.diff(around)).max() < 0.02 * max(around)


@pytest.mark.parametrize("speed", [1.7, 2.95, 4.5])
@pytest.mark.parametrize(("diameter", "density"), [(0.035, 1000), (0.016, 2500), (0.0254, 7860)])
def test_the_drawn_cavity_closes_when_the_law_says(speed, diameter, density):
    falling = body(diameter=diameter, density=density, speed=speed)
    seal = water.cavity_seal(falling)
    assert seal.time == pytest.approx(water.seal_time(falling).likely, rel=1e-3)
    assert 0.38 <= seal.depth / seal.body_depth <= 0.60
    limits = water.seal_depth(falling)
    assert 0.9 * limits.early <= seal.depth <= limits.late
    before = water.cavity_outline(falling, 0.97 * seal.time)[1]
    after = water.cavity_outline(falling, 1.03 * seal.time)[1]
    assert before.min() > 0
    assert after.min() == 0
    assert 1.1 < before.max() / falling.radius < 4


def test_slices_against_slow_integration():
    """r^2 of one slice by stepping r r'' + r'^2 = -g z/N, against the drawn outline at depth."""
    from splashlib.physics.water import cavity

    falling = body()
    slices = cavity._slices(falling)
    depth, time = 0.07, 0.06
    i = int(np.argmin(np.abs(slices.depth - depth)))
    r, v = falling.radius, slices.push[i] / (2 * falling.radius)
    steps = 4000
    dt = (time - slices.opened[i]) / steps
    for _ in range(steps):
        a = (-GRAVITY * (slices.depth[i] + falling.radius / falling.bond) / slices.inertia - v * v) / r
        v += a * dt / 2
        r += v * dt
        v += (-GRAVITY * (slices.depth[i] + falling.radius / falling.bond) / slices.inertia - v * v) / r * dt / 2
    # At 4 radii of depth the lip of the mouth still takes exp(-4) of the width.
    drawn = np.interp(slices.depth[i], *water.cavity_outline(falling, time, points=400))
    assert drawn == pytest.approx(r, rel=0.03)
    # What the drag took from the body is what the slice got: N beta^2 = 2 Cd.
    beta = slices.push[i] / (falling.radius * float(water.body_speed(falling, slices.opened[i])))
    assert slices.inertia * beta**2 == pytest.approx(2 * CAVITY_DRAG, rel=0.01)


def test_cavity_of_the_fruit_has_the_expected_depth_and_volume():
    """Computed class range: body 12-15 cm deep at the seal, cavity 125-270 cm3, vase raised 9-19 mm."""
    falling = body(water_depth=0.18, vessel_width=0.12)
    seal = water.cavity_seal(falling)
    assert 0.12 <= seal.body_depth <= 0.15
    assert 125e-6 <= water.cavity_volume(falling, seal.time) <= 270e-6
    assert 0.009 <= water.vessel_effects(falling).level_rise.likely <= 0.019


@pytest.mark.parametrize("density", [90, 600, 998.2, 1000, 2500, 7860])
@pytest.mark.parametrize("surface", ["rough", "smooth_dry"])
def test_way_under_water_against_slow_integration(density, surface):
    falling = body(density=density, surface=surface)
    _, _, change = legs(falling)
    depth, t, dt = 0.0, 0.0, 1e-5
    speed = float(water.body_speed(falling, 0))
    s = density / WATER_DENSITY
    end = min(0.3, water.surfacing_time(falling) * 0.9)
    while t < end:
        runs = surface == "rough" and t < change
        added, drag = (CAVITY_ADDED, CAVITY_DRAG) if runs else (WET_ADDED, WET_DRAG)

        def force(v, s=s, added=added, drag=drag):
            return (GRAVITY * (s - 1) - 0.75 * drag * v * abs(v) / falling.length) / (s + added)

        half = speed + force(speed) * dt / 2
        depth += half * dt
        speed += force(half) * dt
        t += dt
    assert float(water.body_depth(falling, t)) == pytest.approx(depth, rel=2e-3, abs=2e-5)
    assert float(water.body_speed(falling, t)) == pytest.approx(speed, rel=1e-2, abs=2e-3)


def test_a_body_as_heavy_as_water_is_the_limit_of_both_sides():
    depths = [float(water.body_depth(body(density=d), 0.2)) for d in (998.19, 998.2, 998.21)]
    assert depths[0] == pytest.approx(depths[1], rel=1e-4) == pytest.approx(depths[2], rel=1e-4)


@pytest.mark.parametrize("density", [90, 300, 600, 900])
def test_light_bodies_come_up_again(density):
    falling = body(density=density)
    turn, up = water.deepest_time(falling), water.surfacing_time(falling)
    times = np.linspace(0, 1.5 * up, 4000)
    depth = water.body_depth(falling, times)
    assert times[np.argmax(depth)] == pytest.approx(turn, abs=2 * times[1])
    assert depth[times < turn].max() <= depth.max()
    assert depth[-1] == pytest.approx(density / WATER_DENSITY * 0.035)
    assert float(water.body_depth(falling, up)) == pytest.approx(depth[-1], abs=1e-4)
    assert float(water.body_speed(falling, 1.5 * up)) == 0


def test_lighter_bodies_stay_higher():
    depths = [float(water.body_depth(body(density=d), 0.07)) for d in (200, 500, 1000, 2500, 7800)]
    assert depths == sorted(depths)


def test_the_bottom_stops_the_body():
    falling = body(water_depth=0.10)
    touch = water.bottom_time(falling)
    assert float(water.body_depth(falling, touch * 0.999)) == pytest.approx(0.10, rel=0.01)
    assert float(water.body_depth(falling, touch * 3)) == 0.10
    assert float(water.body_speed(falling, touch * 3)) == 0
    assert water.bottom_time(body()) == math.inf
    assert water.bottom_time(body(density=300, water_depth=1.0)) == math.inf
    assert water.vessel_effects(falling).bottom_before_seal


def test_a_vessel_widens_the_limits_and_never_narrows_them():
    free = {s.name: s for s in water.stages_of(body())}
    vase = {s.name: s for s in water.stages_of(body(water_depth=0.10, vessel_width=0.08))}
    for name in ("crown_peak", "cavity_seals", "jet_rises"):
        assert vase[name].early < free[name].early
        assert vase[name].late > free[name].late
    assert vase["cavity_seals"].likely == free["cavity_seals"].likely
    assert vase["cavity_seals"].chance < free["cavity_seals"].chance


def test_vessel_advice():
    vase = water.vessel_effects(body(water_depth=0.18, vessel_width=0.12))
    assert vase.narrow
    assert not vase.shallow
    assert (vase.overflows(0.03), vase.overflows(0.015), vase.overflows(0.005)) == ("no", "perhaps", "yes")
    pool = water.vessel_effects(body())
    assert (pool.narrow, pool.shallow, pool.widening, pool.level_rise) == (False, False, 1.0, (0, 0, 0))


def test_threshold_of_smooth_bodies():
    liquid = body().liquid
    assert water.critical_speed(liquid) == pytest.approx(7.3, abs=0.05)
    chances = [water.splash_chance(body(surface="smooth_dry", speed=u)) for u in np.linspace(0.5, 9, 60)]
    assert chances == sorted(chances)
    assert chances[0] == 0
    assert chances[-1] == 1
    assert water.splash_chance(body(surface="rough", speed=0.3)) == 1
    # A smear or a grain of dust spoils one in ten or twenty from half the critical speed on; none below it.
    assert water.splash_chance(body(surface="smooth_dry", speed=3.6)) == 0
    assert 0.05 <= water.splash_chance(body(surface="smooth_dry", speed=4.43)) <= 0.1
    assert water.splash_chance(body(surface="smooth_dry", speed=5.6)) == pytest.approx(0.5, abs=0.05)


def test_oval_bodies():
    lying = water.frontal_diameter(diameter=0.02, length=0.045)
    assert lying == pytest.approx(0.03)
    ball, tall = body(), body(length=0.055)
    # More behind the same front: it goes deeper, and its seal is as likely but less sure.
    assert float(water.body_depth(tall, 0.07)) > float(water.body_depth(ball, 0.07))
    a, b = water.seal_time(ball), water.seal_time(tall)
    assert a.likely == b.likely
    assert b.early < a.early
    assert b.late > a.late


def test_seal_outlines_before_contact_and_before_it_is_half_under_are_empty():
    for time in (0.0, 0.003):
        depth, radius = water.cavity_outline(body(), time)
        assert depth.size == radius.size == 0


def test_the_blow_at_contact_takes_its_share():
    """(Cd - 0.3) of the blow over a quarter of a radius: 7 % of the speed of a body as heavy as water."""
    share = float(water.body_speed(body(), 0)) / FRUIT["speed"]
    assert share == pytest.approx(1 - 0.375 * 0.25 / 1.25, abs=0.005)


def test_depth_of_the_seal_is_that_of_the_drawn_pinch():
    """0.4 to 0.6 of the depth of the body, higher up for slow entries; likely where the drawn cavity closes."""
    fast = body(speed=4.0)
    depth = float(water.body_depth(fast, water.seal_time(fast).likely))
    assert water.seal_depth(fast)[::2] == pytest.approx((0.4 * depth, 0.6 * depth))
    slow = body(speed=1.0)
    assert water.seal_depth(slow).early < 0.37 * float(water.body_depth(slow, water.seal_time(slow).likely))
    for falling in (fast, slow):
        closed = water.cavity_outline(falling, 1.0005 * water.cavity_seal(falling).time, points=8000)
        pinch = closed[0][closed[1] == 0]
        assert pinch.min() <= water.seal_depth(falling).likely <= pinch.max()


def test_volume_of_the_cavity_by_cones():
    falling = body()
    depth, radius = water.cavity_outline(falling, 0.05, points=800)
    step = depth[1] - depth[0]
    cones = math.pi / 3 * step * (radius[1:] ** 2 + radius[1:] * radius[:-1] + radius[:-1] ** 2)
    half_a_ball = 2 / 3 * math.pi * 0.0175**3
    assert water.cavity_volume(falling, 0.05) == pytest.approx(cones.sum() - half_a_ball, rel=1e-3)
    assert water.cavity_volume(falling, 0.0) == 0
