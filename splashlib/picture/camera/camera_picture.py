"""The picture of the lesson `camera`: one drop in four frames, and the lags that decide what is in them."""

import math
from typing import ClassVar

import numpy as np

from splashlib.picture.camera.camera_words import NUMBERED, STAGES, told, verdict
from splashlib.picture.camera.lag_bars import LagBars
from splashlib.picture.camera.trajectory import Trajectory
from splashlib.picture.kit.shots import Shots, ShotsPicture
from splashlib.picture.photo.photograph import photograph
from splashlib.shoot import body_height, framed
from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.instants import find_instant
from splashlib.shoot.decide.style_comparison import in_styles
from splashlib.shoot.setup.field_rows import STYLES

SPANS = ((-0.025, 0.185), (-0.050, 0.450), (-0.095, 0.855))
"""The clocks that the charts have [s]: the first one that has room for all is shown."""
TOPS, FLOOR = (0.34, 0.66), -0.07
"""Highest height of the two scales [m], and the lowest, as a share of the highest of the first."""
POINTS = 70


class CameraPicture(ShotsPicture):
    """Four frames in a row, the fall under them, and under that the four chains of lags as bars.

    Parameters
    ----------
    shot : function (setup, size=...) -> pixels, optional
        What a frame shows: the simulated photograph when left out.
    size : (int, int), optional [pixels]
    """

    size = (1000, 640)
    # Four frames side by side are shown small; their words must not be.
    rc: ClassVar[dict] = {"font.size": 13.5, "axes.labelsize": 13, "xtick.labelsize": 13, "ytick.labelsize": 13}

    def __init__(self, shot=photograph, size=None):
        self.shot = shot
        super().__init__(size)

    def build(self, figure):
        """Lay frames, fall and bars out."""
        self.shots = Shots(figure, list(NUMBERED.values()), top=2, shot=self.shot)
        tall = figure.bbox.height
        left, wide = 0.155, 0.835
        base, rows = 54 / tall, 160 / tall
        fall = figure.add_axes((left, base + rows + 2 / tall, wide, 1 - base - rows - (self.shots.depth + 10) / tall))
        bars = figure.add_axes((left, base, wide, rows))
        self.fall = Trajectory(fall, count=len(STYLES))
        self.bars = LagBars(bars, names=list(NUMBERED.values()))
        said = {"va": "center", "fontsize": 13, "linespacing": 1.3}
        figure.text(0.008, 0.41, "height over\nthe water,\ncm", **said)
        figure.text(0.008, 26 / tall, "ms after the\nbeam is broken", **said)
        return [*self.shots.moving, *self.fall.moving, *self.bars.moving]

    def update(self, setup, *, aim=None):
        """Follow the set-up. `aim` is None, or the instant that each style gets its own best delay for."""
        shots, when = in_styles(setup, aim=aim), events(setup)
        contact = float(when.contact[0])
        stage = find_instant(setup, event=aim) if aim not in (None, "contact") else None
        wanted = (stage.early, stage.late) if stage else None
        chosen = STYLES.index(setup.camera.style)
        verdicts = [verdict(shot, aim, self.system) for shot in shots]
        self.shots.move([shot.setup for shot in shots], verdicts=verdicts, chosen=chosen)
        self._set_scales(setup, shots, contact, wanted)
        self._move_fall(setup, shots, float(when.released[0]), contact, wanted, aim)
        rows = [(shot.links, shot.early, shot.late, _names(shot)) for shot in shots]
        self.bars.move(rows, contact=contact, wanted=wanted, chosen=chosen)
        return told(setup, shots, aim, contact=contact, wanted=wanted, system=self.system)

    def _set_scales(self, setup, shots, contact, wanted):
        dates = [shot.late for shot in shots if math.isfinite(shot.late)]
        last = max([contact, *dates, *(wanted or ())])
        span = next((span for span in SPANS if last <= 0.93 * span[1]), SPANS[-1])
        top = TOPS[0] if setup.beam.height <= TOPS[0] - 0.03 else TOPS[1]
        self.fall.set_scale(span, top, FLOOR * top / TOPS[0])
        self.bars.set_scale(span)

    def _move_fall(self, setup, shots, released, contact, wanted, aim):
        frame = framed(setup)
        low, high = self.fall.scale[0]
        times = np.linspace(max(low, released), high, POINTS)
        heights = body_height(setup, times[:, None])[:, 0]
        lights = [(shot.seen.light, shot.early, shot.late, shot.seen.height) if shot.links else None for shot in shots]
        date = f"{STAGES[aim]} {1000 * wanted[0]:.0f} to {1000 * wanted[1]:.0f} ms" if wanted else None
        self.fall.move(
            times=times,
            heights=heights,
            frame=(frame.bottom, frame.top),
            beam_height=setup.beam.height,
            contact=contact,
            wanted=wanted,
            date=date or f"water {1000 * contact:.0f} ms",
            lights=lights,
        )


def _names(shot):
    return {"delay": "delay", "camera": "mirror" if shot.style == "mirror" else "camera"}
