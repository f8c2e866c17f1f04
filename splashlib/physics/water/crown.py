"""The crown: the sheet that stands up round the place of impact, when it is highest, when it is gone.

For solid bodies of a few centimetres no trusted published figure was found: what is here follows from the model
in ``rim`` with the thickness of the sheet as the soft input, and its limits are wide (grade C).
"""

from functools import lru_cache

import numpy as np

from splashlib.physics.checks import not_negative
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.cavity import cavity_outline
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.crater import crater_radius
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import Band, SolidImpact
from splashlib.physics.water.rim import hollow_radius, release_speed, rise

# Thickness of the sheet where it leaves, in diameters. Body: Wagner's root thickness (pi/6) a U t/R with
# a = sqrt(3 R U t) grows from 0.014 D at t = 0.1 R/U to 0.057 D at 0.25 R/U, about where the water lets go of a
# sphere: 0.05 (H. Wagner, Z. angew. Math. Mech. 12 (1932) 193). Drop: the drop itself is spread in it; crowns
# 0.1 to 0.2 D thick (G. E. Cossali, M. Marengo, A. Coghe, S. Zhdanov, Exp. Fluids 36 (2004) 888, recalled).
SOLID_SHEET, DROP_SHEET = 0.05, 0.14
# Half or twice the sheet's thickness moves the peak by about 1.5 either way; speed of the sheet and shape of
# the body as much again.
EARLIER, LATER = 0.48, 1.75
# The crown has its height before it closes over, or before the water runs back into the cavity under it.
BEFORE = 0.8


def sheet_thickness(impact):
    """Thickness of the crown's sheet where it leaves the surface [m]."""
    share = SOLID_SHEET if isinstance(impact, SolidImpact) else DROP_SHEET
    return share * impact.diameter


def rim_track(impact):
    """The rim from the start of the sheet to the top of the crown: a tuple of ``rim.Rim``."""
    liquid = impact.liquid
    return rise(impact.diameter, impact.speed, liquid.tension, liquid.density, sheet_thickness(impact))


def crown_peak(impact):
    """When the crown is highest.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Times after contact [s].

    Notes
    -----
    Where the rim of ``rim.rise`` stands still, but not later than 0.8 of the time of the dome where there may
    be one (it closes the crown) and, for a body, of the seal (then the water runs back in); 0.48 to 1.75 of it.
    For a drop t U/D grows about as the Weber number; as ln, roughly, once gravity counts.

    Sources
    -------
    As ``rim.rise``; the thickness of the sheet beside its constant.
    """
    top = rim_track(impact)[-1].time
    last = crown_limit(impact)
    likely = min(top, BEFORE * last.likely)
    return Band(min(EARLIER * likely, 0.9 * last.early), likely, min(LATER * likely, last.late))


def crown_limit(impact):
    """When the crown has closed over or lost its base at the latest: a `Band` [s], infinite for a drop's crown."""
    limit = dome_time(impact) if dome_chance(impact) > 0 else Band(np.inf, np.inf, np.inf)
    if isinstance(impact, SolidImpact):
        limit = Band(*(min(pair) for pair in zip(limit, seal_time(impact), strict=True)))
    return limit


def crown_height(impact):
    """Height of the rim at the peak.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Heights over the resting surface [m].

    Notes
    -----
    From ``rim.rise``, at the time of `crown_peak`; half to twice (C). The threads on the rim stand higher.

    Sources
    -------
    As `crown_peak`.
    """
    _, _, height = _rim_times(impact)
    likely = max(float(height[-1]), 0.02 * impact.diameter)
    return Band(likely / 2, likely, 2 * likely)


def crown_fall(impact):
    """When the crown has sunk back into the surface, where no dome closes over it.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Times after contact [s].

    Notes
    -----
    From the peak the rim eats down with its speed against the sheet while the sheet itself falls:
    h = V x + g x^2/2. For a low broad crown this is the swell running out.

    Sources
    -------
    As `crown_peak`.
    """
    peak = crown_peak(impact)
    down = _fall_time(impact)
    return Band(peak.early + 0.6 * down, peak.likely + down, peak.late + 1.8 * down)


