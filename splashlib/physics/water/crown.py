"""The crown: the sheet that stands up round the place of impact, when it is highest, when it is gone.

The height follows from the model in ``rim``; the thickness of the sheet is its soft input. Held against spark
photographs (A. M. Worthington, "A Study of Splashes" (1908): a drop of 6 mm from 40 cm, a sphere of 15 mm from
15 and from 140 cm) heights and times agree within 20 %. Bodies of several centimetres were not measured so.
Where a crown may close into a dome, what is said here is the mean of both ends, by their chances; a drawing
asks for one of them.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.checks import not_negative
from splashlib.physics.constants import GRAVITY
from splashlib.physics.water import rim
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import Band, SolidImpact
from splashlib.physics.water.mouth import mouth_radius

# Thickness of the sheet where it leaves, in diameters, at t U/D = 1; it grows as sqrt(t). Body: Wagner's root
# thickness (pi/6) a U t/R with a = sqrt(3 R U t) is 0.014 D at t = 0.1 R/U and 0.057 D at 0.25 R/U, about where
# the water lets go of a sphere (H. Wagner, Z. angew. Math. Mech. 12 (1932) 193). Drop: the drop itself is spread
# in it; crowns 0.1 to 0.2 D thick that thicken with time, whatever the Weber number (G. E. Cossali, M. Marengo,
# A. Coghe, S. Zhdanov, Exp. Fluids 36 (2004) 888, figures recalled). Within these ranges by the plates above.
SOLID_SHEET, DROP_SHEET = 0.05, 0.11
# Half or twice the sheet's thickness moves height and time of the top by 1.4 either way.
EARLIER, LATER = 0.7, 1.4
# The fall is nearly free; the moment at which a sinking rim counts as a flat ring is not sharp.
SINKS = Band(0.75, 1.0, 1.25)
SPREADS = 0.5
# A crown reaches its greatest height at the latest at this share of the time at which it closes to a dome, or at
# which its cavity seals.
BEFORE = 0.8
# How sharply the earlier of two limits is taken (the exponent of a power mean).
SHARP = 8
# Outward over upward speed of the pieces of the sheet: of a drop 18 degrees, of a body, whose sheet leaves along
# its flank, 31 degrees (slow and usual droplets of ``landing.LEAN``).
SOLID_LEAN, DROP_LEAN = 0.6, 0.33


class RimCourse(NamedTuple):
    """A crown in time, one of its ends: when its rim is highest [s], how high [m], when it is a flat ring [s]."""

    peak: float
    height: float
    flat: float


def sheet_thickness(impact):
    """Thickness of the crown's sheet where it leaves the surface, at t U/D = 1 [m]."""
    share = SOLID_SHEET if isinstance(impact, SolidImpact) else DROP_SHEET
    return share * impact.diameter


def rim_track(impact):
    """The rim from the start of the sheet over the top until it is down: a tuple of ``rim.Rim``."""
    liquid = impact.liquid
    return rim.rise(impact.diameter, impact.speed, liquid.tension, liquid.density, sheet_thickness(impact))


