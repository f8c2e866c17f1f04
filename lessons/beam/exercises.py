"""The questions of the lesson `beam`: delay, what is left of the hand, the lowest beam, what misses, a place."""

from lessons.beam.numbers import NUMBERS
from lessons.beam.place import PLACE
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Number, Option, Slip
from splashlib.classroom.questions.slips import thousandth
from splashlib.classroom.questions.wording import show
from splashlib.physics.air.release import hand_in_picture
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_speed, fall_time

TWO_BEAMS = Choice(
    name="two_beams",
    prompt="A kumquat is let go 45 cm above the water. One day the beam is 2 cm under it, the next day 12 cm above the "
    "water. Each time the delay is right. Then your hand is 3 mm too high. On which day is the kumquat farther out of "
    "place in the picture?",
    options=(
        Option(
            key="under the hand",
            text="With the beam under the hand",
            right=True,
            reply=NUMBERS.fill(
                "It is [[at_43.lower to 0.1 mm]] too low. With the beam 12 cm above the water it is "
                "[[lower.at_contact to 0.1 mm]] too low."
            ),
        ),
        Option(
            key="near the water",
            text="With the beam near the water, because it falls faster there",
            reply=NUMBERS.fill(
                "It does fall faster there. So it passes the last 12 cm in a time that hardly changes: "
                "[[at_12.sooner to 0.01 ms]] less, in which it falls [[lower.at_contact to 0.1 mm]]."
            ),
        ),
        Option(
            key="both alike",
            text="On both days alike: 3 mm",
            reply="3 mm it would be if the clock started when you let go. A beam changes that, and not always for the "
            "better.",
        ),
        Option(
            key="neither",
            text="On neither: the beam starts the clock afresh",
            reply="It does. But a beam cannot know how fast the kumquat is when it comes by, and from higher up it is "
            "faster.",
        ),
    ),
    hints=("When the hand is higher, what is different at the moment when the beam is broken?",),
    worked=NUMBERS.fill(
        "From 3 mm higher the kumquat is faster at the beam, and the light comes too late for it. 2 cm under the hand "
        "it is still slow, and 3 mm make much of a difference: it reaches the water [[at_43.sooner to 0.1 ms]] sooner, "
        "that is [[at_43.lower to 0.1 mm]] of its way. 12 cm above the water it is fast already: "
        "[[at_12.sooner to 0.01 ms]], [[lower.at_contact to 0.1 mm]]. The low beam repeats better."
    ),
    see="Drag",
)


def _lead(v):
    return fall_time(v.height_cm / 100) - fall_time((v.height_cm - v.beam_cm) / 100)


DELAY = Number(
    name="delay",
    prompt="A kumquat is let go {height_cm} cm above the water, the beam is {beam_cm} cm above the water. From the "
    "beam to the light your rig takes {lag_ms} ms by itself. Which delay puts the light on the moment when the fruit "
    "touches the water? Leave the air out.",
    draw={"height_cm": (45, 40, 50, 60), "beam_cm": (12, 15, 20, 25), "lag_ms": (20, 10, 15, 40, 50)},
    keep=lambda v: _lead(v) > (v.lag_ms + 3) / 1000,
    answer=lambda v: _lead(v) - v.lag_ms / 1000,
    unit="ms",
    slips=(
        Slip(
            name="lag forgotten",
            value=_lead,
            reply="{given} is the lead, all the time from the beam to the water. {lag_ms} ms of it pass before the "
            "light comes in any case. The delay is only what is left.",
        ),
        Slip(
            name="lag added",
            value=lambda v: _lead(v) + v.lag_ms / 1000,
            reply="You added the lag. The light is late by {lag_ms} ms as it is; so wait that much less, not more.",
        ),
        Slip(
            name="wrong sign",
            times=-1,
            reply="The size is right. But a delay is a wait: the fruit needs longer than your rig, so the number is "
            "positive.",
        ),
        Slip(
            name="from rest",
            value=lambda v: fall_time(v.beam_cm / 100) - v.lag_ms / 1000,
            reply="You let the fruit start at the beam, at rest. It comes from {height_cm} cm and is fast there. Work "
            "out two times from the hand and subtract.",
        ),
        Slip(
            name="from the hand",
            value=lambda v: fall_time(v.height_cm / 100) - v.lag_ms / 1000,
            reply="{given} counts from the hand. The clock starts at the beam; take away the time that the fruit needs "
            "to get there.",
        ),
        thousandth(),
    ),
    hints=(
        "First the lead: how long is it from the beam to the water? Two times from the hand, one taken from the other.",
        "The lead is lag and delay together. The lag is {lag_ms} ms.",
    ),
    worked=lambda v: (
        f"To the water: √(2 · {v.height_cm / 100:.2f} / 9.81) = {show(fall_time(v.height_cm / 100), 'ms', 4)}. To the "
        f"beam, {v.height_cm - v.beam_cm} cm down: {show(fall_time((v.height_cm - v.beam_cm) / 100), 'ms', 4)}. The "
        f"lead is the difference, {show(_lead(v), 'ms', 4)}. {v.lag_ms} ms of it the rig takes; the delay is the rest, "
        f"{show(_lead(v) - v.lag_ms / 1000, 'ms')}. Lag and delay together are always as long as the lead."
    ),
    meaning="Move the beam, and the delay must move with it. They are one decision.",
    see="Why",
)


