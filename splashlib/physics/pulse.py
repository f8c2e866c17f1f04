"""The light of a flash in time: shapes, their durations and moments, and how a head's shape goes with its
power.

A pulse answers, all from its start on: ``.duration(fraction)`` [s], ``.t05``, ``.t01``,
``.energy_within(time)``, ``.when(share)`` [s], ``.half_energy`` [s], ``.intensity(time)``, ``.moments(n)``
[s]. Light is taken to follow the electrical power. In life it lags by 10 to 20 us, which is what the
afterglow of a cut pulse stands for.
"""

import math

import numpy as np

from splashlib.physics.checks import between, not_negative, one_of, positive, whole
from splashlib.physics.light.light_curve import Discharge, ExponentialLaw, Pulse, Train, TubeLaw

__all__ = [
    "KINDS",
    "Pulse",
    "class_t01",
    "exponential",
    "head_pulse",
    "quenched",
    "train",
    "tube",
]

KINDS = ("quenched", "capacitor_switched", "voltage_controlled", "high_speed_sync")

TUBE_T05 = 2 ** (1 / 3) - 1
"""t0.5 / T of a tube pulse [-]."""

LENGTHENING = 0.25
"""The power of 1/(power fraction) by which a voltage-controlled head gets longer [-]; band 0 to 0.5."""

TRAIN_LENGTH = 0.006
"""Length of a high-speed sync train [s]; class value, 3-10 ms."""

TRAIN_RATE = 30e3
"""Pulses a second in a train [1/s]; class value, 20-50 kHz."""

FLOOR = 30e-6
"""Shortest t0.1 that rise and afterglow leave, whatever the power [s]; class value, 30-60 us."""

# t0.1 of camera-top quenched units, shortest and longest of the class at 1/1, 1/2 ... 1/128 [1/s]. A class
# range, worked out from a truncated exponential with 40-80 us of rise and 15-20 us of afterglow; soft
# (grade C).
_QUENCHED_FAST = (400, 1100, 2500, 5000, 9000, 14000, 20000, 30000)
_QUENCHED_SLOW = (200, 500, 1200, 2500, 4500, 8000, 11000, 14000)


SHORT_RISE = 1e-3
"""Rise of a pulse that has none but is cut before its peak, over its afterglow [-]."""


def exponential(tau):
    """A discharge that starts at once and falls as exp(-t/tau): a capacitor through a constant resistance.

    Parameters
    ----------
    tau : float
        Time constant [s].

    Returns
    -------
    Pulse

    Notes
    -----
    duration(f) = tau ln(1/f), so t0.1/t0.5 = ln 10 / ln 2 = 3.3219; energy within t is 1 - exp(-t/tau):
    half of the light is out after t0.5, nine tenths after t0.1. The rise (40-80 us in life) is neglected.

    Sources
    -------
    Discharge of a capacitor; durations as ISO 2827 defines them.
    """
    return Discharge(ExponentialLaw(positive("tau", tau, "s")))


def quenched(tau, cut, *, rise=0.0, tail=0.0):
    """An exponential discharge that is cut off to give less light.

    Parameters
    ----------
    tau : float
        Time constant of the uncut discharge [s].
    cut : float
        Time after the start at which the current is cut [s]; infinite for full power. It may lie in the rise.
    rise : float
        Time of the straight rise from dark to the peak [s]; 40-80 us in life.
    tail : float
        Time constant of the afterglow that follows the cut [s]; 15-20 us in life.

    Returns
    -------
    Pulse

    Notes
    -----
    With neither rise nor tail t0.5 = min(tau ln 2, cut), t0.1 = min(tau ln 10, cut), and the pulse gives
    1 - exp(-cut/tau) of full power. Rise and tail set a floor to t0.1 of 30-60 us: a straight rise and an
    exponential tail are rough pictures of either, good to about a third of their own length.

    Sources
    -------
    Truncated discharge of a capacitor; durations as ISO 2827 defines them.
    """
    return _discharge(ExponentialLaw(positive("tau", tau, "s")), cut, rise, tail)


