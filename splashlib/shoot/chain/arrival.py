"""How one body arrives at the water: when, how fast, how much of that is the air's doing."""

import math
from dataclasses import dataclass, replace

from splashlib.physics.air.carried_air import distance_in_air, speed_in_air, time_in_air
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_speed, fall_time
from splashlib.shoot.chain.body_motion import body_terminal_speed
from splashlib.shoot.setup.default_scene import BODIES

BALL = {"form": "solid", "diameter": 0.040, "density": 80.6, "surface": "smooth_dry"}
"""A table-tennis ball: 40 mm and 2.7 g, by the rules of the game."""


def fallers(drop):
    """The bodies that are let go together: those of the scene and a table-tennis ball; one's own if it differs.

    Parameters
    ----------
    drop : splashlib.shoot Drop, of the set-up

    Returns
    -------
    dict of str -> Drop
    """
    kinds = {**BODIES, "table-tennis ball": BALL}
    found = {name: replace(drop, name=name, length=None, **kind) for name, kind in kinds.items()}
    known = found.get(drop.name)
    if known is None or replace(known, hang=drop.hang) != drop:
        found.pop(drop.name if known is not None else next(iter(found)))
        found = {drop.name: drop, **found}
    return found


@dataclass(frozen=True, kw_only=True)
class Arrival:
    """One fall from the hand to the water, with air and without [SI]."""

    time: float
    """From the release to the contact, with air [s]."""
    speed: float
    """At the water, with air [m/s]."""
    free_time: float
    """From the release to the contact, without air [s]."""
    free_speed: float
    """At the water, without air [m/s]."""
    behind: float
    """How far the body still is above the water when a fall without air ends [m]."""
    energy: float
    """What the body brings to the water, half its mass times the square of its speed [J]."""

    @property
    def late(self):
        """How much later than without air it arrives [s]."""
        return self.time - self.free_time


def arrival(drop, release_height=None):
    """Say how a body arrives at the water.

    Parameters
    ----------
    drop : splashlib.shoot Drop
    release_height : float, optional
        Lowest point over the water when it is let go [m]; that of the drop when left out.

    Returns
    -------
    Arrival

    Notes
    -----
    Falls with drag and with the air that the body pushes aside (`splashlib.physics.air.carried_air`). The chain
    of events leaves the second out: 0.09 % of the time for a fruit, 1.1 % for a table-tennis ball.
    """
    height = drop.release_height if release_height is None else release_height
    air = {"density": drop.density, "terminal_speed": body_terminal_speed(drop)}
    speed, free = speed_in_air(height, **air), fall_time(height)
    return Arrival(
        time=time_in_air(height, **air),
        speed=speed,
        free_time=free,
        free_speed=fall_speed(height),
        behind=height - distance_in_air(free, **air),
        energy=0.5 * mass(drop) * speed**2,
    )


def mass(drop):
    """Mass of the body, an ellipsoid as long as the drop says and round across [kg]."""
    length = drop.diameter if drop.liquid else drop.length
    return math.pi / 6 * drop.density * drop.diameter**2 * length


def way(drop, times, release_height=None):
    """Heights of the lowest point at times since the release, as if there were no water.

    Parameters
    ----------
    drop : splashlib.shoot Drop
    times : array
        Since the release [s].
    release_height : float, optional
        [m]; that of the drop when left out.

    Returns
    -------
    tuple
        With air and without [m].
    """
    height = drop.release_height if release_height is None else release_height
    air = {"density": drop.density, "terminal_speed": body_terminal_speed(drop)}
    return height - distance_in_air(times, **air), height - 0.5 * GRAVITY * times**2
