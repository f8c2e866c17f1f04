"""A question of the lesson `stops`: pay for a shorter flash, and keep the room out."""

import math

from lessons.stops.numbers import NUMBERS
from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show, with_unit
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops

UNDER, OFF = 7.0, 0.5
ISO, APERTURE, RADIUS = 320.0, 11.0, 0.15


def _fall(value):
    """A number of stops without its sign."""
    return f"{abs(value):.1f} stops"


def _near(v):
    """Distance at which the first head gives as much as before, rounded down to whole centimetres [m]."""
    square = ((v.distance_cm / 100) ** 2 + RADIUS**2) * 32 / v.part - RADIUS**2
    return math.floor(100 * math.sqrt(square)) / 100


def _right(v):
    return {"flashes.0.power": 1 / v.part, "flashes.0.distance": _near(v)}


PAY = Settings(
    name="pay",
    prompt="The frame is well exposed: flash at 1/32, {distance_cm} cm from the kumquat, f/11, ISO 320. But the "
    "droplets "
    "are not sharp enough. Turn the flash down to 1/{part} or lower, and pay for it: at the end the frame must be "
    "within "
    "half a stop of a well exposed one, and the room at least seven stops under the flash. (The shutter is held open, "
    "the room has 0.5 lux, which is very dim.)",
    draw={"distance_cm": (50, 60), "part": (64, 128)},
    start=lambda v: {
        "flashes.0.power": 1 / 32,
        "flashes.0.distance": v.distance_cm / 100,
        "flashes.0.size": 2 * RADIUS,
        "camera.aperture": APERTURE,
        "camera.iso": ISO,
        "room.lux": 0.5,
    },
    asked=("flashes.0.power", "flashes.0.distance", "flashes.0.diffuser_loss", "camera.aperture", "camera.iso"),
    conditions=(
        Condition(
            text="the flash is at 1/{part} or lower",
            test=lambda v, s: 1 / v.part * 1.001 - s.flashes[0].power,
            reply="The flash is still too long. Turn it down to 1/{part}, and look for the light elsewhere.",
        ),
        Condition(
            text="the frame is not too dark",
            test=lambda v, s: flash_over_metered(s) + OFF,
            reply=lambda v, s: f"{_fall(flash_over_metered(s))} are missing. Nearer, or less diffuser.",
        ),
        Condition(
            text="the frame is not too bright",
            test=lambda v, s: OFF - flash_over_metered(s),
            reply=lambda v, s: (
                f"It is {_fall(flash_over_metered(s))} too bright. ISO down: that darkens the room as well."
            ),
        ),
        Condition(
            text="the room lies at least seven stops under the flash",
            test=lambda v, s: ghost_stops(s) - UNDER,
            reply=lambda v, s: (
                f"The room lies {ghost_stops(s):.1f} stops under the flash: a ghost. More light from the flash itself "
                "would help; the camera cannot."
            ),
        ),
    ),
    answer=_right,
    slips=(
        BadSetting(
            name="iso pays",
            example=lambda v: {"flashes.0.power": 1 / v.part, "camera.iso": ISO * v.part / 32},
            test=lambda v, s: s.camera.iso > ISO * 1.01 and s.camera.aperture >= APERTURE and ghost_stops(s) < UNDER,
            reply=lambda v, s: (
                f"You paid with the ISO. It lifts the room as much as the flash: the room lies only "
                f"{ghost_stops(s):.1f} stops under it. Leave the ISO, and bring the lamp nearer."
            ),
        ),
        BadSetting(
            name="aperture pays",
            example=lambda v: {"flashes.0.power": 1 / v.part, "camera.aperture": {64: 8.0, 128: 5.6}[v.part]},
            test=lambda v, s: s.camera.aperture < APERTURE and ghost_stops(s) < UNDER,
            reply=lambda v, s: (
                f"You paid with the aperture. It lets in the room as well: that lies only {ghost_stops(s):.1f} stops "
                "under the flash, and the depth of field is less, too. Leave the aperture, and bring the lamp nearer."
            ),
        ),
        BadSetting(
            name="wrong way",
            example=lambda v: {"flashes.0.power": 1 / v.part, "flashes.0.distance": v.distance_cm / 100 * 1.4},
            test=lambda v, s: s.flashes[0].distance > v.distance_cm / 100 * 1.01,
            reply=lambda v, s: (
                f"You moved the lamp away, to {show(s.flashes[0].distance, 'cm')}. "
                "That takes light away, and you need more. Nearer."
            ),
        ),
    ),
    hints=(
        "Which handles act on the flash alone?",
        NUMBERS.fill(
            "Each stop is [[distance_of_a_stop to 0.01]] times the distance; with a diffuser of 30 cm up close a "
            "little nearer than that."
        ),
    ),
    worked=lambda v: (
        f"From 1/32 to 1/{v.part} is {with_unit(round(math.log2(v.part / 32)), 'stops')}. Bring the lamp from "
        f"{v.distance_cm} cm to {100 * _near(v):.0f} cm: flash and frame are as before, and the room, too. "
        "Less diffuser would do as well. "
        "This shows what pays without a ghost: light on the side of the flash."
    ),
    meaning="Distance is the cheapest stop there is, until the lamp stands in the picture or in the spray.",
    see="Why",
)