def tube(T, *, cut=math.inf, rise=0.0, tail=0.0):
    """A discharge through a flash tube with V = K sqrt(I): the light falls as (1 + t/T)^-3.

    Parameters
    ----------
    T : float
        K^2 C / V0 [s], with the capacitance C, the first voltage V0 and the tube's constant K.
    cut : float
        Time after the start at which the tube goes out [s]; infinite if it never does.
    rise, tail : float
        As for `quenched` [s].

    Returns
    -------
    Pulse

    Notes
    -----
    duration(f) = T (f^(-1/3) - 1), so t0.1/t0.5 = 4.4415; energy within t is 1 - (1 + t/T)^-2: only 37 % of
    the light is out after t0.5 and 78 % after t0.1, the rest is a long dim tail. A real tube goes out when
    the voltage has sunk to some 50 V of 350: at t = 6 T, with 2 % of the energy left, which `cut` can say.

    Sources
    -------
    J. P. Markiewicz, J. L. Emmett, IEEE J. Quantum Electron. 2 (1966) 707-711, for V = K sqrt(I); with
    C dV/dt = -I it gives V = V0 / (1 + t/T) and the power V I = V^3/K^2.
    """
    return _discharge(TubeLaw(positive("T", T, "s")), cut, rise, tail)


def train(duration, pulses, *, duty=0.5):
    """High-speed sync: a row of short equal pulses that lasts as long as the curtains travel.

    Parameters
    ----------
    duration : float
        From the start of the first to the end of the last pulse [s]; 3-10 ms in life.
    pulses : int
        How many.
    duty : float
        Share of each period that is lit [-], above 0 to 1.

    Returns
    -------
    Pulse

    Notes
    -----
    Its duration is the whole train whatever the fraction, so nothing is frozen: 15 mm of smear at 3 m/s in
    5 ms. Each row of the sensor sees only its own exposure time of it. The ripple is drawn as on and off;
    in life it is shallower, the more so the higher the rate.

    Sources
    -------
    Geometry of the row; class values in `TRAIN_LENGTH` and `TRAIN_RATE`.
    """
    length = positive("duration", duration, "s")
    return Train(length, whole("pulses", pulses), between("duty", duty, 0, 1, open_low=True))


def head_pulse(kind, *, power, full_t05, rise=0.0, tail=0.0, lengthening=LENGTHENING):
    """The pulse of a flash head of a kind, at a power fraction.

    Parameters
    ----------
    kind : str
        "quenched", "capacitor_switched", "voltage_controlled" or "high_speed_sync".
    power : float
        Power fraction [-], above 0 to 1.
    full_t05 : float
        t0.5 at full power [s].
    rise, tail : float
        Rise, and afterglow after a cut, as for `quenched` [s].
    lengthening : float
        For voltage-controlled heads: the duration goes as power^-lengthening [-], 0 to 0.5.

    Returns
    -------
    Pulse

    Notes
    -----
    quenched: an exponential whose cut lets `power` of the full energy through, rise and afterglow counted;
    with neither, cut/tau = -ln(1 - power). Shorter at lower power, to the floor that rise and afterglow
    set. capacitor_switched: the tube law with T ~ C ~ power, at one voltage: t in proportion to the power.
    Units that switch a few banks and do the rest by voltage shorten less: between power^1 and power^0.
    voltage_controlled: the energy C V^2 / 2 is set by the voltage. With V = K sqrt(I) T = K^2 C/V0 goes as
    power^-1/2, with a constant resistance it does not change; tubes lie between, so 1/4 is taken, and 0 and
    1/2 are the ends of the band: at 1/32 a pulse is 2.4 times as long as at full power, 1 to 5.7 times.
    high_speed_sync: a train of `TRAIN_LENGTH`; power makes it dimmer, not shorter; `full_t05` plays no
    part. All of it is a class picture, good to a factor of 1.5 in duration; `class_t01` gives what units
    do.

    Sources
    -------
    As for `quenched` and `tube`; the bounds of the band by dimensions, from V ~ I^b with b = 1 and 1/2.
    """
    one_of("kind", kind, KINDS)
    power = between("power", power, 0, 1, open_low=True)
    positive("full_t05", full_t05, "s")
    rise, tail = not_negative("rise", rise, "s"), not_negative("tail", tail, "s")
    if kind == "high_speed_sync":
        return train(TRAIN_LENGTH, round(TRAIN_LENGTH * TRAIN_RATE))
    fall = full_t05 - rise / 2
    if fall <= 0:
        raise ValueError(f"full_t05 is {full_t05:g} s; it must be above half the rise, {rise / 2:g} s")
    if kind == "quenched":
        return _cut_to(power, tau=fall / math.log(2), rise=rise, tail=tail)
    exponent = -between("lengthening", lengthening, 0, 0.5) if kind == "voltage_controlled" else 1.0
    return tube(fall / TUBE_T05 * power**exponent, rise=rise)


