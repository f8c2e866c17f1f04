"""The last question of the lesson `freeze`: a set-up with streaks, to be mended and paid for."""

from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Settings
from splashlib.classroom.questions.wording import show
from splashlib.shoot import change_all, field, pulse_of, streak_in, tea_house
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from splashlib.shoot.decide.flash_duration import DROPLET, POINT, power_for_points

DARKEST = 0.5
"""So far from a good exposure the frame may be [stops]."""
MOST_ISO = 6400


def _begun(v):
    return {
        "flashes.0.kind": "voltage_controlled",
        "flashes.0.power": 1.0 / v.part,
        "drop.release_height": v.height_cm / 100,
    }


def _streak(setup):
    return streak_in(setup).on_object


def _streak_words(setup):
    return show(_streak(setup), "mm", 2)


def _stops(setup):
    return f"{abs(flash_over_metered(setup)):.1f} stops"


MEND = Settings(
    name="mend",
    prompt="Mend this set-up. A voltage-controlled head at 1/{part} lights a kumquat that falls from {height_cm} "
    "cm, and "
    "the droplets are streaks. Make points of them: no more than 0.2 mm at the speed of the kumquat. The frame must "
    "stay within half a stop of a good exposure, and the ISO at 6400 or below. You may change the kind of flash, its "
    "power, its distance, and the ISO.",
    draw={"part": (4, 8, 16), "height_cm": (45, 40, 50, 55)},
    start=_begun,
    asked=("flashes.0.kind", "flashes.0.power", "flashes.0.distance", "camera.iso"),
    conditions=(
        Condition(
            text="droplets are points",
            test=lambda v, s: POINT * DROPLET - _streak(s),
            reply=lambda v, s: (
                f"Droplets are still drawn {_streak_words(s)} long: the flash lasts "
                f"{show(pulse_of(s.flashes[0]).t01, 'µs')}. "
                "It must get shorter."
            ),
        ),
        Condition(
            text="the frame is not too dark",
            test=lambda v, s: flash_over_metered(s) + DARKEST,
            reply=lambda v, s: f"The frame is {_stops(s)} too dark. The shorter flash is not paid for yet.",
        ),
        Condition(
            text="the frame is not too bright",
            test=lambda v, s: DARKEST - flash_over_metered(s),
            reply=lambda v, s: f"The frame is {_stops(s)} too bright. Lower the ISO, or move the flash away.",
        ),
        Condition(
            text="the ISO is 6400 or below",
            test=lambda v, s: MOST_ISO - s.camera.iso,
            reply=lambda v, s: (
                f"ISO {s.camera.iso:.0f} is over the limit. A kind of flash that is short at higher power needs less."
            ),
        ),
    ),
    answer=lambda v: _mended(v),
    slips=(
        BadSetting(
            name="high-speed sync freezes",
            example=lambda v: {"flashes.0.kind": "high_speed_sync"},
            test=lambda v, s: s.flashes[0].kind == "high_speed_sync",
            reply=lambda v, s: (
                f"High-speed sync shines for {show(pulse_of(s.flashes[0]).t01, 'ms', 1)} at any power: droplets are "
                f"smeared over {_streak_words(s)}. It helps fast shutters in daylight and freezes nothing."
            ),
        ),
        BadSetting(
            name="kind mistaken",
            example=lambda v: {"flashes.0.power": 1 / 128},
            test=lambda v, s: s.flashes[0].kind == "voltage_controlled" and s.flashes[0].power < 1 / v.part,
            reply=lambda v, s: (
                f"You turned a voltage-controlled head down: its flash now lasts "
                f"{show(pulse_of(s.flashes[0]).t01, 'ms', 2)}, "
                f"and streaks are {_streak_words(s)} long. This kind does not get shorter that way. Take another kind."
            ),
        ),
        BadSetting(
            name="not paid for",
            example=lambda v: {"flashes.0.kind": "quenched", "flashes.0.power": _power(v)},
            test=lambda v, s: (
                _streak(s) <= POINT * DROPLET
                and flash_over_metered(s) < -DARKEST
                and s.camera.iso == tea_house().camera.iso
                and s.flashes[0].distance == tea_house().flashes[0].distance
            ),
            reply=lambda v, s: (
                f"The droplets are points now, but the frame is {_stops(s)} too dark. Pay for the short flash: a "
                f"higher "
                "ISO, or the flash nearer."
            ),
        ),
    ),
    hints=(
        "Which kind of flash gets shorter when it is turned down?",
        "Turn it down until the streak is 0.2 mm. Then raise the ISO until the light is back.",
    ),
    worked=lambda v: _worked(v),
    meaning="First the duration, then the light for it.",
    see="Why",
)


def _quenched(v):
    return change_all(tea_house(), _begun(v) | {"flashes.0.kind": "quenched"})


def _power(v):
    return power_for_points(_quenched(v))


def _mended(v):
    """One of many: the quenched unit at the highest power that does it, the ISO that brings the light back."""
    found = {"flashes.0.kind": "quenched", "flashes.0.power": _power(v)}
    setup = change_all(_quenched(v), found)
    isos = [value for _, value in field("camera.iso").marks]
    best = min(isos, key=lambda iso: abs(flash_over_metered(change_all(setup, {"camera.iso": iso}))))
    return found | {"camera.iso": best}


def _worked(v):
    found = _mended(v)
    setup = change_all(_quenched(v), found)
    label = next(said for said, value in field("flashes.0.power").marks if value == found["flashes.0.power"])
    return (
        f"A quenched unit gets shorter when it is turned down. At {label} it lasts "
        f"{show(pulse_of(setup.flashes[0]).t01, 'µs')}, and a droplet moves {_streak_words(setup)}. That leaves too "
        f"little light for ISO {tea_house().camera.iso:.0f}; ISO {found['camera.iso']:.0f} brings it back. Moving the "
        "flash nearer would do it as well, or some of both."
    )
