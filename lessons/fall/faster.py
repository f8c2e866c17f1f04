"""The last question of the lesson `fall`: choose the height for a wanted speed, and give the beam its time back."""

from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_time
from splashlib.shoot import arrival, contact_speed, lead, tea_house

NEAR = 0.03
"""So near to the wanted speed is right [-]; it is 6 % of the height."""


def _wanted(v):
    """The speed asked for [m/s]."""
    return v.times * _speed_from(v.height_cm / 100)


def _speed_from(height):
    return arrival(tea_house().drop, height).speed


def _over(v, setup):
    """By which share of it the speed is above the wanted one [-]."""
    return arrival(setup.drop).speed / _wanted(v) - 1


def _about(height, other):
    return abs(height / other - 1) < 0.05


FASTER = Settings(
    name="faster",
    prompt="From {height_cm} cm the splash is too tame. Let the kumquat meet the water {times:g} times as "
    "fast, to within 3 %. Your rig, that is trigger, camera and flash, needs {lead_ms} ms from the beam to the "
    "water: raise the beam if it must be.",
    draw={"height_cm": (15, 20, 25, 30), "times": (1.5, 2.0), "lead_ms": (25, 30, 35)},
    start=lambda v: {"beam.height": 0.05, "drop.release_height": v.height_cm / 100},
    asked=("drop.release_height", "beam.height"),
    conditions=(
        Condition(
            text="the kumquat is fast enough",
            test=lambda v, s: _over(v, s) + NEAR,
            reply=lambda v, s: (
                f"It meets the water at {show(contact_speed(s), 'm/s')}. Before, it was "
                f"{show(_speed_from(v.height_cm / 100), 'm/s')}, and {v.times:g} times that is wanted. "
                "Higher."
            ),
        ),
        Condition(
            text="the kumquat is not too fast",
            test=lambda v, s: NEAR - _over(v, s),
            reply=lambda v, s: (
                f"It meets the water at {show(contact_speed(s), 'm/s')}. That is more than {v.times:g} "
                f"times the {show(_speed_from(v.height_cm / 100), 'm/s')} from before. Lower."
            ),
        ),
        Condition(
            text="from the beam to the water there is time enough",
            test=lambda v, s: lead(s) - v.lead_ms / 1000,
            reply=lambda v, s: (
                "A faster body needs less time from the beam to the water: here it is "
                f"{show(lead(s), 'ms')}. Your rig needs {v.lead_ms} ms. Raise the beam."
            ),
        ),
    ),
    answer=lambda v: {"drop.release_height": v.height_cm / 100 * v.times**2, "beam.height": _beam(v)},
    slips=(
        BadSetting(
            name="speed for height",
            example=lambda v: {"drop.release_height": v.height_cm / 100 * v.times, "beam.height": 0.12},
            test=lambda v, s: _about(s.drop.release_height, v.height_cm / 100 * v.times),
            reply=lambda v, s: (
                f"{v.times:g} times the height is not {v.times:g} times the speed: the kumquat gets "
                f"{show(contact_speed(s), 'm/s')} from {show(_speed_from(v.height_cm / 100), 'm/s')} "
                "before. The speed grows as the root of the height; so the height must grow as the square "
                "of the speed."
            ),
        ),
        BadSetting(
            name="root for square",
            example=lambda v: {"drop.release_height": v.height_cm / 100 * v.times**0.5, "beam.height": 0.12},
            test=lambda v, s: _about(s.drop.release_height, v.height_cm / 100 * v.times**0.5),
            reply=lambda v, s: (
                f"You took the root of {v.times:g} for the height. The root is on the other side: the speed "
                "is the root of the height. So square it."
            ),
        ),
        BadSetting(
            name="beam the wrong way",
            example=lambda v: {"drop.release_height": v.height_cm / 100 * v.times**2, "beam.height": 0.03},
            test=lambda v, s: s.beam.height < 0.05,
            reply=lambda v, s: (
                f"You lowered the beam to {show(s.beam.height, 'cm')}. From a lower beam there is less time "
                f"to the water, now {show(lead(s), 'ms')}. Raise it."
            ),
        ),
    ),
    hints=(
        "Twice the speed needs four times the height. What does {times:g} times the speed need?",
        "When the height is right, raise the beam until the fruit needs {lead_ms} ms from there to the water.",
    ),
    worked=lambda v: (
        f"{v.times:g} times the speed needs {v.times:g}² = {v.times**2:g} times the height: "
        f"{v.height_cm * v.times**2:g} cm. From there the kumquat passes the beam faster, so the beam goes "
        f"up to {100 * _beam(v):.0f} cm, for {v.lead_ms} ms. More height leaves less time at the beam, so settle "
        "the height first, and then the beam."
    ),
    meaning="Faster water costs time at the beam. Settle the height first, the beam after it.",
    see="Why",
)


def _beam(v):
    """The lowest beam that leaves the time, rounded up to a whole centimetre [m]."""
    full = v.height_cm / 100 * v.times**2
    way = full - 0.5 * GRAVITY * (fall_time(full) - v.lead_ms / 1000) ** 2
    return (int(100 * way) + 1) / 100
