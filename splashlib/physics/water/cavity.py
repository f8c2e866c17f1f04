"""The shape of the cavity behind a solid body, slice by slice, and what the picture needs of it.

Each slice of water is pushed outward as the body passes and is pulled back by the pressure at its depth. The
speed with which it opens follows from the drag of the body (what the body loses, the slice gets); the inertia
of the slice is then the one number left, and it is set so that the soonest slice closes at the published time.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.bisection import last_held_ratio
from splashlib.physics.checks import not_negative
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.impact import Band, ramp
from splashlib.physics.water.sinking import CAVITY_DRAG, body_depth, body_speed

SLICES = 120
# So often the range of the inertia is halved, in its logarithm: to 1e-7 of it.
HALVINGS = 26


class Slices(NamedTuple):
    """The slices of a cavity: depth [m], when each opened [s], opening b [m2/s], closing c [m2/s2], inertia N."""

    depth: np.ndarray
    opened: np.ndarray
    push: np.ndarray
    pull: np.ndarray
    inertia: float


class Seal(NamedTuple):
    """Where the cavity closes: time [s], depth of the pinch and of the lowest point of the body then [m]."""

    time: float
    depth: float
    body_depth: float


def cavity_outline(body, time, *, points=80):
    """Outline of the cavity at one instant: its radius over the depth.

    Parameters
    ----------
    body : SolidImpact
    time : float
        Time after contact [s].
    points : int
        Number of depths.

    Returns
    -------
    tuple of ndarray
        Depths from the resting surface down to the widest part of the body, and the radius at each [m]; 0 where
        the cavity is closed. Empty arrays before the body is half under.

    Notes
    -----
    r^2 = R^2 + b s - g z s^2/N, s the time since the widest part of the body passed the depth z, b = R v beta,
    with N beta^2 = 2 Cd from the energy that drag leaves in each slice and N set by the seal time. Near the
    surface the water can also give way upward: within about one radius the outline goes over into that of a
    hemispherical flow (r^3 in place of r^2) with the weight of the lip, about a radius of water, on it (C).
    After the seal the lower part is carried along with the body. Widths within some 20 %, mouth 40 %;
    undulations and the ripples of the bubble are left out.

    Sources
    -------
    V. Duclaux et al., J. Fluid Mech. 591 (2007) 1; drag A. May, SEAHAC TR 75-2 (1975); the time as `seal_time`.
    """
    time = float(not_negative("time", time, "s"))
    deepest = float(body_depth(body, time)) - body.length / 2
    if deepest <= 0:
        return np.empty(0), np.empty(0)
    depth = np.linspace(0.0, deepest, int(points))
    seal = cavity_seal(body)
    if time <= seal.time:
        return depth, _radius(body, _slices(body), depth, time)
    upper = np.where(depth < seal.depth, _radius(body, _slices(body), depth, time), 0.0)
    return depth, np.where(depth < seal.depth, upper, _bubble(body, seal, depth, deepest))


def cavity_mouth(body, time):
    """Radius of the cavity at the resting surface at one instant [m]: the first of `cavity_outline`, 0 before it.

    Parameters
    ----------
    body : SolidImpact
    time : float
        Time after contact [s].
    """
    slices = _slices(body)
    since = time - float(slices.opened[0])
    if since <= 0 or body.radius**2 + since * float(slices.push[0] - slices.pull[0] * since) <= 0:
        return 0.0
    gain = since * (float(slices.push[0]) - _lip(body, slices) * since)
    return max(body.radius**3 + 1.5 * body.radius * gain, 0.0) ** (1 / 3)


def _lip(body, slices):
    """Pull on the mouth [m2/s2]; it outlasts the seal, and must not close within twice that time."""
    return min(GRAVITY * body.radius / slices.inertia, float(slices.push[0]) / (2 * seal_time(body).likely))


def cavity_seal(body):
    """Where and when the cavity closes by the likely law: time, depth of the pinch, depth of the body.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Seal

    Notes
    -----
    The slice of `cavity_outline` that closes first. The pinch lies at 0.40 to 0.60 of the depth of the body for
    Fr = U^2/(gR) above about 20; slower entries close higher up.

    Sources
    -------
    As `cavity_outline`.
    """
    return _seal_of(body, _slices(body))


def seal_depth(body):
    """Depth of the seal under the surface, from the depth of the body at that moment.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Band
        Depths [m].

    Notes
    -----
    Likely the pinch of the drawn outline, `cavity_seal`; limits 0.4 to 0.6 of the depth of the lowest point of the
    body then (from 0.3 and less on for Fr = U^2/(gR) under 20). Half is what the slices say when they need no
    time to open: z/U and the rest share the time evenly.

    Sources
    -------
    T. T. Truscott, A. H. Techet, J. Fluid Mech. 625 (2009) 135; V. Duclaux et al., J. Fluid Mech. 591 (2007) 1.
    """
    depth = float(body_depth(body, seal_time(body).likely))
    least, most = depth * (0.3 + 0.1 * ramp(body.froude, low=3, high=20)), depth * 0.6
    pinch = min(cavity_seal(body).depth, most)
    return Band(min(least, 0.9 * pinch), pinch, most)


def cavity_volume(body, time):
    """Volume of the cavity below the resting surface at one instant [m3], good to about 40 % (C).

    Parameters
    ----------
    body : SolidImpact
    time : float
        Time after contact [s].

    Returns
    -------
    float
        Volume of air [m3], without the half of the body that stands in it.
    """
    depth, radius = cavity_outline(body, time)
    if not depth.size:
        return 0.0
    half_body = 2 / 3 * math.pi * body.radius**2 * body.length / 2
    return max(float(np.trapezoid(math.pi * radius**2, depth)) - half_body, 0.0)


@lru_cache(maxsize=128)
def _slices(body):
    """Slices with the inertia N that makes the first of them close at the published time."""
    target = seal_time(body).likely
    times = np.linspace(0.0, 3.0 * target, 4 * SLICES)
    depths = body_depth(body, times) - body.length / 2
    speeds = body_speed(body, times)
    going = (depths > 0) & (speeds > 0.02 * body.speed) & (np.gradient(depths) > 0)
    if going.sum() < 3:
        return _stub(body)
    opened, depth, speed = times[going], depths[going], speeds[going]

    def slices(inertia):
        return _with_inertia(body, depth, opened, speed, inertia)

    def too_early(inertia):
        return _closing(body, slices(inertia)).min() < target

    return slices(last_held_ratio(too_early, 0.01, 20.0, steps=HALVINGS))


def _with_inertia(body, depth, opened, speed, inertia):
    push = math.sqrt(2 * CAVITY_DRAG / inertia) * body.radius * speed
    head = depth + body.radius / body.bond
    return Slices(depth, opened, push, GRAVITY * head / inertia, inertia)


def _stub(body):
    """One shallow slice, for a body that hardly gets in."""
    time = seal_time(body).likely
    push = body.radius * body.speed
    pull = (push + body.radius**2 / time) / time
    return Slices(np.array([body.radius]), np.array([0.0]), np.array([push]), np.array([pull]), 1.0)


def _closing(body, slices):
    """When each slice closes [s]."""
    return slices.opened + (slices.push + np.sqrt(slices.push**2 + 4 * body.radius**2 * slices.pull)) / (
        2 * slices.pull
    )


def _seal_of(body, slices):
    """Where and when the cavity closes, between the slices: by the parabola through the first three to close."""
    closed = _closing(body, slices)
    first = int(np.argmin(closed))
    time, depth = float(closed[first]), float(slices.depth[first])
    if 0 < first < len(closed) - 1:
        before, after = float(closed[first - 1]), float(closed[first + 1])
        offset = (before - after) / max(2 * (before - 2 * time + after), 1e-15)
        depth = float(np.interp(first + min(max(offset, -1.0), 1.0), np.arange(len(closed)), slices.depth))
    return Seal(time, depth, float(body_depth(body, time)))


def _radius(body, slices, depth, time):
    opened = np.interp(depth, slices.depth, slices.opened)
    since = np.clip(time - opened, 0.0, None)
    push = np.interp(depth, slices.depth, slices.push)
    gain = push * since - np.interp(depth, slices.depth, slices.pull) * since**2
    deep = np.sqrt(np.clip(body.radius**2 + gain, 0.0, None))
    gain = push * since - _lip(body, slices) * since**2
    shallow = np.cbrt(np.clip(body.radius**3 + 1.5 * body.radius * gain, 0.0, None))
    share = np.exp(-depth / body.radius)
    return np.where(deep > 0, share * shallow + (1 - share) * deep, 0.0)


def _bubble(body, seal, depth, deepest):
    """The lower part as it was at the seal, carried down with the body."""
    was = seal.body_depth - body.length / 2
    shape = np.linspace(seal.depth, max(was, seal.depth), 60)
    radius = _radius(body, _slices(body), shape, seal.time)
    radius[0] = 0.0
    return np.interp(depth - (deepest - was), shape, radius, left=0.0)