def class_t01(kind, *, power=1.0):
    """Shortest and longest t0.1 that flash heads of a kind show at a power fraction.

    Parameters
    ----------
    kind : str
        "quenched" (camera-top units), "capacitor_switched", "voltage_controlled" or "high_speed_sync".
    power : float
        Power fraction [-], above 0 to 1.

    Returns
    -------
    tuple of float
        Shortest and longest t0.1 of the class [s].

    Notes
    -----
    Class ranges, soft: show them as a band. Quenched: a table at whole stops, in between by interpolation
    of the logarithms; below 1/128 the floor of 30-60 us. Voltage-controlled: 1/1000 to 1/200 s at full power;
    from there between not at all and power^-1/2, the ends of the band of `head_pulse`. Capacitor-switched: the
    same at full power; from there between in proportion to the power, to the floor of 30 us, and not at all.

    Sources
    -------
    Class values, worked out as stated at the table; no single unit is meant.
    """
    one_of("kind", kind, KINDS)
    power = between("power", power, 0, 1, open_low=True)
    if kind == "high_speed_sync":
        return 3e-3, 10e-3
    if kind == "voltage_controlled":
        return 1e-3, 5e-3 / math.sqrt(power)
    if kind == "capacitor_switched":
        return max(1e-3 * power, FLOOR), 5e-3
    stops = np.arange(8.0)
    fast, slow = (
        1 / math.exp(np.interp(-math.log2(power), stops, np.log(table))) for table in (_QUENCHED_FAST, _QUENCHED_SLOW)
    )
    return (fast, slow) if power >= 1 / 128 else (FLOOR, max(60e-6, slow * (128 * power)))


def _discharge(law, cut, rise, tail):
    cut = positive("cut", cut, "s", infinite=True)
    return Discharge(law, cut, not_negative("rise", rise, "s"), not_negative("tail", tail, "s"))


def _cut_to(power, *, tau, rise, tail):
    """The quenched pulse that gives `power` of the light of the uncut one with the same rise."""
    if tail >= tau:
        raise ValueError(f"tail is {tail:g} s; it must be below the time constant of the discharge, {tau:g} s")
    full = rise / 2 + tau
    wanted = power * full
    if wanted < rise / 2 + tail:
        # Cut in the rise: cut^2/(2 rise) + tail cut/rise = wanted. The afterglow of the full peak alone is more than
        # that: without a rise one a thousandth as long as the afterglow lets the light stop short of its peak.
        rise = rise or SHORT_RISE * tail
        cut = 2 * rise * wanted / (math.sqrt(tail**2 + 2 * rise * wanted) + tail)
        return quenched(tau, max(cut, 1e-9 * tau), rise=rise, tail=tail)
    if power == 1:
        return quenched(tau, math.inf, rise=rise, tail=tail)
    return quenched(tau, rise - tau * math.log((1 - power) * full / (tau - tail)), rise=rise, tail=tail)
