"""A set-up to be made: the crown at its highest, one flash only, and the water in the vase."""

import math

from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show
from splashlib.shoot import change_all, delay_for, hold_off_advice, lead, sees, splash, tea_house, vessel_advice

NEAR = 0.010
"""So far from the likely instant the light may be [s]."""


def _begun(v):
    return {
        "drop.surface": "rough",
        "drop.release_height": v.height_cm / 100,
        "camera.style": "held_open",
        "camera.open_time": v.open_s,
        "trigger.delay": 0.0,
        "trigger.hold_off": 0.0,
        "vessel.rim": 0.005,
        "vessel.tray": "none",
    }


def _crown(setup):
    return next(stage for stage in splash(setup) if stage.name == "crown_peak")


def _late(setup):
    """How much later than the likely crown the light is; hugely early when nothing is lit [s]."""
    seen = sees(setup)
    return seen.after_contact - _crown(setup).likely if seen.lit > 0 else 1.0


def _off_words(setup):
    late = _late(setup)
    if late >= 1.0:
        return "The flash fires when the shutter is closed: the frame is black. So long a delay is of no use."
    word, way = ("late", "Less") if late > 0 else ("early", "More")
    return f"The light comes {show(abs(late), 'ms', 2)} too {word} for the crown. {way} delay."


def _rim_missing(setup):
    return setup.vessel.rim - vessel_advice(setup).rim_needed


CROWN = Settings(
    name="crown",
    prompt="Make a set-up for the crown. The kumquat is rough and is let go {height_cm} cm above the water; the "
    "shutter is held open for {open_s:g} s. The light must come within 10 ms of the likely time of the highest crown. "
    "Nothing may fire the flash a second time. And the water must stay in the vase, or in a tray under it. You may "
    "change the delay, the hold-off, the rim over the water, and what the vase stands in.",
    draw={"height_cm": (45, 40, 50, 60), "open_s": (2.0, 2.5, 3.0)},
    start=_begun,
    asked=("trigger.delay", "trigger.hold_off", "vessel.rim", "vessel.tray"),
    conditions=(
        Condition(
            text="the light comes within 10 ms of the likely crown",
            test=lambda v, s: NEAR - abs(_late(s)),
            reply=lambda v, s: _off_words(s),
        ),
        Condition(
            text="the hold-off is long enough",
            test=lambda v, s: s.trigger.hold_off - hold_off_advice(s).needed,
            reply=lambda v, s: (
                f"The hold-off of {show(s.trigger.hold_off, 's')} is too short. Three things must be over by then: the "
                "fall of thrown drops through the beam, the jet in it, the open shutter. The second panel shows all."
            ),
        ),
        Condition(
            text="the water stays in the vase, or in its tray",
            test=lambda v, s: 1.0 if s.vessel.tray == "tray" else _rim_missing(s),
            reply=lambda v, s: (
                f"The water can rise by more than the {show(s.vessel.rim, 'cm')} that the rim stands over it. Stand "
                "the vase in a tray, or let some water out; the second panel shows how far it rises."
            ),
        ),
    ),
    answer=lambda v: _answer(v),
    slips=(
        BadSetting(
            name="clock from the contact",
            example=lambda v: _answer(v) | {"trigger.delay": round(_crown(_at(v)).likely, 4)},
            test=lambda v, s: abs(s.trigger.delay - _crown(s).likely) < 0.0015,
            reply=lambda v, s: (
                f"{show(s.trigger.delay, 'ms', 3)} after the contact is when the crown is likely. But the delay counts "
                "from the beam, and from there the kumquat must first fall to the water."
            ),
        ),
        BadSetting(
            name="deaf for the drops alone",
            example=lambda v: _answer(v) | {"trigger.hold_off": math.ceil(10 * _deaf(v).droplets) / 10},
            test=lambda v, s: hold_off_advice(s).droplets <= s.trigger.hold_off < hold_off_advice(s).shutter,
            reply=lambda v, s: (
                f"After {show(s.trigger.hold_off, 's')} the thrown drops have passed. But the shutter is still "
                "open then, and any further flash lands in the same frame."
            ),
        ),
    ),
    hints=(
        "Set the clock of the first panel to the likely crown and read the delay there.",
        "The second panel shows how far the water rises, and what the hold-off must outlast.",
    ),
    worked=lambda v: _worked(v),
    meaning="Three numbers, three reasons: the delay for the stage, the hold-off for the frame, the rim for the table.",
    see="Drag",
)


def _at(v):
    return change_all(tea_house(), _begun(v))


def _deaf(v):
    return hold_off_advice(_at(v))


def _answer(v):
    setup = _at(v)
    return {
        "trigger.delay": round(delay_for(setup, event="crown_peak").value, 4),
        "trigger.hold_off": math.ceil(2 * _deaf(v).needed) / 2,
        "vessel.rim": math.ceil(100 * vessel_advice(setup).rim_needed) / 100 + 0.01,
    }


def _worked(v):
    setup, found = _at(v), _answer(v)
    return (
        f"The crown is likely {show(_crown(setup).likely, 'ms', 3)} after the contact, and the kumquat needs "
        f"{show(lead(setup), 'ms', 3)} from the beam to the water. The rig takes a little over half a millisecond of "
        f"the sum; the delay is {show(found['trigger.delay'], 'ms')}. The shutter is open until "
        f"{show(_deaf(v).shutter, 's')}, longer than the drops fly: hold off for {show(found['trigger.hold_off'], 's')}"
        f". The water can rise by {show(vessel_advice(setup).rim_needed, 'cm', 2)}: a rim of "
        f"{show(found['vessel.rim'], 'cm', 2)} holds it. Filled to the brim, "
        "in a tray, would be right as well: it is the trade's way."
    )
