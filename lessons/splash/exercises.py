"""The questions of the lesson `splash`: when a stage comes, which delay, how long to stay deaf, a whole set-up."""

import math

from lessons.splash.crown import CROWN
from lessons.splash.numbers import NUMBERS, whole_ms
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Number, Option, Slip
from splashlib.classroom.questions.slips import thousandth
from splashlib.classroom.questions.wording import show
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_time

JET_WHEN = Choice(
    name="jet_when",
    prompt="A wet kumquat falls 45 cm into a deep vase. Some time later a column of water, the jet, shoots up where it "
    "went in. How long after the kumquat touches the water does the jet stand at its highest?",
    options=(
        Option(key="3 ms", text="3 ms", reply="By then the kumquat is not even a third under water."),
        Option(
            key=NUMBERS.fill("[[crown to 10 ms]]"),
            text=NUMBERS.fill("[[crown to 10 ms]]"),
            reply="That is about the crown. The hole that the kumquat tore is still open then.",
        ),
        Option(
            key=NUMBERS.fill("[[jet to 10 ms]]"),
            text=NUMBERS.fill("[[jet to 10 ms]]"),
            right=True,
            reply=NUMBERS.fill(
                "The hole must close first, after some [[seal.likely to 1 ms]]. Then the water has to climb: it takes "
                "its time, as anything does that is thrown up."
            ),
        ),
        Option(key="2 s", text="2 s", reply="Then the water is nearly at rest again."),
    ),
    hints=("First a crown, then a hole that closes, then the jet. Each of them takes its time.",),
    worked=NUMBERS.fill(
        "The likely time is [[jet to 1 ms]]; in most drops it lies between [[jet.early to 1 (ms)]] and "
        "[[jet.late to 1 ms]]. The crown stands highest after about [[crown to 1 ms]], and the hole closes after about "
        "[[seal.likely to 1 ms]]. So the jet is slow enough even for a slow camera."
    ),
    see="Drag",
)


def _seal(v):
    return 1.73 * math.sqrt(v.diameter_mm / 2000 / GRAVITY)


SEAL = Number(
    name="seal",
    prompt="A rough ball of {diameter_mm} mm diameter falls into deep water and tears a cavity. How long after the "
    "contact does the cavity close? Two digits are enough.",
    draw={"diameter_mm": (40, 20, 25, 30, 50, 60)},
    answer=_seal,
    unit="ms",
    digits=2,
    slips=(
        Slip(
            name="diameter for radius",
            value=lambda v: 1.73 * math.sqrt(v.diameter_mm / 1000 / GRAVITY),
            reply="You took the diameter, {diameter_mm} mm. The law has the radius, half of it.",
        ),
        Slip(
            name="no root",
            value=lambda v: 1.73 * v.diameter_mm / 2000 / GRAVITY,
            reply="{given} is 1.73 · R/g without the root. R/g is a time squared; the root makes a time of it.",
        ),
        Slip(
            name="factor forgotten",
            value=lambda v: math.sqrt(v.diameter_mm / 2000 / GRAVITY),
            reply="{given} is √(R/g). The number 1.73 in front of it is missing.",
        ),
        thousandth(),
    ),
    hints=(
        "The law stands under *The cavity keeps the best time*: 1.73 · √(R/g).",
        "R is the radius in metres; g is 9.81 m/s².",
    ),
    worked=lambda v: (
        f"R = {v.diameter_mm / 2:g} mm = {v.diameter_mm / 2000:.4f} m. 1.73 · √({v.diameter_mm / 2000:.4f} / 9.81) = "
        f"{show(_seal(v), 'ms')}. The speed is not in it: a ball from twice the height tears a deeper cavity, which "
        "closes at much the same time."
    ),
    meaning="Four times the size takes twice the time. The release height hardly matters.",
    see="Extra: the cavity keeps the best time",
)


STAGES_MS = (whole_ms("crown_peak"), whole_ms("cavity_seals"), 110, whole_ms("jet_peak"))


def _delay(v):
    return (v.lead_ms + v.stage_ms - v.lag_ms) / 1000


STAGE_DELAY = Number(
    name="stage_delay",
    prompt="From the beam to the water your kumquat needs {lead_ms} ms. The stage that you want comes {stage_ms} ms "
    "after the contact. Your rig takes {lag_ms} ms from the beam to the light when the delay is zero. Which delay do "
    "you set?",
    draw={"lead_ms": (44, 36, 52, 60), "stage_ms": STAGES_MS, "lag_ms": (41, 1, 20, 51, 30)},
    # Numbers for which no two mistakes meet.
    keep=lambda v: abs(v.lead_ms - 2 * v.lag_ms) > 4 and abs(v.lead_ms - v.lag_ms) > 2 and v.stage_ms > v.lag_ms + 4,
    answer=_delay,
    unit="ms",
    slips=(
        Slip(
            name="lead forgotten",
            value=lambda v: (v.stage_ms - v.lag_ms) / 1000,
            reply="{given} would be right for a clock that starts at the contact. Yours starts at the beam, {lead_ms} "
            "ms before.",
        ),
        Slip(
            name="lag forgotten",
            value=lambda v: (v.lead_ms + v.stage_ms) / 1000,
            reply="{given} is when the stage comes, counted from the beam. {lag_ms} ms of that your rig takes by "
            "itself; wait only for the rest.",
        ),
        Slip(
            name="lag added",
            value=lambda v: (v.lead_ms + v.stage_ms + v.lag_ms) / 1000,
            reply="You added the lag of {lag_ms} ms. The light is late by that much already: wait less, not more.",
        ),
        thousandth(),
    ),
    hints=(
        "When does the stage come, counted from the beam?",
        "It is {lead_ms} ms + {stage_ms} ms after the beam. The rig takes {lag_ms} ms of that.",
    ),
    worked=lambda v: (
        f"From the beam the stage comes after {v.lead_ms} + {v.stage_ms} = {v.lead_ms + v.stage_ms} ms. The rig takes "
        f"{v.lag_ms} ms, so the delay is {v.lead_ms + v.stage_ms} − {v.lag_ms} = {show(_delay(v), 'ms')}."
    ),
    meaning="The stage is only likely at that time. Begin with this delay, and move it by what the frame shows.",
    see="Why",
)

