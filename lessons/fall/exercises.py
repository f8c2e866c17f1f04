"""The questions of the lesson `fall`: speed from height and back, the share of the hand, the share of the air."""

from lessons.fall.faster import FASTER
from lessons.fall.numbers import NUMBERS
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Formula, Number, Option, Slip
from splashlib.classroom.questions.slips import thousandth
from splashlib.classroom.questions.wording import show
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_speed, fall_time
from splashlib.shoot import arrival, tea_house, with_body

SPEED = Number(
    name="speed",
    prompt=(
        "A glass marble is let go {height_cm} cm above the water. How fast is it when it meets the water? "
        "Leave the air out."
    ),
    draw={"height_cm": (10, 15, 20, 30, 40, 50, 60, 80, 100, 120)},
    answer=lambda v: fall_speed(v.height_cm / 100),
    unit="m/s",
    slips=(
        Slip(
            name="no root",
            value=lambda v: 2 * GRAVITY * v.height_cm / 100,
            reply=("{given} is 2·g·h without the root. The unit tells: m/s² times m is m²/s². Take the root of it."),
        ),
        Slip(
            name="centimetres for metres",
            value=lambda v: fall_speed(v.height_cm),
            reply=(
                "{given}: {height_cm} went in as metres. The marble falls {height_cm} cm; write that in metres first."
            ),
        ),
        Slip(
            name="mean for final",
            times=0.5,
            reply="{given} is the mean speed, the height divided by the time. The marble starts from rest, "
            "so at the end it is twice as fast as on the average.",
        ),
        Slip(
            name="lost two",
            value=lambda v: (GRAVITY * v.height_cm / 100) ** 0.5,
            reply="{given} is √(g·h). A 2 got lost under the root.",
        ),
    ),
    hints=(
        "The law is v = √(2·g·h), with g = 9.81 m/s² and h in metres.",
        "{height_cm} cm: how many metres is that? Multiply it by 2 · 9.81, and take the root last.",
    ),
    worked=lambda v: (
        f"{v.height_cm} cm are {v.height_cm / 100:.2f} m. √(2 · 9.81 · {v.height_cm / 100:.2f}) = "
        f"√{digits(2 * GRAVITY * v.height_cm / 100)} = {show(fall_speed(v.height_cm / 100), 'm/s')}. Four "
        "times the height would only double the speed."
    ),
    meaning=lambda v: (
        f"In a flash of 1/10 000 s it moves {show(fall_speed(v.height_cm / 100) / 1e4, 'mm', 2)}. The "
        "faster the water is hit, the shorter the flash must be."
    ),
    see="Why",
)


def digits(value):
    """A number inside a worked line."""
    return f"{value:.4g}"


HEIGHT = Formula(
    name="height",
    prompt="You know the splash that you want, and so the speed *v* at the water. From which height *h* "
    "must the body be let go? Write *h* with *v* and *g*, without the air.",
    gives="h",
    symbols={"v": "speed at the water", "g": "gravity"},
    domain={"v": (1, 6), "g": (GRAVITY, GRAVITY)},
    answer="v^2/(2*g)",
    slips=(
        Slip(
            name="lost two",
            value="v^2/g",
            reply="{given} is twice as high as it should be. Square v = √(2·g·h): the 2 stays with g and h.",
        ),
        Slip(
            name="lost square",
            value="v/(2*g)",
            reply="{given} has the unit of a time, m/s divided by m/s². A root goes away by squaring both "
            "sides: v must be squared, too.",
        ),
        Slip(
            name="turned round",
            value="2*g/v^2",
            reply=(
                "{given} gives less height for more speed. Divide the square of the speed by 2·g, not the "
                "other way round."
            ),
        ),
        Slip(
            name="law with letters swapped",
            value="sqrt(2*g*v)",
            reply=("{given} is the law for the speed with v in the place of h. Solve v = √(2·g·h) for h instead."),
        ),
        Slip(
            name="time for height",
            value="v/g",
            reply="{given} is the time that the body needs to get that fast. The height is asked for.",
        ),
    ),
    hints=("Begin with v = √(2·g·h), and square both sides.", "Now v² = 2·g·h. What must go to the other side?"),
    worked="Square v = √(2·g·h) to get v² = 2·g·h, and divide by 2·g: h = v²/(2·g). For 3 m/s that is "
    "9/19.62 = 0.46 m; for 6 m/s it is 1.83 m. Twice the speed costs four times the height.",
    meaning="3 m/s need 46 cm, and twice that speed needs 1.83 m: four times as much.",
    see="Why",
)


def _later(v):
    """How much later the contact comes when the hand is too high [s]."""
    return fall_time(v.height_cm / 100 + v.off_mm / 1000) - fall_time(v.height_cm / 100)


