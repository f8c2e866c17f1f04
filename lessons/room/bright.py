"""The last question of the lesson `room`: a room that cannot be made dark."""

from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show
from splashlib.shoot import change_all, sees, tea_house
from splashlib.shoot.decide.exposure_balance import ghost_stops
from splashlib.shoot.decide.judgement import GONE


def _begun(v):
    """A shutter held open in a room that is too bright, and a beam that is high enough for every camera."""
    return {
        "room.lux": float(v.lux),
        "camera.open_time": float(v.time),
        "camera.style": "held_open",
        "camera.shutter": 1 / v.part,
        "beam.height": 0.27,
    }


def _short(setup):
    """Stops that are missing."""
    return GONE - ghost_stops(setup)


BRIGHT = Settings(
    name="bright",
    prompt="The curtains of this room do not close: {lux} lx at the set, and it gets no darker. The shutter is held "
    "open for "
    "{time:g} s, and the set shines through the kumquat. Let the room lie at least ten stops under the flash, with the "
    "whole frame lit by it. You may change the camera style, the shutter, the time that it is held open, and the "
    "ISO. The "
    "beam is high enough for every camera.",
    draw={"lux": (5, 6, 8, 10), "time": (2, 3, 4), "part": (30, 60, 80)},
    start=_begun,
    asked=("camera.style", "camera.shutter", "camera.open_time", "camera.iso"),
    conditions=(
        Condition(
            text="the flash lights the whole frame",
            test=lambda v, s: sees(s).lit > 0.995,
            reply=lambda v, s: _unlit(s),
        ),
        Condition(
            text="the room lies at least ten stops under the flash",
            test=lambda v, s: -_short(s) + 1e-9,
            reply=lambda v, s: (
                f"The frame is open for {_open(s)}. The room lies {show(ghost_stops(s), 'stops', 3)} under the flash: "
                f"{show(_short(s), 'stops', 2)} are missing. Each halving of the time is one stop."
            ),
        ),
    ),
    answer=lambda v: {"camera.style": "mirror_up", "camera.shutter": 1 / 200},
    slips=(
        BadSetting(
            name="faster than sync",
            example=lambda v: {"camera.style": "mirror_up", "camera.shutter": 1 / 500},
            test=lambda v, s: s.camera.style != "held_open" and 0 < sees(s).lit < 0.995,
            reply=lambda v, s: (
                f"The room would be gone. But {_open(s)} is faster than the sync speed, and a "
                f"curtain "
                f"covers {show(1 - sees(s).lit, '%', 2)} of the frame when the flash fires."
            ),
        ),
        BadSetting(
            name="ISO to part them",
            example=lambda v: {"camera.iso": 50.0},
            test=lambda v, s: (
                s.camera.iso != tea_house().camera.iso and s.camera.style == "held_open" and _short(s) > 0
            ),
            reply=lambda v, s: (
                f"At ISO {s.camera.iso:g} the picture changes, but flash and room change alike: the room still lies "
                f"{show(ghost_stops(s), 'stops', 3)} under the flash. Only the shutter time changes one of them "
                "alone."
            ),
        ),
    ),
    hints=(
        "What does the room get more of in an open frame, and the flash does not?",
        "Held open, the shutter must stand open from before the release until after the splash. Which camera style "
        "needs "
        "much less?",
        "Which is the shortest time at which the whole frame is open for a moment?",
    ),
    worked=lambda v: (
        f"Held open for {v.time:g} s the room lies {show(_held(v), 'stops', 3)} under the flash. When the beam "
        f"releases the "
        f"camera, 1/200 s will do: {show(_quick(v), 'stops', 3)}. That is the fastest time with the whole frame "
        f"open, or "
        "nearly. ISO would not have helped; it acts on both alike. Where the room stays bright, let the beam "
        "release the camera, although its lag comes with it."
    ),
    meaning="A room that cannot be made dark decides the camera style.",
    see="Why",
)


def _unlit(setup):
    if sees(setup).lit > 0:
        covered = show(1 - sees(setup).lit, "%", 2)
        return f"A curtain covers {covered} of the frame when the flash fires. Take a slower shutter."
    return "The shutter is closed when the flash fires. It must be open before the release, and until after the flash."


def _open(setup):
    time = setup.camera.exposure_time
    return show(time, "s", 2) if time > 0.3 else f"1/{1 / time:.0f} s"


def _with(v, **changes):
    return ghost_stops(change_all(tea_house(), _begun(v) | changes))


def _held(v):
    return _with(v)


def _quick(v):
    return _with(v, **{"camera.style": "mirror_up", "camera.shutter": 1 / 200})
