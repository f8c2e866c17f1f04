"""The jet: the column that rises where the cavity of a body, or the crater of a drop, has closed or come back."""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.checks import not_negative, plain
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.cavity import seal_depth
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.crater import crater_radius, crater_room, widening
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import Band, SolidImpact, ramp
from splashlib.physics.water.threshold import splash_chance

# Speed with which the column leaves the pinch over that of a fall from the surface to it: a column as high as the
# pinch is deep has sqrt(2). Columns up to the height of the fall after low falls (Worthington 1908) have 2 to 3.
COLUMN_SPEED = Band(1.8, 2.3, 2.8)
# The head is faster than the column behind it, which it outruns and which then becomes the head.
HEAD_SPEED = Band(2.2, 3.0, 4.0)
# Under a dome the air that is shut in slows the column down; Worthington (1908) saw it checked at 3.4 m/s.
WEAKENED = 0.7
# Of the time of the seal: a dome that closes before the first leaves no column, after the second a whole one. He
# saw it checked at 3.4 m/s, where the dome comes at 0.4 of the seal, and none at 5.2 m/s, at 0.26.
NO_COLUMN, WHOLE_COLUMN = 0.27, 0.53
# Without a cavity: the sheath of water runs up the body and meets over it, in the time in which the body goes in
# (0.7 to 0.95 of D/U by the plates of polished spheres).
MEETS = Band(0.7, 0.85, 0.95)
# The water beside a sphere runs past its widest part at 1.5 U, at 0.5 U over the resting water: what meets at the
# top flies up to a quarter of the height of the fall, U^2/2g, and higher as it is gathered there.
SPOUT = Band(0.15, 0.3, 0.6)
# Column of a drop: when its head passes the surface, in times to the deepest crater (2 for a crater that comes
# back as it went, less as the flow gathers on the axis), and its height, in crater radii.
BACK = Band(1.45, 1.7, 2.05)
COLUMN = Band(1.3, 2.0, 2.9)
# It is fed from below while it rises: times free flight to its height, sqrt(2 h/g).
FED = 1.2
# It goes down faster than freely: its foot sinks under it into the next, flat crater. 34 ms after its top a column
# of 28 mm was nearly down, at 56 ms the surface was level (drop of 6 mm, Worthington 1908): twice gravity's pull.
SINKING = 2.0
# How the head of a column climbs, with x its share of the time to the top: h = H (x (2 - x))^p. At first that is
# growth as t^p: 1/2 for a closing that is driven by inertia alone (a flow towards a point or line has an area per
# time and no other measure; S. Gekle, J. M. Gordillo, J. Fluid Mech. 663 (2010) 293), 2/3 where tension drives it
# (B. W. Zeff, B. Kleber, J. Fineberg, D. P. Lathrop, Nature 403 (2000) 401); at the top it is a flight.
INERTIAL, CAPILLARY, FLIGHT = 1 / 2, 2 / 3, 1.0


class Jet(NamedTuple):
    """A jet in time: when its head passes the surface [s], how high it gets [m], when [s]."""

    rises: Band
    height: Band
    peak: Band


