"""The course: its lessons in order. Each lesson is a folder here; lessons never import each other.

A lesson keeps its number and its name for good: notebooks are numbered by it, progress is kept by name.
A lesson that is not written yet has no folder with a text.md, and is simply left out of notebooks and lists.
"""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One row of the course."""

    number: int
    name: str
    """The folder's name, and the name that progress is kept under."""
    title: str
    minutes: int
    decides: str
    """What a learner can decide afterwards; completes the sentence "You decide ..."."""


COURSE = (
    Lesson(
        number=1,
        name="start",
        title="One drop, from hand to picture",
        minutes=20,
        decides="whether your rig can catch the drop at all, and which delay to start from",
    ),
    Lesson(
        number=2,
        name="fall",
        title="How fast it falls",
        minutes=15,
        decides="what to drop, and from how high",
    ),
    Lesson(
        number=3,
        name="beam",
        title="Where the beam goes",
        minutes=15,
        decides="how high over the water the beam goes, and the delay that belongs to it",
    ),
    Lesson(
        number=4,
        name="camera",
        title="Is the camera fast enough?",
        minutes=15,
        decides="whether the beam releases the camera, or fires the flash into an open shutter",
    ),
    Lesson(
        number=5,
        name="room",
        title="How dark is dark enough",
        minutes=10,
        decides="the shutter speed, and how dark the room must be for it",
    ),
    Lesson(
        number=6,
        name="splash",
        title="What the water does",
        minutes=20,
        decides="the delay for the stage you want, the hold-off, and the size of the vessel",
    ),
    Lesson(
        number=7,
        name="freeze",
        title="How short a flash freezes",
        minutes=15,
        decides="the flash power at which droplets are points and not streaks",
    ),
    Lesson(
        number=8,
        name="stops",
        title="Is there enough light?",
        minutes=15,
        decides="flash distance, diffuser, ISO, and whether you need a second flash",
    ),
    Lesson(
        number=9,
        name="light",
        title="Light for fruit, light for water",
        minutes=20,
        decides="where the lamps and the cards stand, and how black the background gets",
    ),
    Lesson(
        number=10,
        name="sharp",
        title="What is sharp, and how much of it",
        minutes=20,
        decides="the aperture, the lens, the camera distance and the framing",
    ),
    Lesson(
        number=11,
        name="glass",
        title="Through the glass",
        minutes=15,
        decides="where to focus, and where the black card goes",
    ),
    Lesson(
        number=12,
        name="measure",
        title="Measure your own rig",
        minutes=20,
        decides="which lag and which scatter your rig has, from a log of your test frames",
    ),
    Lesson(
        number=13,
        name="diagnose",
        title="Read a test frame",
        minutes=20,
        decides="what to change when a frame is early, late, streaked, ghosted, doubled, dark or soft",
    ),
    Lesson(
        number=14,
        name="repeat",
        title="How many drops a keeper costs",
        minutes=15,
        decides="which link to improve first, and how long to wait between two drops",
    ),
    Lesson(
        number=15,
        name="practice",
        title="A practice shoot",
        minutes=30,
        decides="how to find the delay on a rig whose lag nobody has told you",
    ),
    Lesson(
        number=16,
        name="plan",
        title="The shoot on one page",
        minutes=10,
        decides="everything that stands on the page beside your set, crop and print size too",
    ),
    Lesson(
        number=90,
        name="for_teachers",
        title="For teachers",
        minutes=30,
        decides="how to run a workshop, and what to say about the mistakes that you will see",
    ),
)

TWO_HOURS = ("start", "camera", "beam", "splash", "room", "freeze", "stops", "plan")
"""The path for one evening, in this order; every other lesson stands alone."""
