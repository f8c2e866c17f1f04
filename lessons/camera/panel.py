"""What can be dragged in the lesson `camera`: one drop before four cameras, and one flash through four curtains."""

from dataclasses import replace
from pathlib import Path

from lessons.camera.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.begin import begin
from splashlib.classroom.widgets.controls import Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel, keep_panels
from splashlib.classroom.widgets.panel import live
from splashlib.picture.camera.camera_picture import CameraPicture
from splashlib.picture.camera.curtain_picture import CurtainPicture
from splashlib.shoot import change, change_all, instant_names, tea_house
from splashlib.shoot.decide.style_comparison import in_styles
from splashlib.shoot.files.learner_files import is_own

TEXT = Path(__file__).with_name("text.md")

DECIDED = ("camera.style", "camera.lag", "beam.height", "trigger.delay", "drop.release_height")
AIMS = {
    "contact": "the best for each: contact",
    "crown_peak": "the best for each: crown",
    "jet_peak": "the best for each: jet",
}


def start(setup):
    """The set-up that the panel starts from: the learner's own, else the scene with its mirror down."""
    return setup if is_own(setup) else change(setup, "camera.style", "mirror")


def panel():
    """Build the panel of the four cameras."""
    return begin(_panel)


def _panel(setup):
    instants = instant_names(setup)
    known = [(said, name) for name, said in AIMS.items() if name in instants]
    controls = (
        Span("beam.height", 1, 45, 0.5),
        Span("trigger.delay", 0, 150, 0.5),
        Pick("aim", "Which delay", (("one for all: the slider's", None), *known)),
        Span("drop.release_height", 10, 150, 0.5),
        "camera.style",
        Span("camera.lag", 0, 200, 1),
    )
    return live(
        CameraPicture(),
        controls=controls,
        setup=start(setup),
        title="One drop, four cameras",
        steps=steps(TEXT, panel="camera-panel", numbers=NUMBERS),
    )


shown = LessonPanel(panel)
show = shown.show


def chosen(shown):
    """The set-up that a panel stands for: the marked style, with its delay to a tenth of a millisecond."""
    shots = in_styles(shown.setup, aim=shown.values["aim"])
    mine = next(shot.setup for shot in shots if shot.style == shown.setup.camera.style)
    return change(mine, "trigger.delay", round(mine.trigger.delay, 4))


def keep():
    """Show the card that writes the camera style and what follows from it into the learner's own set-up."""
    return keep_panels(shown, decided=DECIDED, chosen=chosen)


def _curtains(setup):
    """The panel of the four first curtains: the scene, before the learner's own camera with its mirror up."""
    controls = ("camera.shutter", "camera.readout", "camera.curtain_travel")
    title = "One flash, four first curtains"
    return live(CurtainPicture(), controls=controls, setup=before_curtains(setup), title=title)


curtains = LessonPanel(lambda: begin(_curtains)).show


def before_curtains(setup):
    """The scene with a beam that is high enough for every curtain, and the camera of a set-up."""
    camera = replace(setup.camera, style="mirror_up")
    return change_all(replace(tea_house(), camera=camera), {"beam.height": 0.25, "trigger.delay": 0.0})
