"""How dark is dark enough: room light at the set, what else gives light there, and how far it lies under the flash."""

import math
from dataclasses import dataclass

from splashlib.physics.light.exposure import lamp_lux, room_lux_allowed
from splashlib.shoot.decide.beam_height import best_beam_height, delay_for
from splashlib.shoot.decide.exposure_balance import cloth_and_sheet, flash_light, ghost_stops
from splashlib.shoot.decide.judgement import HARDLY
from splashlib.shoot.setup.field_rows import STYLES
from splashlib.shoot.setup.fields import change, field

ROOMS = (
    ("office", 500.0),
    ("corridor", 100.0),
    ("evening", 50.0),
    ("dim", 10.0),
    ("dark", 1.0),
    ("night", 0.1),
)
"""Rooms and their illuminance [lx]: office and corridor from EN 12464-1, the others class values."""

OVER_WATER = 0.012
"""Where the light finds the body when the camera is in time [m]: in the picture, and clear of the water."""

AGAIN = 0.080
"""How long after the first flash a second one comes when thrown drops break the beam again [s]; class value."""


@dataclass(frozen=True)
class Stray:
    """A lamp that was forgotten: luminous intensity [cd] and distance to the set [m] (class values)."""

    intensity: float
    distance: float


STRAYS = {
    "indicator": Stray(0.010, 0.20),
    "telephone": Stray(3.6, 1.0),
    "modelling": Stray(720.0, 1.0),
}
"""An indicator lamp of 10 mcd (data sheets: 1-100); a screen of 400 cd/m2 and 90 cm2; the modelling lamp of a
studio head, 250 W at 18 lm/W thrown into half of all directions (the pilot of a small head has a tenth of it; its
diffuser's loss and its distance are those of the head)."""


def stray_lux(setup, name):
    """Illuminance that a forgotten lamp gives at the set.

    Parameters
    ----------
    setup : Setup
    name : str, "indicator", "telephone" or "modelling"

    Returns
    -------
    float [lx]
    """
    if name not in STRAYS:
        raise ValueError(f"lamp is {name!r}; it must be one of {', '.join(STRAYS)}")
    lamp, head = STRAYS[name], setup.flashes[0]
    if name == "modelling":
        return lamp_lux(lamp.intensity * 2 ** -cloth_and_sheet(head), distance=head.distance)
    return lamp_lux(lamp.intensity, distance=lamp.distance)


def with_stray(setup, name):
    """Return the set-up in the light of the room and a forgotten lamp together."""
    brightest = field("room.lux").limits[1]
    return change(setup, "room.lux", min(setup.room.lux + stray_lux(setup, name), brightest))


def ghosts(setup):
    """Stops by which the room lies under the flash in each camera style.

    Returns
    -------
    dict of str to float
        Style to stops, in the order of `STYLES`; infinite in full darkness.
    """
    return {style: ghost_stops(change(setup, "camera.style", style)) for style in STYLES}


def dark_enough(setup, stops=HARDLY):
    """Illuminance that the room may have in the camera style in use.

    Parameters
    ----------
    setup : Setup
    stops : float, wanted under the flash

    Returns
    -------
    float [lx]
    """
    return room_lux_allowed(flash=flash_light(setup), shutter=setup.camera.exposure_time, stops=stops)


def in_time(setup, height=OVER_WATER):
    """Return the set-up with a beam and a delay that let the light find the body at a height.

    Parameters
    ----------
    setup : Setup
    height : float, of the body's lowest point [m]

    Returns
    -------
    Setup
        The beam is raised if the camera needs that. Where even the beam right under the hand is too low, the delay
        is zero and the body lower.
    """
    try:
        # The best beam for the contact, raised by the same height: the body passes there more slowly, so the time
        # from beam to body is at least as long.
        needed = best_beam_height(setup) + height
    except ValueError:
        needed = math.inf
    # By a micrometre under the hand, so that no rounding puts it above.
    highest = setup.drop.release_height - setup.beam.width / 2 - 1e-6
    raised = change(setup, "beam.height", max(min(needed, highest), setup.beam.height))
    return change(raised, "trigger.delay", delay_for(raised, height=height).value)
