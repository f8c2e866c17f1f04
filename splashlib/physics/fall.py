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

from splashlib.physics.air.drag import sphere_drag_coefficient, terminal_speed, water_drop_terminal_speed
from splashlib.physics.checks import not_negative, plain, positive
from splashlib.physics.constants import GRAVITY

__all__ = [
    "distance_fallen",
    "fall_speed",
    "fall_time",
    "height_for_speed",
    "speed_after",
    "sphere_drag_coefficient",
    "terminal_speed",
    "water_drop_terminal_speed",
]

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


def _log_cosh(z):
    return np.where(z < 1, np.log1p(2 * np.sinh(np.minimum(z, 1) / 2) ** 2), z + np.log1p(np.exp(-2 * z)) - math.log(2))
