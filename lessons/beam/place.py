"""The last question of the lesson `beam`: put the beam where it repeats best, and set its delay."""

import math
from functools import lru_cache

from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show
from splashlib.shoot import best_beam_height, change_all, framed, sees, tea_house
from splashlib.shoot.decide.spread import aim, hand_too_high

STYLES = {"held_open": "shutter held open", "mirror_up": "mirror already up", "no_mirror": "no mirror"}
STYLES |= {"mirror": "mirror must rise first"}
LEAST, MOST, MIDDLE = 0.01, 0.03, 0.02
HAND = 0.003
"""The hand that is too high [m]."""


def _start(v):
    height = v.height_cm / 100
    return {
        "camera.style": v.style,
        "drop.release_height": height,
        "beam.height": height - 0.02,
        "trigger.delay": 0.0,
    }


def _over(setup):
    """How far above the water the fruit is at the light; far below when nothing is lit [m]."""
    seen = sees(setup)
    return seen.height if seen.lit else -1.0


def _moved(setup):
    return hand_too_high(setup, HAND)


def _top(setup):
    """The lowest place for the beam's middle that is over the frame [m]."""
    return framed(setup).top + setup.beam.width / 2


def _where(setup):
    seen = sees(setup)
    deep = seen.height if math.isfinite(seen.height) else -1.0
    return f"{show(deep, 'cm')} above the water" if deep >= 0 else f"{show(-deep, 'cm')} under the water"


def _late_words(setup):
    """Why the fruit is not far enough above the water at the light."""
    if not sees(setup).lit:
        return "The flash fires while the shutter is closed: the frame is black. Take delay away."
    late = f"Too late: at the light the fruit is {_where(setup)}."
    if setup.trigger.delay == 0:
        return f"{late} There is no delay left to take away: the lag is longer than the lead. Raise the beam."
    return f"{late} Less delay, or a higher beam."


def _with(v, beam):
    return change_all(tea_house(), _start(v) | {"beam.height": beam})


def _plan(v, beam):
    """A beam and the delay that belongs to it."""
    return {"beam.height": beam, "trigger.delay": _delay(_with(v, beam))}


@lru_cache(maxsize=256)
def _delay(setup):
    return aim(setup, height=MIDDLE).setup.trigger.delay


def _best(v):
    """The best height, rounded up to half a centimetre [m]."""
    best = best_beam_height(_with(v, 0.12), height=MIDDLE)
    return math.ceil(200 * best - 1e-9) / 200


def _worked(v):
    plan = _plan(v, _best(v))
    moved = _moved(change_all(_with(v, 0.12), plan))
    return (
        f"One of many: beam at {show(plan['beam.height'], 'cm')}, delay {show(plan['trigger.delay'], 'ms')}. That is "
        "the lowest beam that stays out of the frame and leaves the rig its lag. A hand 3 mm too high then moves the "
        f"fruit by {show(moved, 'mm', 2)}. Find the bounds first, then go as low as they "
        "allow, and set the delay last."
    )


PLACE = Settings(
    name="place",
    prompt="The kumquat is let go {height_cm} cm above the water, the camera style is *{style_name}*, and somebody "
    "left the beam 2 cm under the hand. Place the beam and set the delay: the fruit between 1 and 3 cm above the water "
    "at the light, the beam outside the frame, and a hand 3 mm too high may move the fruit by {limit_mm:g} mm at most.",
    draw={"style": tuple(STYLES), "height_cm": (45, 50, 60)},
    also=lambda v: {"style_name": STYLES[v.style], "limit_mm": 2.0 if v.style == "mirror" else 1.0},
    start=_start,
    asked=("beam.height", "trigger.delay"),
    conditions=(
        Condition(
            text="the beam is outside the frame",
            test=lambda v, s: s.beam.height - _top(s) + 1e-9,
            reply=lambda v, s: (
                f"The beam at {show(s.beam.height, 'cm')} runs through the picture. The frame ends at "
                f"{show(framed(s).top, 'cm')}, and half the width of the beam comes on top."
            ),
        ),
        Condition(
            text="the fruit is at least 1 cm above the water",
            test=lambda v, s: _over(s) - LEAST,
            reply=lambda v, s: _late_words(s),
        ),
        Condition(
            text="the fruit is at most 3 cm above the water",
            test=lambda v, s: MOST - _over(s),
            reply=lambda v, s: f"Too early: at the light the fruit is still {_where(s)}. More delay.",
        ),
        Condition(
            text="a hand 3 mm too high moves the fruit by no more than is allowed",
            test=lambda v, s: v.limit_mm / 1000 - _moved(s),
            reply=lambda v, s: (
                f"A hand 3 mm too high moves the fruit by {show(_moved(s), 'mm', 2)} in the picture. A lower beam "
                "leaves less of it; the delay then gets shorter, too."
            ),
        ),
    ),
    answer=lambda v: _plan(v, _best(v)),
    slips=(
        BadSetting(
            name="beam under the hand",
            example=lambda v: _plan(v, v.height_cm / 100 - 0.02),
            test=lambda v, s: s.beam.height > v.height_cm / 100 - 0.08,
            reply=lambda v, s: (
                f"The beam is still right under the hand: the fruit has fallen only "
                f"{show(v.height_cm / 100 - s.beam.height, 'cm')} when it comes by. There it is slow, and every "
                "millimetre of the hand costs time."
            ),
        ),
        BadSetting(
            name="beam in the frame",
            example=lambda v: _plan(v, 0.05),
            test=lambda v, s: s.beam.height < framed(s).top,
            reply=lambda v, s: (
                f"So low the beam repeats well, but at {show(s.beam.height, 'cm')} it shows in the picture: the frame "
                f"ends at {show(framed(s).top, 'cm')}."
            ),
        ),
        BadSetting(
            name="delay for the old beam",
            example=lambda v: _plan(v, v.height_cm / 100 - 0.02) | {"beam.height": _best(v)},
            test=lambda v, s: abs(s.trigger.delay - _plan(v, v.height_cm / 100 - 0.02)["trigger.delay"]) < 0.001,
            reply=lambda v, s: (
                f"A delay of {show(s.trigger.delay, 'ms')} belongs to the beam under the hand. From "
                f"{show(s.beam.height, 'cm')} the way is shorter. The beam and its delay are one decision."
            ),
        ),
        BadSetting(
            name="delay forgotten",
            example=lambda v: {"beam.height": _best(v) + 0.06, "trigger.delay": 0.0},
            test=lambda v, s: s.trigger.delay == 0 and _over(s) > MOST,
            reply=lambda v, s: (
                f"The delay is still at zero, and the light comes while the fruit is {_where(s)}. Wait for it."
            ),
        ),
    ),
    hints=(
        "Where does the frame end? Start with the beam just above that, and ask whether the rig is in time.",
        "Fruit too low in the picture, with no delay left to take away? Then the lag is longer than the lead: raise "
        "the beam.",
        "When the beam stands, set the delay so that the fruit is 2 cm above the water.",
    ),
    worked=_worked,
    meaning="Bounds first, then as low as they allow, and the delay last.",
    see="Drag",
)
