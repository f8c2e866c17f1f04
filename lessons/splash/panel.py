"""What can be dragged in the lesson `splash`: the splash on a clock, and what it wets and sets off."""

from pathlib import Path

from lessons.splash.numbers import NUMBERS, whole_ms
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Control, Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.splash.splash_picture import SplashPicture
from splashlib.picture.splash.wet_zone_picture import WetZonePicture
from splashlib.shoot import change_all, value_at
from splashlib.shoot.decide.delays import bare_delay
from splashlib.shoot.decide.splash_camera import body_names, in_hand

TEXT = Path(__file__).with_name("text.md")

BODY = ("name", "form", "diameter", "length", "hang", "density", "surface")
VESSEL = (
    "trigger.hold_off",
    "camera.open_time",
    "vessel.width",
    "vessel.rim",
    "vessel.tray",
    "flashes.0.distance",
    "flashes.0.shield",
    "camera.shield",
)
DECIDED = ("trigger.delay", "drop.release_height", *(f"drop.{name}" for name in BODY), "camera.style", *VESSEL)

CLOCK = Control("clock", "Clock, after contact", "ms", -20, 400, 0.5, whole_ms("crown_peak"))
HEIGHT = Span("drop.release_height", 15, 100, 0.5)


def _bodies(setup):
    """The choice of what falls."""
    return Pick("body", "What falls", tuple((name, name) for name in body_names(setup)), setup.drop.name)


def panel():
    """Build the panel with the clock."""
    return begin(_clock)


def _clock(setup):
    controls = (CLOCK, _bodies(setup), "drop.surface", HEIGHT, "camera.style")
    return live(
        SplashPicture(),
        controls=controls,
        setup=setup,
        title="The splash on a clock",
        steps=steps(TEXT, panel="splash-panel", numbers=NUMBERS),
    )


def vessel_panel():
    """Build the panel of what gets wet and of the hold-off."""
    return begin(_vessels)


def _vessels(setup):
    controls = (
        Span("trigger.hold_off", 0, 5, 0.1),
        Span("camera.open_time", 0.5, 4, 0.1),
        _bodies(setup),
        HEIGHT,
        Span("vessel.width", 6, 30, 0.5),
        Span("vessel.rim", 0, 10, 0.5),
        "vessel.tray",
        Span("flashes.0.distance", 20, 120, 1),
        "flashes.0.shield",
        "camera.shield",
    )
    return live(
        WetZonePicture(),
        controls=controls,
        setup=setup,
        title="What gets wet, and how long to stay deaf",
        steps=steps(TEXT, panel="splash-vessel", numbers=NUMBERS),
    )


clock, wet_zone = LessonPanel(panel), LessonPanel(vessel_panel)
show, show_vessel = clock.show, wet_zone.show


def chosen(shown, vessel=None):
    """The set-up that the panels stand for: body and delay of the clock; hold-off and vessel of the other one."""
    setup = in_hand(shown.setup, shown.values["body"])
    if vessel is not None:
        # Vessel first: narrow walls make a stage less sure, but move no delay.
        paths = {path: _value(vessel.setup, path) for path in VESSEL}
        setup = change_all(setup, paths)
    delay = bare_delay(setup, after_contact=shown.values["clock"])
    return change_all(setup, {"trigger.delay": round(delay.value, 4)})


def _value(setup, path):
    return value_at(setup, path)


def keep():
    """Show the card that writes body, delay, hold-off and vessel into the learner's own set-up."""
    return keep_panels(clock, wet_zone, decided=DECIDED, chosen=chosen)
