"""What can be dragged in the lesson `room`: the room gets darker, in each camera style."""

from pathlib import Path

from lessons.room.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Pick, Span, Steps
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.physics.stops import SHUTTERS
from splashlib.picture.room.room_picture import RoomPicture

TEXT = Path(__file__).with_name("text.md")

DECIDED = ("room.lux", "camera.shutter", "camera.open_time")
LIGHTS = (
    0.02,
    0.05,
    0.1,
    0.15,
    0.2,
    0.3,
    0.5,
    0.7,
    1,
    1.5,
    2,
    3,
    5,
    7,
    10,
    15,
    20,
    30,
    50,
    70,
    100,
    150,
    200,
    300,
    500,
)
TIMES = tuple(sorted(mark.marked for mark in SHUTTERS if 1 / 1000 <= mark.marked <= 1 / 15))
OTHER = (
    ("nothing", None),
    ("an indicator lamp, 20 cm away", "indicator"),
    ("the screen of a telephone, 1 m away", "telephone"),
    ("the modelling lamp of a studio head", "modelling"),
    ("the beam, in the frame", "beam"),
    ("a second flash", "again"),
)


def panel():
    """Build the panel; it starts from the learner's own set-up."""
    return begin(_panel)


def _panel(setup):
    controls = (
        Steps("room.lux", LIGHTS),
        "camera.style",
        Span("camera.open_time", 1, 10, 0.5),
        Steps("camera.shutter", TIMES),
        "flashes.0.power",
        "camera.iso",
        Pick("other", "What else gives light", OTHER),
    )
    return live(
        RoomPicture(),
        controls=controls,
        setup=setup,
        title="How dark is dark enough",
        steps=steps(TEXT, panel="room-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def keep():
    """Show the card that writes the light of the room and the two times into the learner's own set-up."""
    return keep_panels(shown, decided=DECIDED)
