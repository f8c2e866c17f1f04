"""The course: its lessons in order. Each lesson is a folder here; lessons never import each other.

A lesson keeps its number and its name for good: notebooks are numbered by it, progress is kept by name.
A lesson that is not written yet has no folder with a text.md, and is simply left out of notebooks and lists.
"""

from dataclasses import dataclass
from pathlib import Path

from splashlib.classroom.prose.reading_time import work_in


@dataclass(frozen=True, kw_only=True)
class Lesson:
    """One row of the course."""

    number: int
    name: str
    """The folder's name, and the name that progress is kept under."""
    title: str
    decides: str
    """What a learner can decide afterwards; completes the sentence "You decide ..."."""
    planned: int = 0
    """How long it will take [min], for as long as it is not written."""

    @property
    def text(self) -> Path:
        """Where its words stand, once it is written."""
        return Path(__file__).with_name(self.name) / "text.md"

    @property
    def written(self) -> bool:
        """Whether it is there."""
        return self.text.is_file()

    @property
    def minutes(self) -> int:
        """How long it takes without what is extra [min]: measured where it is written, else as planned."""
        return work_in(self.text.read_text(encoding="utf-8"))["core"].minutes if self.written else self.planned


COURSE = (
    Lesson(
        number=1,
        name="start",
        title="One drop, from hand to picture",
        decides="whether your rig can catch the drop at all, and which delay to start from",
    ),
    Lesson(
        number=2,
        name="fall",
        title="How fast it falls",
        decides="what to drop, and from how high",
    ),
    Lesson(
        number=3,
        name="beam",
        title="Where the beam goes",
        decides="how high over the water the beam goes, and the delay that belongs to it",
    ),
    Lesson(
        number=4,
        name="camera",
        title="Is the camera fast enough?",
        decides="whether the beam releases the camera, or fires the flash into an open shutter",
    ),
    Lesson(
        number=5,
        name="room",
        title="How dark is dark enough",
        decides="the shutter speed, and how dark the room must be for it",
    ),
    Lesson(
        number=6,
        name="splash",
        title="What the water does",
        decides="the delay for the stage you want, the hold-off, and the size of the vessel",
    ),
    Lesson(
        number=7,
        name="freeze",
        title="How short a flash freezes",
        decides="the flash power at which droplets are points and not streaks",
    ),
    Lesson(
        number=8,
        name="stops",
        title="Is there enough light?",
        decides="flash distance, diffuser, ISO, and whether you need a second flash",
    ),
    Lesson(
        number=9,
        name="light",
        title="Light for fruit, light for water",
        decides="where the lamps and the cards stand, and how black the background gets",
        planned=20,
    ),
    Lesson(
        number=10,
        name="sharp",
        title="What is sharp, and how much of it",
        decides="the aperture, the lens, the camera distance and the framing",
        planned=20,
    ),
    Lesson(
        number=11,
        name="glass",
        title="Through the glass",
        decides="where to focus, and where the black card goes",
        planned=15,
    ),
    Lesson(
        number=12,
        name="measure",
        title="Measure your own rig",
        decides="which lag and which scatter your rig has, from a log of your test frames",
        planned=20,
    ),
    Lesson(
        number=13,
        name="diagnose",
        title="Read a test frame",
        decides="what to change when a frame is early, late, streaked, ghosted, doubled, dark or soft",
        planned=20,
    ),
    Lesson(
        number=14,
        name="repeat",
        title="How many drops a keeper costs",
        decides="which link to improve first, and how long to wait between two drops",
        planned=15,
    ),
    Lesson(
        number=15,
        name="practice",
        title="A practice shoot",
        decides="how to find the delay on a rig whose lag nobody has told you",
        planned=30,
    ),
    Lesson(
        number=16,
        name="plan",
        title="The shoot on one page",
        decides="everything that stands on the page beside your set, crop and print size too",
        planned=10,
    ),
    Lesson(
        number=90,
        name="for_teachers",
        title="For teachers",
        decides="how to run a workshop, and what to say about the mistakes that you will see",
    ),
)

TWO_HOURS = ("start", "beam", "camera", "room", "splash", "freeze", "stops", "plan")
"""The path for one evening, in the order of the numbers; every other lesson stands alone."""
BREAK = 10
"""Half-way on that path [min]."""
