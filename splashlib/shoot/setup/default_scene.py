"""The scene of the course, from which every lesson starts, and the bodies that belong to it."""

from dataclasses import replace

from splashlib.physics.constants import GLASS_DENSITY
from splashlib.shoot.setup.fields import value_at
from splashlib.shoot.setup.parts import Setup


def tea_house():
    """Return the scene of the course: a kumquat over a square glass vase, for the menu card of a tea house.

    Returns
    -------
    Setup : the set-up that every lesson starts from. The shutter is held open and the delay is still zero.
    """
    return Setup()


BODIES = {
    "kumquat": {"form": "solid", "diameter": 0.035, "density": 1000.0, "surface": "wet"},
    "glass marble": {"form": "solid", "diameter": 0.016, "density": GLASS_DENSITY, "surface": "smooth_dry"},
    "drop of milk": {"form": "milk", "diameter": 0.005, "density": 1030.0, "surface": "wet"},
}
"""The three bodies of the scene; `with_body` puts one into a set-up."""


def with_body(setup, name):
    """Return `setup` with another of the scene's bodies under the same hand.

    Parameters
    ----------
    setup : Setup
    name : str
        "kumquat", "glass marble" or "drop of milk".

    Returns
    -------
    Setup
    """
    if name not in BODIES:
        raise ValueError(f"body is {name!r}; it must be one of {', '.join(BODIES)}")
    return replace(setup, drop=replace(setup.drop, name=name, length=None, **BODIES[name]))


def scene_value(path):
    """Return the value that a setting has in the scene.

    Parameters
    ----------
    path : str
        As in `fields.field`, except that the scene has one flash head only.

    Returns
    -------
    float, int or str
        SI value; ValueError with one line for a second head.
    """
    return value_at(tea_house(), path)
