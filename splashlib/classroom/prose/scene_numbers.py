"""The numbers of the tea-house scene that more than one lesson states. Lessons never import each other."""

from functools import lru_cache

import numpy as np

from splashlib.classroom.prose.numbers import Numbers
from splashlib.shoot import beam_bounds, change, contact_speed, lead, sees, splash, streak_in, tea_house
from splashlib.shoot.decide.exposure_balance import ghost_stops
from splashlib.shoot.decide.spread import aim, hand_too_high, spread

SCENE = tea_house()
FULL = change(SCENE, "flashes.0.power", 1.0)
HAND, LOOK = 0.43, 0.02
"""The beam right under the hand, and where the panel of thirty drops looks for the body [m over the water]."""
ERROR = 0.003
"""How far a careful hand is off [m]."""


def in_style(style):
    """The scene with another camera style."""
    return change(SCENE, "camera.style", style)


MIRROR = in_style("mirror")


def beam_at(height, setup=SCENE):
    """The scene, or another set-up, with its beam at a height [m]."""
    return change(setup, "beam.height", height)


@lru_cache
def thirty_drops(setup):
    """The panel's first thirty drops, each where the light finds it."""
    return spread(aim(setup, height=LOOK).setup, 30, np.random.default_rng(1))


def thirty(setup):
    """How far apart the panel's first thirty drops lie [m]."""
    return thirty_drops(setup).span


def lower(beam):
    """How much lower the body is in the panel's picture, with a hand that is `ERROR` too high [m]."""
    return hand_too_high(aim(beam_at(beam), height=LOOK).setup, ERROR)


def sooner(beam):
    """How much sooner the body is at the water, counted from the beam, with a hand that is `ERROR` too high [s]."""
    high = change(beam_at(beam), "drop.release_height", SCENE.drop.release_height + ERROR)
    return lead(beam_at(beam)) - lead(high)


def lower_at_contact(beam):
    """How much lower the body is in a picture of the contact, with a hand that is `ERROR` too high [m]."""
    return sooner(beam) * contact_speed(SCENE)


def _stage(name):
    return next(stage for stage in splash(SCENE) if stage.name == name)


SCENE_NUMBERS = Numbers(
    time={
        "lead": lambda: lead(SCENE),
        "mirror.lag": lambda: SCENE.camera.mirror.lag,
        "mirror_up.lag": lambda: SCENE.camera.mirror_up.lag,
        "no_mirror.lag": lambda: SCENE.camera.no_mirror.lag,
        "mirror.light": lambda: sees(MIRROR).light,
        "mirror.late": lambda: sees(MIRROR).after_contact,
        "no_mirror.late": lambda: sees(in_style("no_mirror")).after_contact,
        "viewfinder": lambda: SCENE.camera.no_mirror.scatter,
        "crown": lambda: _stage("crown_peak").likely,
        "jet": lambda: _stage("jet_peak").likely,
    },
    length={
        "clear_of_frame": lambda: beam_bounds(SCENE, height=LOOK)["frame"],
        "thirty.under_hand": lambda: thirty(beam_at(HAND)),
        "thirty": lambda: thirty(SCENE),
        "lower": lambda: lower(SCENE.beam.height),
        "lower.at_contact": lambda: lower_at_contact(SCENE.beam.height),
        "viewfinder.fall": lambda: SCENE.camera.no_mirror.scatter * contact_speed(SCENE),
        "streak": lambda: streak_in(SCENE).on_object,
        "streak.full": lambda: streak_in(FULL).on_object,
    },
    number_of_stops={
        "ghost": lambda: ghost_stops(SCENE),
    },
    speed={
        "contact_speed": lambda: contact_speed(SCENE),
    },
)
