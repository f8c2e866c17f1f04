"""The jet: the column that rises where the cavity of a body, or the crater of a drop, has closed or come back."""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.checks import not_negative, plain
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.cavity import seal_depth
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.crater import crater, crater_radius, crater_room
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import Band, SolidImpact, ramp
from splashlib.physics.water.threshold import splash_chance

# Speed of the column at the pinch over that of a fall from the surface to it: a column as high as the pinch is
# deep has sqrt(2). Tall columns after low falls (up to the height of the fall: Worthington 1908) have 2 to 3.
LEAST, LIKELY, MOST = 1.5, 2.2, 3.0
# A dome's cushion of air: column a half as fast (he saw it checked at 3.4 m/s).
WEAKENED = 0.7
# Without a cavity: the column over a body that slipped in, in diameters (C).
SPOUT = Band(1.0, 2.5, 6.0)
# Column of a drop: when its head passes the surface, in times to the deepest crater (2 for a crater that comes
# back as it went, less as the flow gathers on the axis), and its height, in crater radii.
BACK = Band(1.2, 1.7, 2.4)
COLUMN = Band(1.0, 2.0, 3.5)


class Jet(NamedTuple):
    """A jet in time: when its head passes the surface [s], how high it gets [m], when [s]."""

    rises: Band
    height: Band
    peak: Band


@lru_cache(maxsize=256)
def jet(impact):
    """Dates and height of the column.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Jet

    Notes
    -----
    Body with a cavity: the column leaves the pinch, z under the surface, with c sqrt(2 g z), c 1.5 to 3, and
    flies up freely: height (c^2 - 1) z, peak c sqrt(2 z/g) after the seal; the fine spray at its tip is far
    faster. Without a cavity: a spout where the water meets behind the body, 1 to 6 D high. Drop: the head passes
    the surface at 1.2 to 2.4 of the time to the deepest crater, is 1 to 3.5 crater radii high, up to 2.0 times
    less in a shallow layer, and takes sqrt(2 h/g) to get there (C).

    Sources
    -------
    S. Gekle, J. M. Gordillo, D. van der Meer, D. Lohse, Phys. Rev. Lett. 102 (2009) 034502 (a column fed from
    the closing walls, many times faster than the body at its tip); A. M. Worthington (1908) for the heights.
    """
    if not isinstance(impact, SolidImpact):
        return _column(impact)
    return pinch_jet(impact) if splash_chance(impact) >= 0.5 else spout(impact)


def jet_chance(impact):
    """Chance that a column rises, given that there is a cavity or crater [-].

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    float

    Notes
    -----
    Body: 1 without a dome; with a dome 0 where it closes before half the time of the seal, 1 from 0.9 of it.
    Drop: from 0 at We = rho U^2 D/sigma of 50 to 1 at 100, times the room that the layer leaves.

    Sources
    -------
    A. M. Worthington (1908): checked at 3.4 m/s, none tall at 5.2 m/s; M. Hsiao, S. Lichter, L. G. Quintero,
    Phys. Fluids 31 (1988) 3560: from vortex ring to jet at We of about 64.
    """
    if isinstance(impact, SolidImpact):
        share = dome_time(impact).likely / seal_time(impact).likely
        kept = min(max((share - 0.5) / 0.4, 0.0), 1.0)
        return 1 - dome_chance(impact) * (1 - kept)
    return ramp(impact.weber, low=50, high=100) * crater_room(impact)


def spout(body):
    """The low column behind a body that slipped in without a cavity: a `Jet`, grade C.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Jet

    Notes
    -----
    The water closes over the top of the body as it goes under, at about D/U; what meets there is thrown up.

    Sources
    -------
    A. M. Worthington (1908), smooth spheres; X. Li, J. Li, arXiv 2412.16508 (the height grows with Fr and Re and
    falls with We; its constant was not at hand).
    """
    under = body.length / body.speed
    rises = Band(1.1 * under, 1.5 * under, 2.5 * under)
    height = Band(*(share * body.diameter * _calm(body) for share in SPOUT))
    flight = Band(*(math.sqrt(2 * h / GRAVITY) for h in height))
    return Jet(rises, height, rises.plus(flight))