@lru_cache(maxsize=128)
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
    Body with a cavity: the column leaves the pinch, z under the surface, with c sqrt(2 g z), c 1.8 to 2.8, and
    gets (c^2 - 1) z high; its head, which is faster (c 2.2 to 4), passes the surface after
    (c - sqrt(c^2 - 1)) sqrt(2 z/g), and slows down so that it is at rest at the top after sqrt(H/g), see
    `jet_height`. The fine spray at its tip is faster still. Without a cavity: see `spout`. Drop: the head passes
    the surface at 1.45 to 2.05 of the time to the deepest crater, is 1.3 to 2.9 crater radii high, up to 2.0
    times less in a shallow layer, and takes 1.2 sqrt(2 h/g) to get there (C).

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
    Body: 1 without a dome; with a dome 0 where it closes before 0.27 of the time of the seal, 1 from 0.53 of it.
    Drop: from 0 at We = rho U^2 D/sigma of 50 to 1 at 100, times the room that the layer leaves.

    Sources
    -------
    A. M. Worthington (1908): checked at 3.4 m/s, none tall at 5.2 m/s; M. Hsiao, S. Lichter, L. G. Quintero,
    Phys. Fluids 31 (1988) 3560: from vortex ring to jet at We of about 64.
    """
    if isinstance(impact, SolidImpact):
        share = dome_time(impact).likely / seal_time(impact).likely
        kept = min(max((share - NO_COLUMN) / (WHOLE_COLUMN - NO_COLUMN), 0.0), 1.0)
        return 1 - dome_chance(impact) * (1 - kept)
    return ramp(impact.weber, low=50, high=100) * crater_room(impact)


def sheath_meets(body):
    """When the water meets over a body that slips in without a cavity: a `Band` of times after contact [s].

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Band

    Notes
    -----
    0.7 to 0.95 of L/U, L the upright axis: the sheath runs up the body while this goes under.

    Sources
    -------
    A. M. Worthington (1908), polished spheres.
    """
    return Band(*(share * body.length / body.speed for share in MEETS))


def spout(body):
    """The column over a body that slipped in without a cavity: a `Jet`, grade C.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Jet

    Notes
    -----
    It starts where the sheath meets. Height 0.15 to 0.6 of the height of the fall, U^2/2g, whatever the diameter:
    what meets has the speed of the flow round the body, a share of U. Then free flight.

    Sources
    -------
    A. M. Worthington (1908), smooth spheres; 1.5 U beside a sphere: H. Lamb, Hydrodynamics, 6th ed. (1932), art. 96.
    """
    meets = sheath_meets(body)
    rises = Band(meets.early, 1.05 * meets.likely, 1.3 * meets.late)
    height = Band(*(share * body.speed**2 / (2 * GRAVITY) for share in SPOUT))
    flight = Band(*(math.sqrt(2 * h / GRAVITY) for h in height))
    return Jet(rises, height, rises.plus(flight))


def jet_height(impact, time, *, slipped=None):
    """Height of the head of the column over the resting surface, likely course.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float or array
        Time after contact [s].
    slipped : bool, optional
        Whether the body slipped in without a cavity, and raises a spout; where left out what is likelier.

    Returns
    -------
    float or ndarray
        Height [m]; 0 before it rises and after it has fallen back.

    Notes
    -----
    H (x (2 - x))^p, x the share of the time from the likely rise to the likely peak of `jet`: p 1/2 for the column
    of a cavity, 2/3 for that of a drop, 1 (free flight) for a spout. Then free fall, of a drop's column with twice
    g, as its foot sinks with it. Droplets that leave the tip go higher.

    Sources
    -------
    As `jet` and beside the constants of this module.
    """
    time = np.asarray(not_negative("time", time, "s"))
    course, power = _course_of(impact, slipped)
    share = np.clip((time - course.rises.likely) / (course.peak.likely - course.rises.likely), 0.0, 1.0)
    top = course.height.likely
    pull = GRAVITY if isinstance(impact, SolidImpact) else SINKING * GRAVITY
    fallen = pull * np.clip(time - course.peak.likely, 0.0, None) ** 2 / 2
    return plain(np.clip(top * (share * (2 - share)) ** power - fallen, 0.0, None))


def _course_of(impact, slipped):
    if not isinstance(impact, SolidImpact):
        return jet(impact), CAPILLARY
    if slipped if slipped is not None else splash_chance(impact) < 0.5:
        return spout(impact), FLIGHT
    return pinch_jet(impact), INERTIAL


def jet_outline(impact, time, *, points=40, slipped=None):
    """Outline of the column at one instant: radius over the height (a drawing, C).

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].
    points : int
    slipped : bool, optional
        As `jet_height`.

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
    top = float(jet_height(impact, float(time), slipped=slipped))
    if top <= 0:
        return np.empty(0), np.empty(0)
    foot = impact.diameter * (0.25 if isinstance(impact, SolidImpact) else 0.5)
    foot = min(foot, 0.6 * top)
    height = np.linspace(0.0, top, int(points))
    stem = foot * (0.35 + 0.65 * np.exp(-6 * height / top))
    ahead = 0.35 * foot * 1.3
    from_top = np.clip((top - height) / ahead, 0.0, 1.0)
    return height, stem * np.sqrt(1 - (1 - from_top) ** 2)


@lru_cache(maxsize=128)
def pinch_jet(body):
    """The column that rises from the pinch of a cavity, whatever the chance of one: a `Jet`; see `jet`."""
    seal, depth = seal_time(body), seal_depth(body)
    weak = 1 - (1 - WEAKENED) * dome_chance(body)
    height = Band(*(((max(c * weak, 1.2)) ** 2 - 1) * depth.likely for c in COLUMN_SPEED))
    rises = seal.plus(_emerging(depth))
    return Jet(rises, height, rises.plus(Band(*(math.sqrt(h / GRAVITY) for h in height))))


def _emerging(depth):
    """After which time the head of a column from a depth passes the surface; the fast one is out first."""
    swift, usual, slow = HEAD_SPEED.high, HEAD_SPEED.likely, HEAD_SPEED.low
    return Band(
        *(
            (c - math.sqrt(c * c - 1)) * math.sqrt(2 * z / GRAVITY)
            for c, z in ((swift, depth.low), (usual, depth.likely), (slow, depth.high))
        )
    )


def _column(drop):
    # In a shallow layer the crater takes as long as in a deep pool: less deep, but as wide, it fills from the side.
    deepest = float(widening(drop)[0][-1])
    rises = Band(*(share * deepest for share in BACK))
    room = 0.5 + 0.5 * crater_room(drop)
    height = Band(*(share * room * crater_radius(drop).likely for share in COLUMN))
    flight = Band(*(FED * math.sqrt(2 * h / GRAVITY) for h in height))
    return Jet(rises, height, rises.plus(flight))
