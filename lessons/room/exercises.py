"""The questions of the lesson `room`: stops under the flash, the test frame as a meter, the light that is allowed."""

import math

from lessons.room.bright import BRIGHT
from lessons.room.numbers import NUMBERS
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Function, Number, Option, Slip
from splashlib.classroom.questions.slips import sign
from splashlib.classroom.questions.wording import show

EVENING = Choice(
    name="evening",
    prompt="It is evening, a lamp is on in the room: 50 lx at the set, enough to read a paper by. The flash stands at "
    "low power, and the kumquat falls twice. The first time the beam, which it breaks on its way, releases the camera, "
    "with a shutter of 1/200 s. The second time the shutter is held open for two seconds, and the beam fires the "
    "flash. Which of the two frames is spoiled by the light of the room?",
    options=(
        Option(
            key="held open",
            text="Only the one that was held open",
            right=True,
            reply="Two seconds gather 400 times as much of the room as 1/200 s, and just as much of the flash.",
        ),
        Option(
            key="both",
            text="Both: the room is the same",
            reply="The room is the same, but not what the frame gets of it. At 1/200 s it gets 1/400 of that.",
        ),
        Option(
            key="neither",
            text="Neither: a flash is far brighter than a lamp",
            reply="While it lasts. But it lasts less than a thousandth of a second, and the lamp two whole seconds.",
        ),
        Option(
            key="short",
            text="Only the one at 1/200 s: it gets less of the flash",
            reply="The flash is over in less than a thousandth of a second. Both frames get all of it.",
        ),
    ),
    hints=("How long does the flash shine into each frame? And the lamp?",),
    worked=NUMBERS.fill(
        "At 1/200 s the room lies [[evening.quick to 0.1 stops]] under the flash: hardly seen. Held open for 2 "
        "s it lies [[evening.over to 0.1 stops]] over it, and the set shines right through the kumquat."
    ),
    see="Drag",
)


def _under(v):
    return math.log2(v.flash / (v.lux * v.time))


UNDER = Number(
    name="under",
    prompt="The flash gives {flash} lx·s at the set. The room has {lux:g} lx, and the shutter is held open for "
    "{time:g} s. "
    "By how many stops does the room lie under the flash in that frame?",
    draw={"flash": (280, 200, 250, 320, 400), "lux": (1, 0.2, 0.5, 2, 3, 5), "time": (2, 1.5, 3, 4)},
    answer=_under,
    unit="stops",
    slips=(
        Slip(
            name="time forgotten",
            value=lambda v: math.log2(v.flash / v.lux),
            reply="{given} compares lx·s with lx. The room shines for {time:g} s: first multiply its {lux:g} lx by "
            "that.",
        ),
        Slip(
            name="ratio for stops",
            value=lambda v: v.flash / (v.lux * v.time),
            reply="{given} is how many times as much light the flash gives. Count the halvings: how often must you "
            "halve "
            "the flash to come down to the room?",
        ),
        Slip(
            name="tens for stops",
            value=lambda v: math.log10(v.flash / (v.lux * v.time)),
            reply="{given} counts factors of ten. A stop is a factor of two.",
        ),
        Slip(
            name="divided for multiplied",
            value=lambda v: math.log2(v.flash / (v.lux / v.time)),
            reply="{given}: you divided the light of the room by its time. It gathers over {time:g} s, so multiply.",
        ),
        sign(
            "{given} has the right size. But the room lies under the flash here, and that was asked: the number is "
            "positive."
        ),
    ),
    hints=(
        "First the light that the room leaves in the frame: {lux:g} lx times {time:g} s.",
        "Divide the flash's {flash} lx·s by that, and ask how many factors of two are in it: the logarithm to base 2.",
    ),
    worked=lambda v: (
        f"The room gives {v.lux:g} lx · {v.time:g} s = {v.lux * v.time:.3g} lx·s. {v.flash} / {v.lux * v.time:.3g} = "
        f"{v.flash / (v.lux * v.time):.4g}, and the logarithm of that to base 2 is {show(_under(v), 'stops')}. "
        "Half the light of the room, or half the time, would be one stop more."
    ),
    meaning="Five stops are plain to see, seven hardly, ten are gone.",
    see="Why",
)