def jet_height(impact, time):
    """Height of the head of the column over the resting surface, likely course.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float or array
        Time after contact [s].

    Returns
    -------
    float or ndarray
        Height [m]; 0 before it rises and after it has fallen back.

    Notes
    -----
    Free flight through the likely rise and peak of `jet`. Droplets that leave the tip go higher.

    Sources
    -------
    As `jet`.
    """
    time = np.asarray(not_negative("time", time, "s"))
    course = jet(impact)
    half = course.peak.likely - course.rises.likely
    share = (time - course.rises.likely) / half
    return plain(course.height.likely * np.clip(1 - (share - 1) ** 2, 0.0, None) * (share > 0))


def jet_outline(impact, time, *, points=40):
    """Outline of the column at one instant: radius over the height (a drawing, C).

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].
    points : int

    Returns
    -------
    tuple of ndarray
        Heights from the surface to the head, and the radius at each [m]; empty where there is no column.

    Notes
    -----
    A broad foot and a slender stem that ends in a round head: r = r0 (0.35 + 0.65 exp(-6 z/h)) below it, r0 a
    quarter of the body's diameter or a half of the drop's.

    Sources
    -------
    Shape after the description in A. M. Worthington (1908).
    """
    top = float(jet_height(impact, float(time)))
    if top <= 0:
        return np.empty(0), np.empty(0)
    foot = impact.diameter * (0.25 if isinstance(impact, SolidImpact) else 0.5)
    foot = min(foot, 0.6 * top)
    height = np.linspace(0.0, top, int(points))
    stem = foot * (0.35 + 0.65 * np.exp(-6 * height / top))
    ahead = 0.35 * foot * 1.3
    from_top = np.clip((top - height) / ahead, 0.0, 1.0)
    return height, stem * np.sqrt(1 - (1 - from_top) ** 2)


@lru_cache(maxsize=256)
def pinch_jet(body):
    """The column that rises from the pinch of a cavity, whatever the chance of one: a `Jet`; see `jet`."""
    seal, depth = seal_time(body), seal_depth(body)
    weak = 1 - (1 - WEAKENED) * dome_chance(body)
    likely = max(LIKELY * weak, 1.2)
    factor = Band(max(LEAST * weak, 1.1), likely, MOST)
    height = Band(*((c * c - 1) * z for c, z in zip(factor, depth, strict=True)))
    peak = Band(*(t + c * math.sqrt(2 * z / GRAVITY) for t, c, z in zip(seal, factor, depth, strict=True)))
    return Jet(_emerging(seal, factor, depth), height, peak)


def _emerging(seal, factor, depth):
    """The fast column is out first; the head passes the surface after (c - sqrt(c^2 - 1)) sqrt(2 z/g)."""
    swift, usual, slow = factor.late, factor.likely, factor.early
    waits = [
        (c - math.sqrt(c * c - 1)) * math.sqrt(2 * z / GRAVITY)
        for c, z in ((swift, depth.early), (usual, depth.likely), (slow, depth.late))
    ]
    return seal.plus(Band(waits[0], waits[1], max(waits[1:])))


def _column(drop):
    # The time of the pool also where the layer stops the floor: the crater still has to run back.
    deepest = crater(drop).deepest[0]
    rises = Band(*(share * deepest for share in BACK))
    room = 0.5 + 0.5 * crater_room(drop)
    height = Band(*(share * room * crater_radius(drop).likely for share in COLUMN))
    flight = Band(*(math.sqrt(2 * h / GRAVITY) for h in height))
    return Jet(rises, height, rises.plus(flight))


def _calm(body):
    """Slow bodies hardly throw a spout: 0 to 1 over Fr = U^2/(gR) of 2 to 40, with a floor."""
    return 0.1 + 0.9 * ramp(body.froude, low=2, high=40)
