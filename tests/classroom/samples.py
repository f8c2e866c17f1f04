"""One question of each kind, as a lesson would write it; the tests of the judge use them."""

import math

from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions import slips
from splashlib.classroom.questions.question_kinds import (
    BadSetting,
    Choice,
    Condition,
    Formula,
    Function,
    Number,
    Option,
    Settings,
    Slip,
)
from splashlib.classroom.questions.wording import show

G = 9.81


def fall(height):
    return math.sqrt(2 * height / G)


TIME = Number(
    name="time",
    prompt="A kumquat hangs **{height_cm} cm** above the water. How long does it fall?",
    draw={"height_cm": (20, 25, 30, 40, 45, 50, 60, 80, 100)},
    answer=lambda v: fall(v.height_cm / 100),
    unit="ms",
    slips=(
        Slip(
            name="no root",
            value=lambda v: 2 * v.height_cm / 100 / G,
            reply="{given} is the square of the time: 2·h/g is in s². Take the root.",
        ),
        Slip(
            name="centimetres as metres",
            value=lambda v: fall(v.height_cm),
            reply=lambda v, given: f"{show(given, 's')} would be a fall of {v.height_cm} metres.",
        ),
        slips.thousand(),
        slips.half(),
    ),
    hints=("Write the height in metres first.", "h = ½·g·t², solved for t."),
    worked=lambda v: f"t = √(2·h/g) = {show(fall(v.height_cm / 100), 'ms')}. This shows how short a fall is.",
    meaning="That is all the time that the camera has.",
    see="Why",
)

STOPS = Number(
    name="stops",
    prompt="From 1/{first} to 1/{last} of the power: how many stops?",
    draw={"first": (1, 2, 4), "last": (8, 16, 32, 64, 128)},
    answer=lambda v: -math.log2(v.last / v.first),
    unit="stops",
    slips=(
        Slip(
            name="marks counted",
            value=lambda v: -math.log2(v.last / v.first) - 1,
            reply="{given}: count the steps between the marks, not the marks.",
        ),
        slips.sign(reply="{given}: less light is a negative number of stops."),
    ),
    hints=("Each halving is one stop.",),
    worked=lambda v: (
        f"Halve until you are there, and count the halvings: {show(-math.log2(v.last / v.first), 'stops')}. This shows "
        "what a shorter flash costs."
    ),
)

EMPTY_FRAME = Choice(
    name="empty frame",
    prompt="The frame shows water and no kumquat. What happened?",
    options=(
        Option(key="late", text="The light came too late", right=True, reply="The kumquat had gone under."),
        Option(key="weak", text="The flash was too weak", reply="Then the water would be dark as well."),
        Option(key="focus", text="It is out of focus", reply="Then there would be a soft orange patch."),
    ),
    hints=("What would the water look like?",),
    worked="The water is well lit, so there was light; the body was gone. This shows that timing comes first.",
)

TIME_FORMULA = Formula(
    name="time formula",
    prompt="Write the time of the fall from the height h, with gravity g.",
    gives="t",
    symbols={"h": "release height", "g": "gravity"},
    domain={"h": (0.1, 1.0), "g": (9.0, 10.0)},
    answer="sqrt(2*h/g)",
    slips=(
        Slip(name="no root", value="2*h/g", reply="{given} is t². Take the root."),
        Slip(name="half", value="sqrt(h/g)", reply="The ½ of ½·g·t² got lost."),
        Slip(name="speed", value="sqrt(2*h*g)", reply="That is the speed at the water, not the time."),
    ),
    hints=("h = ½·g·t²",),
    worked="h = ½·g·t², so t = sqrt(2*h/g). This shows that four times the height is twice the time.",
)

LEAD = Function(
    name="lead",
    prompt="Write `lead(height, beam)`: seconds from the broken beam to contact.",
    reference=lambda *, height, beam: fall(height) - fall(height - beam),
    inputs={"height": (0.3, 0.45, 0.6, 0.8), "beam": (0.05, 0.08, 0.12, 0.2)},
    unit="s",
    slips=(
        Slip(
            name="from the hand",
            value=lambda *, height, beam: fall(height - beam),
            reply="{given} s is the time from the hand to the beam.",
        ),
        Slip(
            name="from rest at the beam",
            value=lambda *, height, beam: fall(beam),
            reply="At the beam it already moves: {beam} m from rest would take {given}.",
        ),
    ),
    hints=("Two falls from the hand: to the water, and to the beam.",),
    worked="```python\ndef fall(height):\n    return (2 * height / 9.81) ** 0.5\n\n\n"
    "def lead(height, beam):\n    return fall(height) - fall(height - beam)\n```\n"
    "This shows that a low beam gives little time.",
)


QUICK = Function(
    name="quick",
    prompt="?",
    reference=lambda *, x: 2 * x,
    inputs={"x": (1.0, 2.0, 3.0)},
    seconds=0.2,
    slips=(Slip(name="not doubled", value=lambda *, x: x, reply="{given} is x itself, for x = {x}."),),
)


def lead_of(setup):
    return fall(setup.drop.release_height) - fall(setup.drop.release_height - setup.beam.height)


IN_TIME = Settings(
    name="in time",
    prompt="The mirror is down: {lag_ms} ms of lag. Make the light come at contact at the latest.",
    draw={"lag_ms": (60, 80, 100), "beam_cm": (3, 5, 8)},
    start=lambda v: {
        "camera.style": "mirror",
        "camera.mirror.lag": v.lag_ms / 1000,
        "beam.height": v.beam_cm / 100,
    },
    asked=("beam.height", "trigger.delay"),
    conditions=(
        Condition(
            text="the light comes at contact or before",
            test=lambda v, setup: lead_of(setup) - setup.camera.lag - setup.trigger.delay,
            reply=lambda v, setup: f"It comes {show(setup.camera.lag - lead_of(setup), 'ms')} too late.",
        ),
        Condition(
            text="the beam is below the hand",
            test=lambda v, setup: setup.beam.height < 0.4,
            reply="The hand would break the beam.",
        ),
    ),
    slips=(
        BadSetting(
            name="more delay",
            example=lambda v: {"trigger.delay": 0.05},
            test=lambda v, setup: setup.trigger.delay > 0 and lead_of(setup) < setup.camera.lag,
            reply="A delay only makes it later.",
        ),
        BadSetting(
            name="lower beam",
            example=lambda v: {"beam.height": v.beam_cm / 100 - 0.01},
            test=lambda v, setup: setup.beam.height < v.beam_cm / 100,
            reply="A lower beam gives less time, not more.",
        ),
    ),
    hints=("Where would the beam have to be?",),
    answer=lambda v: {"beam.height": 0.30},
    worked="A beam at 30 cm gives the camera its lag. This shows why a slow camera wants a high beam.",
)

QUESTIONS = (TIME, STOPS, EMPTY_FRAME, TIME_FORMULA, LEAD, IN_TIME)


def sample_exercises(**more):
    return Exercises("sample", QUESTIONS, **more)