def rim_rising(impact):
    """The part of `rim_track` up to the top: a tuple of ``rim.Rim``, one entry where no sheet rises."""
    track = rim_track(impact)
    return track[: rim.highest(track) + 1]


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
    Where the rim of ``rim.rise`` comes to rest, but not later than 0.8 of the time of the seal (then the water
    runs back in) and, where it closes into a dome, of that (it bends inward); the mean of both ends is taken
    by their chances, as a mean of rates. 0.7 to 1.4 of it. The top is flat: within a tenth of its height for
    half of that time.

    Sources
    -------
    As ``rim.rise``; the thickness of the sheet beside its constant.
    """
    chance, last = dome_chance(impact), crown_limit(impact)
    open_, closed = _course(impact, False), _course(impact, True)
    likely = 1 / ((1 - chance) / open_.peak + chance / closed.peak)
    return Band(min(EARLIER * likely, 0.9 * last.early), likely, max(min(LATER * likely, last.late), likely))


def crown_limit(impact):
    """When the crown has closed over or lost its base at the latest: a `Band` [s], infinite for a drop's crown."""
    chance = dome_chance(impact)
    seal = seal_time(impact) if isinstance(impact, SolidImpact) else Band(math.inf, math.inf, math.inf)
    if chance == 0:
        return seal
    return Band(*(1 / ((1 - chance) / s + chance / min(d, s)) for d, s in zip(dome_time(impact), seal, strict=True)))


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
    From ``rim.rise``, at the time of `crown_peak`; 0.7 to 1.4 of it. It is the mean height of the rim, half-way
    between the dips and the roots of the threads; the threads stand a quarter or more higher.

    Sources
    -------
    As `crown_peak`.
    """
    chance = dome_chance(impact)
    open_, closed = _course(impact, False), _course(impact, True)
    likely = (1 - chance) * open_.height + (chance * _bent(impact, closed.peak) if chance else 0.0)
    return Band(EARLIER * likely, likely, LATER * likely)


def crown_fall(impact):
    """When the crown has sunk to a flat ring on the surface, where no dome closes over it.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Times after contact [s].

    Notes
    -----
    The rim of ``rim.rise`` on its way down, until it lies on the surface: close to free fall,
    sqrt(2 h/g), from the peak. For a low broad crown this is the swell running out.

    Sources
    -------
    As `crown_peak`.
    """
    peak, course = crown_peak(impact), _course(impact, False)
    down = course.flat - course.peak
    return Band(*(top + share * down for top, share in zip(peak, SINKS, strict=True)))


def rim_height(impact, time, *, dome=None):
    """Height of the crown's rim over the surface at one instant [m], 0 before and after.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].
    dome : bool, optional
        Whether the crown closes into a dome; where left out the mean of both, by the chance of a dome.

    Returns
    -------
    float

    Notes
    -----
    Up to the peak and down again as ``rim.rise``. A crown that closes stops rising at 0.8 of the time of the
    dome and bends inward without being stretched, z^2 = length^2 - (way inward)^2; the closed dome falls freely.
    """
    time = float(not_negative("time", time, "s"))
    chance = dome_chance(impact) if dome is None else float(dome)
    height = (1 - chance) * _height(impact, _course(impact, False), time) if chance < 1 else 0.0
    return height + (chance * _bent(impact, time) if chance > 0 else 0.0)


def crown_outline(impact, time, *, points=40, dome=None):
    """Outline of the crown's sheet at one instant, from its base to its rim.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].
    points : int
        Number of points.
    dome : bool, optional
        As `rim_height`.

    Returns
    -------
    tuple of ndarray
        Height over the surface, radius and thickness of the sheet at each point [m]; the last is the rim.
        Empty before the sheet starts and after it has fallen.

    Notes
    -----
    The pieces of ``rim.rise``: each left where the mouth was then, and flies up freely and outward, by 0.33 of
    its speed for a drop and 0.6 for a body, while the mouth widens under it: the wall is steep. The foot is
    `mouth_radius`. Where a dome closes the rim is drawn in so that it meets the axis at that time. Heights by the
    model, the lean is a drawing (C). The times are those of the likely stages.

    Sources
    -------
    As `crown_peak`.
    """
    time = float(not_negative("time", time, "s"))
    top = rim_height(impact, time, dome=dome)
    if time <= rim_track(impact)[0].left or top <= 0:
        return np.empty(0), np.empty(0), np.empty(0)
    # Once it is at its peak the sheet only sinks: it keeps the shape that it had there.
    shape = min(time, _course(impact, bool(dome)).peak)
    left = np.linspace(shape, min(_left_at_rim(impact, shape), shape), int(points))
    height, drawn = _pieces(impact, left, shape)
    height = height * top / max(float(height[-1]), 1e-9)
    radius = mouth_radius(impact, time) + _outward(impact, left, shape)
    thickness = sheet_thickness(impact) * np.sqrt(left * impact.speed / impact.diameter) / drawn
    return height, _drawn_in(impact, radius, height, time, dome), thickness


@lru_cache(maxsize=256)
def _course(impact, dome):
    """The likely crown that stays open, or the one that closes: a `RimCourse`."""
    track = rim_track(impact)
    top = rim.highest(track)
    peak = track[top].time
    if isinstance(impact, SolidImpact):
        peak = _earlier(peak, BEFORE * seal_time(impact).likely)
    if dome:
        peak = _earlier(peak, BEFORE * dome_time(impact).likely)
    height = max(_free(impact, peak), 0.02 * impact.diameter)
    return RimCourse(peak, height, peak + _flat(track[top:], impact) * math.sqrt(2 * height / GRAVITY))


def _earlier(a, b):
    """The earlier of two times, going over smoothly."""
    return (a**-SHARP + b**-SHARP) ** (-1 / SHARP)


def _flat(falling, impact):
    """After which share of a free fall from the top the rim lies on the surface, its middle at its radius [-]."""
    radius = np.sqrt(np.array([r.mass for r in falling]) / (math.pi * impact.liquid.density))
    over = np.array([r.height for r in falling]) - radius
    free = math.sqrt(2 * max(falling[0].height, 1e-9) / GRAVITY)
    down = float(np.interp(0, -over, [r.time - falling[0].time for r in falling]))
    # A rim that is hardly higher than it is thick still takes its time to spread out.
    return max(down / free, SPREADS)


@lru_cache(maxsize=128)
def _arrays(impact):
    """Times, leaving times and heights of `rim_track`, and where its top is."""
    track = rim_track(impact)
    times, left, heights = np.array([(r.time, r.left, r.height) for r in track]).T
    return times, left, np.maximum(heights, 0.0), rim.highest(track)


def _free(impact, time):
    """Height of the rim that nothing stops, at a time up to its top [m]."""
    times, _, heights, top = _arrays(impact)
    return float(np.interp(time, times[: top + 1], heights[: top + 1], left=0.0))


def _height(impact, course, time):
    """Height of a rim that stops rising at the peak of its course and falls as the free one does [m]."""
    times, _, heights, top = _arrays(impact)
    if time <= course.peak:
        return _free(impact, time)
    since = (time - course.peak) / math.sqrt(2 * course.height / GRAVITY)
    if top == 0:
        return course.height * max(1 - since**2, 0.0)
    falling = (times[top:] - times[top]) / math.sqrt(2 * heights[top] / GRAVITY)
    return course.height * float(np.interp(since, falling, heights[top:] / heights[top], right=0.0))


def _bent(impact, time):
    """Height of a rim that closes into a dome [m]."""
    course, closes = _course(impact, True), dome_time(impact).likely
    length = _free(impact, time) if time < course.peak else course.height
    inward = mouth_radius(impact, min(time, closes)) * _closed(impact, time)
    bent = math.sqrt(max(length**2 - inward**2, length**2 / 4))
    return max(bent - GRAVITY * max(time - closes, 0.0) ** 2 / 2, 0.0)


def _closed(impact, time):
    """How far the rim of a dome has come in [-]: from 0 to 1 when it closes, from slow to fast."""
    return min(time / dome_time(impact).likely, 1.0) ** 3


def _left_at_rim(impact, time):
    times, left, _, _ = _arrays(impact)
    return float(np.interp(time, times, left))


def _pieces(impact, left, time):
    """Heights of the pieces that left at the given times [m], and how far the sheet is drawn out there [-]."""
    w = rim.release_speed(diameter=impact.diameter, speed=impact.speed, left=left)
    x = time - left
    height = x * w - GRAVITY * x**2 / 2
    drawn = np.maximum(1 + rim.FADE * x / left - GRAVITY * x / w, 0.2)
    return np.maximum.accumulate(np.maximum(height, 0.0)), drawn


def _outward(impact, left, time):
    """How far outside the foot each piece is [m]: it left where the mouth was then, and leans."""
    w = rim.release_speed(diameter=impact.diameter, speed=impact.speed, left=left)
    # The mouth at a few instants is enough; it widens smoothly.
    knots = np.linspace(float(left[-1]), time, 9)
    mouths = np.interp(left, knots, [mouth_radius(impact, float(t)) for t in knots])
    lean = SOLID_LEAN if isinstance(impact, SolidImpact) else DROP_LEAN
    return np.clip(mouths + lean * w * (time - left) - mouths[0], 0.0, impact.diameter)


def _drawn_in(impact, radius, height, time, dome):
    chance = float(dome_chance(impact) >= 0.5 if dome is None else dome)
    if chance == 0 or height[-1] <= 0:
        return radius
    return radius * (1 - _closed(impact, time) * (height / height[-1]) ** 1.5)