def _ratio(v):
    """How many times faster the fruit is at the water than at the beam."""
    return (v.height_cm / (v.height_cm - v.beam_cm)) ** 0.5


HAND = Number(
    name="hand_in_picture",
    prompt="The kumquat should be let go {height_cm} cm above the water, the beam is {beam_cm} cm above the water. The "
    "light comes when the fruit should just touch the water. Now the hand is {off_mm} mm too high. How far is the "
    "fruit below the place where it should be? Two digits are enough.",
    draw={"height_cm": (45, 40, 60, 80), "beam_cm": (20, 12, 25, 30, 35), "off_mm": (3, 4, 5, 6)},
    keep=lambda v: v.height_cm - v.beam_cm >= 10,
    answer=lambda v: v.off_mm / 1000 * hand_in_picture(v.height_cm / 100, beam_height=v.beam_cm / 100),
    unit="mm",
    digits=2,
    slips=(
        Slip(
            name="hand for picture",
            value=lambda v: v.off_mm / 1000,
            reply="{given} is how far the hand was off. The clock starts at the beam, not at the hand; ask how much "
            "sooner the fruit gets from the beam to the water.",
        ),
        Slip(
            name="one not subtracted",
            value=lambda v: v.off_mm / 1000 * _ratio(v),
            reply="You took {off_mm} mm times the ratio of the speeds. The fruit that starts higher also has "
            "{off_mm} mm more to fall. Take those away again.",
        ),
        Slip(
            name="no root",
            value=lambda v: v.off_mm / 1000 * (_ratio(v) ** 2 - 1),
            reply="{given} comes from the ratio of the heights fallen. Speeds go with the root of the height.",
        ),
        Slip(
            name="height for fall",
            value=lambda v: v.off_mm / 1000 * ((v.height_cm / v.beam_cm) ** 0.5 - 1),
            reply="You put the beam's height, {beam_cm} cm, where the fall down to the beam belongs. How far does the "
            "fruit fall before it breaks the beam?",
        ),
        Slip(
            name="wrong sign",
            times=-1,
            reply="The size is right. From higher up the fruit is faster at the beam, and so it is lower when the "
            "light comes; lower was asked for, and counts positive.",
        ),
    ),
    hints=(
        "From the beam to the water takes √(2h/g) − √(2(h−b)/g). How much less is that for a hand {off_mm} mm higher?",
        "Or in one step: {off_mm} mm, times the speed at the water over the speed at the beam, less 1.",
    ),
    worked=lambda v: (
        f"The fruit falls {v.height_cm} cm to the water and {v.height_cm - v.beam_cm} cm to the beam, so at the water "
        f"it is √({v.height_cm}/{v.height_cm - v.beam_cm}) = {_ratio(v):.3f} times as fast. "
        f"{v.off_mm} mm · ({_ratio(v):.3f} − 1) = "
        f"{show(v.off_mm / 1000 * hand_in_picture(v.height_cm / 100, beam_height=v.beam_cm / 100), 'mm', 2)}. "
        f"So much is left in the picture of a hand that was {v.off_mm} mm too high."
    ),
    meaning=lambda v: (
        f"Of every millimetre of the hand, {hand_in_picture(v.height_cm / 100, beam_height=v.beam_cm / 100):.2f} mm "
        "get into the picture. A lower beam leaves less."
    ),
    see="Why",
)


