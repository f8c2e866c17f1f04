"""Falling: published values, limits, a slow integration, and the derivation in sympy."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics import fall
from splashlib.physics.checks import OutOfRange
from splashlib.physics.constants import AIR_DENSITY, AIR_VISCOSITY, GRAVITY
from tests.reference import rows

HEIGHTS = st.floats(1e-6, 20)
SPEEDS = st.floats(0.1, 1e4) | st.just(math.inf)
FAST = settings(deadline=None, max_examples=150)


@pytest.mark.parametrize("row", rows("fall_with_drag.csv"), ids=lambda r: f"{r['body']} {r['fall_m']} m")
def test_published_falls(row):
    vt = row["terminal_speed_m_s"]
    assert fall.fall_speed(row["fall_m"], terminal_speed=vt) == pytest.approx(row["speed_m_s"], rel=3e-5)
    assert fall.fall_time(row["fall_m"], terminal_speed=vt) == pytest.approx(row["time_ms"] / 1e3, rel=4e-5)


@pytest.mark.parametrize("row", rows("late_by_drag.csv"), ids=lambda r: r["body"])
def test_published_delays_by_drag(row):
    late = fall.fall_time(row["fall_m"], terminal_speed=row["terminal_speed_m_s"]) - fall.fall_time(row["fall_m"])
    assert late * 1e3 == pytest.approx(row["late_ms"], abs=0.05)


def test_limits():
    assert fall.fall_time(0) == fall.fall_speed(0) == fall.distance_fallen(0) == fall.speed_after(0) == 0
    assert fall.fall_time(0, terminal_speed=9) == fall.fall_speed(0, terminal_speed=9) == 0
    assert fall.fall_time(0.45) == pytest.approx(math.sqrt(0.9 / GRAVITY), rel=1e-14)
    assert fall.fall_speed(0.45) == pytest.approx(math.sqrt(0.9 * GRAVITY), rel=1e-14)
    # Far above: the terminal speed, and a time that grows as h/vT plus the (vT/g) ln 2 lost at the start.
    assert fall.fall_speed(1e6, terminal_speed=9) == pytest.approx(9, rel=1e-14)
    assert fall.fall_time(1e6, terminal_speed=9) == pytest.approx(1e6 / 9 + 9 / GRAVITY * math.log(2), rel=1e-14)
    assert fall.distance_fallen(1e5, terminal_speed=9) == pytest.approx(9e5 - 81 / GRAVITY * math.log(2), rel=1e-14)
    assert fall.speed_after(1e5, terminal_speed=9) == 9


def close(value, *, rel):
    """Relative agreement only: pytest's own floor of 1e-12 would hide the digits of small times."""
    return pytest.approx(value, rel=rel, abs=0)


@pytest.mark.parametrize("height", [1e-300, 1e-12, 1e-6, 0.3])
@pytest.mark.parametrize("vt", [1e200, 1e9, 3e4])
def test_a_huge_terminal_speed_is_no_air(height, vt):
    assert fall.fall_time(height, terminal_speed=vt) == close(fall.fall_time(height), rel=1e-8)
    assert fall.fall_speed(height, terminal_speed=vt) == close(fall.fall_speed(height), rel=1e-8)


def test_both_branches_hold_the_exact_form_in_many_digits():
    """Against the closed form in 60 digits, on both sides of where the series takes over."""
    sympy = pytest.importorskip("sympy")
    g, vt = sympy.Rational("9.81"), 9
    for x in (1e-30, 1e-12, 0.4e-9, 0.9e-9, 1.1e-9, 1e-6, 1e-3, 0.1, 1.0, 30.0, 500.0):
        height = x * vt**2 / GRAVITY
        exact_x = g * sympy.Rational(height) / vt**2
        time = sympy.N(vt / g * sympy.acosh(sympy.exp(exact_x)), 60)
        speed = sympy.N(vt * sympy.sqrt(1 - sympy.exp(-2 * exact_x)), 60)
        assert fall.fall_time(height, terminal_speed=vt) == close(float(time), rel=2e-14)
        assert fall.fall_speed(height, terminal_speed=vt) == close(float(speed), rel=2e-14)
        assert fall.distance_fallen(float(time), terminal_speed=vt) == close(height, rel=1e-13)
        if x < 1:
            assert fall.height_for_speed(float(speed), terminal_speed=vt) == close(height, rel=1e-13)
        assert fall.speed_after(float(time), terminal_speed=vt) == close(float(speed), rel=1e-13)


