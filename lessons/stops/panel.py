"""What can be dragged in the lesson `stops`."""

from pathlib import Path

from lessons.stops.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.stops.stops_picture import StopsPicture
from splashlib.shoot import change, change_all, delay_for
from splashlib.shoot.decide.exposure_account import HEADS

TEXT = Path(__file__).with_name("text.md")

DECIDED = (
    "flashes.0.power",
    "flashes.0.distance",
    "flashes.0.shield",
    "flashes.0.diffuser_loss",
    "camera.aperture",
    "camera.iso",
)
SEEN = 0.010
"""Height of the body over the water when the light comes [m]."""


def in_sight(setup):
    """The set-up with beam and delay such that its photograph shows the body, whatever the camera."""
    body = setup.drop
    for changes in ({}, {"beam.height": 0.9 * body.release_height}, {"camera.style": "held_open"}):
        setup = change_all(setup, changes)
        delay = delay_for(setup, height=SEEN)
        if delay.short_by == 0:
            break
    return change(setup, "trigger.delay", round(delay.value, 5))


def _heads(setup):
    """As many heads as a set-up has, or the next smaller number that can be picked."""
    return max(count for count in HEADS if count <= len(setup.flashes))


def panel():
    """Build the panel."""
    return begin(_panel)


def _panel(setup):
    controls = (
        "flashes.0.power",
        Span("flashes.0.distance", 15, 200, 1),
        "flashes.0.shield",
        Span("flashes.0.diffuser_loss", 0, 3, 0.5),
        Pick("heads", "Flash heads, all alike", (("one", 1), ("two", 2), ("four", 4)), _heads(setup)),
        "camera.aperture",
        "camera.iso",
    )
    title = "What a shorter flash costs, and what pays for it"
    return live(
        StopsPicture(),
        controls=controls,
        setup=in_sight(setup),
        title=title,
        steps=steps(TEXT, panel="stops-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def keep():
    """Show the card that writes the light and the camera's share of it into the learner's own set-up."""
    return keep_panels(shown, decided=DECIDED)
