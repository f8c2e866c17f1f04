"""The body under the water: how deep, how fast, whether it comes up again.

From contact to the closing of its cavity the body runs with a cavity behind it, afterwards it is wet all round.
In each part the drag coefficient is constant, so that the motion has a closed form.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.bisection import last_held
from splashlib.physics.checks import not_negative, plain
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.threshold import splash_chance

# A. May, "Water entry and the cavity-running behavior of missiles", SEAHAC TR 75-2 (1975): a sphere with its
# cavity has a drag coefficient of about 0.3 over its frontal area.
CAVITY_DRAG = 0.30
# A wet sphere at Re 1e3 to 1e5: R. Clift, W. H. Gauvin, Can. J. Chem. Eng. 49 (1971) 439 give 0.40 to 0.49.
WET_DRAG = 0.45
# Water carried along, in volumes of the body: half for a wet sphere (potential flow), about half of that for
# one that is wet on its front only.
WET_ADDED, CAVITY_ADDED = 0.5, 0.25
# The blow at contact: the drag coefficient peaks near 1 and is down to 0.3 one radius deep (M. Moghisi,
# P. T. Squire, J. Fluid Mech. 108 (1981) 133); the excess over one radius is about a quarter of a radius.
BLOW_DEPTH = 0.25
# A body that has not reached the bottom by this time is taken to float in the water [s].
LONG = 600.0


class Leg(NamedTuple):
    """Motion downward from a speed under a steady pull and drag: dv/dt = pull - drag v |v|."""

    speed: float
    pull: float
    drag: float

    @property
    def stop(self):
        """Time until it stands still [s]; infinite where it never does."""
        if self.pull >= 0:
            return math.inf
        hover = math.sqrt(-self.pull / self.drag)
        return math.atan(self.speed / hover) / (self.drag * hover)

    def at(self, time):
        """Depth gained [m] and speed [m/s, down] a time after the leg began."""
        if self.pull > 0:
            return self._sinking(time)
        if self.pull == 0:
            brake = 1 + self.drag * self.speed * time
            return np.log(brake) / self.drag, self.speed / brake
        stop = self.stop
        depth, speed = self._rising_against(np.minimum(time, stop))
        lost, up = self._back_up(np.maximum(time - stop, 0.0))
        return depth - lost, np.where(time < stop, speed, -up)

    def _sinking(self, time):
        final = math.sqrt(self.pull / self.drag)
        gain = np.tanh(self.drag * final * time)
        ratio = self.speed / final
        depth = (_log_cosh(self.drag * final * time) + np.log1p(ratio * gain)) / self.drag
        return depth, final * (ratio + gain) / (1 + ratio * gain)

    def _rising_against(self, time):
        hover = math.sqrt(-self.pull / self.drag)
        start = math.atan(self.speed / hover)
        angle = start - self.drag * hover * time
        return np.log(np.cos(angle) / math.cos(start)) / self.drag, hover * np.tan(angle)

    def _back_up(self, time):
        final = math.sqrt(-self.pull / self.drag)
        return _log_cosh(self.drag * final * time) / self.drag, final * np.tanh(self.drag * final * time)


@lru_cache(maxsize=128)
def legs(body):
    """Return the two legs of the body's motion and when the second begins [s]."""
    runs = splash_chance(body) >= 0.5
    first = _leg(body, speed=_after_blow(body), wet=not runs)
    if not runs:
        return first, first, math.inf
    change = min(seal_time(body).likely, first.stop)
    return first, _leg(body, speed=max(float(first.at(change)[1]), 0.0), wet=True), change


def _after_blow(body):
    mass = body.relative_density + CAVITY_ADDED
    return body.speed * math.exp(-0.375 * BLOW_DEPTH / (body.slenderness * mass))


def _leg(body, *, speed, wet):
    added, coefficient = (WET_ADDED, WET_DRAG) if wet else (CAVITY_ADDED, CAVITY_DRAG)
    mass = body.relative_density + added
    # Drag over mass: (Cd/2) A / (volume x mass), volume = (2/3) A x upright axis.
    drag = 0.75 * coefficient / (body.length * mass)
    return Leg(speed, GRAVITY * (body.relative_density - 1) / mass, drag)


