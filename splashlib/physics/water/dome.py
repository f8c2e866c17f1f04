"""The dome: the crown closing over the hole (surface seal), whether and when.

Air rushes into the hollow and lowers the pressure in it, surface tension pulls the ring of the crown together.
"""

import math

from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.impact import Band, SolidImpact, ramp
from splashlib.physics.water.threshold import splash_chance

# Bodies: surface seal appears at U^2/(gR) of the order of 100 (M. M. Mansoor, J. O. Marston, I. U. Vakarelski,
# S. T. Thoroddsen, J. Fluid Mech. 743 (2014) 295); for small bodies a Weber number decides, of several hundred
# (J. M. Aristoff, J. W. M. Bush, J. Fluid Mech. 619 (2009) 45; the figure is an order of magnitude).
FROUDE, WEBER = 100.0, 640.0
# None at 0.4 of these, complete at 1.6: A. M. Worthington (1908), a rough 15 mm sphere, at 1.7 and 3.4 m/s.
NONE, SURE = 0.42, 1.6
# Bodies slower than 30 m/s: t U/D is constant for a given drag (A. Kiyama et al., "The water entry surface seal
# behavior of spheres at intermediate speed regimes", arXiv 2202.06342 (2022)). The constant: equal to the deep
# seal, 0.865 sqrt(Fr), at Fr = U^2/(gR) of 39, 100 and 157: 5.4 (there none closes in time), 8.7, 10.8.
CLOSING = Band(5.0, 7.5, 11.0)
# Drops: none at We 750, a complete one at We 2900 (Worthington 1908).
DROP_NONE, DROP_SURE = 900.0, 2600.0
# The edge of a drop's crown, drawn out by the time it turns in, in diameters; and the ring's size then.
DROP_EDGE, DROP_RING, DROP_TURN = 0.025, 1.5, 5.0


def dome_chance(impact):
    """Chance that the crown closes over.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    float
        0 to 1 (given that there is a crown).

    Notes
    -----
    Body: from the smaller of Fr/100 and We/640, Fr = U^2/(gR), We = rho U^2 R/sigma, both with the radius: 0 at
    0.42, 1 at 1.6. Drop: from We = rho U^2 D/sigma, 0 at 900, 1 at 2600, in a pool deeper than 3 D only.

    Sources
    -------
    Beside the constants of this module.
    """
    if isinstance(impact, SolidImpact):
        push = min(impact.froude / FROUDE, impact.weber / WEBER)
        return ramp(push, low=NONE, high=SURE)
    if impact.film_depth < 3 * impact.diameter:
        return 0.0
    return ramp(impact.weber, low=DROP_NONE, high=DROP_SURE)


def dome_time(impact):
    """When the dome closes, if it does.

    Parameters
    ----------
    impact : SolidImpact or DropImpact

    Returns
    -------
    Band
        Times after contact [s].

    Notes
    -----
    Body: t U/D = 7.5 (5 to 11), but before 0.85 of the deep seal: near the threshold the two come together.
    That surface tension helps small bodies shows as the early limit. Drop: the ring opens until t U/D = 5, then
    a ring of radius 1.5 D and thickness 0.025 D is drawn together by tension: 1.25 r/sqrt(2 sigma/(rho e)), from
    rest with r r'' = -2 sigma/(rho e); half to twice that (C).

    Sources
    -------
    Body: Kiyama et al. (2022) for the law, the constant beside it in this module. Drop: no published time was
    found; canopies are described by O. G. Engel, J. Appl. Phys. 37 (1966) 1798.
    """
    if isinstance(impact, SolidImpact):
        return _solid_dome(impact)
    edge = impact.liquid.density * DROP_EDGE * impact.diameter
    drawing = math.sqrt(math.pi / 2) * DROP_RING * impact.diameter / math.sqrt(2 * impact.liquid.tension / edge)
    likely = DROP_TURN * impact.diameter / impact.speed + drawing
    return Band(likely / 2, likely, likely * 2)


def _solid_dome(body):
    unit = body.diameter / body.speed
    seal = seal_time(body)
    likely = min(CLOSING.likely * unit, 0.85 * seal.likely)
    early = min(CLOSING.early * unit, 0.7 * seal.early)
    return Band(min(early, 0.8 * likely), likely, max(min(CLOSING.late * unit, seal.likely), 1.15 * likely))


def solid_dome_chance(body):
    """Chance of a dome over a solid body, the chance of a crown included [-]."""
    return splash_chance(body) * dome_chance(body)