HAND = Number(
    name="hand",
    prompt="You meant to let go {height_cm} cm above the water, but your hand was {off_mm} mm too high. How "
    "much later does the kumquat touch the water? Count from the hand, and leave the air out. Two digits "
    "are enough.",
    draw={"height_cm": (20, 30, 45, 60, 80, 100), "off_mm": (3, 5, 10, 15)},
    answer=_later,
    unit="ms",
    digits=2,
    slips=(
        Slip(
            name="from rest",
            value=lambda v: fall_time(v.off_mm / 1000),
            reply="{given} is the time for {off_mm} mm from rest. But those last {off_mm} mm are fallen at "
            "full speed, just above the water.",
        ),
        Slip(
            name="mean for final",
            times=2,
            reply=(
                "{given} would be right at the mean speed of the fall. At the water the fruit is twice as fast as that."
            ),
        ),
        Slip(
            name="whole fall",
            value=lambda v: fall_time(v.height_cm / 100 + v.off_mm / 1000),
            reply=(
                "{given} is the whole fall from the hand as it was. Asked for is the difference from the "
                "fall that you meant."
            ),
        ),
        Slip(
            name="wrong sign",
            times=-1,
            reply=(
                "The size is right. But a hand that is too high makes the fruit later, not earlier: the "
                "number is positive."
            ),
        ),
        thousandth(),
    ),
    hints=(
        "Two ways lead there. Take two fall times away from each other; or ask how long the fruit needs for "
        "{off_mm} mm at the speed that it has at the water.",
        "The speed at the water is √(2·9.81·h), with h = {height_cm} cm in metres.",
    ),
    worked=lambda v: (
        f"From {v.height_cm + v.off_mm / 10:g} cm the fall takes "
        f"{show(fall_time(v.height_cm / 100 + v.off_mm / 1000), 'ms', 5)}, from {v.height_cm} cm "
        f"{show(fall_time(v.height_cm / 100), 'ms', 5)}: {show(_later(v), 'ms', 2)} more. Or the short way: at the "
        f"water the fruit does {show(fall_speed(v.height_cm / 100), 'm/s')}, and {v.off_mm} mm at that speed take "
        f"{show(v.off_mm / 1000 / fall_speed(v.height_cm / 100), 'ms', 2)}, which is as good. The higher the "
        "hand, the faster the fruit passes those millimetres, and the less they matter."
    ),
    meaning="The same slip of the hand costs less time from higher up, because the fruit passes it faster.",
    see="Why",
)


def _behind(v, name):
    return show(arrival(with_body(tea_house(), name).drop, v.height_cm / 100).behind, "mm", 2)


HELD_BACK = Choice(
    name="held_back",
    prompt="A kumquat of 35 mm, a glass marble of 16 mm and a drop of milk of 5 mm are let go together, "
    "{height_cm} cm above the water. The air holds one of them back by more than its own size. Which one?",
    draw={"height_cm": (45, 60, 80, 100)},
    options=(
        Option(
            key="drop",
            text="The drop of milk",
            right=True,
            reply=lambda v: f"Yes. It is {_behind(v, 'drop of milk')} behind. It has little weight behind its front.",
        ),
        Option(
            key="largest front",
            text="The kumquat: it meets the most air",
            reply=lambda v, given: (
                f"It meets the most air, but it has the weight for it, and is only {_behind(v, 'kumquat')} "
                "behind. What counts is the weight behind each bit of the front: density times size."
            ),
        ),
        Option(
            key="densest",
            text="The glass marble: it is the densest",
            reply=lambda v, given: (
                f"The marble falls nearly as if there were no air; it is only {_behind(v, 'glass marble')} "
                "behind. Density helps a body through the air."
            ),
        ),
        Option(
            key="all alike",
            text="None: all bodies fall alike",
            reply=lambda v, given: (
                f"Without air they would. With air the kumquat is {_behind(v, 'kumquat')} behind, and one "
                "of them much more. Try the panel."
            ),
        ),
    ),
    hints=("Which of them has the least weight behind each square centimetre of its front?", "Try it in the panel."),
    worked=lambda v: (
        f"Behind are the kumquat by {_behind(v, 'kumquat')}, the marble by {_behind(v, 'glass marble')}, "
        f"the drop of milk by {_behind(v, 'drop of milk')}, at the instant when a fall without air ends. "
        "The drop is as dense as the kumquat but a seventh of its size. For a fruit you may leave the "
        "air out, for a drop you may not."
    ),
    meaning="For drops, take the air into account, or let a beam near the water do the timing.",
    see="Why",
)

FRUIT_AND_BALL = Choice(
    name="fruit_and_ball",
    prompt="A kumquat and a table-tennis ball are let go together, 45 cm above the water. Where is the ball "
    "when the kumquat touches the water?",
    options=(
        Option(
            key="together",
            text="It touches the water, too",
            reply=NUMBERS.fill(
                "Without air it would. But the ball is light for its size, and still [[ball.up to 1 mm]] up."
            ),
        ),
        Option(
            key="behind",
            text="One or two centimetres above the water",
            right=True,
            reply=NUMBERS.fill("[[ball.up to 1 mm]], nearly half its own size: plain to see in a picture."),
        ),
        Option(
            key="far behind",
            text="About half way, twenty centimetres up",
            reply=(
                NUMBERS.fill(
                    "So far the air would hold back something much lighter. In a third of a second the ball loses "
                    "[[ball.up to 1 mm]]."
                )
            ),
        ),
    ),
    hints=("Which of the two has more weight behind its front? How long does the fall take?",),
    worked=NUMBERS.fill(
        "The kumquat touches the water after [[fruit.time to 1 ms]], the ball [[ball.later to 1 ms]] later. At almost "
        "[[contact_speed to 1 m/s]] those [[ball.later to 1 ms]] are [[ball.up to 1 mm]]. So much the air takes from a "
        "ball that is light for its size; from the kumquat it takes less than 2 mm. (The panel says "
        "[[ball.behind to 1 mm]]: it looks when a fall without air would end, [[fruit.late to 0.1 ms]] before the "
        "kumquat is down.)"
    ),
    see="Drag",
)

exercises = Exercises("fall", (FRUIT_AND_BALL, SPEED, HEIGHT, HAND, HELD_BACK, FASTER))
