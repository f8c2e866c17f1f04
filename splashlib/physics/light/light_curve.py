"""The shapes of light pulses: how bright a flash is at a time, and how much of its light is out by then.

Time runs from the start of the pulse. Everything is a closed form, so that a picture can ask for it at each
move of a slider. `pulse` builds these; nothing else needs to.
"""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.physics.checks import between, plain, whole


@dataclass(frozen=True)
class ExponentialLaw:
    """Light that falls as exp(-t/tau) [tau in s]."""

    tau: float

    def level(self, t):
        return np.exp(-t / self.tau)

    def energy(self, t):
        return -self.tau * np.expm1(-t / self.tau)

    def time_of_level(self, level):
        return -self.tau * np.log(level)

    def time_of_energy(self, energy):
        with np.errstate(divide="ignore"):  # all of the light is out only after an endless time
            return -self.tau * np.log1p(-np.minimum(energy / self.tau, 1.0))


@dataclass(frozen=True)
class TubeLaw:
    """Light that falls as (1 + t/T)^-3: a tube with V = K sqrt(I) on a capacitor [T in s]."""

    T: float

    def level(self, t):
        return (1 + t / self.T) ** -3.0

    def energy(self, t):
        # T/2 (1 - (1+x)^-2) with x = t/T, through logarithms so that small x keeps its digits.
        return -0.5 * self.T * np.expm1(-2 * np.log1p(t / self.T))

    def time_of_level(self, level):
        return self.T * np.expm1(-np.log(level) / 3)

    def time_of_energy(self, energy):
        with np.errstate(divide="ignore"):  # all of the light is out only after an endless time
            return self.T * np.expm1(-0.5 * np.log1p(-np.minimum(2 * energy / self.T, 1.0)))


class Pulse:
    """What every pulse can tell, whatever its shape."""

    top = 1.0

    @property
    def lit_time(self):
        """Time in which the peak's light would give all the light of the pulse [s]."""
        return self.energy / self.top

    @property
    def t05(self):
        """Time for which the light is above 50 % of its peak [s] (ISO 2827)."""
        return self.duration(0.5)

    @property
    def t01(self):
        """Time for which the light is above 10 % of its peak [s] (ISO 2827): what a streak shows."""
        return self.duration(0.1)

    @property
    def half_energy(self):
        """Time after the start by which half of the light is out [s]: where a moving thing seems to stand."""
        return self.when(0.5)

    def moments(self, n):
        """`n` instants that stand for the light: the middles of `n` slices of equal energy.

        Parameters
        ----------
        n : int
            How many, 1 or more.

        Returns
        -------
        ndarray
            Times after the start of the pulse [s], rising.

        Notes
        -----
        The sharp picture at each instant, averaged with equal weights, is the picture in the pulse's light.
        """
        count = whole("n", n)
        return self._when((np.arange(count) + 0.5) / count)

    def when(self, share):
        """Time after the start by which a share of the light is out [s]; infinite only for the share 1.

        Parameters
        ----------
        share : float or array
            Share of the pulse's own light, 0 to 1 [-].
        """
        return plain(self._when(between("share", share, 0, 1)))

    def energy_within(self, time):
        """Share of the pulse's own light that is out a time after its start [-], 0 to 1.

        Parameters
        ----------
        time : float or array
            Time after the start [s]; before the start nothing is out, at infinity all of it is.
        """
        time = between("time", time, -math.inf, math.inf, "s")
        return plain(np.clip(self._energy_by(time) / self.energy, 0.0, 1.0))

    def intensity(self, time):
        """Brightness at a time after the start, relative to the peak [-].

        Parameters
        ----------
        time : float or array
            Time after the start [s]; before it the light is 0.
        """
        return plain(self._brightness(between("time", time, -math.inf, math.inf, "s")))


