"""How air holds a body: the drag of a sphere and the terminal speeds of solid spheres and of water drops."""

import math

import numpy as np

from splashlib.physics.checks import plain, positive, warn_outside
from splashlib.physics.constants import (
    AIR_DENSITY,
    AIR_FREE_PATH,
    AIR_VISCOSITY,
    GRAVITY,
    WATER_DENSITY,
    WATER_SURFACE_TENSION,
)


def sphere_drag_coefficient(reynolds):
    """Drag coefficient of a smooth sphere in a steady stream.

    Parameters
    ----------
    reynolds : float or array
        Reynolds number, density x speed x diameter / viscosity of the fluid [-], above 0.

    Returns
    -------
    float or ndarray
        Drag coefficient, referred to the frontal area [-].

    Notes
    -----
    Cd = 24/Re (1 + 0.15 Re^0.687) + 0.42 / (1 + 42500 Re^-1.16), for Re < 2e5. Good correlations agree within
    5 %. Above 3e5 the drag of a smooth sphere drops to a fifth (the drag crisis), which is not described:
    a warning says so above 2e5, and the terminal speed is then a lower bound.

    Sources
    -------
    R. Clift, W. H. Gauvin, Can. J. Chem. Eng. 49 (1971) 439.
    """
    re = positive("reynolds", reynolds)
    if np.any(re > 2e5):
        warn_outside("the drag of a sphere is described up to a Reynolds number of 2e5")
    return _drag(re)


def terminal_speed(*, diameter, density):
    """Terminal speed of a solid sphere in air.

    Parameters
    ----------
    diameter : float or array
        Diameter [m].
    density : float or array
        Density of the body [kg/m3], above that of air.

    Returns
    -------
    float or ndarray
        Speed at which drag equals the weight less the buoyancy [m/s].

    Notes
    -----
    Cd(Re) Re^2 = (4/3) g D^3 rho_air (rho - rho_air) / mu^2, solved for Re by Newton's method in ln Re, with
    `sphere_drag_coefficient`. 5 % in the drag are 2.5 % in the speed. A fruit that is no sphere, or tumbles,
    may be 10 % slower. Beyond Re = 2e5 it warns: see there.

    Sources
    -------
    Balance of forces on a sphere; drag as cited at `sphere_drag_coefficient`.
    """
    d = positive("diameter", diameter, "m")
    rho = positive("density", density, "kg/m3")
    if np.any(rho <= AIR_DENSITY):
        raise ValueError(f"density is {np.min(rho):g} kg/m3; it must be above that of air, {AIR_DENSITY} kg/m3")
    wanted = np.log(4 / 3 * GRAVITY * d**3 * AIR_DENSITY * (rho - AIR_DENSITY) / AIR_VISCOSITY**2)
    re = np.exp(_solve_log_reynolds(wanted))
    if np.any(re > 2e5):
        warn_outside("so fast a sphere passes the drag crisis (Reynolds number above 2e5): it may fall faster")
    return plain(re * AIR_VISCOSITY / (AIR_DENSITY * d))


# K. V. Beard, J. Atmos. Sci. 33 (1976) 851-864, table 1: the coefficients of his regimes 2 and 3.
_BEARD_SMALL = (-0.318657e1, 0.992696, -0.153193e-2, -0.987059e-3, -0.578878e-3, 0.855176e-4, -0.327815e-5)
_BEARD_LARGE = (-0.500015e1, 0.523778e1, -0.204914e1, 0.475294, -0.542819e-1, 0.238449e-2)


def water_drop_terminal_speed(diameter):
    """Terminal speed of a water drop in still air at 20 C.

    Parameters
    ----------
    diameter : float or array
        Diameter of the sphere of equal volume [m], 0.5 um to 7 mm.

    Returns
    -------
    float or ndarray
        Speed [m/s].

    Notes
    -----
    Three regimes: Stokes drag with slip below 19 um, a polynomial in the Davies number up to 1.07 mm, one
    in the Bond and the physical-property number above, where drops flatten (a rigid sphere of 5 mm would be
    30 % faster). Within 1.5 % of measured speeds from 0.8 to 5.8 mm, 4 % from 0.4 mm, 10 % from 0.1 mm. The
    regimes meet within 0.2 % at 19 um and 0.05 % at 1.07 mm. Drops above 7 mm break up: the value is that
    of 7 mm, with a warning. A drop that has just left a pipette swings, and is a few per cent slower or
    faster than this.

    Sources
    -------
    K. V. Beard, J. Atmos. Sci. 33 (1976) 851-864, table 1; checked against R. Gunn, G. D. Kinzer, J.
    Meteorol. 6 (1949) 243-248.
    """
    d = positive("diameter", diameter, "m")
    if np.any((d > 7e-3) | (d < 0.5e-6)):
        warn_outside("the terminal speed of a drop is described from 0.5 um to 7 mm")
    speed = np.where(d < 1.07e-3, _beard_small(np.minimum(d, 1.07e-3)), _beard_large(np.clip(d, 1.07e-3, 7e-3)))
    return plain(np.where(d < 19e-6, _stokes_with_slip(d), speed))


def _stokes_with_slip(d):
    slip = 1 + 2.51 * AIR_FREE_PATH / d
    return slip * (WATER_DENSITY - AIR_DENSITY) * GRAVITY * d**2 / (18 * AIR_VISCOSITY)


def _beard_small(d):
    weight = (WATER_DENSITY - AIR_DENSITY) * GRAVITY
    davies = 4 * AIR_DENSITY * weight * d**3 / (3 * AIR_VISCOSITY**2)
    # Outside its own regime the polynomial may be anything; keep its argument where it was made for.
    x = np.maximum(np.log(davies), -3.0)
    slip = 1 + 2.51 * AIR_FREE_PATH / d
    return AIR_VISCOSITY / (AIR_DENSITY * d) * slip * np.exp(_polynomial(_BEARD_SMALL, x))


def _beard_large(d):
    weight = (WATER_DENSITY - AIR_DENSITY) * GRAVITY
    bond = 4 * weight * d**2 / (3 * WATER_SURFACE_TENSION)
    root = (WATER_SURFACE_TENSION**3 * AIR_DENSITY**2 / (AIR_VISCOSITY**4 * weight)) ** (1 / 6)
    y = _polynomial(_BEARD_LARGE, np.log(bond * root))
    return AIR_VISCOSITY / (AIR_DENSITY * d) * root * np.exp(y)


def _polynomial(coefficients, x):
    total = 0.0
    for c in reversed(coefficients):
        total = total * x + c
    return total


def _drag(re):
    return 24 / re * (1 + 0.15 * re**0.687) + 0.42 / (1 + 42500 * re**-1.16)


def _solve_log_reynolds(wanted):
    """ln Re at which ln(Cd Re^2) has the wanted value; the slope lies between 1 (Stokes) and about 2."""
    y = np.maximum(wanted - math.log(24), (wanted - math.log(0.45)) / 2)
    step = 1e-4
    for _ in range(12):
        here = _log_force(y)
        y = y - (here - wanted) * step / (_log_force(y + step) - here)
    return y


def _log_force(y):
    return np.log(_drag(np.exp(y))) + 2 * y
