"""Falling through air: height to time and speed, and the speed at which air holds a body.

The body starts at rest. Air brakes it with a constant drag coefficient, so that one number, the terminal
speed, says all about it; ``terminal_speed=inf`` is the fall without air. The coefficient is not quite
constant in life (0.38 to 0.52 for a 35 mm sphere at 0.3 to 30 m/s), but drag is a small correction here:
over a metre a 35 mm fruit arrives 0.9 ms late because of it, and a tenth more or less of that is 0.1 ms.

Neglected everywhere: the buoyancy of the body in air and the air it carries along (together 1.5 times the
ratio of the densities: 0.18 % of g for a fruit, 0.09 % of the time, 0.3 ms over 0.5 m; 2 % of g for a
table-tennis ball), wind, spin, and the change of g from place to place (0.5 %).
"""

import math

import numpy as np

from splashlib.physics.checks import not_negative, plain, positive, warn_outside
from splashlib.physics.constants import (
    AIR_DENSITY,
    AIR_FREE_PATH,
    AIR_VISCOSITY,
    GRAVITY,
    WATER_DENSITY,
    WATER_SURFACE_TENSION,
)

# Below this the leading terms of the series are exact to double precision; above it the closed forms are.
SMALL = 1e-9


def fall_time(height, *, terminal_speed=math.inf):
    """Time that a body takes to fall through a height, from rest.

    Parameters
    ----------
    height : float or array
        Height fallen [m], 0 or more.
    terminal_speed : float or array
        Speed at which the air's drag equals the weight [m/s]; infinite without air.

    Returns
    -------
    float or ndarray
        Time [s].

    Notes
    -----
    t = (vT/g) arccosh(exp(g h / vT^2)); without air t = sqrt(2 h / g). It is evaluated as (vT/g) ln(1 +
    sqrt(1 - exp(-2 x))) + h/vT with x = g h / vT^2, which loses no digits for small x and does not overflow
    for large, and as sqrt(2 h/g) (1 + x/6) where x is tiny. Exact for a constant drag coefficient; see the
    head of this module for what is neglected.

    Sources
    -------
    Integrate v dv/dh = g (1 - v^2/vT^2) from rest, then dt = dh/v.
    """
    height = not_negative("height", height, "m")
    vt = positive("terminal_speed", terminal_speed, "m/s", infinite=True)
    x = GRAVITY * height / vt / vt
    tiny = x < SMALL
    speed = np.where(tiny, 1.0, vt)
    braked = speed / GRAVITY * np.log1p(np.sqrt(-np.expm1(-2 * x))) + height / speed
    return plain(np.where(tiny, np.sqrt(2 * height / GRAVITY) * (1 + x / 6), braked))


def fall_speed(height, *, terminal_speed=math.inf):
    """Speed of a body that has fallen through a height, from rest.

    Parameters
    ----------
    height : float or array
        Height fallen [m], 0 or more.
    terminal_speed : float or array
        Speed at which the air's drag equals the weight [m/s]; infinite without air.

    Returns
    -------
    float or ndarray
        Speed [m/s].

    Notes
    -----
    v = vT sqrt(1 - exp(-2 g h / vT^2)); without air v = sqrt(2 g h). Exact for a constant drag coefficient;
    see the head of this module for what is neglected.

    Sources
    -------
    v dv/dh = g (1 - v^2/vT^2): v^2 approaches vT^2 exponentially in the height.
    """
    height = not_negative("height", height, "m")
    vt = positive("terminal_speed", terminal_speed, "m/s", infinite=True)
    x = GRAVITY * height / vt / vt
    tiny = x < SMALL
    braked = np.where(tiny, 1.0, vt) * np.sqrt(-np.expm1(-2 * x))
    return plain(np.where(tiny, np.sqrt(2 * GRAVITY * height) * (1 - x / 2), braked))