def _lowest(v):
    return v.height_cm / 100 - _down(v)


def _down(v):
    """How far the fruit may have fallen when the beam is broken [m]."""
    return 0.5 * GRAVITY * (fall_time(v.height_cm / 100) - v.lag_ms / 1000) ** 2


LOWEST = Number(
    name="lowest",
    prompt="From the beam to the light your rig takes {lag_ms} ms, even with the delay at zero. The kumquat is let go "
    "{height_cm} cm above the water, and is to be seen touching the water. How high above the water must the beam "
    "be, at least? Leave the air out.",
    draw={"height_cm": (45, 30, 40, 50, 60, 80), "lag_ms": (100, 40, 50, 60, 80)},
    answer=_lowest,
    unit="cm",
    side="least",
    slips=(
        Slip(
            name="from rest",
            value=lambda v: 0.5 * GRAVITY * (v.lag_ms / 1000) ** 2,
            reply="{given} is what a fruit falls in {lag_ms} ms from rest. Yours is fast by then, and covers much more "
            "in its last {lag_ms} ms.",
        ),
        Slip(
            name="at full speed",
            value=lambda v: fall_speed(v.height_cm / 100) * v.lag_ms / 1000,
            reply="{given} would be right at the speed that the fruit has at the water. Higher up it is slower, so "
            "the way is a little shorter.",
        ),
        Slip(
            name="from the hand",
            value=_down,
            reply="{given} is how far under the hand the beam may be. Asked for is its height above the water.",
        ),
        Slip(
            name="hundredfold",
            times=100,
            reply="{given}: right digits, but a hundred times too much. 1 m is 100 cm.",
        ),
    ),
    hints=(
        "How long is the whole fall? {lag_ms} ms before its end the beam must be broken.",
        "How far has the fruit fallen by that time? The rest is above the water.",
    ),
    worked=lambda v: (
        f"The whole fall takes {show(fall_time(v.height_cm / 100), 'ms', 4)}. The beam must be broken {v.lag_ms} ms "
        f"before its end, after {show(fall_time(v.height_cm / 100) - v.lag_ms / 1000, 'ms', 4)}. By then the fruit "
        f"has fallen ½ · 9.81 · t² = {show(_down(v), 'cm')}; so the beam is at {v.height_cm} − "
        f"{show(_down(v), 'cm')} = {show(_lowest(v), 'cm')}. A slow camera needs a high beam, near "
        "the hand, and then the drops repeat less well."
    ),
    meaning="Add something for the lags that are late now and then. The panel takes two scatters.",
    see="Why",
)

MISSED = Choice(
    name="missed",
    prompt="Drops of milk, 5 mm across, fall through a beam of 3 mm; half of it must be blocked. Of thirty drops about "
    "sixteen give no picture at all. The others are just where they should be. What do you change first?",
    options=(
        Option(
            key="guide",
            text="Guide the drops to the middle of the beam",
            right=True,
            reply="Yes. A drop that passes with its middle more than 2.4 mm beside the beam does not block half of it.",
        ),
        Option(
            key="longer delay",
            text="Set a longer delay",
            reply="A delay moves all pictures, and those that you get are right. Where there is none, nothing has "
            "started the clock.",
        ),
        Option(
            key="wider beam",
            text="Make the beam 12 mm wide, so that more drops meet it",
            reply="They would meet it, but half of 12 mm is 6 mm, and a drop of 5 mm can never block so much. Then "
            "there is no picture at all.",
        ),
        Option(
            key="more flash",
            text="Turn up the flash",
            reply="The frames are not dark because there is too little light: the flash was never fired.",
        ),
    ),
    hints=("What has to happen before any clock starts?", "How large is the drop, and how far to the side does it go?"),
    worked="No picture means no trigger: the drop passed beside the beam. It falls 4 mm to one side or the other (one "
    "scatter) and is only 2.5 mm from its middle to its edge. A steady nozzle right above the beam, or a tube, keeps "
    "it in the middle. Guide what is small; a kumquat of 35 mm still meets the beam when it is 4 mm aside.",
    see="At the set",
)

exercises = Exercises("beam", (TWO_BEAMS, DELAY, HAND, LOWEST, MISSED, PLACE))
