"""Droplets that a crown throws: how high and how far they get, and when they come down through the beam.

They matter three times: they are the sparkle of the picture, they wet the set, and falling back through the
beam they can fire a second picture. ``spray`` has their sizes and speeds, ``thrown`` draws the droplets of one
splash, ``flight`` flies them.
"""

import math
from typing import NamedTuple

import numpy as np

from splashlib.physics.air.flight import down_time, height_at, relax_time, straight_up
from splashlib.physics.checks import not_negative
from splashlib.physics.constants import GRAVITY
from splashlib.physics.droplets.spray import droplet_size, droplet_speed
from splashlib.physics.fall import fall_time
from splashlib.physics.water.impact import Band
from splashlib.physics.water.mouth import mouth_radius
from splashlib.physics.water.rim import droplets_start

# Outward over upward speed: a crown leans out by 18 to 45 degrees.
LEAN = Band(0.33, 0.6, 1.0)


class Highest(NamedTuple):
    """The highest of the thrown droplets: when [s after contact] and how high [m], with limits."""

    time: Band
    height: Band


def highest(impact):
    """When and how high the highest of the thrown droplets are, the spray of the first instant left out.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Highest

    Notes
    -----
    Free flight with drag, from half a diameter of way on, for droplets of the usual size: without air v/g and
    v^2/2g. Drops from the tip of a jet come later and may go higher.

    Sources
    -------
    Newton's law; drag as `relax_time`; speeds as `droplet_speed`.
    """
    start, size = _start(impact), droplet_size(impact).likely
    density = impact.liquid.density
    peaks = [straight_up(size, v, density) for v in droplet_speed(impact)]
    return Highest(Band(*(start + peak[0] for peak in peaks)), Band(*(peak[1] for peak in peaks)))


def falls_through(impact, height):
    """When the last of the thrown droplets comes down through a height.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    height : float
        Height over the water, that of the beam [m].

    Returns
    -------
    Band or None
        Times after contact [s]; None where even the fastest do not get so high. The early value stands at the
        peak of its flight where only faster droplets pass.

    Notes
    -----
    Flight with drag as in `highest`. Drops from the tip of a jet are later still.

    Sources
    -------
    As `highest`.
    """
    height = float(not_negative("height", height, "m"))
    if highest(impact).height.high < height:
        return None
    start, size = _start(impact), droplet_size(impact).likely
    times = []
    for speed in droplet_speed(impact):
        rise, top, final = straight_up(size, speed, impact.liquid.density)
        times.append(start + rise + fall_time(max(top - height, 0.0), terminal_speed=final))
    return Band(*times)


def reach(impact, *, height=0.0):
    """How far from the axis the thrown droplets wet the set.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    height : float
        At which height over the water [m]; negative on a table below it, where they land farther out.

    Returns
    -------
    Band
        Distances [m]; 0 where drops do not get so high.

    Notes
    -----
    Flight with drag; outward over upward speed 0.33 to 1 (a crown that leans by 18 to 45 degrees). The limits
    belong together: slow and steep, fast and flat. Beyond the late limit only fine spray.

    Sources
    -------
    As `highest`.
    """
    ranges = [0.0 if math.isnan(end) else float(_outward(launch, end)) for launch, end in _flights(impact, height)]
    return Band(*ranges).after(Band(ranges[0], ranges[0], max(ranges[:2])))


def paths(impact, *, height=0.0, points=60):
    """Ways of the thrown droplets through the air, from the water until they come down through a height.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    height : float
        Over the water [m]; negative on a table below it.
    points : int
        On each way, evenly spaced in time.

    Returns
    -------
    tuple of three ndarray (2, points)
        Early, likely, late: distance from the axis and height over the water [m]. nan where drops do not get so
        high.

    Notes
    -----
    The flights of `reach`: each ends at the distance that it gives.

    Sources
    -------
    As `reach`.
    """
    found = []
    for launch, end in _flights(impact, height):
        time = np.linspace(0.0, end, points)
        found.append(np.array([_outward(launch, time), height_at(launch.speed, launch.relax, time)]))
    return tuple(found)


class _Launch(NamedTuple):
    """How a droplet leaves the crown: from where [m], how fast upward [m/s], its lean, its relaxation time [s]."""

    base: float
    speed: float
    lean: float
    relax: float


def _flights(impact, height):
    """Early, likely and late: the launch, and when it comes down through a height [s], nan where it never does."""
    base, size = mouth_radius(impact, _start(impact)), droplet_size(impact).likely
    for speed, lean in zip(droplet_speed(impact), LEAN, strict=True):
        relax = float(relax_time(size, speed * math.hypot(1, lean), impact.liquid.density))
        top = float(height_at(speed, relax, relax * math.log1p(speed / (GRAVITY * relax))))
        yield _Launch(base, speed, lean, relax), down_time(speed, relax, height) if height <= top else math.nan


def _outward(launch, time):
    return launch.base + launch.lean * launch.speed * launch.relax * -np.expm1(-time / launch.relax)


def _start(impact):
    return droplets_start(diameter=impact.diameter, speed=impact.speed)