def crown_outline(impact, time, *, points=40):
    """Outline of the crown's sheet at one instant, from its base to its rim.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].
    points : int
        Number of points.

    Returns
    -------
    tuple of ndarray
        Height over the surface, radius and thickness of the sheet at each point [m]; the last is the rim.
        Empty before the sheet starts and after it has fallen.

    Notes
    -----
    The pieces of ``rim.rise``: each flies up freely from the edge of the hollow, leaning outward with a third
    of its speed; where a dome may close the rim is drawn in so that it meets the axis when the
    dome closes. Heights by the model, the lean is a drawing (C). The times are those of the likely stages.

    Sources
    -------
    As `crown_peak`.
    """
    time = float(not_negative("time", time, "s"))
    top = rim_height(impact, time)
    if time <= rim_track(impact)[0].left or top <= 0:
        return np.empty(0), np.empty(0), np.empty(0)
    # Once it is at its peak the sheet only sinks: it keeps the shape that it had there.
    shape = min(time, float(_rim_times(impact)[0][-1]))
    left = np.linspace(shape, _left_at_rim(impact, shape), int(points))
    height, drawn = _pieces(impact, left, shape)
    height = height * top / max(float(height[-1]), 1e-9)
    radius = _mouth(impact, time) + _lean(impact, left, shape)
    return height, _drawn_in(impact, radius, height, time), sheet_thickness(impact) / drawn


def rim_height(impact, time):
    """Height of the crown's rim over the surface at one instant [m], 0 before and after.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].

    Returns
    -------
    float
    """
    times, _, heights = _rim_times(impact)
    if time <= times[-1]:
        return max(float(np.interp(time, times, heights, left=0.0)), 0.0)
    return float(heights[-1]) * max(1 - ((time - times[-1]) / _fall_time(impact)) ** 2, 0.0)


@lru_cache(maxsize=256)
def _rim_times(impact):
    """Times, leaving times and heights of the rim, its clock drawn together where the crown is cut short."""
    track = np.array([(r.time, r.left, r.height) for r in rim_track(impact)])
    times, left, heights = track.T
    limit = BEFORE * crown_limit(impact).likely
    keep = times <= max(limit, times[0])
    return times[keep], left[keep], heights[keep]


@lru_cache(maxsize=256)
def _fall_time(impact):
    _, _, heights = _rim_times(impact)
    height = max(float(heights[-1]), 0.02 * impact.diameter)
    eat = np.sqrt(2 * impact.liquid.tension / (impact.liquid.density * sheet_thickness(impact)))
    return float(2 * height / (eat + np.sqrt(eat**2 + 2 * GRAVITY * height)))


def _left_at_rim(impact, time):
    times, left, _ = _rim_times(impact)
    return float(np.interp(time, times, left))


def _pieces(impact, left, time):
    """Heights of the pieces that left at the given times [m], and how far the sheet is drawn out there [-]."""
    w = release_speed(diameter=impact.diameter, speed=impact.speed, left=left)
    x = time - left
    height = x * w - GRAVITY * x**2 / 2
    drawn = np.maximum(1 + 0.6 * x / left - GRAVITY * x / w, 0.2)
    return np.maximum.accumulate(np.maximum(height, 0.0)), drawn


def _mouth(impact, time):
    """Radius of the hollow that the crown stands round [m], never less than that of the body or drop."""
    if isinstance(impact, SolidImpact):
        edge = cavity_outline(impact, time, points=2)[1]
        edge = float(edge[0]) if edge.size else 0.0
    else:
        edge = hollow_radius(diameter=impact.diameter, speed=impact.speed, time=time)
        edge = min(edge, 1.1 * crater_radius(impact).likely)
    return max(edge, impact.diameter / 2)


def _lean(impact, left, time):
    w = release_speed(diameter=impact.diameter, speed=impact.speed, left=left)
    return np.minimum(0.33 * w * (time - left), impact.diameter)


def _drawn_in(impact, radius, height, time):
    if dome_chance(impact) < 0.5 or height[-1] <= 0:
        return radius
    closed = min(time / dome_time(impact).likely, 1.0)
    share = height / height[-1]
    return radius * (1 - closed**3 * share**1.5)