METER = Number(
    name="meter",
    prompt="With the flash your picture is well exposed at ISO {iso}. Now the flash is off and nothing falls. Aperture "
    "and time stay as they are. You raise the ISO until the still set looks well exposed: that is at ISO {bright}. By "
    "how many stops does the room lie under the flash?",
    draw={"iso": (200, 100, 400), "bright": (6400, 800, 1600, 3200, 12800, 25600)},
    answer=lambda v: math.log2(v.bright / v.iso),
    unit="stops",
    slips=(
        Slip(
            name="marks for steps",
            value=lambda v: math.log2(v.bright / v.iso) + 1,
            reply="{given}: you counted the values, ISO {iso} and ISO {bright} among them. Count the steps between "
            "them.",
        ),
        Slip(
            name="ratio for stops",
            value=lambda v: v.bright / v.iso,
            reply="{given} is how many times the ISO was raised. Each doubling is one stop: how many doublings are "
            "that?",
        ),
        sign("{given} has the right size. The room lies under the flash, and so many stops were asked: no minus."),
    ),
    hints=(
        "From ISO {iso} to the next doubling is one stop. Go on to {bright}.",
        "The more ISO the room needs to look as bright as the flash did, the further it lies under the flash.",
    ),
    worked=lambda v: (
        f"From ISO {v.iso} to ISO {v.bright} are {show(math.log2(v.bright / v.iso), 'stops')}: "
        f"{', '.join(str(v.iso * 2**step) for step in range(round(math.log2(v.bright / v.iso)) + 1))}. By "
        "so much the room lies under the flash. You need no other light meter than the camera."
    ),
    meaning="No other meter is needed. Put the ISO back afterwards.",
    see="At the set",
)

ALLOWED = Function(
    name="allowed",
    prompt="Write a function `allowed(flash, time, stops)`. It takes the light of the flash at the set in lx·s, the "
    "time "
    "for which the shutter is open in seconds, and how many stops the room must lie under the flash. It returns the "
    "light that the room may have, in lx.",
    reference=lambda *, flash, time, stops: flash / (time * 2**stops),
    inputs={"flash": (280.0, 140.0, 400.0, 70.0), "time": (2.0, 1.5, 4.0, 0.005), "stops": (7, 5, 10, 6)},
    unit="",
    slips=(
        Slip(
            name="stops as a factor",
            value=lambda *, flash, time, stops: flash / (time * stops),
            reply="With {flash}, {time} and {stops} you get {given}: divided by the number of stops. Each stop halves: "
            "divide by two, {stops} times over.",
        ),
        Slip(
            name="time forgotten",
            value=lambda *, flash, time, stops: flash / 2**stops,
            reply="With {flash}, {time} and {stops} you get {given}: that is light times time, in lx·s. The room has "
            "{time} s to gather it; divide by that.",
        ),
        Slip(
            name="multiplied for divided",
            value=lambda *, flash, time, stops: flash * time / 2**stops,
            reply="With {flash}, {time} and {stops} you get {given}. So a shutter that is open longer would allow more "
            "light. It is the other way round.",
        ),
        Slip(
            name="turned round",
            value=lambda *, flash, time, stops: flash * 2**stops / time,
            reply="With {flash}, {time} and {stops} you get {given}: more light than the flash gives. The "
            "room must lie under it: divide by two for each stop, do not multiply.",
        ),
    ),
    hints=(
        "How much light times time may the room leave in the frame? So many stops less than the flash.",
        "In Python, two to the power of n is written 2**n.",
    ),
    worked=NUMBERS.fill(
        "Halve the flash so many times, and spread what is left over the time:\n\n"
        "```python\n"
        "def allowed(flash, time, stops):\n"
        "    return flash / (time * 2**stops)\n"
        "```\n\n"
        "For [[flash to 1 lx·s]], 2 s and 7 stops that is [[dark_enough to 0.1 lx]]: the light of one candle, one "
        "metre away. Open for half as long, and the room may be twice as bright."
    ),
    meaning="Half the time allows twice the light.",
    see="Why",
)

exercises = Exercises("room", (EVENING, UNDER, METER, ALLOWED, BRIGHT))
