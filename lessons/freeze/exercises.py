"""The questions of the lesson `freeze`: which light freezes, two durations, pixels, routes, kinds, a set-up to mend."""

from lessons.freeze.mend import MEND
from lessons.freeze.numbers import NUMBERS
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Number, Option, Slip
from splashlib.classroom.questions.slips import thousandth
from splashlib.classroom.questions.wording import show
from splashlib.physics.pulse import exponential

FOUR_LIGHTS = Choice(
    name="four_lights",
    prompt="The same splash in four lights. First, a small flash unit at full power. Second, the same unit at 1/32. "
    "Third, the same unit with high-speed sync, its mode for very fast shutters. Fourth, "
    "two of these units at 1/32, one fired by a cable and one by radio."
    " Which light draws every droplet once, and nearly as a point?",
    options=(
        Option(
            key="low power",
            text="The second only",
            right=True,
            reply=NUMBERS.fill(
                "At 1/32 its light lasts about [[quenched.at_32 as 1/n s]]. Droplets "
                "are then nearly points: they move by [[streak to 0.01 mm]]."
            ),
        ),
        Option(
            key="high-speed sync freezes",
            text="The second and the third",
            reply=NUMBERS.fill(
                "High-speed sync serves fast shutters. It is a row of flashes, [[sync to 1 ms]] long, and smears over "
                "[[sync.smear to 1 mm]]."
            ),
        ),
        Option(
            key="two heads as one",
            text="The second and the fourth",
            reply="A radio answers about 1 ms later than a cable. Each of the two heads draws its own splash.",
        ),
        Option(
            key="full power",
            text="All but the fourth: a flash is always fast enough",
            reply=NUMBERS.fill(
                "At full power the light lasts about [[quenched.at_1 as 1/n s]]. Droplets at "
                "[[contact_speed to 1 m/s]] become streaks of [[streak.full to 1 mm]]."
            ),
        ),
    ),
    hints=("In which of them is there light for the shortest time, counted from its first to its last glow?",),
    worked=NUMBERS.fill(
        "At 1/32 the unit shines for [[quenched.at_32 as 1/n s]]: [[streak to 0.01 mm]] at [[contact_speed to 1 m/s]]. "
        "At full power it is [[quenched.at_1 as 1/n s]] and [[streak.full to 0.1 mm]], with high-speed sync "
        "[[sync to 1 ms]] and [[sync.smear to 1 mm]]. Two heads that fire 1 ms apart draw everything twice, 2 to 3 mm "
        "apart."
    ),
    see="Drag",
)


def _t01(v):
    return exponential(1.0).t01 / exponential(1.0).t05 / v.part


TABLE = Number(
    name="table",
    prompt="The table of a flash unit says: full power, t0.5 = 1/{part} s. At full power its light fades as an "
    "exponential: t0.1 is 3.32 times as long as t0.5. A droplet flies through it at {speed} m/s. How long is its "
    "streak, counted with t0.1?",
    draw={"part": (800, 1000, 1250, 1600, 2000), "speed": (2.0, 2.5, 3.0, 4.0)},
    answer=lambda v: v.speed * _t01(v),
    unit="mm",
    digits=2,
    slips=(
        Slip(
            name="t0.5 for t0.1",
            value=lambda v: v.speed / v.part,
            reply="{given} is the streak in t0.5. In that time only the bright half of the streak is drawn. Its faint "
            "end is drawn as well, and the eye sees it on a dark ground.",
        ),
        Slip(
            name="multiplied for divided",
            value=lambda v: v.speed / v.part / (exponential(1.0).t01 / exponential(1.0).t05),
            reply="{given}: you divided by 3.32. But t0.1 is the longer of the two. The light needs more time to fall "
            "to a tenth than to a half.",
        ),
        Slip(
            name="fall taken as straight",
            value=lambda v: 5 * v.speed / v.part,
            reply="{given} takes t0.1 as five times t0.5, since 0.5 is five times 0.1. The light does not fade that "
            "way; the question gives the factor.",
        ),
        thousandth("mm", "m"),
    ),
    hints=("First t0.1, from t0.5. Then the way of the droplet in that time.", "1/1000 s at 1 m/s is 1 mm."),
    worked=lambda v: (
        f"t0.1 is 3.32 · 1/{v.part} s = {show(_t01(v), 'ms')}. At {v.speed:g} m/s that is "
        f"{show(v.speed * _t01(v), 'mm', 2)}. The same table promises {show(v.speed / v.part, 'mm', 2)} to anyone who "
        "reads t0.5. Ask which of the two a table means."
    ),
    meaning="Tables mostly give t0.5, because it is the shorter one. Use t0.1.",
    see="Why",
)


def _allowed(v):
    return v.pixels * (v.frame_mm / 1000 / v.across) / v.speed


