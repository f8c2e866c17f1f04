"""The numbers that the lesson `freeze` states beside those of the scene: durations, streaks, what is short enough."""

import math
from dataclasses import replace

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import FULL, SCENE, SCENE_NUMBERS
from splashlib.physics.light.blur import smallest_seen
from splashlib.physics.pulse import exponential, head_pulse, tube
from splashlib.physics.stops import SHUTTERS
from splashlib.shoot import contact_speed, framed, pulse_of, streak_in
from splashlib.shoot.decide.flash_duration import longest_light, power_for_points, unseen_from
from splashlib.shoot.setup.table import ROUTES

KINDS = ("quenched", "capacitor_switched", "voltage_controlled")
PARTS = (1, 8, 32, 128)
OPEN_SYNC = "high_speed_sync"


def _light(kind, part=1):
    """The light of the scene's head, of another kind and at 1/part of its power."""
    return pulse_of(replace(SCENE.flashes[0], kind=kind, power=1 / part))


def _stands_for(label):
    """Exact time that a mark of the shutter stands for [s]: 1/4096 for 1/4000."""
    return next(mark.exact for mark in SHUTTERS if mark.label == label)


def _longer(part):
    """How much longer a voltage-controlled head is at 1/part than at full power, by the middle of its law [-]."""
    low, full = (
        head_pulse("voltage_controlled", power=power, full_t05=1e-3, lengthening=0.25).t01 for power in (1 / part, 1)
    )
    return low / full


def _on_print(width):
    """The streak of the scene on a print [m]."""
    return streak_in(SCENE, print_width=width).on_print


def _pixel():
    """The width of a pixel on the set [m]."""
    return SCENE.camera.sensor_width / SCENE.camera.pixels_wide / framed(SCENE).magnification


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        **{
            f"{kind}.at_{part}": lambda kind=kind, part=part: _light(kind, part).t01 for kind in KINDS for part in PARTS
        },
        "quenched.half.at_8": lambda: _light("quenched", 8).t05,
        "quenched.half.at_32": lambda: _light("quenched", 32).t05,
        # An exponential of which t0.5 is 1/1000 s.
        "exponential": lambda: exponential(1e-3 / math.log(2)).t01,
        "longest": lambda: longest_light(SCENE),
        "pixel.time": lambda: _pixel() / contact_speed(SCENE),
        "rise": lambda: SCENE.flashes[0].rise,
        "tail": lambda: SCENE.flashes[0].tail,
        "sync": lambda: _light(OPEN_SYNC).t01,
        "cable": lambda: ROUTES["cable"][0],
    },
    length={
        "pixel": _pixel,
        "eye": lambda: smallest_seen(),
        "on_print": lambda: _on_print(0.30),
        "on_print.unseen": lambda: unseen_from(_on_print(0.30)),
        "on_card.unseen": lambda: unseen_from(_on_print(0.10)),
        "sync.smear": lambda: contact_speed(SCENE) * _light(OPEN_SYNC).t01,
        "sync.short": lambda: contact_speed(SCENE) * _stands_for("1/4000"),
    },
    share={
        "magnification": lambda: framed(SCENE).magnification,
        "exponential.longer": lambda: exponential(1).t01 / exponential(1).t05,
        "tube.longer": lambda: tube(1).t01 / tube(1).t05,
        "quenched.longer.at_8": lambda: _light("quenched", 8).t01 / _light("quenched", 8).t05,
        "quenched.longer.at_32": lambda: _light("quenched", 32).t01 / _light("quenched", 32).t05,
        "voltage.longer": lambda: _longer(32),
    },
    count={
        "full.pixels": lambda: streak_in(FULL).pixels,
        "pixels": lambda: streak_in(SCENE).pixels,
        "points.part": lambda: 1 / power_for_points(SCENE),
    },
    number_of_stops={"points.cost": lambda: math.log2(SCENE.flashes[0].power / power_for_points(SCENE))},
)
