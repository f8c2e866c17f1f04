"""The photograph that the camera would record of one drop, computed from the same events as everything else."""

import numpy as np

from splashlib.picture.photo import tone
from splashlib.picture.photo.description import facts, in_words
from splashlib.picture.photo.frame import LightFrame
from splashlib.picture.photo.lights import flash_stops, lights_of
from splashlib.picture.photo.objects.red_spots import beam_light
from splashlib.picture.photo.raster.camera_geometry import View
from splashlib.picture.photo.scene import NOMINAL, Scene
from splashlib.shoot import draw_scatters, nominal_draw

SIZE = (640, 427)


def photograph(setup, *, rng=None, size=SIZE):
    """Compute the photograph that this set-up takes of one drop.

    Parameters
    ----------
    setup : shoot.Setup
    rng : numpy.random.Generator, optional
        Draws the drop: scatters of the chain, droplets, how the body is turned, and the sensor's noise. Without
        it the nominal drop, without noise.
    size : (int, int)
        Width and height [picture elements]. The sensor's width fills the width; a height that does not go with
        the sensor's shape shows less or more of the set.

    Returns
    -------
    uint8 array (height, width, 3)

    Notes
    -----
    Every flash head draws the set over its own pulse, on its own route's lag and from its own side: the body at
    `lights.MOMENTS` instants of equal energy, water at instants that follow the energy and the time by halves
    (`Light.sampled`). The room's light draws the set over the time that the shutter is open. Rows that the curtains
    cover at an instant stay dark. Places are those of the events; sizes follow the magnification of the fall plane;
    exposure is in stops over metered; the picture is proportional to the light up to `tone.KNEE` and
    has a soft shoulder above. It is a drawing where the physics is (water's shapes), and simplified in this: glass
    and water do not displace or magnify what is behind them, light that comes from one thing to another is
    left out but for the mirror image in the surface, and water is lit by one lamp and one card.
    """
    width, height = checked_size(size)
    scene = scene_of(setup, rng)
    light = exposed(scene, (width, height))
    if rng is not None:
        tone.add_noise(light, iso=setup.camera.iso, rng=rng)
    return tone.picture_of(light)


def described(setup, *, rng=None):
    """Say what the photograph shows, for a person who does not see it.

    Parameters
    ----------
    setup : shoot.Setup
    rng : numpy.random.Generator, optional
        In the state in which `photograph` was given it; the nominal drop without it.

    Returns
    -------
    str : "Simulated photograph: ..." in one or two sentences.
    """
    return in_words(facts(scene_of(setup, rng)))


def overlaid(setup, draw, *, size=SIZE, strength=0.5):
    """Lay the bodies of many drops over each other in one picture, as photographs laid on a light table.

    Parameters
    ----------
    setup : shoot.Setup
    draw : shoot Draw
        The drops. One whose light never comes leaves no body.
    size : (int, int)
        Width and height [picture elements].
    strength : float
        How much each body covers what is under it, 0 to 1.

    Returns
    -------
    uint8 array (height, width, 3)

    Notes
    -----
    The set and every body are drawn in the light of the first head; the splash and the room's light are left
    out, and a body's way towards the camera does not change its size.
    """
    width, height = checked_size(size)
    view, total = View.of(setup, (width, height)), None
    for number in range(len(draw)):
        scene = Scene(setup, draw.take(number), NOMINAL, flat=True)
        found = [light for light in lights_of(setup, scene.when, scene.busy) if light.lamp is not None]
        if found:
            frame = LightFrame(scene, view, found[0])
            total = frame.image if total is None else total
            frame.lay_body(total, strength)
    if total is None:
        return np.zeros((height, width, 3), np.uint8)
    total *= np.float32(2.0 ** flash_stops(setup, setup.flashes[0]))
    return tone.picture_of(total)


def scene_of(setup, rng=None):
    """The drop that is photographed: the nominal one, or one that `rng` draws."""
    if rng is None:
        return Scene(setup, nominal_draw(setup), NOMINAL)
    draw = draw_scatters(setup, 1, rng)
    return Scene(setup, draw, int(rng.integers(NOMINAL + 1, 1 << 31)))


def exposed(scene, size=SIZE):
    """Light on the sensor before it becomes a picture.

    Parameters
    ----------
    scene : photo.scene.Scene
    size : (int, int)

    Returns
    -------
    float32 array (3, height, width), 1 a white card exposed as metered
    """
    view = View.of(scene.setup, size)
    total = None
    for light in lights_of(scene.setup, scene.when, scene.busy):
        image = LightFrame(scene, view, light).drawn()
        factors = np.float32(light.tint) * np.float32(light.strength)
        if total is None:
            total = image if image.flags.writeable else image.copy()
            for plane, factor in zip(total, factors, strict=True):
                plane *= factor
        else:
            for plane, part, factor in zip(total, image, factors, strict=True):
                plane += part * factor
    if total is None:
        total = np.zeros((3, size[1], size[0]), np.float32)
    beam_light(total, scene, view)
    return total


def checked_size(size):
    """The size as two whole numbers; anything else is refused in one line."""
    try:
        width, height = (int(n) for n in size)
        fits = (width, height) == tuple(size) and 16 <= width <= 6000 and 16 <= height <= 6000
    except (TypeError, ValueError):
        fits = False
    if not fits:
        raise ValueError(f"size is {size!r:.60}; it must be width and height in whole pixels, 16 to 6000 each")
    return width, height
