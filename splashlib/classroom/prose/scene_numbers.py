"""The numbers of the tea-house scene that more than one lesson states. Lessons never import each other."""

from functools import lru_cache

import numpy as np

from splashlib.classroom.prose.numbers import Numbers
from splashlib.shoot import beam_bounds, change, contact_speed, lead, sees, splash, tea_house
from splashlib.shoot.freeze import streak_in
from splashlib.shoot.spread import aim, hand_too_high, spread

SCENE = tea_house()
MIRROR = change(SCENE, "camera.style", "mirror")
"""The scene with a mirror that must rise first."""
FULL = change(SCENE, "flashes.0.power", 1.0)
HAND, LOOK = 0.43, 0.02
"""The beam right under the hand, and where the panel of thirty drops looks for the body [m over the water]."""
ERROR = 0.003
"""How far a careful hand is off [m]."""


def beam_at(height, setup=SCENE):
    """The scene, or another set-up, with its beam at a height [m]."""
    return change(setup, "beam.height", height)


@lru_cache
def thirty(setup):
    """How far apart the panel's first thirty drops lie [m]."""
    return spread(aim(setup, height=LOOK).setup, 30, np.random.default_rng(1)).span


def lower(beam):
    """How much lower the body is in the picture, with a hand that is `ERROR` too high, by the beam's height [m]."""
    return hand_too_high(aim(beam_at(beam), height=LOOK).setup, ERROR)


def _stage(name):
    return next(stage for stage in splash(SCENE) if stage.name == name)


SCENE_NUMBERS = Numbers(
    time={
        "lead": lambda: lead(SCENE),
        "mirror.lag": lambda: MIRROR.camera.lag,
        "mirror.light": lambda: sees(MIRROR).light,
        "mirror.late": lambda: sees(MIRROR).after_contact,
        "crown": lambda: _stage("crown_peak").likely,
        "jet": lambda: _stage("jet_peak").likely,
    },
    length={
        "clear_of_frame": lambda: beam_bounds(SCENE, height=LOOK)["frame"],
        "thirty.under_hand": lambda: thirty(beam_at(HAND)),
        "thirty": lambda: thirty(SCENE),
        "lower.under_hand": lambda: lower(HAND),
        "lower": lambda: lower(SCENE.beam.height),
        "streak": lambda: streak_in(SCENE).on_object,
        "streak.full": lambda: streak_in(FULL).on_object,
    },
    speed={
        "contact_speed": lambda: contact_speed(SCENE),
    },
)
