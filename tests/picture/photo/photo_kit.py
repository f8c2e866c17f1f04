"""What the tests of the photograph share: plain scenes, and places in the frame worked out by themselves."""

from dataclasses import replace

import numpy as np

from splashlib.picture.photo import tone
from splashlib.shoot import change, delay_for, tea_house

SHORT = {"rise": 5e-6, "tail": 4e-6, "power": 1 / 256}
"""A flash so short that nothing in these scenes moves by as much as a picture element."""


CLOSE = {
    "camera.iso": 200.0,
    "camera.focal_length": 0.100,
    "camera.distance": 0.55,
    "camera.focus_distance": 0.55,
    "camera.frame_centre": 0.03,
    "flashes.0.size": 0.3,
    "vessel.rim": 0.03,
}
"""A camera so near that a picture element is small against a ball, whatever the course's scene is."""


def plain(**settings):
    """A white ball lit evenly from the front, no room light, the flash fired by the beam.

    Keyword arguments are settings by path, with dots written as double underscores.
    """
    setup = tea_house()
    head = replace(setup.flashes[0], position="front", guide_number=60.0, distance=0.6, diffuser_loss=0.0, **SHORT)
    setup = replace(setup, flashes=(head,))
    setup = replace(setup, drop=replace(setup.drop, name="white ball"))
    for path, value in CLOSE.items():
        setup = change(setup, path, value)
    for path, value in {"room.lux": 0.0, "beam.light": "infrared", "trigger.lag": 0.0, **settings}.items():
        setup = change(setup, path.replace("__", "."), value)
    return setup


def lit_at(setup, *, height):
    """The set-up with the delay that brings half of the light when the lowest point is at a height [m]."""
    found = delay_for(setup, height=height)
    assert found.short_by == 0, "the scene of a test must be within reach"
    return change(setup, "trigger.delay", found.value)


def scale(setup, width):
    """Picture elements for a metre in the plane of fall, from the thin lens alone."""
    camera = setup.camera
    return width / camera.sensor_width * camera.focal_length / (camera.distance - camera.focal_length)


def row(setup, height, size):
    """Row of a height over the water [m]."""
    return size[1] / 2 - (height - setup.camera.frame_centre) * scale(setup, size[0])


def light_of(picture):
    """Light 0 to 1 of a picture, colours averaged."""
    return tone.decode(picture).mean(-1)


def crossings(line, level):
    """Places along a line where it crosses a level, between the middles of its cells (the first at 0.5)."""
    above = line > level
    where = np.flatnonzero(above[1:] != above[:-1])
    share = (level - line[where]) / (line[where + 1] - line[where])
    return where + share + 0.5