def test_the_derivation_in_sympy():
    sympy = pytest.importorskip("sympy")
    g, vt, h = sympy.symbols("g v_T h", positive=True)
    v = vt * sympy.sqrt(1 - sympy.exp(-2 * g * h / vt**2))
    t = vt / g * sympy.acosh(sympy.exp(g * h / vt**2))
    assert sympy.simplify(v * v.diff(h) - g * (1 - v**2 / vt**2)) == 0
    assert sympy.simplify(sympy.simplify(t.diff(h) * v) ** 2 - 1) == 0
    assert sympy.limit(v, h, 0) == 0
    assert sympy.limit(t, h, 0) == 0
    assert sympy.simplify(sympy.limit(v**2, vt, sympy.oo) - 2 * g * h) == 0
    for height, speed in ((0.45, 9), (1.0, 29), (3.0, 2)):
        given_ = {g: sympy.Rational("9.81"), vt: speed, h: height}
        assert fall.fall_time(height, terminal_speed=speed) == pytest.approx(float(t.subs(given_)), rel=1e-12)
        assert fall.fall_speed(height, terminal_speed=speed) == pytest.approx(float(v.subs(given_)), rel=1e-12)


def integrate(time, acceleration, steps=4000):
    """Height fallen and speed after a time, by Runge and Kutta's method: slow, and knows no closed form."""
    dt, h, v = time / steps, 0.0, 0.0
    for _ in range(steps):
        a1 = acceleration(v)
        a2 = acceleration(v + a1 * dt / 2)
        a3 = acceleration(v + a2 * dt / 2)
        a4 = acceleration(v + a3 * dt)
        h += dt * (v + dt / 6 * (a1 + a2 + a3))
        v += dt / 6 * (a1 + 2 * a2 + 2 * a3 + a4)
    return h, v


@pytest.mark.parametrize(("time", "vt"), [(0.3, 29.4), (0.46, 8.92), (2.0, 3.0)])
def test_slow_integration(time, vt):
    height, speed = integrate(time, lambda v: GRAVITY * (1 - (v / vt) ** 2))
    assert fall.distance_fallen(time, terminal_speed=vt) == pytest.approx(height, rel=1e-9)
    assert fall.speed_after(time, terminal_speed=vt) == pytest.approx(speed, rel=1e-9)
    assert fall.fall_time(height, terminal_speed=vt) == pytest.approx(time, rel=1e-9)
    assert fall.fall_speed(height, terminal_speed=vt) == pytest.approx(speed, rel=1e-9)


def test_what_the_constant_coefficient_neglects():
    """A fruit with the drag of its momentary Reynolds number, against one number vT: 0.2 ms in 1 m."""
    d, density = 0.035, 1000.0
    vt = fall.terminal_speed(diameter=d, density=density)

    def acceleration(v):
        re = max(v, 1e-6) * d * AIR_DENSITY / AIR_VISCOSITY
        drag = fall.sphere_drag_coefficient(re) * AIR_DENSITY * v * v / (4 / 3 * density * d)
        return GRAVITY * (1 - AIR_DENSITY / density) - drag

    height, _ = integrate(0.4524, acceleration, steps=400)
    buoyancy = 0.5 * AIR_DENSITY / density * 0.4524
    assert fall.fall_time(height, terminal_speed=vt) + buoyancy == pytest.approx(0.4524, abs=0.2e-3)


