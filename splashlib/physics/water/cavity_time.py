"""When the cavity behind a solid body closes, under the water (deep seal)."""

import math

from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.impact import Band, ramp

# T. T. Truscott, A. H. Techet, J. Fluid Mech. 625 (2009) 135; D. Gilbarg, R. A. Anderson, J. Appl. Phys. 19
# (1948) 127: sphere, from first contact, within 4 %.
SEAL = 1.73
# V. Duclaux, F. Caille, C. Duez, C. Ybert, L. Bocquet, C. Clanet, J. Fluid Mech. 591 (2007) 1: theory, 2.06.
SEAL_THEORY = 2.06


def seal_time(body):
    """When the cavity pinches off under the surface (deep seal), from first contact.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Band
        Times [s].

    Notes
    -----
    t = 1.73 sqrt(R/g) - R/(Bo U), from slices of the cavity that open with a speed b and are closed by the
    pressure rho g z + sigma/R: slice z closes at z/U + b N/(g z + sigma/(rho R)), soonest at the depth
    sqrt(b N U/g) - R/Bo. With b in proportion to R U the first term is the published law, independent of speed;
    the second is what surface tension saves (0.3 ms for a 16 mm marble). Where the depth would be negative the
    cavity closes at the surface, at 0.75 rho R^2 U/sigma (a shallow seal). Limits: 8 % less than the law (its
    4 % twice over), and the 2.06 of the theory as latest; wider for Fr = U^2/(gR) under 20 (the law was
    measured above) and for Bo under 3. Measured on spheres; a slender or flat body changes the speed with
    which slices open and is given another 15 %.

    Sources
    -------
    Beside the constants of this module; slices as V. Duclaux et al. (2007) and J. M. Aristoff, J. W. M. Bush,
    J. Fluid Mech. 619 (2009) 45, who name the shallow seal.
    """
    likely = _likely(body)
    spread = 1 + 0.25 * (1 - ramp(body.froude, low=3, high=20)) + 0.4 * (1 - ramp(body.bond, low=0.3, high=3))
    spread += 0.3 * min(abs(math.log(body.slenderness)), 1.0)
    return Band(likely * 0.92 / spread, likely, likely * SEAL_THEORY / SEAL * spread)


def _likely(body):
    plain = SEAL * math.sqrt(body.radius / GRAVITY)
    saved = body.radius / (body.bond * body.speed)
    if saved <= plain / 2:
        return plain - saved
    # (1.73/2)^2 = b N/(R U), so the shallow seal is at (1.73^2/4) rho R^2 U / sigma; both meet at half the law.
    return SEAL**2 / 4 * body.weber * body.radius / body.speed
