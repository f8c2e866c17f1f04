"""Falling with the air that a body has to push aside: what `fall` leaves out, for bodies light enough to care.

A body in air is carried by the weight of the air it displaces, and to gain speed it must set air around it
moving. Both together are as if gravity were a little weaker. For a fruit that is 0.18 %; for a table-tennis
ball 2.2 %, and over half a metre it costs that ball more time than drag does.
"""

import math

import numpy as np

from splashlib.physics.checks import plain, positive
from splashlib.physics.constants import AIR_DENSITY, GRAVITY
from splashlib.physics.fall import distance_fallen, fall_speed, fall_time


def gravity_in_air(density):
    """Acceleration of a body just let go in air.

    Parameters
    ----------
    density : float or array
        Density of the body [kg/m3], above that of air.

    Returns
    -------
    float or ndarray
        Acceleration [m/s2].

    Notes
    -----
    a = g (1 - r) / (1 + r/2) with r = density of the air / density of the body: the displaced air carries its
    own weight, and a sphere moves half its displaced air along. For an ellipsoid twice as long as wide,
    falling along its long axis, the half is 0.2; the difference is 0.3 r of g. Neglected: the slow growth of
    the wake from rest, which was not noticeable in the measurement cited.

    Sources
    -------
    H. Lamb, Hydrodynamics, 6th ed. (1932), art. 92. Measured on light balls in air: J. Pantaleone, J. Messer,
    Am. J. Phys. 79 (2011) 1202.
    """
    return plain(GRAVITY * _share(density))


def _share(density):
    """What is left of gravity [-]."""
    density = positive("density", density, "kg/m3")
    if np.any(density <= AIR_DENSITY):
        lightest = f"{np.min(density):g} kg/m3; it must be above that of air, {AIR_DENSITY} kg/m3"
        raise ValueError(f"density is {lightest}")
    ratio = AIR_DENSITY / density
    return (1 - ratio) / (1 + ratio / 2)


def time_in_air(height, *, density, terminal_speed=math.inf):
    """Time that a body takes to fall through a height from rest, with the air it pushes aside.

    Parameters
    ----------
    height : float or array
        Height fallen [m], 0 or more.
    density : float or array
        Density of the body [kg/m3], above that of air.
    terminal_speed : float or array
        Speed at which the air's drag equals the weight [m/s].

    Returns
    -------
    float or ndarray
        Time [s].

    Notes
    -----
    dv/dt = a (1 - v^2/vT^2) with a of `gravity_in_air`: the fall of `fall_time` with a in place of g, so that
    t(h; a) = t(h a/g; g) g/a. With a constant drag coefficient the air's share of the time comes out too
    large: the real one is up to a fifth less for a solid sphere at 1 to 5 m/s, whose coefficient is lower there
    than at its terminal speed, and up to a third less for a drop of 5 mm, which is flatter at its terminal speed.

    Sources
    -------
    As `gravity_in_air` and `fall_time`.
    """
    share = _share(density)
    return plain(fall_time(height * share, terminal_speed=terminal_speed) / share)


def speed_in_air(height, *, density, terminal_speed=math.inf):
    """Speed of a body that has fallen through a height from rest, with the air it pushes aside.

    Parameters
    ----------
    height, density, terminal_speed : as in `time_in_air`

    Returns
    -------
    float or ndarray
        Speed [m/s].

    Notes
    -----
    v(h; a) = v(h a/g; g); see `time_in_air`.

    Sources
    -------
    As `gravity_in_air` and `fall_speed`.
    """
    return fall_speed(height * _share(density), terminal_speed=terminal_speed)


def distance_in_air(time, *, density, terminal_speed=math.inf):
    """Height through which a body has fallen after a time, from rest: the inverse of `time_in_air`.

    Parameters
    ----------
    time : float or array
        Time since the release [s], 0 or more.
    density, terminal_speed : as in `time_in_air`

    Returns
    -------
    float or ndarray
        Height fallen [m].

    Notes
    -----
    h(t; a) = h(t a/g; g) g/a; see `time_in_air`.

    Sources
    -------
    As `gravity_in_air` and `distance_fallen`.
    """
    share = _share(density)
    return plain(distance_fallen(time * share, terminal_speed=terminal_speed) / share)
