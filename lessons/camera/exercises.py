"""The questions of the lesson `camera`: lag against lead, the waiting viewfinder, the slit, the way out."""

from lessons.camera.numbers import NUMBERS
from lessons.camera.rescue import LOWEST_BEAM, RESCUE
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Number, Option, Slip
from splashlib.classroom.questions.slips import half, thousandth
from splashlib.classroom.questions.wording import show
from splashlib.physics.fall import fall_time

FOUR_CAMERAS = Choice(
    name="four_cameras",
    prompt=NUMBERS.fill(
        "The kumquat passes a beam 12 cm above the water, and touches the water [[lead to 1 ms]] later. Four cameras "
        "wait for the signal of the beam. One takes [[mirror.lag to 1 ms]] until its frame is open, because its mirror "
        "must rise first. One takes [[mirror_up.lag to 1 ms]]: the mirror was raised before. One without a mirror "
        "takes [[no_mirror.lag to 1 ms]]. The fourth takes no time: its shutter stands open in the dark, and the beam "
        "fires the flash. You may set any delay. Which of them can be made to catch the kumquat just as it touches the "
        "water?"
    ),
    options=(
        Option(
            key="two",
            text="Two: the one with its mirror up, and the one with its shutter open",
            right=True,
            reply=NUMBERS.fill(
                "[[mirror_up.lag to 1 ms]] and 0 ms are less than [[lead to 1 ms]]. The rest of the time is what you "
                "set as delay."
            ),
        ),
        Option(
            key="all",
            text="All four; that is what the delay is for",
            reply="A delay adds time. Two of the four are too late before any is added.",
        ),
        Option(
            key="three",
            text="Three: all but the one whose mirror must rise",
            reply=NUMBERS.fill(
                "[[no_mirror.lag to 1 ms]] are more than [[lead to 1 ms]], too. That camera shows the kumquat "
                "[[no_mirror.depth to 0.1 cm]] under the water."
            ),
        ),
        Option(
            key="one",
            text="Only the one with its shutter open",
            reply=NUMBERS.fill(
                "[[mirror_up.lag to 1 ms]] are less than [[lead to 1 ms]]. With the mirror up the camera just makes "
                "it, with [[mirror_up.delay to 1 ms]] to spare."
            ),
        ),
    ),
    hints=("Which of them are quicker than the fruit?",),
    worked=NUMBERS.fill(
        "The kumquat takes [[lead to 1 ms]]. The camera with its mirror up needs [[mirror_up.whole_lag to 1 ms]], "
        "trigger and flash included, and waits for [[mirror_up.delay to 1 ms]] more. The open shutter waits for "
        "[[held_open.delay to 1 ms]]. The two others are late by [[no_mirror.late to 1 ms]] and by "
        "[[mirror.late to 1 ms]], even with no delay at all; a delay would only make them later."
    ),
    see="Drag",
)


def _lead(v):
    """Beam to water without drag [s]."""
    return fall_time(v.height_cm / 100) - fall_time((v.height_cm - v.beam_cm) / 100)


def _too_late(v):
    return v.lag_ms / 1000 - _lead(v)


TOO_LATE = Number(
    name="too_late",
    prompt="A kumquat is let go {height_cm} cm above the water. The beam is {beam_cm} cm above the water. From the "
    "broken beam to the flash this camera takes {lag_ms} ms in all; the delay is zero. How long after the kumquat "
    "touches the water does the flash come? Leave the air out.",
    draw={"height_cm": (45, 40, 50, 60), "beam_cm": (12, 8, 10, 15), "lag_ms": (100, 80, 90, 110, 120)},
    answer=_too_late,
    unit="ms",
    slips=(
        Slip(
            name="lag alone",
            value=lambda v: v.lag_ms / 1000,
            reply="{given} is the whole lag, counted from the beam. The kumquat uses part of that time for its way "
            "from the beam to the water. Take that away.",
        ),
        Slip(
            name="wrong sign",
            times=-1,
            reply="{given}: the minus would mean that the flash comes before the contact. Which of the two is slower "
            "here, the kumquat or the camera?",
        ),
        Slip(
            name="added",
            value=lambda v: v.lag_ms / 1000 + _lead(v),
            reply="{given} is the lag and the lead together. But both start at the beam and run side by side: take "
            "the shorter one from the longer.",
        ),
        Slip(
            name="from the hand",
            value=lambda v: fall_time(v.height_cm / 100) - v.lag_ms / 1000,
            reply="{given} compares the lag with the whole fall from the hand. The camera hears of the kumquat only "
            "at the beam.",
        ),
        thousandth(),
    ),
    hints=(
        "Two clocks start at the beam: the kumquat's and the camera's. Which one is longer, and by how much?",
        "The kumquat's is the lead: √(2·h/g) for {height_cm} cm, less the same for the way from the hand to the beam.",
    ),
    worked=lambda v: (
        f"The lead is {show(fall_time(v.height_cm / 100), 'ms', 4)} − "
        f"{show(fall_time((v.height_cm - v.beam_cm) / 100), 'ms', 4)} = {show(_lead(v), 'ms')}. The camera takes "
        f"{v.lag_ms} ms. So the flash is late by {v.lag_ms} − {show(_lead(v), 'ms')} = {show(_too_late(v), 'ms')}. No "
        "delay can make that less; a delay of nothing is the least there is."
    ),
    meaning="That much earlier the signal would have to come. You get it from a higher beam or a shorter lag, and "
    "from no delay.",
    see="Why",
)

