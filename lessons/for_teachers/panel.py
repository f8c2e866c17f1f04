"""What a teacher drags before a class. Each starts from the scene, so that what the script says comes true."""

from pathlib import Path

from lessons.for_teachers.numbers import NUMBERS
from splashlib.classroom.prose.steps import steps
from splashlib.classroom.widgets.controls import Control, Pick, Span
from splashlib.classroom.widgets.lesson_panel import LessonPanel
from splashlib.classroom.widgets.panel import live
from splashlib.picture.beam.beam_picture import BeamPicture
from splashlib.picture.camera.camera_picture import CameraPicture
from splashlib.picture.freeze.freeze_picture import FreezePicture
from splashlib.picture.photo.photograph import overlaid
from splashlib.shoot import change, tea_house

TEXT = Path(__file__).with_name("text.md")

AIMS = (("one for all: the slider's", None), ("the best for each: contact", "contact"))
WANTED, SERIES = 0.02, 1
"""Where the thirty drops shall be caught [m over the water], and which thirty."""


def slow_camera():
    """The scene with a mirror that must rise first."""
    return change(tea_house(), "camera.style", "mirror")


def _cameras():
    """One drop before four cameras."""
    aim = Pick("aim", "Which delay", AIMS)
    controls = (Span("beam.height", 5, 40, 0.5), Span("trigger.delay", 0, 150, 1), aim)
    return live(
        CameraPicture(),
        controls=controls,
        setup=slow_camera,
        title="One drop, four cameras",
        steps=steps(TEXT, panel="teach-cameras", numbers=NUMBERS),
    )


def _beams():
    """Thirty drops with each of two beams."""
    controls = (
        Span("beam.height", 1, 42, 0.5),
        Control("wanted", "Where the light finds it, over the water", "cm", 0, 6, 0.5, 100 * WANTED),
        Control("seed", "Which thirty drops", "", 1, 20, 1, SERIES),
    )
    picture = _OneBody(overlay=overlaid)
    return live(
        picture,
        controls=controls,
        setup=tea_house,
        title="Thirty drops, two beams",
        steps=steps(TEXT, panel="teach-beams", numbers=NUMBERS),
    )


class _OneBody(BeamPicture):
    """Thirty drops of the body of the set-up; a demonstration offers no other."""

    def update(self, setup, *, wanted, seed):
        return super().update(setup, wanted=wanted, body=setup.drop.name, seed=seed)


def _lights():
    """One splash in four lights."""
    controls = ("flashes.0.power", Control("apart", "Second head later by", "ms", 0, 2, 0.05, 1.0))
    return live(
        FreezePicture(),
        controls=controls,
        setup=tea_house,
        title="One splash in four lights",
        steps=steps(TEXT, panel="teach-lights", numbers=NUMBERS),
    )


cameras, beams, lights = (LessonPanel(build).show for build in (_cameras, _beams, _lights))
