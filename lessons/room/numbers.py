"""The numbers that the lesson `room` states beside those of the scene: light on the set, limits, ladders, lamps."""

import math

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import SCENE, SCENE_NUMBERS, in_style
from splashlib.shoot import change, dark_enough
from splashlib.shoot.decide.exposure_balance import flash_light, ghost_stops, room_light
from splashlib.shoot.decide.room_light import stray_lux

QUICK = in_style("mirror_up")
"""The scene with a shutter of 1/200 s."""
WEAKER = change(SCENE, "flashes.0.power", 1 / 128)
ROOMS = {"office": 500.0, "corridor": 100.0, "evening": 50.0, "dim": 10.0, "candle": 1.0, "night": 0.1}
LAMPS = ("indicator", "telephone", "modelling")


def _under(lux, setup=SCENE):
    """How far a room lies under the flash [stops]."""
    return ghost_stops(change(setup, "room.lux", lux))


def _beam_under_white():
    """How far a visible beam in the frame lies under white, at its brightest [stops]."""
    from splashlib.picture.photo.frames_by_light import spot  # draws pictures: loaded only when it is asked for

    return -math.log2(spot(change(SCENE, "beam.height", 0.06)))


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    light_times_time={
        "flash": lambda: flash_light(SCENE),
        "room": lambda: room_light(SCENE),
    },
    illuminance={
        "dark_enough": lambda: dark_enough(SCENE),
        "perfect": lambda: dark_enough(SCENE, 10),
        "quick.dark_enough": lambda: dark_enough(QUICK),
        "weaker.dark_enough": lambda: dark_enough(WEAKER),
        **{f"{lamp}.light": lambda lamp=lamp: stray_lux(SCENE, lamp) for lamp in LAMPS},
    },
    number_of_stops={
        **{f"{room}.quick": lambda lux=lux: _under(lux, QUICK) for room, lux in ROOMS.items()},
        **{f"{room}.open": lambda room=room: _under(ROOMS[room]) for room in ("dim", "candle", "night")},
        **{f"{room}.over": lambda room=room: -_under(ROOMS[room]) for room in ("office", "corridor", "evening")},
        "indicator.under": lambda: _under(stray_lux(SCENE, "indicator")),
        "telephone.under": lambda: _under(stray_lux(SCENE, "telephone")),
        "modelling.over": lambda: -_under(stray_lux(SCENE, "modelling")),
        "beam_under_white": _beam_under_white,
    },
)