SPREAD = Number(
    name="spread",
    prompt="A camera without a mirror begins its exposure with the next picture of its viewfinder. The viewfinder "
    "shows {per_second} pictures a second; everything else repeats without any scatter. The kumquat passes the frame "
    "at {speed} m/s. How far apart can it stand in two of your photographs, at most?",
    draw={"speed": (3.0, 2.0, 2.5, 4.0), "per_second": (60, 120, 30, 50, 100)},
    answer=lambda v: v.speed / v.per_second,
    unit="mm",
    slips=(
        half(
            "{given} is how far it may stand from the middle, up or down. One photograph may be early and the next "
            "one late: the distance is both together."
        ),
        Slip(
            name="multiplied for divided",
            value=lambda v: v.speed * v.per_second,
            reply="{given}: you multiplied. More pictures a second mean less waiting, so the number of pictures must "
            "divide.",
        ),
        Slip(
            name="turned round",
            value=lambda v: 1 / (v.speed * v.per_second),
            reply="You divided by the speed. A faster kumquat gets farther in the same time, so the speed multiplies.",
        ),
        thousandth("mm", "m"),
    ),
    hints=(
        "How long can the camera have to wait for the next picture of its viewfinder?",
        "In that time, 1/{per_second} s, the kumquat falls on at {speed} m/s.",
    ),
    worked=lambda v: (
        f"The wait lies anywhere between nothing and 1/{v.per_second} s = {show(1 / v.per_second, 'ms')}. In that "
        f"time the kumquat moves {v.speed:g} m/s · {show(1 / v.per_second, 'ms')} = "
        f"{show(v.speed / v.per_second, 'mm')}. "
        "All places in between are equally likely: it is an even scatter, not a bell-shaped one."
    ),
    meaning=NUMBERS.fill(
        "Compare that with the height of your frame, [[frame to 1 mm]] in the scene. No delay and no practice makes it "
        "less."
    ),
    see="Extra: why a camera without a mirror scatters so much",
)


def _dark(v):
    return (v.travel_ms - 1000 / v.part) / v.travel_ms


DARK = Number(
    name="dark_band",
    prompt="The first curtain of a shutter takes {travel_ms} ms to cross the frame, and the second one follows as "
    "fast. You set 1/{part} s. The flash is short and fires when the first curtain has arrived. Which share of the "
    "frame stays dark? Two digits are enough.",
    draw={"travel_ms": (3.0, 2.5, 4.0, 5.0), "part": (500, 400, 640, 800, 1000)},
    keep=lambda v: 1000 / v.part < 0.9 * v.travel_ms,
    answer=_dark,
    # A share may be typed as 0.5 or as 50 %.
    unit="",
    digits=2,
    slips=(
        Slip(
            name="rest for part",
            value=lambda v: 1 - _dark(v),
            reply="{given} is the part that is lit: the slit between the two curtains. What is left of the frame?",
        ),
        Slip(
            name="share of the wrong whole",
            value=lambda v: (v.travel_ms - 1000 / v.part) / (1000 / v.part),
            reply="You divided by the exposure. The whole is the frame, and the second curtain needs {travel_ms} ms "
            "to cross all of it.",
        ),
        Slip(
            name="per cent without its sign",
            times=100,
            reply="{given} frames would be dark. If you mean per cent, write the % behind the number.",
        ),
        Slip(
            name="hundredth",
            times=0.01,
            reply="{given}: right digits, but a hundred times too small. Half of the frame is 0.5, or 50 %.",
        ),
    ),
    hints=(
        "The second curtain starts 1/{part} s after the first. How long has it been on its way when the flash fires?",
        "It crosses the frame in {travel_ms} ms. What share of that time has it had?",
    ),
    worked=lambda v: (
        f"1/{v.part} s are {show(1 / v.part, 'ms')}. When the first curtain arrives after {v.travel_ms:g} ms, the "
        f"second one has been on its way for {v.travel_ms:g} − {show(1 / v.part, 'ms')} = "
        f"{show(v.travel_ms / 1000 - 1 / v.part, 'ms')}. It has covered that share of {v.travel_ms:g} ms, "
        f"{show(_dark(v), '%')}. The frame is never open as a whole: the speed is faster than the sync speed."
    ),
    meaning="A longer exposure costs nothing here. In a dark room the flash makes the picture, not the shutter speed.",
    see="Extra: the first curtain",
)

exercises = Exercises("camera", (FOUR_CAMERAS, TOO_LATE, SPREAD, DARK, LOWEST_BEAM, RESCUE))
