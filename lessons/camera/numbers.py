"""The numbers that the lesson `camera` states beside those of the scene: what each style needs and scatters."""

import numpy as np

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import SCENE, SCENE_NUMBERS, beam_at, in_style, lower_at_contact
from splashlib.physics.fall import distance_fallen, fall_time
from splashlib.shoot import best_beam_height, change, contact_speed, delay_for, framed, sees, simulate
from splashlib.shoot.decide.style_comparison import in_styles

STYLES = ("mirror", "mirror_up", "no_mirror", "held_open")
RAISED = 0.255
"""The beam raised, as the text says to drag it [m]."""


def _shot(style, setup=SCENE):
    """One style's shot of the contact."""
    return next(shot for shot in in_styles(setup, aim="contact") if shot.style == style)


def _nineteen(style):
    """How far apart nineteen drops of twenty lie at their light, with the best beam and delay [m]."""
    setup = in_style(style)
    setup = beam_at(best_beam_height(setup), setup)
    setup = change(setup, "trigger.delay", delay_for(setup, event="contact").value)
    drops = simulate(setup, 20_000, np.random.default_rng(1))
    late = (drops.light - drops.contact)[~drops.missed]
    return contact_speed(setup) * np.diff(np.quantile(late, [0.025, 0.975]))[0]


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        "mirror.raised": lambda: _shot("mirror", beam_at(RAISED)).setup.trigger.delay,
        "held_open.raised": lambda: _shot("held_open", beam_at(RAISED)).setup.trigger.delay,
        "mirror_up.delay": lambda: _shot("mirror_up").setup.trigger.delay,
        "mirror_up.whole_lag": lambda: _shot("mirror_up").lag,
        "held_open.delay": lambda: _shot("held_open").setup.trigger.delay,
        "no_mirror.spread": lambda: _shot("no_mirror").spread,
        "curtain_travel": lambda: SCENE.camera.curtain_travel,
    },
    length={
        # The law in the text: how high a body is, a lag of the mirror before it meets the water.
        "mirror.beam": lambda: 0.45 - distance_fallen(fall_time(0.45) - SCENE.camera.mirror.lag),
        "no_mirror.depth": lambda: -sees(in_style("no_mirror")).height,
        "raised.lower": lambda: lower_at_contact(RAISED),
        "frame": lambda: framed(SCENE).top - framed(SCENE).bottom,
        **{f"{style}.lowest": lambda style=style: best_beam_height(in_style(style)) for style in STYLES},
        **{f"{style}.nineteen": lambda style=style: _nineteen(style) for style in STYLES},
    },
)