NO_CROWN = Choice(
    name="no_crown",
    prompt="You let a clean, polished, dry glass marble fall 45 cm into the vase. Twenty frames, twenty delays: there "
    "is never a crown, only a low hump of water. What is the first thing to change?",
    options=(
        Option(
            key="wet it",
            text="Dip the marble into water before each drop, or roughen it",
            right=True,
            reply="Yes. On a dry polished marble the water climbs around and closes behind it: no air goes down, "
            "and no crown stands up. A wet or rough one tears the water open.",
        ),
        Option(
            key="delay",
            text="Try twenty more delays",
            reply="The crown is not early or late. This marble makes none.",
        ),
        Option(
            key="higher",
            text="Let it fall from 90 cm",
            reply=NUMBERS.fill(
                "That is [[from_90_cm to 0.1 m/s]]. A polished marble still slips in at that speed, but for some "
                "[[slick_marble.in_100 to 1]] in 100 with a smear or a grain of dust; from about "
                "[[half_splash.height to 0.1 m]] half of them would splash."
            ),
        ),
        Option(
            key="alcohol",
            text="Wipe it with alcohol, so that it is really clean",
            reply="The cleaner it is, the better it slips in. And alcohol burns: keep it away from a flash.",
        ),
    ),
    hints=("What does water do on clean glass: does it spread, or does it stand off?",),
    worked=NUMBERS.fill(
        "A clean, smooth, dry body slips in below about [[half_splash.speed to 0.1 m/s]], a fall of "
        "[[half_splash.height to 0.1 m]]. From 45 cm it arrives with [[contact_speed to 1 m/s]]. Wet, the same marble "
        "makes a crown in [[wet_marble.in_100 to 1]] of 100 drops; rough, always."
    ),
    see="Drag",
)


def _deaf(v):
    """How long after the beam the shutter closes [s]."""
    return v.open_s - v.before_s - fall_time(v.way_cm / 100)


HOLD_OFF = Number(
    name="hold_off",
    prompt="You open the shutter {before_s} s before you let go, and it stays open for {open_s} s. The kumquat falls "
    "{way_cm} cm from the hand to the beam. Drops and jet have fallen back through the beam 0.9 s after it was "
    "broken. How long must the hold-off be at least, counted from the broken beam?",
    draw={"open_s": (3.0, 2.0, 2.5, 4.0), "before_s": (0.5, 0.8, 1.0), "way_cm": (33, 28, 40, 48)},
    keep=lambda v: v.open_s - v.before_s >= 1.5,
    answer=_deaf,
    unit="s",
    side="least",
    # As long as the shutter is open in all: safe without any reckoning.
    spare=lambda v: v.open_s,
    slips=(
        Slip(
            name="part for rest",
            value=lambda v: v.before_s + fall_time(v.way_cm / 100),
            reply="{given} is how long the shutter has been open when the beam is broken. The hold-off begins there "
            "and must last until the shutter closes.",
        ),
        Slip(
            name="fall alone",
            value=lambda v: fall_time(v.way_cm / 100),
            reply="{given} is the fall from the hand to the beam. It is over when the hold-off begins.",
        ),
        Slip(
            name="drops alone",
            value=lambda v: 0.9,
            reply="After {given} drops and jet have gone. But the shutter is open: whatever fires the flash then, "
            "a late drop or your hand, adds to the same frame.",
        ),
    ),
    hints=(
        "There are three reasons to stay deaf: drops in the beam, the jet in it, an open shutter. The longest counts.",
        "The shutter closes {open_s} s after it opened. How long before the broken beam did it open?",
    ),
    worked=lambda v: (
        f"The fall to the beam takes √(2 · {v.way_cm / 100:.2f} / 9.81) = {show(fall_time(v.way_cm / 100), 's')}. The "
        f"shutter opened {v.before_s:g} s before that fall began. So after the beam it stays open for {v.open_s:g} − "
        f"{v.before_s:g} − {show(fall_time(v.way_cm / 100), 's')} = {show(_deaf(v), 's')}. That is longer than "
        "drops and jet take."
    ),
    meaning="A hold-off that is too long costs nothing but patience; one that is too short spoils the frame.",
    see="Why",
)

exercises = Exercises("splash", (JET_WHEN, SEAL, STAGE_DELAY, NO_CROWN, HOLD_OFF, CROWN))
