"""What can be dragged in the lesson `beam`."""

from pathlib import Path

from lessons.beam.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Control, Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.beam.beam_picture import BeamPicture, bodies_of, under_hand
from splashlib.picture.photo.photograph import overlaid
from splashlib.shoot.decide.spread import aim

TEXT = Path(__file__).with_name("text.md")

# The delay belongs to the beam, to the camera and to the instant, so they are kept together.
DECIDED = ("beam.height", "trigger.delay", "camera.style", "drop.release_scatter")
WANTED = Control("wanted", "Where the light finds it, over the water", "cm", 0, 6, 0.5, 2)
SERIES = Control("seed", "Which thirty drops", "", 1, 20, 1, 1)


def panel():
    """Build the panel. Its beam stays under the hand of the set-up."""
    return begin(_panel)


def _panel(setup):
    highest = max(round(200 * under_hand(setup)) / 2, 1.5)
    controls = (
        Span("beam.height", 1, highest, 0.5),
        "camera.style",
        WANTED,
        Span("drop.release_scatter", 0, 10, 0.5),
        Pick("body", "What falls", bodies_of(setup.drop), setup.drop.name),
        SERIES,
    )
    return live(
        BeamPicture(overlay=overlaid),
        controls=controls,
        setup=setup,
        title="Thirty drops, two beams",
        steps=steps(TEXT, panel="beam-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def chosen(shown):
    """The set-up that a panel stands for: its beam, and the delay that puts the light where it is wanted.

    The delay is that of the learner's own body, whatever else was dropped for comparison.
    """
    return aim(shown.setup, height=shown.values["wanted"]).setup


def keep():
    """Show the card that writes the beam and its delay into the learner's own set-up."""
    return keep_panels(shown, decided=DECIDED, chosen=chosen)
