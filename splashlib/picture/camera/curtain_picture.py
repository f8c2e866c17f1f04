"""The picture of the lesson `camera` on shutters: one flash through four first curtains."""

from typing import ClassVar

from splashlib.picture.camera.curtain_chart import CurtainChart
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.frame_words import TONES, WORDS
from splashlib.picture.kit.shots import Shots, ShotsPicture
from splashlib.picture.photo.photograph import photograph
from splashlib.shoot import open_rows, show
from splashlib.shoot.chain.events import events
from splashlib.shoot.decide.judgement import WHOLE
from splashlib.shoot.decide.style_comparison import CURTAINS, in_curtains

NAMES = {"mechanical": "Mechanical", "electronic": "Electronic", "rolling": "Rolling", "leaf": "Leaf"}
SPANS = (0.012, 0.030, 0.090, 0.300, 1.2)
"""Clocks that the charts have [s]: the first one that has room for the slowest."""
OVER_WATER = 0.010
"""Where the light is put: the body just over the water [m]."""


class CurtainPicture(ShotsPicture):
    """Four frames of one drop, and under each which rows are open when.

    Parameters
    ----------
    shot : function (setup, size=...) -> pixels, optional
        What a frame shows: the simulated photograph when left out.
    size : (int, int), optional [pixels]
    """

    size = (1000, 440)
    rc: ClassVar[dict] = {"font.size": 13.5, "axes.labelsize": 13, "xtick.labelsize": 13, "ytick.labelsize": 13}

    def __init__(self, shot=photograph, size=None):
        self.shot = shot
        super().__init__(size)

    def build(self, figure):
        """Lay frames and charts out."""
        self.shots = Shots(figure, list(NAMES.values()), top=2, shot=self.shot)
        wide, tall = figure.bbox.width, figure.bbox.height
        high = tall - self.shots.depth - 66
        self.charts = []
        for number, left in enumerate(self.shots.lefts):
            # The first chart gives some of its width to the names of its rows.
            room = 68 if number == 0 else 10
            axes = figure.add_axes(((left + room) / wide, 54 / tall, (self.shots.width - room) / wide, high / tall))
            self.charts.append(CurtainChart(axes, named=number == 0))
        return [*self.shots.moving, *(artist for chart in self.charts for artist in chart.moving)]

    def update(self, setup):
        """Follow the set-up: its shutter speed, and how fast each curtain crosses the frame."""
        shots = in_curtains(setup, height=OVER_WATER)
        verdicts = [_verdict(shot) for shot in shots]
        self.shots.move([shot.setup for shot in shots], verdicts=verdicts)
        slowest = max(shot.setup.camera.sweep + shot.setup.camera.exposure_time for shot in shots)
        span = next((span for span in SPANS if slowest <= 0.97 * span), SPANS[-1])
        for chart, shot in zip(self.charts, shots, strict=True):
            chart.set_span(span)
            _move(chart, shot)
        return _told(setup, shots, verdicts)


def _move(chart, shot):
    camera, when = shot.setup.camera, events(shot.setup)
    light = float(when.light[0] - when.curtain_starts[0])
    rows = [float(row) for row in open_rows(shot.setup, light)]
    chart.move(sweep=camera.sweep, exposure=camera.exposure_time, light=light, rows=rows)


def _verdict(shot):
    """The tone, the large word and the line under one frame; whether the body is in it plays no part."""
    if shot.judged.fault == "no_flash":
        return TONES["no_flash"], WORDS["no_flash"], "the beam was not broken"
    dark = 100 * (1 - shot.seen.lit)
    if shot.seen.lit >= WHOLE:
        return "good", "ALL OF IT", "no row is dark"
    name = "band" if shot.judged.lit else "shut"
    return TONES[name], WORDS[name], f"{dark:.0f} % of it is dark"


def _told(setup, shots, verdicts):
    time = show("camera.shutter", setup.camera.shutter)
    whole = [NAMES[curtain].lower() for curtain, each in zip(CURTAINS, verdicts, strict=True) if each[0] == "good"]
    ways = [f"{NAMES[curtain].lower()} {words.ms(shot.setup.camera.sweep, 1)}" for curtain, shot in _named(shots)]
    frames = [f"{NAMES[curtain]}: {verdicts[number][2]}" for number, curtain in enumerate(CURTAINS)]
    tone = "good" if len(whole) == len(CURTAINS) else "warning"
    return Description(
        readout=(
            *((NAMES[curtain], f"{100 * shot.seen.lit:.0f} % lit") for curtain, shot in _named(shots)),
            ("Way across the frame", words.ms(setup.camera.curtain_travel, 1)),
            ("Rolling readout", words.ms(setup.camera.readout, 1)),
        ),
        alt=(
            f"Four simulated photographs of the same drop at {time}, one for each first curtain. {'. '.join(frames)}. "
            "Under each, which rows are open when, and the flash as a line across; ways across the frame: "
            f"{', '.join(ways)}."
        ),
        line=_line(time, whole),
        tone=tone,
    )


def _named(shots):
    return list(zip(CURTAINS, shots, strict=True))


def _line(time, whole):
    if len(whole) == len(CURTAINS):
        return f"At {time} there is a moment when all rows are open, whatever the curtain. The flash fires then."
    return f"At {time} the flash finds all rows open only with: {', '.join(whole)}. The others show a band."
