"""Flash pulses: published ratios, limits, a slow integration of the light, and the derivations in sympy."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics import pulse
from splashlib.physics.light.light_curve import Discharge
from tests.reference import rows

TAU = 1.3e-3
SHAPES = {
    "exponential": pulse.exponential(TAU),
    "quenched": pulse.quenched(TAU, 0.2e-3),
    "rise": pulse.quenched(TAU, math.inf, rise=60e-6),
    "rise and tail": pulse.quenched(TAU, 0.4e-3, rise=60e-6, tail=17e-6),
    "cut in the rise": pulse.quenched(TAU, 30e-6, rise=60e-6, tail=17e-6),
    "cut in the rise, no tail": pulse.quenched(TAU, 30e-6, rise=60e-6),
    "tail only": pulse.quenched(TAU, 0.4e-3, tail=20e-6),
    "tube": pulse.tube(0.5e-3),
    "tube with everything": pulse.tube(0.5e-3, cut=3e-3, rise=50e-6, tail=20e-6),
    "train": pulse.train(6e-3, 9),
    "train, one lit through": pulse.train(6e-3, 1, duty=1),
    "train, lit through": pulse.train(6e-3, 4, duty=1.0),
}
EVERY = pytest.mark.parametrize("shape", SHAPES.values(), ids=SHAPES.keys())


def test_published_exponential():
    p = pulse.exponential(TAU)
    assert p.t01 / p.t05 == pytest.approx(3.3219, abs=5e-5)
    assert p.t05 == pytest.approx(TAU * math.log(2), rel=1e-14)
    assert p.energy_within(p.t05) == pytest.approx(0.5, rel=1e-14)
    assert p.energy_within(p.t01) == pytest.approx(0.9, rel=1e-14)
    assert p.duration(1 / math.e) == pytest.approx(TAU, rel=1e-14)
    assert p.half_energy == pytest.approx(p.t05, rel=1e-14)


@pytest.mark.parametrize("row", rows("quenched_cut.csv"), ids=lambda r: f"power {r['power']}")
def test_published_cuts(row):
    """The printed cut gives the power, and a head at that power is cut there."""
    cut = row["cut_over_tau"] * TAU
    share = pulse.quenched(TAU, cut).energy / pulse.exponential(TAU).energy
    assert share == pytest.approx(row["power"], rel=1e-3)
    head = pulse.head_pulse("quenched", power=row["power"], full_t05=TAU * math.log(2))
    assert head.cut / TAU == pytest.approx(row["cut_over_tau"], abs=5e-5)
    assert head.t01 == pytest.approx(min(TAU * math.log(10), head.cut), rel=1e-12)
    assert head.t05 == pytest.approx(min(TAU * math.log(2), head.cut), rel=1e-12)


@pytest.mark.parametrize("cut", [1e-6, 0.5e-3, 0.91e-3, 2e-3, 3.1e-3, math.inf])
def test_quenched_durations_are_the_shorter_of_law_and_cut(cut):
    p = pulse.quenched(TAU, cut)
    for fraction in (0.1, 0.3, 0.5, 0.9):
        assert p.duration(fraction) == pytest.approx(min(TAU * math.log(1 / fraction), cut), rel=1e-13)
    assert p.energy / TAU == pytest.approx(1 - math.exp(-cut / TAU), rel=1e-12)
    assert p.energy_within(cut) == 1


def test_published_tube_ratio():
    p = pulse.tube(0.7e-3)
    assert p.t01 / p.t05 == pytest.approx(4.4415, abs=5e-5)
    assert p.energy_within(p.t05) == pytest.approx(1 - 2 ** (-2 / 3), rel=1e-12)
    assert p.energy_within(p.t01) == pytest.approx(1 - 10 ** (-2 / 3), rel=1e-12)
    # The 2 % left when the voltage has sunk to a seventh, as the docstring says.
    assert 1 - p.energy_within(6 * 0.7e-3) == pytest.approx(1 / 49, rel=1e-9)


def test_the_tube_law_from_the_circuit():
    """Step a capacitor through V = K sqrt(I) in small steps: the power falls as the closed form says."""
    capacitance, first, k = 1e-3, 350.0, 20.0
    p = pulse.tube(k**2 * capacitance / first)
    voltage, dt, spent = first, 1e-7, 0.0
    for step in range(1, 30001):
        middle = voltage - (voltage / k) ** 2 / capacitance * dt / 2
        spent += middle**3 / k**2 * dt
        voltage -= (middle / k) ** 2 / capacitance * dt
        if step % 10000 == 0:
            time = step * dt
            assert p.intensity(time) == pytest.approx((voltage / first) ** 3, rel=1e-6)
            assert p.energy_within(time) == pytest.approx(spent / (capacitance * first**2 / 2), rel=1e-6)


def test_the_derivations_in_sympy():
    sympy = pytest.importorskip("sympy")
    t, s, big, tau = sympy.symbols("t s T tau", positive=True)
    voltage = 1 / (1 + t / big)
    assert sympy.simplify(voltage.diff(t) + voltage**2 / big) == 0  # C dV/dt = -(V/K)^2
    total = big / 2
    share = sympy.integrate((1 + s / big) ** -3, (s, 0, t)) / total
    assert sympy.simplify(share - (1 - (1 + t / big) ** -2)) == 0
    fall = sympy.integrate(sympy.exp(-s / tau), (s, 0, t)) / tau
    for time in (1e-6, 2e-4, 5e-3):
        numbers = {t: time, big: 0.5e-3, tau: TAU}
        assert pulse.tube(0.5e-3).energy_within(time) == pytest.approx(float(share.subs(numbers)), rel=1e-12)
        slow_fall = float(fall.subs(numbers))
        assert pulse.exponential(TAU).energy_within(time) == pytest.approx(slow_fall, rel=1e-12)


def slow(shape, end):
    """Times, brightness and the share of light out, by summing the brightness over 400 000 steps."""
    edges = np.linspace(0, end, 400_001)
    middles = (edges[1:] + edges[:-1]) / 2
    light = shape.intensity(middles)
    return middles, light, np.concatenate([[0], np.cumsum(light) * (end / 400_000)])


@EVERY
def test_against_a_slow_sum_of_the_light(shape):
    end = shape.when(1 - 1e-4) * 1.02
    times, light, out = slow(shape, end)
    total = out[-1] / shape.energy_within(end)
    top = getattr(shape, "top", 1.0)
    assert light.max() == pytest.approx(1, abs=1e-3)
    assert total == pytest.approx(shape.energy / top, rel=2e-4)
    for fraction in (0.1, 0.5, 0.8):
        lit = times[light > fraction]
        assert shape.duration(fraction) == pytest.approx(lit[-1] - lit[0], abs=3 * end / 400_000)
    edges = np.linspace(0, end, 400_001)
    for k in (1_000, 20_000, 150_000, 350_000):
        assert shape.energy_within(edges[k]) == pytest.approx(out[k] / total, abs=2e-4)
    by_sum = np.interp((np.arange(8) + 0.5) / 8, out / total, edges)
    # An instant is sharp where there is light; half a slice of tolerance covers the gaps of a train.
    assert shape.moments(8) == pytest.approx(by_sum, abs=4 * end / 400_000 + 2e-4 * end)


@EVERY
def test_moments_are_the_middles_of_equal_slices(shape):
    for n in (1, 2, 7, 64):
        instants = shape.moments(n)
        assert instants.shape == (n,)
        assert (np.diff(instants) > 0).all()
        assert shape.energy_within(instants) == pytest.approx((np.arange(n) + 0.5) / n, abs=1e-12)
    assert shape.moments(1)[0] == pytest.approx(shape.half_energy, rel=1e-14)


@EVERY
def test_ends(shape):
    assert shape.energy_within(0) == shape.energy_within(-1) == 0
    assert shape.energy_within(math.inf) == pytest.approx(1, abs=1e-15)
    assert shape.when(0) == 0
    assert shape.intensity(-1e-9) == 0
    assert shape.t01 >= shape.t05 > 0
    assert type(shape.t05) is type(shape.half_energy) is type(shape.intensity(1e-5)) is float
    table = shape.duration(np.array([0.1, 0.5]))
    assert table.tolist() == [shape.t01, shape.t05]
    many = np.array([0, 1e-5, 1e-3])
    for answer in (shape.energy_within, shape.intensity, lambda t: shape.when(np.minimum(900 * t, 1))):
        assert answer(many) == pytest.approx([answer(t) for t in many], rel=1e-14)


@pytest.mark.filterwarnings("error")
def test_all_of_the_light_takes_for_ever_unless_it_is_cut():
    assert pulse.exponential(TAU).when(1) == pulse.tube(TAU).when(1) == math.inf
    assert pulse.quenched(TAU, 1e-4).when(1) == pytest.approx(1e-4, rel=1e-12)
    assert pulse.quenched(TAU, 1e-4, tail=1e-5).when(1) == math.inf
    assert pulse.train(6e-3, 9).when(1) == pytest.approx(6e-3, rel=1e-12)


def test_quenched_without_rise_and_tail_is_the_limit():
    plain = pulse.quenched(TAU, 2e-4)
    near = pulse.quenched(TAU, 2e-4, rise=1e-12, tail=1e-12)
    assert near.t01 == pytest.approx(plain.t01, abs=1e-11)
    assert near.moments(5) == pytest.approx(plain.moments(5), abs=1e-11)
    assert pulse.quenched(TAU, math.inf).moments(5).tolist() == pulse.exponential(TAU).moments(5).tolist()


def test_rise_and_afterglow_set_the_published_floor():
    """However low the power, t0.1 of a quenched unit stays above 30 us."""
    for rise, tail in ((40e-6, 15e-6), (80e-6, 20e-6)):
        for power in (1 / 128, 1 / 256, 1 / 10000):
            t01 = pulse.head_pulse("quenched", power=power, full_t05=1e-3, rise=rise, tail=tail).t01
            assert 30e-6 < t01 < 90e-6
        assert t01 == pytest.approx(tail * math.log(10), rel=0.1)


POWERS = st.floats(1 / 512, 1)


@settings(deadline=None, max_examples=200)
@given(POWERS, st.floats(3e-4, 3e-3), st.floats(0, 9e-5), st.floats(0, 3e-5))
def test_a_quenched_head_gives_the_power_it_is_set_to(power, full_t05, rise, tail):
    full = pulse.head_pulse("quenched", power=1, full_t05=full_t05, rise=rise, tail=tail)
    head = pulse.head_pulse("quenched", power=power, full_t05=full_t05, rise=rise, tail=tail)
    assert full.t05 == pytest.approx(full_t05, rel=1e-12)
    assert head.t05 <= full_t05 * (1 + 1e-12)
    if power * full.energy >= tail or rise > 1e-6 or rise == 0:
        assert head.energy / full.energy == pytest.approx(power, rel=1e-9)


@pytest.mark.parametrize("row", rows("quenched_class.csv"), ids=lambda r: f"power {r['power']}")
def test_a_middling_quenched_head_lies_in_the_class(row):
    fast, slow_ = pulse.class_t01("quenched", power=row["power"])
    assert 1 / fast == pytest.approx(row["fast_per_s"], rel=1e-12)
    assert 1 / slow_ == pytest.approx(row["slow_per_s"], rel=1e-12)
    head = pulse.head_pulse("quenched", power=row["power"], full_t05=1e-3, rise=60e-6, tail=17e-6)
    assert fast <= head.t01 <= slow_


@pytest.mark.parametrize("kind", pulse.KINDS)
def test_a_middling_head_of_any_kind_lies_in_its_class(kind):
    for power in (1, 1 / 4, 1 / 32, 1 / 256):
        fast, slow_ = pulse.class_t01(kind, power=power)
        assert fast <= pulse.head_pulse(kind, power=power, full_t05=1e-3, rise=60e-6, tail=17e-6).t01 <= slow_


def test_how_the_kinds_change_with_power():
    def t01(kind, power, **more):
        return pulse.head_pulse(kind, power=power, full_t05=1e-3, rise=60e-6, tail=17e-6, **more).t01

    powers = [1, 1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 32]
    for kind, sign in (("quenched", -1), ("capacitor_switched", -1), ("voltage_controlled", 1)):
        assert (np.sign(np.diff([t01(kind, p) for p in powers])) == sign).all(), kind
    for kind in pulse.KINDS[:3]:
        full = pulse.head_pulse(kind, power=1, full_t05=1e-3, rise=60e-6)
        assert full.t05 == pytest.approx(1e-3, rel=1e-12)
    assert t01("high_speed_sync", 1) == t01("high_speed_sync", 1 / 32) == pytest.approx(pulse.TRAIN_LENGTH)
    bare = {"power": 1 / 32, "full_t05": 1e-3}
    assert pulse.head_pulse("capacitor_switched", **bare).t05 == pytest.approx(1e-3 / 32, rel=1e-12)
    for exponent, times in ((0, 1), (0.25, 2.378), (0.5, 5.657)):
        head = pulse.head_pulse("voltage_controlled", **bare, lengthening=exponent)
        assert head.t05 == pytest.approx(times * 1e-3, rel=1e-3)
    assert pulse.head_pulse("voltage_controlled", **bare).t05 == pytest.approx(2.378e-3, rel=1e-3)


def test_two_voltages_through_one_tube():
    """A 32nd of the energy in the same capacitor lasts sqrt(32) times as long: the end of the band."""
    capacitance, k = 1e-3, 20.0
    full, low = (pulse.tube(k**2 * capacitance / v) for v in (350.0, 350.0 / math.sqrt(32)))
    head = pulse.head_pulse("voltage_controlled", power=1 / 32, full_t05=full.t05, lengthening=0.5)
    assert head.t01 == pytest.approx(low.t01, rel=1e-12)


def test_class_ranges():
    for kind in pulse.KINDS:
        for power in (1, 0.7, 1 / 3, 1 / 32, 1 / 256):
            fast, slow_ = pulse.class_t01(kind, power=power)
            assert 0 < fast < slow_
    assert pulse.class_t01("voltage_controlled") == (1 / 1000, 1 / 200)
    assert pulse.class_t01("voltage_controlled", power=1 / 16) == pytest.approx((1 / 1000, 4 / 200))
    assert pulse.class_t01("capacitor_switched", power=1 / 16)[0] == pytest.approx(1 / 16000)
    assert pulse.class_t01("capacitor_switched", power=1 / 256)[0] == 30e-6
    assert pulse.class_t01("quenched", power=1 / 256) == (30e-6, 60e-6)
    assert pulse.class_t01("high_speed_sync") == (3e-3, 10e-3)


def test_a_train_freezes_nothing():
    p = pulse.train(5e-3, 150)
    assert p.t05 == p.t01 == 5e-3
    assert 3.0 * p.t01 == pytest.approx(15e-3)  # the published 15 mm of smear at 3 m/s
    assert p.half_energy == pytest.approx(2.5e-3, rel=0.01)
    assert p.energy / p.length == pytest.approx(0.5, abs=0.01)


def test_pulses_are_values():
    assert pulse.quenched(1e-3, 1e-4) == pulse.quenched(1e-3, 1e-4)
    assert len({pulse.tube(1e-3), pulse.tube(1e-3), pulse.tube(2e-3)}) == 2
    assert isinstance(pulse.tube(1e-3), Discharge)


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (lambda: pulse.exponential(0), "tau is 0 s; it must be above 0 s"),
        (lambda: pulse.quenched(1e-3, 0), "cut is 0 s; it must be above 0 s"),
        (lambda: pulse.quenched(1e-3, 1e-4, rise=-1), "rise is -1 s; it must be 0 s or more"),
        (lambda: pulse.tube(float("nan")), "T is nan s; it must be above 0 s"),
        (lambda: pulse.exponential(1).duration(0), "fraction is 0; it must be above 0 and below 1"),
        (lambda: pulse.exponential(1).when(1.1), "share is 1.1; it must be between 0 and 1"),
        (lambda: pulse.exponential(1).moments(0), "n is 0; it must be a whole number, 1 or more"),
        (lambda: pulse.train(1e-3, 0), "pulses is 0; it must be a whole number, 1 or more"),
        (
            lambda: pulse.head_pulse("quenched", power=2, full_t05=1e-3),
            "power is 2; it must be above 0 and at most 1",
        ),
        (
            lambda: pulse.head_pulse("fast", power=1, full_t05=1e-3),
            f"kind is 'fast'; it must be one of {', '.join(pulse.KINDS)}",
        ),
        (
            lambda: pulse.head_pulse("quenched", power=1, full_t05=1e-5, rise=1e-4),
            "full_t05 is 1e-05 s; it must be above half the rise, 5e-05 s",
        ),
        (
            lambda: pulse.head_pulse("quenched", power=1, full_t05=1e-5, tail=1e-4),
            "tail is 0.0001 s; it must be below the time constant of the discharge, 1.4427e-05 s",
        ),
    ],
)
def test_refusals(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line


@pytest.mark.parametrize("power", [1 / 32, 1 / 64, 1 / 128, 1 / 256])
def test_a_head_without_a_rise_gives_the_power_that_was_asked_for(power):
    """Also where the afterglow of a full peak alone, 1/85 of the light here, is more than that."""
    head = {"full_t05": 0.883e-3, "tail": 15e-6}
    full, cut = (pulse.head_pulse("quenched", power=p, **head) for p in (1.0, power))
    assert cut.energy / full.energy == pytest.approx(power, rel=2e-3)
    # The curve says so too: its light summed in small steps, in shares of the peak of the uncut pulse.
    times = np.concatenate([[0.0], np.geomspace(1e-12, 0.02, 200_001)])
    light = [float(np.trapezoid(each.intensity(times), times)) * each.top for each in (full, cut)]
    assert light[1] / light[0] == pytest.approx(power, rel=0.01)
