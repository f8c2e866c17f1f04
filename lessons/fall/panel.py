"""What can be dragged in the lesson `fall`."""

from pathlib import Path

from lessons.fall.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.fall.fall_picture import FallPicture
from splashlib.shoot import change, change_all
from splashlib.shoot.chain.arrival import fallers

TEXT = Path(__file__).with_name("text.md")

BODY = ("name", "form", "diameter", "length", "hang", "density", "surface")
DECIDED = ("drop.release_height", *(f"drop.{name}" for name in BODY))

HEIGHT = Span("drop.release_height", 10, 150, 0.5)


def start(setup):
    """The set-up that the panel starts from. Its beam lies low, so that the hand may go anywhere above it."""
    return change(setup, "beam.height", setup.beam.width / 2)


def panel():
    """Build the panel."""
    return begin(_panel)


def _panel(setup):
    drop = setup.drop
    bodies = fallers(drop)
    what = Pick("body", "What falls", tuple((name, name) for name in bodies), drop.name)
    title = "How long it falls, and how fast"
    return live(
        FallPicture(bodies),
        controls=(HEIGHT, what),
        setup=start(setup),
        title=title,
        steps=steps(TEXT, panel="fall-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def chosen(shown):
    """The set-up that a panel stands for: the body that was picked, under the hand as high as it was dragged."""
    drop = fallers(shown.setup.drop)[shown.values["body"]]
    return change_all(shown.setup, {f"drop.{name}": getattr(drop, name) for name in BODY})


def keep():
    """Show the card that writes the body and its release height into the learner's own set-up."""
    return keep_panels(shown, decided=DECIDED, chosen=chosen)