@FAST
@given(HEIGHTS, SPEEDS)
def test_time_and_distance_speed_and_height_are_inverses(height, vt):
    time = fall.fall_time(height, terminal_speed=vt)
    speed = fall.fall_speed(height, terminal_speed=vt)
    assert fall.distance_fallen(time, terminal_speed=vt) == pytest.approx(height, rel=1e-11)
    assert fall.speed_after(time, terminal_speed=vt) == pytest.approx(speed, rel=1e-11)
    if speed < 0.99 * vt:
        assert fall.height_for_speed(speed, terminal_speed=vt) == pytest.approx(height, rel=1e-11)


@FAST
@given(HEIGHTS, st.floats(0.1, 1e4))
def test_air_only_ever_delays_and_slows(height, vt):
    assert fall.fall_time(height, terminal_speed=vt) >= fall.fall_time(height) * (1 - 1e-14)
    assert fall.fall_speed(height, terminal_speed=vt) <= min(vt, fall.fall_speed(height) * (1 + 1e-14))


def test_arrays_broadcast_and_equal_the_single_values():
    heights, speeds = np.array([0, 1e-12, 0.3, 5.0]), np.array([[3.0], [math.inf]])
    for formula in (fall.fall_time, fall.fall_speed, fall.distance_fallen, fall.speed_after):
        table = formula(heights, terminal_speed=speeds)
        assert table.shape == (2, 4)
        assert np.isfinite(table).all()
        for j, vt in enumerate((3.0, math.inf)):
            assert table[j].tolist() == [formula(h, terminal_speed=vt) for h in heights]
    assert type(fall.fall_time(1)) is float


@pytest.mark.filterwarnings("error")
def test_nothing_warns_in_numpy_at_the_edges():
    for formula in (fall.fall_time, fall.fall_speed, fall.distance_fallen, fall.speed_after):
        formula(np.array([0.0, 1e-300, 1.0, 1e9]), terminal_speed=np.array([[1e-3], [math.inf]]))
    fall.height_for_speed(np.array([0.0, 1e-200, 1.0]), terminal_speed=np.array([[1.5], [math.inf]]))


@pytest.mark.parametrize("row", rows("sphere_drag.csv"), ids=lambda r: f"Re {r['reynolds']:g}")
def test_published_drag(row):
    assert fall.sphere_drag_coefficient(row["reynolds"]) == pytest.approx(row["drag"], rel=1e-3)


def test_drag_limits():
    assert fall.sphere_drag_coefficient(1e-6) == pytest.approx(24e6, rel=1e-4)
    with pytest.warns(OutOfRange, match="2e5"):
        fall.sphere_drag_coefficient(3e5)
    # The head of the module: 0.38 to 0.52 for a 35 mm sphere between 0.3 and 30 m/s.
    drag = fall.sphere_drag_coefficient(np.geomspace(0.3, 30, 200) * 0.035 * AIR_DENSITY / AIR_VISCOSITY)
    assert drag.min() == pytest.approx(0.38, abs=0.01)
    assert drag.max() == pytest.approx(0.52, abs=0.01)


def test_terminal_speed_of_solid_spheres():
    # fall_with_drag.csv prints 29.40 and 8.92 m/s for a drag coefficient of 0.44; correlations differ by
    # 5 to 12 % in the drag there, half of it in the speed.
    assert fall.terminal_speed(diameter=0.035, density=1000) == pytest.approx(29.40, rel=0.06)
    assert fall.terminal_speed(diameter=0.040, density=2.7e-3 / (math.pi / 6 * 0.04**3)) == pytest.approx(
        8.92, rel=0.06
    )
    stokes = GRAVITY * (2500 - AIR_DENSITY) * (3e-6) ** 2 / (18 * AIR_VISCOSITY)
    assert fall.terminal_speed(diameter=3e-6, density=2500) == pytest.approx(stokes, rel=2e-3)


def test_terminal_speed_balances_the_forces():
    """Bisection on the force itself, over all sizes and densities that are let fall."""
    for d in (1e-5, 1e-3, 0.016, 0.035):
        for density in (1.3, 80, 1000, 2500):
            low, high = 1e-9, 1e3
            for _ in range(200):
                middle = math.sqrt(low * high)
                re = middle * d * AIR_DENSITY / AIR_VISCOSITY
                drag = (24 / re + 3.6 * re**-0.313 + 0.42 / (1 + 42500 * re**-1.16)) * AIR_DENSITY * middle**2 / 2
                low, high = (low, middle) if drag * 0.25 > (density - AIR_DENSITY) * GRAVITY * d / 6 else (middle, high)
            assert fall.terminal_speed(diameter=d, density=density) == pytest.approx(low, rel=1e-9)


