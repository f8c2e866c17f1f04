"""What can be dragged in the lesson `freeze`: one splash in four lights."""

from splashlib.classroom.controls import Control, Span
from splashlib.classroom.keep import keep as card
from splashlib.classroom.live import live
from splashlib.picture.freeze import FreezePicture

DECIDED = ("flashes.0.kind", "flashes.0.power")
LOWEST_HAND = 14
"""The hand stays over the beam of the scene [cm]."""

_shown = None


def panel():
    """Build the panel."""
    controls = (
        "flashes.0.power",
        "flashes.0.kind",
        Control("apart", "Second head later by", "ms", 0, 2, 0.05, 1.0),
        Span("drop.release_height", LOWEST_HAND, 100, 1),
        Span("camera.distance", 40, 120, 1),
        Control("print_width", "Width of the print", "cm", 10, 100, 5, 30),
    )
    return live(FreezePicture(), controls=controls, title="One splash in four lights")


def show():
    """Show the panel, and remember it for the card at the end of the lesson."""
    global _shown
    _shown = panel()
    return _shown


def keep():
    """Show the card that writes the kind of flash and its power into the learner's own set-up."""
    shown = _shown or panel()
    made = card(lambda: shown.setup, DECIDED)
    shown.on_change(lambda _: made.refresh())
    return made
