"""The questions of the lesson `stops`: steps and marks, distance, heads, and who pays without letting the room in."""

import math

from lessons.stops.numbers import NUMBERS
from lessons.stops.pay import PAY
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Formula, Function, Number, Option, Slip
from splashlib.classroom.questions.wording import with_unit

EIGHTH = Choice(
    name="eighth",
    prompt="On the dial of the flash stand 1/1, 1/2, 1/4, 1/8. You turn it from full power to one eighth. By how many "
    "stops is there less light?",
    options=(
        Option(key="three", text="Three stops", right=True, reply="There are three steps from 1/1 to 1/8."),
        Option(
            key="marks not steps",
            text="Four stops",
            reply="There are four marks, and three steps between them. Each step halves the light; a mark does "
            "nothing.",
        ),
        Option(
            key="ratio for stops",
            text="Eight stops",
            reply="An eighth of the light is left; 8 is the ratio. A stop is one halving, and 8 is 2 · 2 · 2.",
        ),
    ),
    hints=("How often is the light halved on the way?",),
    worked="1/1 to 1/2 is one halving, 1/2 to 1/4 the second, 1/4 to 1/8 the third: three stops. Four marks have three "
    "steps between them, as four fence posts have three gaps.",
    see="Drag",
)


def _mark(step):
    return "full power" if step == 0 else f"1/{2**step}"


def _gained(v):
    return round(math.log2(v.iso / 100))


OWED = Number(
    name="owed",
    prompt="A well exposed frame, taken at {from_label} and ISO 100. You turn the flash down to {to_label} and "
    "raise the "
    "ISO to {iso}. By how many stops is the frame off now? Darker counts negative.",
    draw={"start": (0, 1, 2), "down": (3, 4, 5, 6), "iso": (200, 400, 800)},
    also=lambda v: {"from_label": _mark(v.start), "to_label": _mark(v.start + v.down)},
    keep=lambda v: v.down > round(math.log2(v.iso / 100)),
    answer=lambda v: _gained(v) - v.down,
    unit="stops",
    slips=(
        Slip(
            name="marks not steps",
            value=lambda v: _gained(v) - v.down - 1,
            reply="You counted the marks on the flash, from {from_label} to {to_label}. There is one step fewer than "
            "there are marks.",
        ),
        Slip(
            name="wrong sign",
            value=lambda v: v.down - _gained(v),
            reply="The size is right. But the ISO pays back less than the flash took, so the frame is darker: "
            "negative.",
        ),
        Slip(
            name="debts added",
            value=lambda v: -v.down - _gained(v),
            reply="You took the ISO as a loss. A higher ISO makes the frame brighter: it pays back.",
        ),
        Slip(
            name="ratio for stops",
            value=lambda v: v.iso // 100 - v.down if v.iso != 200 and v.iso // 100 != v.down else None,
            reply="You took the ratio of ISO {iso} to ISO 100 for stops. Count the doublings from 100.",
        ),
    ),
    hints=(
        "Two counts: the halvings on the flash, and the doublings of the ISO.",
        "Steps from {from_label} to {to_label}? Doublings from 100 to {iso}?",
    ),
    worked=lambda v: (
        f"From {v.from_label} to {v.to_label} the light is halved {v.down} times: −{v.down} stops. From ISO 100 to "
        f"{v.iso}: {with_unit(_gained(v), 'doublings')}, +{_gained(v)}. Together {v.down - _gained(v)} missing, so "
        f"−{with_unit(v.down - _gained(v), 'stops')}. Count everything in stops, then add."
    ),
    meaning="What is still missing must come from distance, diffuser, aperture or further heads.",
    see="Why",
)

DISTANCE = Formula(
    name="distance",
    prompt="A small bare lamp stands at the distance *d* from the fruit. You need *n* stops more from it. At which "
    "distance *D* must it stand? Write *D* with *d* and *n*.",
    gives="D",
    symbols={"d": "distance now", "n": "stops wanted"},
    domain={"d": (0.2, 2), "n": (0.5, 4)},
    answer="d/2^(n/2)",
    slips=(
        Slip(
            name="lost square",
            value="d/2^n",
            reply="{given} halves the distance for each stop. Light goes with the square of the distance: half as far "
            "is already two stops.",
        ),
        Slip(
            name="wrong way",
            value="d*2^(n/2)",
            reply="{given} moves the lamp away. It must come nearer for more light.",
        ),
        Slip(
            name="square for root",
            value="d/2^(2*n)",
            reply="{given} has the square on the wrong side. The light is the square of the distance; the distance is "
            "the root of the light.",
        ),
        Slip(
            name="ratio for stops",
            value="d/sqrt(n)",
            reply="{given} takes n for a ratio of light. n stops are a ratio of 2^n.",
        ),
    ),
    hints=(
        "n stops more is 2^n times the light.",
        "Light is 1 over the square of the distance. So what does the distance do when the light is 2^n times as much?",
    ),
    worked="The light must be 2^n times as much, and it goes as 1/D². So (d/D)² = 2^n, and D = d/2^(n/2). One stop is "
    "d/1.41, two stops d/2, three stops d/2.83. A little nearer gives much: half as far pays two stops.",
    meaning="One stop: 0.71 times as far. Two stops: half as far. A large diffuser gives less than this up close.",
    see="Extra: distance, heads, noise, clear water",
)

