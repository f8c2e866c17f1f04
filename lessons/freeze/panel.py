"""What can be dragged in the lesson `freeze`: one splash in four lights."""

from pathlib import Path

from lessons.freeze.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Control, Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.freeze.freeze_picture import FreezePicture
from splashlib.shoot import change_all, field
from splashlib.shoot.decide.flash_duration import on_route
from splashlib.shoot.files.learner_files import readable_setup

TEXT = Path(__file__).with_name("text.md")

# Another route is another lag, and so another delay for the same instant: they are kept together.
ROUTE = tuple(f"flashes.0.{name}" for name in ("route", "route_lag", "route_scatter"))
DECIDED = ("flashes.0.kind", "flashes.0.power", *ROUTE, "trigger.delay")
LOWEST_HAND = 14
"""The hand stays over the beam of the scene [cm]."""


def chosen(shown):
    """The learner's set-up with the flash of a panel, on the route chosen there."""
    head = shown.setup.flashes[0]
    mine = on_route(readable_setup(), shown.values["route"])
    return change_all(mine, {"flashes.0.kind": head.kind, "flashes.0.power": head.power})


def panel():
    """Build the panel."""
    return begin(_panel)


def _panel(setup):
    route = field("flashes.0.route")
    controls = (
        "flashes.0.power",
        "flashes.0.kind",
        Pick("route", "Route to your flash", route.choices, setup.flashes[0].route),
        Control("apart", "Second head later by", "ms", 0, 2, 0.05, 1.0),
        Span("drop.release_height", LOWEST_HAND, 100, 1),
        Span("camera.distance", 40, 120, 1),
        Control("print_width", "Width of the print", "cm", 10, 100, 5, 30),
    )
    return live(
        FreezePicture(),
        controls=controls,
        setup=setup,
        title="One splash in four lights",
        steps=steps(TEXT, panel="freeze-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def keep():
    """Show the card that writes the flash, its route and the delay that belongs to it into the learner's set-up."""
    return keep_panels(shown, decided=DECIDED, chosen=chosen)
