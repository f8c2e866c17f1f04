"""A question of the lesson `stops`: pay for a shorter flash, and keep the room out."""

import math

from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show, with_unit
from splashlib.shoot import sees, stands
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops

UNDER, OFF = 7.0, 0.5
ISO, APERTURE, RADIUS = 800.0, 11.0, 0.15
ROOM, OPEN = 0.15, 2.0
NEW = "flashes.0."


def _fall(value):
    """A number of stops without its sign."""
    return f"{abs(value):.1f} stops"


def _near(v):
    """Distance at which the first head gives as much as before, rounded down to whole centimetres [m]."""
    square = ((v.distance_cm / 100) ** 2 + RADIUS**2) * 32 / v.part - RADIUS**2
    return math.floor(100 * math.sqrt(square)) / 100


def _right(v):
    """One of many: the diffuser off pays the first stop, ISO and a shorter open time the second."""
    found = {NEW + "power": 1 / v.part, NEW + "diffuser_loss": 0.0}
    return found if v.part == 64 else found | {"camera.iso": 2 * ISO, "camera.open_time": OPEN / 2}


def _lamp(setup):
    return stands(setup)[0]


PAY = Settings(
    name="pay",
    prompt="The frame is well exposed: flash at 1/32, {distance_cm} cm from the kumquat, one stop of diffuser, f/11, "
    "ISO 800. But the droplets are not sharp enough. Turn the flash down to 1/{part} or lower, and pay for it: at "
    "the end the frame must be within half a stop of a well exposed one, the room at least seven stops under it, "
    "and the flash dry. (The shutter is held open for 2 s, the room has 0.15 lx, which is dark.)",
    draw={"distance_cm": (100, 110), "part": (64, 128)},
    start=lambda v: {
        NEW + "power": 1 / 32,
        NEW + "distance": v.distance_cm / 100,
        NEW + "size": 2 * RADIUS,
        NEW + "diffuser_loss": 1.0,
        NEW + "shield": "none",
        "camera.style": "held_open",
        "camera.open_time": OPEN,
        "camera.aperture": APERTURE,
        "camera.iso": ISO,
        "room.lux": ROOM,
    },
    asked=(
        NEW + "power",
        NEW + "diffuser_loss",
        "camera.iso",
        "camera.open_time",
        "camera.aperture",
        NEW + "distance",
        NEW + "shield",
    ),
    conditions=(
        Condition(
            text="the flash is at 1/{part} or lower",
            test=lambda v, s: 1 / v.part * 1.001 - s.flashes[0].power,
            reply="The flash is still too long. Turn it down to 1/{part}, and look for the light elsewhere.",
        ),
        Condition(
            text="the shutter is open when the flash fires",
            test=lambda v, s: sees(s).lit > 0.995,
            reply="The shutter has closed before the flash fires. It opens half a second before the hand lets go, and "
            "the fall takes a third of one.",
        ),
        Condition(
            text="the flash stands dry",
            test=lambda v, s: _lamp(s).safe,
            reply=lambda v, s: _wet_words(s),
        ),
        Condition(
            text="the frame is not too dark",
            test=lambda v, s: flash_over_metered(s) + OFF,
            reply=lambda v, s: f"{_fall(flash_over_metered(s))} are missing. Less diffuser, or more ISO if it is dark.",
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
                "would help, or a shorter open time: half of it is one stop less room."
            ),
        ),
    ),
    answer=_right,
    slips=(
        BadSetting(
            name="into the spray",
            example=lambda v: {NEW + "power": 1 / v.part, NEW + "distance": _near(v)},
            test=lambda v, s: not _lamp(s).safe,
            reply=lambda v, s: _wet_words(s),
        ),
        BadSetting(
            name="iso pays",
            example=lambda v: {NEW + "power": 1 / v.part, "camera.iso": ISO * v.part / 32},
            test=lambda v, s: s.camera.iso > ISO * 1.01 and s.camera.aperture >= APERTURE and ghost_stops(s) < UNDER,
            reply=lambda v, s: (
                f"You paid with the ISO. It lifts the room as much as the flash: the room lies only "
                f"{ghost_stops(s):.1f} stops under it. Make room for the ISO with a shorter open time, or take less "
                "diffuser."
            ),
        ),
        BadSetting(
            name="aperture pays",
            example=lambda v: {NEW + "power": 1 / v.part, "camera.aperture": {64: 8.0, 128: 5.6}[v.part]},
            test=lambda v, s: s.camera.aperture < APERTURE and ghost_stops(s) < UNDER,
            reply=lambda v, s: (
                f"You paid with the aperture. It lets in the room as well: that lies only {ghost_stops(s):.1f} stops "
                "under the flash, and the depth of field is less, too. Leave the aperture, and take less diffuser."
            ),
        ),
        BadSetting(
            name="wrong way",
            example=lambda v: {NEW + "power": 1 / v.part, NEW + "distance": v.distance_cm / 100 * 1.4},
            test=lambda v, s: s.flashes[0].distance > v.distance_cm / 100 * 1.01,
            reply=lambda v, s: (
                f"You moved the lamp away, to {show(s.flashes[0].distance, 'cm')}. "
                "That takes light away, and you need more."
            ),
        ),
    ),
    hints=(
        "Which handles act on the flash alone? And which of them leaves the flash where it is dry?",
        "The diffuser takes one stop. ISO is cheap as long as the room stays seven stops under: the open time decides.",
    ),
    worked=lambda v: _worked(v),
    meaning="Pay where nothing gets wet: another head, less diffuser, ISO in a dark room. Nearer comes last, behind a "
    "sheet.",
    see="Why",
)


def _wet_words(setup):
    lamp = _lamp(setup)
    return (
        f"At {show(lamp.distance, 'cm')} the flash stands in the spray: the fastest drops fly to "
        f"{math.ceil(100 * lamp.fastest)} cm. Leave it outside and pay otherwise, or put a clear sheet before it."
    )


def _worked(v):
    stops = round(math.log2(v.part / 32))
    more = (
        "That is all."
        if stops == 1
        else f"ISO {2 * ISO:.0f} pays the second, and lifts the room by one; holding the shutter open for 1 s instead "
        "of 2 s puts the room back where it was."
    )
    return (
        f"From 1/32 to 1/{v.part} is {with_unit(stops, 'stops')}. A bare flash, 0 stops of diffuser, gives one, on "
        f"the side of the flash. {more} Nearer would do, too: {100 * _near(v):.0f} cm, but only behind a clear sheet, "
        "which costs a tenth of a stop. Paid for in this order, everything stays dry."
    )