LONGEST = Number(
    name="longest",
    prompt="Your frame is {frame_mm} mm wide at the splash, and the sensor has {across} pixels across. Droplets fly at "
    "{speed} m/s. A streak of {pixels} pixels is all that you allow. How long may the flash be at most (t0.1)?",
    draw={
        "frame_mm": (160, 100, 120, 200, 240),
        "across": (6000, 4000, 5000, 8000),
        "speed": (3.0, 1.5, 2.0, 4.0),
        "pixels": (10, 5, 8),
    },
    answer=_allowed,
    unit="µs",
    side="most",
    slips=(
        Slip(
            name="one pixel",
            value=lambda v: _allowed(v) / v.pixels,
            reply="{given} is the time for one pixel. You allow {pixels} of them.",
        ),
        Slip(
            name="whole frame",
            value=lambda v: v.frame_mm / 1000 / v.speed,
            reply="{given} is the time in which a droplet crosses the whole frame. It may cross {pixels} of the "
            "{across} pixels.",
        ),
        Slip(
            name="multiplied for divided",
            value=lambda v: _allowed(v) * v.speed**2,
            reply="{given}: you multiplied by the speed. A faster droplet needs a shorter flash, so the speed divides.",
        ),
        Slip(
            name="thousandth",
            times=1e-3,
            reply="{given}: right digits, but a thousand times too small. Is the frame in metres, and the answer in "
            "millionths of a second?",
        ),
    ),
    hints=(
        "How large is one pixel at the splash? The frame is {frame_mm} mm wide and has {across} of them.",
        "{pixels} pixels, as a length; then divide by the speed.",
    ),
    worked=lambda v: (
        f"One pixel is {v.frame_mm} mm / {v.across} = {show(v.frame_mm / 1000 / v.across, 'mm')} at the splash. "
        f"{v.pixels} of them are {show(v.pixels * v.frame_mm / 1000 / v.across, 'mm')}; at {v.speed:g} m/s that takes "
        f"{show(_allowed(v), 'µs')}, or 1/{1 / _allowed(v):.0f} s. Half the frame's width would halve it."
    ),
    meaning="The closer the camera, the shorter the flash must be. Settle the framing first.",
    see="Why",
)

ROUTES = Number(
    name="routes",
    prompt="Two heads light the splash. The first hangs on a cable and fires {cable_us} µs after the trigger. The "
    "second is fired by radio, {radio_us} µs after the trigger. The kumquat falls at {speed} m/s. How far apart do the "
    "two lights draw it?",
    draw={"cable_us": (50, 20, 40, 80), "radio_us": (1000, 400, 600, 1500), "speed": (3.0, 2.0, 2.5, 4.0)},
    answer=lambda v: v.speed * (v.radio_us - v.cable_us) * 1e-6,
    unit="mm",
    slips=(
        Slip(
            name="added",
            value=lambda v: v.speed * (v.radio_us + v.cable_us) * 1e-6,
            reply="{given} adds the two lags. Both run from the same trigger, side by side. What counts is how much "
            "longer one of them is.",
        ),
        Slip(
            name="one lag alone",
            value=lambda v: v.speed * v.radio_us * 1e-6,
            reply="{given} is the way since the trigger. But the first light does not come at the trigger either: it "
            "comes {cable_us} µs after it.",
        ),
        Slip(
            name="turned round",
            value=lambda v: (v.radio_us - v.cable_us) * 1e-6 / v.speed,
            reply="You divided by the speed. A faster kumquat gets farther between the two lights, so the speed "
            "multiplies.",
        ),
        thousandth("mm", "m"),
    ),
    hints=("How much later than the first does the second head fire?", "1000 µs are 1 ms; 1 ms at 1 m/s is 1 mm."),
    worked=lambda v: (
        f"The second fires {v.radio_us} − {v.cable_us} = {v.radio_us - v.cable_us} µs after the first. At "
        f"{v.speed:g} m/s that is {show(v.speed * (v.radio_us - v.cable_us) * 1e-6, 'mm')}. No shorter flash mends "
        "it: put both heads on the same route."
    ),
    meaning="All heads on the same kind of route, or the second one so weak that its edges hardly show.",
    see="Extra: high-speed sync, two heads, other ways to points",
)

TURNED_DOWN = Choice(
    name="turned_down",
    prompt="A studio head sets its power by the voltage of its capacitor. At full power your droplets are streaks. You "
    "turn it down to 1/{part}. What happens to the streaks and to the light?",
    draw={"part": (4, 8, 16, 32)},
    options=(
        Option(
            key="longer",
            text="Streaks as long or longer, and less light",
            right=True,
            reply="Less voltage drives the charge out more slowly. You pay in light and get nothing for it.",
        ),
        Option(
            key="kind mistaken",
            text="Streaks shorter, and less light",
            reply="So it is with units that cut their flash short. This one lets its capacitor run empty at any power, "
            "and at a lower voltage that takes longer.",
        ),
        Option(
            key="same light",
            text="Streaks as long or longer, and the same light, since it shines longer",
            reply="It shines longer, but much weaker. The number on the dial counts all of the light, from the first "
            "glow to the last: that is less.",
        ),
        Option(
            key="nothing",
            text="Streaks as before, and less light: the power sets the light alone",
            reply="With this head the power sets the voltage. A lower voltage drives the charge out more slowly, so "
            "the flash lasts as long or longer.",
        ),
    ),
    hints=("Does this head cut its flash, or does it let it run out?", "What drives the charge through the tube?"),
    worked=lambda v: (
        f"The energy is 1/{v.part} of the full one, so there is less light. The lower voltage drives a weaker current, "
        "and the tube takes as long or longer. A head of this kind is shortest at full power: keep it there, and move "
        "it away if there is too much light."
    ),
    meaning="Find out what kind your head is, before you turn it down.",
    see="Why",
)

exercises = Exercises("freeze", (FOUR_LIGHTS, TABLE, LONGEST, ROUTES, TURNED_DOWN, MEND))