@dataclass(frozen=True)
class Discharge(Pulse):
    """One discharge: a straight rise, the tube's own law, a cut, and an afterglow.

    Attributes
    ----------
    law : ExponentialLaw or TubeLaw
        The fall of the light from the end of the rise.
    cut : float
        Time after the start at which the current is cut [s]; infinite if it never is. It may lie in the rise.
    rise : float
        Time of the straight rise from dark to the law's start [s].
    tail : float
        Time constant of the afterglow after the cut [s].
    """

    law: ExponentialLaw | TubeLaw
    cut: float = math.inf
    rise: float = 0.0
    tail: float = 0.0

    @property
    def top(self):
        """Peak of the light over that of the uncut discharge [-]; 1 unless cut in the rise."""
        return min(self.cut / self.rise, 1.0) if self.rise else 1.0

    @property
    def _ramp(self):
        return min(self.rise, self.cut)

    @property
    def _body(self):
        return max(self.cut - self.rise, 0.0)

    @property
    def _cut_level(self):
        return self.top * float(self.law.level(self._body))

    def _parts(self):
        """Light of the rise, of the law, and of the afterglow, in seconds of the uncut discharge's peak."""
        return 0.5 * self.top * self._ramp, float(self.law.energy(self._body)), self._cut_level * self.tail

    @property
    def energy(self):
        """All the light, in seconds of the uncut discharge's peak [s]; so cuts of one head compare."""
        return sum(self._parts())

    def duration(self, fraction):
        """Time for which the light is above a fraction of its peak.

        Parameters
        ----------
        fraction : float or array
            Fraction of the peak, above 0 and below 1 [-].

        Returns
        -------
        float or ndarray
            Time [s].
        """
        fraction = between("fraction", fraction, 0, 1, open_low=True, open_high=True)
        level = fraction * self.top
        at_cut = self._cut_level
        # A level below the one at the cut is passed in the afterglow, any other by the law itself.
        body = self.rise + self.law.time_of_level(np.maximum(level, at_cut))
        after = self._afterglow_until(level) if at_cut > 0 else body
        return plain(np.where(level < at_cut, after, body) - level * self.rise)

    def _afterglow_until(self, level):
        return self.cut + self.tail * np.log(self._cut_level / level)

    def _energy_by(self, t):
        ramp = np.clip(t, 0.0, self._ramp)
        out = 0.5 * ramp * ramp / self.rise if self.rise else 0.0
        out = out + self.law.energy(np.clip(t - self.rise, 0.0, self._body))
        if self.tail and self.cut < math.inf:
            out = out - self._cut_level * self.tail * np.expm1(-np.maximum(t - self.cut, 0.0) / self.tail)
        return out

    def _when(self, share):
        ramp, body, glow = self._parts()
        energy = share * (ramp + body + glow)
        in_body = self.rise + self.law.time_of_energy(np.clip(energy - ramp, 0.0, body))
        time = np.where(energy < ramp, np.sqrt(2 * self.rise * np.minimum(energy, ramp)), in_body)
        if not glow:
            return np.minimum(time, self.cut)
        with np.errstate(divide="ignore"):  # as in the laws
            late = self.cut - self.tail * np.log1p(-np.clip((energy - ramp - body) / glow, 0.0, 1.0))
        return np.where(energy > ramp + body, late, time)

    def _brightness(self, t):
        level = self.law.level(np.clip(t - self.rise, 0.0, self._body)) * self.top
        if self.rise:
            level = np.where(t < self._ramp, np.maximum(t, 0.0) / self.rise, level)
        if self.cut < math.inf:
            after = np.maximum(t - self.cut, 0.0)
            fade = np.exp(-after / self.tail) if self.tail else 0.0
            level = np.where(t > self.cut, level * fade, level)
        return np.where(t < 0, 0.0, level) / self.top


@dataclass(frozen=True)
class Train(Pulse):
    """Short equal pulses in a row: high-speed sync.

    Attributes
    ----------
    length : float
        From the start of the first pulse to the end of the last [s].
    pulses : int
        How many.
    duty : float
        Share of each period that is lit [-].
    """

    length: float
    pulses: int
    duty: float = 0.5

    @property
    def period(self):
        """From the start of one pulse to the start of the next [s]."""
        return self.length / (self.pulses - 1 + self.duty)

    @property
    def energy(self):
        """All the light, in seconds of the peak [s]."""
        return self.pulses * self.duty * self.period

    def duration(self, fraction):
        """Time from the first light above a fraction of the peak to the last: the whole train, for any
        fraction.

        Parameters
        ----------
        fraction : float or array
            Fraction of the peak, above 0 and below 1 [-].

        Returns
        -------
        float or ndarray
            Time [s].
        """
        fraction = between("fraction", fraction, 0, 1, open_low=True, open_high=True)
        return plain(np.full(np.shape(fraction), self.length))

    def _energy_by(self, t):
        t = np.clip(t, 0.0, self.length)
        done = np.minimum(np.floor(t / self.period), self.pulses - 1)
        return done * self.duty * self.period + np.minimum(t - done * self.period, self.duty * self.period)

    def _when(self, share):
        place = share * self.pulses
        done = np.minimum(np.floor(place), self.pulses - 1)
        return (done + (place - done) * self.duty) * self.period

    def _brightness(self, t):
        inside = np.mod(np.clip(t, 0.0, self.length), self.period) < self.duty * self.period
        return np.where((t >= 0) & (t <= self.length) & inside, 1.0, 0.0)
