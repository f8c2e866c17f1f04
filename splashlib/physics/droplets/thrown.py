"""The droplets of one splash, drawn by chance, and where each is at any instant."""

import math
from typing import NamedTuple

import numpy as np

from splashlib.physics.air.flight import height_at, relax_time
from splashlib.physics.checks import not_negative, whole
from splashlib.physics.constants import GRAVITY
from splashlib.physics.droplets.spray import DROP_OF_THREAD, rim_table, usual_count
from splashlib.physics.water.mouth import mouth_radius


class Droplets(NamedTuple):
    """Thrown droplets, one entry each: diameter [m], when [s] and where they leave [m], speeds [m/s], drag time [s].

    `azimuth` is the direction seen from above [rad]; `radius` the distance from the axis where they leave.
    """

    diameter: np.ndarray
    released: np.ndarray
    radius: np.ndarray
    height: np.ndarray
    azimuth: np.ndarray
    outward: np.ndarray
    upward: np.ndarray
    relax: np.ndarray


def throw(impact, rng, *, count=None):
    """Draw the droplets of one splash.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    rng : numpy.random.Generator
        Source of chance.
    count : int, optional
        How many; where left out as many as the rim has threads, times the three or so that each sheds, up to 400.

    Returns
    -------
    Droplets
        Sorted by the time of release.

    Notes
    -----
    Release along the rise of the rim, evenly in the logarithm of time; speed that of the sheet there, within a
    fifth; size about `droplet_size` at that moment, spread as a gamma distribution of order 4; lean 0.2 to 1.

    Sources
    -------
    ``rim.rise``; sizes of drops from threads: E. Villermaux, Annu. Rev. Fluid Mech. 39 (2007) 419.
    """
    n = usual_count(impact) if count is None else whole("count", count, low=0)
    times, heights, speeds, rims = rim_table(impact)
    released = np.exp(np.sort(rng.uniform(math.log(times[0]), math.log(times[-1]), n)))
    upward = np.interp(released, times, speeds) * rng.normal(1, 0.2, n).clip(0.3, 1.7)
    size = DROP_OF_THREAD * np.interp(released, times, rims) * rng.gamma(4, 1 / 4, n).clip(0.15, 2.5)
    lean = rng.uniform(0.2, 1.0, n)
    knots = np.linspace(times[0], times[-1], 40)
    radius = np.interp(released, knots, [mouth_radius(impact, float(t)) for t in knots])
    return Droplets(
        diameter=size,
        released=released,
        radius=radius,
        height=np.interp(released, times, heights),
        azimuth=rng.uniform(0, 2 * math.pi, n),
        outward=lean * upward,
        upward=upward,
        relax=relax_time(size, np.maximum(upward * np.hypot(1, lean), 0.05), impact.liquid.density),
    )


def places(droplets, time):
    """Where droplets are at one instant.

    Parameters
    ----------
    droplets : Droplets
    time : float
        Time after contact [s].

    Returns
    -------
    tuple of ndarray
        x, y (level) and height z over the water [m]; nan for those not yet thrown or down again.

    Notes
    -----
    z = z0 + (v + g T) T (1 - exp(-t/T)) - g T t and r = r0 + u T (1 - exp(-t/T)), T the drag time.

    Sources
    -------
    Newton's law with a drag in proportion to the speed.
    """
    since = float(not_negative("time", time, "s")) - droplets.released
    gone = np.where(since >= 0, since, np.nan)
    decay = droplets.relax * -np.expm1(-gone / droplets.relax)
    height = droplets.height + height_at(droplets.upward, droplets.relax, gone)
    away = np.where(height >= 0, droplets.radius + droplets.outward * decay, np.nan)
    height = np.where(height >= 0, height, np.nan)
    return away * np.cos(droplets.azimuth), away * np.sin(droplets.azimuth), height


def speeds(droplets, time):
    """Outward and upward speed of droplets at one instant [m/s], as `places`."""
    since = float(not_negative("time", time, "s")) - droplets.released
    fade = np.exp(-np.maximum(since, 0.0) / droplets.relax)
    final = GRAVITY * droplets.relax
    out = np.where(since >= 0, droplets.outward * fade, np.nan)
    return out, np.where(since >= 0, (droplets.upward + final) * fade - final, np.nan)
