"""Two questions for whoever runs a class: how often a full room flashes, and what to say to the commonest mistake."""

from lessons.for_teachers.numbers import NUMBERS
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import Choice, Number, Option, Slip
from splashlib.classroom.questions.wording import show

FLASHES = Number(
    name="flashes",
    prompt="In your workshop {rigs} sets stand in one dark room. Each drops once every {seconds} seconds, and all its "
    "heads fire together. How many flashes a second does the room see, on average? A flash a second is 1 Hz.",
    draw={"rigs": (4, 6, 8, 10, 12), "seconds": (3, 5, 8, 10, 15)},
    answer=lambda v: v.rigs / v.seconds,
    unit="Hz",
    digits=2,
    slips=(
        Slip(
            name="turned round",
            value=lambda v: v.seconds / v.rigs,
            reply="{given} would be {seconds} divided by {rigs}: the seconds from one flash to the next. Asked is how "
            "many come in one second.",
        ),
        Slip(
            name="one set alone",
            value=lambda v: 1 / v.seconds,
            reply="{given} is what one set does. There are {rigs} of them, and everybody sees them all.",
        ),
        Slip(
            name="per minute",
            value=lambda v: 60 * v.rigs / v.seconds,
            reply="{given} is right for a minute. Asked is one second.",
        ),
    ),
    hints=("How many flashes does the whole room see in {seconds} seconds?",),
    worked=lambda v: (
        f"In {v.seconds} s each of the {v.rigs} sets flashes once: {v.rigs} flashes in {v.seconds} s, "
        f"{show(v.rigs / v.seconds, 'Hz', 2)}. That is only the average. Sets that do not know of each other can "
        "flash close together, so let one person at a time call the drops."
    ),
    meaning="Stay far below three a second, since flashes of several sets can fall close together. Better: one "
    "person calls the drops, set by set.",
    see="A room full of people",
)

SAY = Choice(
    name="say",
    prompt="The beam is 12 cm above the water, the mirror is down, and the delay is already zero. The frame shows a "
    "splash and no kumquat. A learner asks for a shorter delay. What do you say first?",
    options=(
        Option(
            key="ask_lag",
            text="How long does the fruit need from the beam to the water, and how long does the camera need?",
            right=True,
            reply=NUMBERS.fill(
                "The learner finds out alone that [[mirror.lag to 1 ms]] do not fit into [[lead to 1 ms]], and that no "
                "delay helps."
            ),
        ),
        Option(
            key="give_answer",
            text="Take the beam up to 25 cm.",
            reply="That is right, and it teaches nothing: at the next set, with another camera, the learner asks "
            "again. Let them compare the two times.",
        ),
        Option(
            key="more_power",
            text="The flash is too weak. Try full power.",
            reply="The splash is well lit, so there is light enough. Full power only makes the flash longer.",
        ),
        Option(
            key="longer_delay",
            text="Try a longer delay; you have gone past it.",
            reply="A longer delay makes the light later still. The fruit has gone already.",
        ),
    ),
    hints=("What would let the learner answer the next question alone?",),
    worked=NUMBERS.fill(
        "Ask for the two times: [[lead to 1 ms]] from the beam to the water, [[mirror.lag to 1 ms]] for the camera. "
        "The lag is longer than the lead. So the beam must go up, or the lag must go: mirror up, or "
        "shutter held open."
    ),
    see="What learners get wrong, and why",
)

exercises = Exercises("for_teachers", (FLASHES, SAY))