HEADS = Function(
    name="gained",
    prompt="Write `gained(heads, iso)`: by how many stops is the frame brighter with so many flash heads, all "
    "alike, at "
    "this ISO, than with one head at ISO 100?",
    reference=lambda *, heads, iso: math.log2(heads) + math.log2(iso / 100),
    inputs={"heads": (1, 2, 3, 4, 6, 8), "iso": (100, 200, 400, 640, 800, 1600)},
    unit="stops",
    absolute=1e-6,
    slips=(
        Slip(
            name="heads for stops",
            value=lambda *, heads, iso: heads - 1 + math.log2(iso / 100),
            reply="Your function gives a stop for each further head. Two heads are one stop, but the next stop "
            "needs four: "
            "each stop is a doubling.",
        ),
        Slip(
            name="ratio for stops",
            value=lambda *, heads, iso: heads * iso / 100,
            reply="Your function tells how many times as much light there is. Stops are the doublings in that: log2.",
        ),
        Slip(
            name="other logarithm",
            value=lambda *, heads, iso: math.log(heads * iso / 100),
            reply="That is the natural logarithm. A stop is a factor of 2: take math.log2.",
        ),
        Slip(
            name="tenfold logarithm",
            value=lambda *, heads, iso: math.log10(heads * iso / 100),
            reply="That is the logarithm to the base 10. A stop is a factor of 2: take math.log2.",
        ),
    ),
    hints=(
        "How many times as much light is it? Two heads and ISO 200 are 2 · 2 = 4 times.",
        "How many doublings are in that? Python's math.log2 counts them.",
    ),
    worked="```\nimport math\n\ndef gained(heads, iso):\n    return math.log2(heads * iso / 100)\n```\n"
    "Light multiplies, stops add: log2(heads) + log2(iso/100) is the same. So heads soon cost "
    "much: the third stop takes eight of them.",
    meaning="1, 2, 4, 8 heads are 0, 1, 2, 3 stops.",
    see="Extra: distance, heads, noise, clear water",
)

WITHOUT_ROOM = Choice(
    name="without_room",
    prompt="You turned the flash two stops down, and the droplets are sharp now. Before that, the room lay just seven "
    "stops under the flash. What pays both stops and keeps the room out as well as before?",
    options=(
        Option(
            key="four heads",
            text="Four heads alike instead of one",
            right=True,
            reply="Yes. Four heads are two stops of flash. The room gets nothing of it.",
        ),
        Option(
            key="iso pays",
            text="ISO two stops up",
            reply="The flash is paid, and the room is brighter by the same two stops: five under the flash now. A "
            "ghost.",
        ),
        Option(
            key="aperture pays",
            text="Open the aperture two stops",
            reply="The aperture cannot tell flash from room. It lets in two stops more of both, and the ghost with "
            "them.",
        ),
        Option(
            key="heads for stops",
            text="Three heads alike instead of one",
            reply=NUMBERS.fill(
                "Three heads are [[three_heads to 0.1 stops]], not two. One head more is a stop only the first time."
            ),
        ),
        Option(
            key="longer shutter",
            text="Leave the shutter open four times as long",
            reply="The flash is over in a blink, so that gives no more of it. It only lets in four times the room.",
        ),
    ),
    hints=("Which of these acts on the flash alone?", "One head is 0 stops, two are 1. What is the next doubling?"),
    worked="Distance, diffuser and further heads act on the flash alone. Aperture and ISO act on all light; the "
    "shutter "
    "time acts on the room alone. Two stops are four times the light, so four heads. Whatever acts on the flash "
    "alone keeps the room out.",
    see="Why",
)

exercises = Exercises("stops", (EIGHTH, OWED, DISTANCE, WITHOUT_ROOM, PAY, HEADS))
