"""Whether a crown throws droplets, how fast, how large and how many."""

import math
from functools import lru_cache

import numpy as np

from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.crown import crown_peak, rim_rising
from splashlib.physics.water.impact import Band, SolidImpact, ramp
from splashlib.physics.water.mouth import mouth_radius
from splashlib.physics.water.rim import droplets_start, release_speed

# Lord Rayleigh, Proc. London Math. Soc. 10 (1878) 4: a thread of diameter d breaks at 4.508 d, into drops 1.89 d.
WAVELENGTH, DROP_OF_THREAD = 4.508, 1.89
# Upward speed of the fast droplets, in that of the sheet when they start: soft, see `droplet_speed`.
SPEEDS = Band(0.6, 0.85, 1.2)
# A layer thinner than this, in diameters, is no film but a wet wall.
WALL = 0.02


def throwing_chance(impact):
    """Chance that the crown throws droplets, given that there is one.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    float
        0 to 1.

    Notes
    -----
    Body: from We = rho U^2 R/sigma, 0 at 100, 1 at 300 (discs throw from 140 on). Drop: by We Oh^-0.4 against
    2100 + 5880 d^1.44, d the depth in diameters, at most 1 (the law was measured on films; that a pool is like a
    film of one diameter is an assumption), 0.6 to 1.4 of it.

    Sources
    -------
    I. R. Peters, D. van der Meer, J. M. Gordillo, J. Fluid Mech. 724 (2013) 553; G. E. Cossali, A. Coghe,
    M. Marengo, Exp. Fluids 22 (1997) 463.
    """
    if isinstance(impact, SolidImpact):
        return ramp(impact.weber, low=100, high=300)
    on_wall = impact.film_depth < WALL * impact.diameter
    strength, needed = wall_threshold(impact) if on_wall else film_threshold(impact)
    return ramp(strength / needed, low=0.6, high=1.4)


def film_threshold(drop):
    """Strength of a drop's splash, We Oh^-0.4, and the strength that a film of this depth needs.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    tuple of float

    Notes
    -----
    2100 + 5880 d^1.44 for films of 0.1 to 1 diameter; deeper counts as 1. Below 0.02 diameters the wall decides
    (We^0.5 Re^0.25 above 57.7, Mundo, Sommerfeld and Tropea 1995): see `wall_threshold`.

    Sources
    -------
    G. E. Cossali, A. Coghe, M. Marengo, Exp. Fluids 22 (1997) 463, with the diameter in We and Oh.
    """
    depth = min(drop.film_depth / drop.diameter, 1.0)
    return drop.weber * drop.ohnesorge**-0.4, 2100 + 5880 * depth**1.44


def wall_threshold(drop):
    """Strength of a drop's splash on a dry wall, We^0.5 Re^0.25, and the strength needed.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    tuple of float

    Notes
    -----
    57.7, with the diameter in We and Re, for a wall; a smooth one needs somewhat more.

    Sources
    -------
    C. Mundo, M. Sommerfeld, C. Tropea, Int. J. Multiphase Flow 21 (1995) 151.
    """
    return drop.weber**0.5 * drop.reynolds**0.25, 57.7


def droplet_speed(impact):
    """Upward speed of the fast droplets where they leave.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Speeds [m/s].

    Notes
    -----
    0.6 to 1.2 of the speed of the sheet after half a diameter of way, 0.61 U. The spray before that is up to several
    times faster, but of drops so small (0.1 to 0.3 mm) that air stops them within some decimetres.

    Sources
    -------
    ``rim.rise``; the limits are soft (C).
    """
    size = {"diameter": impact.diameter, "speed": impact.speed}
    first = release_speed(left=droplets_start(**size), **size)
    return Band(*(share * first for share in SPEEDS))


def droplet_size(impact):
    """Diameter of the thrown droplets.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Diameters [m]: small, usual, large.

    Notes
    -----
    The rim is as thick as its deceleration a allows, b = sqrt(sigma/(rho a)); threads of about that thickness
    give drops of 1.89 b. From the start of the rim to its peak; the spray of the first instant is finer.

    Sources
    -------
    Y. Wang, L. Bourouiba, Phys. Rev. Lett. 120 (2018) 204503 (rim); Lord Rayleigh (1878) (threads).
    """
    sizes = rim_table(impact)[3] * DROP_OF_THREAD
    return Band(float(sizes.min()) / 2, float(np.exp(np.log(sizes).mean())), float(sizes.max()))


@lru_cache(maxsize=128)
def rim_table(impact):
    """Times, heights, speeds of the sheet at the rim, and thickness of the rim, from its start to its peak."""
    track = np.array([(r.time, r.height, r.reach, r.speed) for r in rim_rising(impact)])
    size = {"diameter": impact.diameter, "speed": impact.speed}
    start = droplets_start(**size)
    track = _between(track, start, crown_peak(impact).late)
    times, heights, sheet, rim = track.T
    slowing = np.maximum(-np.gradient(rim, np.maximum.accumulate(times) + 1e-9 * np.arange(len(times))), GRAVITY)
    thick = np.sqrt(impact.liquid.tension / (impact.liquid.density * slowing))
    # What a thread lets go is between the rim that it stands on and the sheet that feeds it, and no faster than the
    # sheet is when droplets start.
    sheet = np.minimum((sheet + rim) / 2, release_speed(left=start, **size))
    return times, np.maximum(heights, 0.0), np.maximum(sheet, 0.02), np.minimum(thick, impact.diameter / 4)


def _between(track, start, end):
    """The rows of a track from one time to another, both included; three alike where it ends before it starts."""
    if min(track[-1, 0], end) <= 1.1 * start:
        rows = np.array([track[0]] * 3)
        rows[:, 0] = start * np.array([1.0, 1.5, 2.0])
        return rows
    times = track[:, 0]
    ends = [[t, *(np.interp(t, times, column) for column in track.T[1:])] for t in (start, min(times[-1], end))]
    inside = (track[:, 0] > start * 1.001) & (track[:, 0] < 0.999 * end)
    return np.vstack([ends[0], track[inside], ends[1]])


def usual_count(impact):
    """How many droplets a crown throws, about: threads on the rim, times the three or so that each sheds [-]."""
    times, _, _, rims = rim_table(impact)
    middle = len(times) // 2
    ring = 2 * math.pi * mouth_radius(impact, float(times[middle]))
    return int(min(max(3 * ring / (WAVELENGTH * float(rims[middle])), 0), 400) * throwing_chance(impact))
