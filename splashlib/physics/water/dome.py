"""The dome: the crown closing over the hole (surface seal), whether and when.

Air rushes into the hollow and lowers the pressure in it, surface tension pulls the ring of the crown together.
"""

from functools import lru_cache

import numpy as np

from splashlib.physics.constants import AIR_DENSITY
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.impact import Band, SolidImpact, ramp

# Bodies: surface seal appears at U^2/(gR) of the order of 100 (M. M. Mansoor, J. O. Marston, I. U. Vakarelski,
# S. T. Thoroddsen, J. Fluid Mech. 743 (2014) 295); for small bodies a Weber number decides, of several hundred
# (J. M. Aristoff, J. W. M. Bush, J. Fluid Mech. 619 (2009) 45; the figure is an order of magnitude).
FROUDE, WEBER = 100.0, 640.0
# None at 0.4 of these, complete at 1.57: A. M. Worthington (1908), a rough 15 mm sphere, at 1.7 and 3.4 m/s.
NONE, SURE = 0.42, 1.75
# Bodies slower than 30 m/s: t U/D is constant for a given drag (A. Kiyama et al., "The water entry surface seal
# behavior of spheres at intermediate speed regimes", arXiv 2202.06342 (2022)); that is what the push of the air
# that rushes in says, rho U^2/2 against the inertia of the sheet. The constant for a sphere, from plates of A. M.
# Worthington (1908), 4.0 to 4.6; his times are good to 2 ms of 12. Tension closes small and slow ones sooner.
CLOSING = Band(3.3, 4.3, 5.6)
# Drops: none at We 750, a complete one at We 2900 (Worthington 1908).
DROP_NONE, DROP_SURE = 750.0, 3100.0
# The ring of a drop's crown when it turns in: when [D/U], its radius and the thickness of its edge [D]. The sheet
# of ``rim`` is a tenth as thick near the rim then as where it left, 0.003 to 0.02 D; 0.01 is soft.
DROP_TURN, DROP_RING, DROP_EDGE = 5.0, 1.5, 0.01
# Limits of that time: half or twice the thickness moves it by 1.4 at most.
DROP_EARLY, DROP_LATE = 0.72, 1.4


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
    0.42, 1 at 1.75. Drop: from We = rho U^2 D/sigma, 0 at 750, 1 at 3100, in a pool deeper than 3 D only.

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
    Body: t U/D = 4.3 (3.3 to 5.6), but before 0.85 of the deep seal: near the threshold the two come together.
    Drop: the ring opens until t U/D = 5; then a ring of radius 1.5 D and thickness e = 0.01 D is drawn together
    by tension and by the air that rushes in, r'' = -(2 sigma/r + rho_air U^2/2)/(rho e), from rest. Once, for
    r = r0 (1 - q^2), its energy gives r'^2 = (2/(rho e)) (2 sigma ln(r0/r) + (rho_air U^2/2)(r0 - r)). Checked
    against one plate, 18 ms for 0.4 g from 1.37 m; 0.72 to 1.4 of it.

    Sources
    -------
    Body: Kiyama et al. (2022) for the law, the constant beside it in this module. Drop: A. M. Worthington (1908);
    canopies are described by O. G. Engel, J. Appl. Phys. 37 (1966) 1798. Air and tension on a closing crown:
    J. O. Marston, T. T. Truscott, N. B. Speirs, M. M. Mansoor, S. T. Thoroddsen, J. Fluid Mech. 794 (2016) 506.
    """
    if isinstance(impact, SolidImpact):
        return _solid_dome(impact)
    likely = DROP_TURN * impact.diameter / impact.speed + _drawing(impact)
    return Band(DROP_EARLY * likely, likely, DROP_LATE * likely)


@lru_cache(maxsize=128)
def _drawing(drop):
    """Time in which tension and air draw the ring of a drop's crown together [s], by the midpoints of q."""
    first = DROP_RING * drop.diameter
    inertia = drop.liquid.density * DROP_EDGE * drop.diameter
    q = (np.arange(400) + 0.5) / 400
    tension = 2 * drop.liquid.tension * -np.log1p(-(q**2))
    air = AIR_DENSITY * drop.speed**2 / 2 * first * q**2
    return float(np.mean(2 * q * first / np.sqrt(2 / inertia * (tension + air))))


def _soft(a, b):
    """The smaller of two times, going over smoothly."""
    return (a**-8 + b**-8) ** (-1 / 8)


def _solid_dome(body):
    unit = body.diameter / body.speed
    seal = seal_time(body)
    likely = _soft(CLOSING.likely * unit, 0.85 * seal.likely)
    early = _soft(CLOSING.low * unit, 0.7 * seal.early)
    return Band(min(early, 0.8 * likely), likely, max(_soft(CLOSING.high * unit, seal.likely), 1.15 * likely))
