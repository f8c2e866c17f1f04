"""A camera for the splash itself: all of it in the frame, well exposed, the light at an instant after contact."""

from splashlib.physics.light.lens import working_distance
from splashlib.shoot.decide.delays import bare_delay
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from splashlib.shoot.setup.default_scene import BODIES, with_body
from splashlib.shoot.setup.fields import change_all

WIDE, WIDE_DROP, BELOW = 7.2, 8.0, 2.7
"""Width of the frame for a solid and for a drop, and how far it reaches under the water, in diameters of the body."""
LENS, SENSOR = 0.100, 0.036
POWER, APERTURE = 1 / 64, 22.0


def body_names(setup):
    """The bodies that can be picked: the set-up's own, if it is none of the scene's, and those of the scene."""
    own = () if setup.drop.name in BODIES else (setup.drop.name,)
    return (*own, *BODIES)


def in_hand(setup, body=None):
    """Take a body into the hand.

    Parameters
    ----------
    setup : Setup
    body : str, optional
        A name from `body_names`; the set-up's own body when left out.

    Returns
    -------
    Setup
        The set-up's own body stays as it is. Another solid body gets the surface that the set-up has.
    """
    if body in (None, setup.drop.name):
        return setup
    changed = with_body(setup, body)
    return changed if changed.drop.liquid else change_all(changed, {"drop.surface": setup.drop.surface})


def on_the_clock(setup, clock, *, shape):
    """The set-up that photographs the splash of a body at one instant, whatever one's own camera can do.

    Parameters
    ----------
    setup : Setup
        Body, hand, beam and vessel are kept, and the flash heads but for their power.
    clock : float
        When half of the light is out [s after contact]; negative before it.
    shape : float
        Height of the picture over its width [-].

    Returns
    -------
    Setup
        Shutter held open in a dark room behind an infrared beam; the frame grows with the body, so that crown,
        cavity and column fit in; the ISO exposes it as metered.
    """
    wide = (WIDE_DROP if setup.drop.liquid else WIDE) * setup.drop.diameter
    distance = working_distance(focal_length=LENS, magnification=SENSOR / wide)
    camera = {
        "style": "held_open",
        "open_time": 60.0,
        "focal_length": LENS,
        "sensor_width": SENSOR,
        "sensor_height": SENSOR * shape,
        "distance": distance,
        "focus_distance": distance,
        "aperture": APERTURE,
        "frame_centre": wide * shape / 2 - BELOW * setup.drop.diameter,
    }
    changes = {f"camera.{name}": value for name, value in camera.items()} | {"room.lux": 0.0, "beam.light": "infrared"}
    changes |= {f"flashes.{number}.power": POWER for number in range(len(setup.flashes))}
    ready = change_all(setup, changes)
    iso = ready.camera.iso * 2.0 ** -flash_over_metered(ready)
    delay = bare_delay(ready, after_contact=clock).value
    return change_all(ready, {"camera.iso": min(max(iso, 1.0), 1e6), "trigger.delay": delay})
