"""The one radius at the surface: there the crown stands, and there the cavity or the crater begins."""

import math

from splashlib.physics.water.cavity import cavity_mouth
from splashlib.physics.water.crater import crater_edge
from splashlib.physics.water.impact import SolidImpact


def mouth_radius(impact, time):
    """Radius of the hole in the surface at one instant: foot of the crown, edge of the cavity or crater.

    Parameters
    ----------
    impact : SolidImpact or DropImpact
    time : float
        Time after contact [s].

    Returns
    -------
    float
        Radius [m], 0 at contact.

    Notes
    -----
    Body: the circle in which the level surface cuts it until it is half under, then the mouth of the cavity, no
    narrower than the body. Drop: the crater by its energy. The foot of a real crown flares out into the surface
    by another fifth or so.

    Sources
    -------
    As `cavity_mouth` and ``crater.widening``.
    """
    if not isinstance(impact, SolidImpact):
        return crater_edge(impact, time)
    way = min(max(time, 0.0) * impact.speed / (impact.length / 2), 1.0)
    cut = impact.radius * math.sqrt(way * (2 - way))
    return max(cut, cavity_mouth(impact, time))