def distance_fallen(time, *, terminal_speed=math.inf):
    """Height through which a body has fallen after a time, from rest: the inverse of `fall_time`.

    Parameters
    ----------
    time : float or array
        Time since the release [s], 0 or more.
    terminal_speed : float or array
        Speed at which the air's drag equals the weight [m/s]; infinite without air.

    Returns
    -------
    float or ndarray
        Height fallen [m].

    Notes
    -----
    h = (vT^2/g) ln cosh(g t / vT); without air h = g t^2 / 2. Exact for a constant drag coefficient.

    Sources
    -------
    dv/dt = g (1 - v^2/vT^2) gives v = vT tanh(g t/vT); integrate once more.
    """
    time = not_negative("time", time, "s")
    vt = positive("terminal_speed", terminal_speed, "m/s", infinite=True)
    z = GRAVITY * time / vt
    tiny = z * z < SMALL
    speed = np.where(tiny, 1.0, vt)
    free = 0.5 * GRAVITY * time**2
    return plain(np.where(tiny, free * (1 - z * z / 6), speed / GRAVITY * speed * _log_cosh(z)))


def speed_after(time, *, terminal_speed=math.inf):
    """Speed of a body a time after its release, from rest.

    Parameters
    ----------
    time : float or array
        Time since the release [s], 0 or more.
    terminal_speed : float or array
        Speed at which the air's drag equals the weight [m/s]; infinite without air.

    Returns
    -------
    float or ndarray
        Speed [m/s].

    Notes
    -----
    v = vT tanh(g t / vT); without air v = g t. Exact for a constant drag coefficient.

    Sources
    -------
    dv/dt = g (1 - v^2/vT^2).
    """
    time = not_negative("time", time, "s")
    vt = positive("terminal_speed", terminal_speed, "m/s", infinite=True)
    z = GRAVITY * time / vt
    tiny = z * z < SMALL
    braked = np.where(tiny, 1.0, vt) * np.tanh(z)
    return plain(np.where(tiny, GRAVITY * time * (1 - z * z / 3), braked))


def height_for_speed(speed, *, terminal_speed=math.inf):
    """Height to fall through, from rest, to reach a speed: the inverse of `fall_speed`.

    Parameters
    ----------
    speed : float or array
        Wanted speed [m/s], 0 or more and below the terminal speed.
    terminal_speed : float or array
        Speed at which the air's drag equals the weight [m/s]; infinite without air.

    Returns
    -------
    float or ndarray
        Height [m].

    Notes
    -----
    h = -(vT^2 / 2g) ln(1 - v^2/vT^2); without air h = v^2 / 2g. Exact for a constant drag coefficient.

    Sources
    -------
    `fall_speed` solved for the height.
    """
    speed = not_negative("speed", speed, "m/s")
    vt = positive("terminal_speed", terminal_speed, "m/s", infinite=True)
    if np.any(speed >= vt):
        fastest = f"{np.max(speed):g} m/s; it must be below the terminal speed, {np.min(vt):g} m/s"
        raise ValueError(f"speed is {fastest}")
    y = (speed / vt) ** 2
    tiny = y < SMALL
    factor = np.where(tiny, 1 + y / 2, -np.log1p(-y) / np.where(tiny, 1.0, y))
    return plain(speed**2 / (2 * GRAVITY) * factor)


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
        raise ValueError(
            f"density is {np.min(rho):g} kg/m3; it must be above that of air, {AIR_DENSITY} kg/m3"
        )
    wanted = np.log(4 / 3 * GRAVITY * d**3 * AIR_DENSITY * (rho - AIR_DENSITY) / AIR_VISCOSITY**2)
    re = np.exp(_solve_log_reynolds(wanted))
    if np.any(re > 2e5):
        warn_outside(
            "so fast a sphere passes the drag crisis (Reynolds number above 2e5): it may fall faster"
        )
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
    speed = np.where(
        d < 1.07e-3, _beard_small(np.minimum(d, 1.07e-3)), _beard_large(np.clip(d, 1.07e-3, 7e-3))
    )
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


def _log_cosh(z):
    return np.where(
        z < 1, np.log1p(2 * np.sinh(np.minimum(z, 1) / 2) ** 2), z + np.log1p(np.exp(-2 * z)) - math.log(2)
    )