def body_depth(body, time):
    """Depth of the lowest point of the body under the resting surface.

    Parameters
    ----------
    body : SolidImpact
    time : float or array
        Time after contact [s].

    Returns
    -------
    float or ndarray
        Depth [m]; the depth of the water once it lies on the bottom, its floating depth once it is up again.

    Notes
    -----
    (s + Ca) dv/dt = (s - 1) g - (3/4) Cd v |v| / length, s the relative density, Ca the water carried along;
    Cd 0.30 and Ca 0.25 with the cavity, 0.45 and 0.5 without. The blow at contact takes exp(-0.094/(s + 0.25))
    of the speed (7 % at s = 1). Neglected: that the open cavity changes the lift (up to half the weight of the
    water displaced, for a tenth of a second), the bubble carried down after the seal (a light body with its
    bubble rises sooner), swerving. Good to about 10 % of the depth for s above 0.5; below that a sketch.

    Sources
    -------
    J. M. Aristoff, T. T. Truscott, A. H. Techet, J. W. M. Bush, Phys. Fluids 22 (2010) 032102 (same balance);
    coefficients beside the constants of this module.
    """
    return plain(_motion(body, time)[0])


def body_speed(body, time):
    """Speed of the body under water, downward positive; as `body_depth`, 0 where it lies or floats.

    Parameters
    ----------
    body : SolidImpact
    time : float or array
        Time after contact [s].

    Returns
    -------
    float or ndarray
        Speed [m/s].

    Notes
    -----
    The derivative of `body_depth`; same range.

    Sources
    -------
    As `body_depth`.
    """
    return plain(_motion(body, time)[1])


def _motion(body, time):
    time = np.asarray(not_negative("time", time, "s"))
    first, second, change = legs(body)
    depth, speed = first.at(np.minimum(time, change))
    if change < math.inf:
        more, later = second.at(np.maximum(time - change, 0.0))
        depth, speed = depth + more, np.where(time > change, later, speed)
    up = (time > deepest_time(body)) & (depth <= floating_depth(body))
    depth = np.where(up, floating_depth(body), depth)
    down = _reaches_bottom(body) & (time >= bottom_time(body))
    return np.where(down, body.water_depth, depth), np.where(up | down, 0.0, speed)


def floating_depth(body):
    """Depth of the lowest point of a light body at rest [m]: its share under water, its length if it sinks."""
    return min(body.relative_density, 1.0) * body.length


@lru_cache(maxsize=128)
def deepest_time(body):
    """When a light body stops sinking [s after contact]; infinite for one that goes to the bottom."""
    first, second, change = legs(body)
    if body.relative_density >= 1:
        return math.inf
    return first.stop if first.stop <= change else change + second.stop


@lru_cache(maxsize=128)
def surfacing_time(body):
    """When a light body is back at the surface [s after contact]; infinite for one that sinks."""
    start = deepest_time(body)
    if start == math.inf:
        return math.inf
    first, second, change = legs(body)
    last, begun = (first, 0.0) if change == math.inf else (second, change)
    if _reaches_bottom(body):
        start, deepest = bottom_time(body), body.water_depth
    else:
        deepest = _depth_free(body, start)
    way = max(deepest - floating_depth(body), 0.0)
    rise = -last.pull
    # depth lost = ln cosh(k w t)/k with w = sqrt(rise/k).
    pace = math.sqrt(rise * last.drag)
    return max(start, begun) + _arccosh_exp(last.drag * way) / pace


@lru_cache(maxsize=128)
def bottom_time(body):
    """When the lowest point meets the bottom of the vessel [s after contact]; infinite where it does not."""
    if not _reaches_bottom(body):
        return math.inf
    return last_held(lambda time: _depth_free(body, time) < body.water_depth, 0.0, min(deepest_time(body), LONG))


@lru_cache(maxsize=128)
def _reaches_bottom(body):
    if body.water_depth == math.inf:
        return False
    return _depth_free(body, min(deepest_time(body), LONG)) > body.water_depth


def _depth_free(body, time):
    """Depth without a bottom and before any return to the surface [m]."""
    first, second, change = legs(body)
    depth = float(first.at(min(time, change))[0])
    return depth if time <= change else depth + float(second.at(time - change)[0])


def _log_cosh(x):
    return x + np.log1p(np.exp(-2 * x)) - math.log(2)


def _arccosh_exp(x):
    """arccosh(e^x), without overflow."""
    return x + math.log1p(math.sqrt(-math.expm1(-2 * x)))
