"""The photograph of a drop, taken apart by its lights, so that the room may be made darker without a new photograph.

Light adds. The flash's share does not depend on the room, and the room's share is so many times what one lux gives.
Both are kept; following the hand then costs a sum. The result is that of `photograph` (a test compares them), but for
this: what moves in the room's light is drawn coarsely, since it is blurred by its own motion anyway.
"""

from dataclasses import replace
from functools import lru_cache

import numpy as np
from PIL import Image

from splashlib.picture.photo import tone
from splashlib.picture.photo.frame import LightFrame
from splashlib.picture.photo.lights import lights_of
from splashlib.picture.photo.objects.red_spots import beam_light
from splashlib.picture.photo.photograph import scene_of
from splashlib.picture.photo.raster.camera_geometry import View
from splashlib.shoot import change

COARSE = 190
"""Width at which motion in the room's light is drawn [picture elements]."""

FAINTEST = 1e-3
"""Light of the room below which its motion is not drawn: two steps of the darkest grey."""


def taken(setup, *, size, again=None, flash=True, beam=None):
    """Take one photograph.

    Parameters
    ----------
    setup : Setup
    size : (int, int)
        Width and height [picture elements].
    again : float, optional
        A second flash fires so long after the first one [s].
    flash : bool
        False: the still set in the light of the room alone, before anything is dropped.
    beam : Setup, optional
        The set-up whose beam writes into the frame, when it is not this one's.

    Returns
    -------
    uint8 array (height, width, 3)
    """
    return np.ascontiguousarray(np.moveaxis(tone.develop(light_on(setup, size, again, flash, beam)), 0, -1))


def light_on(setup, size, again=None, flash=True, beam=None):
    """The light on the sensor; as `photograph.exposed`.

    Returns
    -------
    float32 array (3, height, width), 1 a white card exposed as metered
    """
    total = np.zeros((3, size[1], size[0]), np.float32)
    if flash:
        total += _flash(_in_one_lux(setup), size)
        if again is not None and still_open(setup, again):
            total += _flash(_in_one_lux(change(setup, "trigger.delay", setup.trigger.delay + again)), size)
    if setup.room.lux > 0:
        unit = _in_one_lux(setup)
        total += np.float32(setup.room.lux) * _still(unit, size)
        if flash and setup.room.lux * _room(unit).strength > FAINTEST:
            total += np.float32(setup.room.lux) * _larger(_motion(unit), size)
    _add_beam(total, beam or setup, size, body=flash)
    return total


def still_open(setup, later):
    """Whether the shutter is still open so long after the flash [s]."""
    when = _scene(_in_one_lux(setup)).when
    return bool(when.flash_half[0, 0] + later < when.shutter_closes[0])


@lru_cache(maxsize=32)
def spot(setup):
    """Exposure of the brightest that the beam writes into the frame, 1 a white card as metered; 0 if it is outside."""
    total = np.zeros((3, 2 * COARSE // 3, COARSE), np.float32)
    _add_beam(total, setup, (COARSE, 2 * COARSE // 3))
    return float(total.max())


def _add_beam(total, setup, size, body=True):
    if setup.beam.light == "visible":
        beam_light(total, _scene(_in_one_lux(setup)), _view(setup, size), body=body)


def _in_one_lux(setup):
    return setup if setup.room.lux == 1.0 else change(setup, "room.lux", 1.0)


@lru_cache(maxsize=16)
def _scene(setup):
    return scene_of(setup)


@lru_cache(maxsize=32)
def _view(setup, size):
    return View.of(setup, size)


@lru_cache(maxsize=32)
def _lights(setup):
    scene = _scene(setup)
    return tuple(lights_of(setup, scene.when, scene.busy))


def _room(setup):
    return _lights(setup)[-1]


@lru_cache(maxsize=16)
def _flash(setup, size):
    """Light of all heads."""
    total = np.zeros((3, size[1], size[0]), np.float32)
    for light in _lights(setup)[:-1]:
        total += _weighed(LightFrame(_scene(setup), _view(setup, size), light).drawn(), light)
    return total


@lru_cache(maxsize=16)
def _still(setup, size):
    """Light of the set at rest in one lux."""
    light = _room(setup)
    return _weighed(LightFrame(_scene(setup), _view(setup, size), light).image, light)


@lru_cache(maxsize=16)
def _motion(setup):
    """What the moving things add to that in one lux, or hide of it; coarse."""
    light, size = _room(setup), (COARSE, round(COARSE * setup.camera.sensor_height / setup.camera.sensor_width))
    # Bright enough that the frame does not leave the motion out.
    frame = LightFrame(_scene(setup), _view(setup, size), replace(light, strength=1.0))
    still = frame.image.copy()
    return _weighed(_blurred(frame.drawn() - still), light)


def _weighed(image, light):
    return image * (np.array(light.tint, np.float32) * np.float32(light.strength))[:, None, None]


def _blurred(image):
    """Softened over three elements: the drawing's instants are farther apart than life's."""
    for axis in (1, 2):
        image = (np.roll(image, 1, axis) + 2 * image + np.roll(image, -1, axis)) / 4
    return image


def _larger(image, size):
    """The coarse image as large as the picture."""
    return np.stack([np.asarray(Image.fromarray(part).resize(size, Image.Resampling.BILINEAR)) for part in image])