def test_terminal_speed_arrays_warning_and_refusals():
    many = fall.terminal_speed(diameter=np.array([0.01, 0.02]), density=1000)
    assert many[1] == fall.terminal_speed(diameter=0.02, density=1000)
    assert many[1] > many[0]
    with pytest.warns(OutOfRange, match="drag crisis"):
        fall.terminal_speed(diameter=0.05, density=7800)
    with pytest.raises(ValueError, match=r"density is 1 kg/m3; it must be above that of air, 1\.204 kg/m3"):
        fall.terminal_speed(diameter=0.05, density=1.0)


@pytest.mark.parametrize("row", rows("drop_terminal_speed.csv"), ids=lambda r: f"{r['diameter_mm']} mm")
def test_published_speeds_of_drops(row):
    d = row["diameter_mm"]
    allowed = 0.10 if d < 0.4 else 0.04 if d < 0.8 else 0.015
    assert fall.water_drop_terminal_speed(d / 1e3) == pytest.approx(row["speed_m_s"], rel=allowed)


def test_drops_regimes_meet_and_limits():
    for edge, gap in ((19e-6, 2.5e-3), (1.07e-3, 5e-4)):
        below, above = fall.water_drop_terminal_speed(np.array([edge * (1 - 1e-9), edge * (1 + 1e-9)]))
        assert above == pytest.approx(below, rel=gap)
    speeds = fall.water_drop_terminal_speed(np.geomspace(1e-6, 5.8e-3, 500))
    assert (np.diff(np.log(speeds)) > -2e-3).all()
    # A tiny drop falls as Stokes says, and a small one as a rigid sphere; a large one is flattened and
    # slower.
    stokes = (998.2 - AIR_DENSITY) * GRAVITY * (15e-6) ** 2 / (18 * AIR_VISCOSITY)
    assert fall.water_drop_terminal_speed(15e-6) == pytest.approx(stokes, rel=0.02)
    rigid = fall.terminal_speed(diameter=np.array([0.5e-3, 5e-3]), density=998.2)
    drops = fall.water_drop_terminal_speed(np.array([0.5e-3, 5e-3]))
    assert drops[0] == pytest.approx(rigid[0], rel=0.05)
    assert rigid[1] / drops[1] == pytest.approx(1.30, abs=0.06)


def test_drops_outside_the_range_warn_and_stay_finite():
    with pytest.warns(OutOfRange, match="0.5 um to 7 mm"):
        big = fall.water_drop_terminal_speed(9e-3)
    assert big == fall.water_drop_terminal_speed(7e-3)
    with pytest.warns(OutOfRange):
        assert np.isfinite(fall.water_drop_terminal_speed(np.array([1e-9, 1e-3, 1.0]))).all()


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (lambda: fall.fall_time(-0.3), "height is -0.3 m; it must be 0 m or more"),
        (lambda: fall.fall_speed(float("nan")), "height is nan m; it must be 0 m or more"),
        (lambda: fall.fall_time(1, terminal_speed=0), "terminal_speed is 0 m/s; it must be above 0 m/s"),
        (lambda: fall.distance_fallen(-1), "time is -1 s; it must be 0 s or more"),
        (lambda: fall.speed_after(-1), "time is -1 s; it must be 0 s or more"),
        (lambda: fall.terminal_speed(diameter=0, density=1000), "diameter is 0 m; it must be above 0 m"),
        (lambda: fall.water_drop_terminal_speed(-1), "diameter is -1 m; it must be above 0 m"),
        (
            lambda: fall.height_for_speed(9.0, terminal_speed=9.0),
            "speed is 9 m/s; it must be below the terminal speed, 9 m/s",
        ),
    ],
)
def test_refusals(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line
