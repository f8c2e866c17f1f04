"""What can be dragged in the lesson `start`."""

from pathlib import Path

from lessons.start.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.start.start_picture import StartPicture
from splashlib.shoot import change
from splashlib.shoot.files.learner_files import is_own

TEXT = Path(__file__).with_name("text.md")

CONTROLS = (
    Span("drop.release_height", 10, 80, 0.5),
    Span("beam.height", 1, 60, 0.5),
    Span("trigger.delay", 0, 300, 0.5),
    "flashes.0.power",
    "camera.style",
)
DECIDED = ("drop.release_height", "beam.height", "trigger.delay", "flashes.0.power", "camera.style")


def start(setup):
    """The set-up that the panel starts from: the learner's own, else the scene with its mirror down."""
    return setup if is_own(setup) else change(setup, "camera.style", "mirror")


def panel():
    """Build the panel."""
    return begin(_panel)


def _panel(setup):
    return live(
        StartPicture(),
        controls=CONTROLS,
        setup=start(setup),
        title="One drop, from hand to picture",
        steps=steps(TEXT, panel="start-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def keep():
    """Show the card that writes what was dragged into the learner's own set-up."""
    return keep_panels(shown, decided=DECIDED)
