"""How many of the drops were how far off, counted in steps of two millimetres."""

import numpy as np

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

MM = 1000.0
STEP, MOST = 2.0, 50.0  # width of a step, and where the scale ends [mm]


class MissChart:
    """Draws a tally of heights over and under the wanted one; what is farther off is counted beside it.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    drops : int, of how many
    numbered : bool, whether the counts stand at its left
    """

    def __init__(self, axes, *, drops, numbered=True):
        self.axes = axes
        self.edges = np.arange(-MOST - STEP / 2, MOST + STEP, STEP)
        ticks = [-50, 0, 50]
        axes.set(xlim=(self.edges[0] - 1, self.edges[-1] + 1), ylim=(0, drops), yticks=[0, drops // 2, drops])
        labels = axes.set_xticks(ticks, ["−50 mm", "as wanted", "+50 mm"])
        for label, side in ((labels[0], "left"), (labels[-1], "right")):
            label.label1.set_ha(side)
        axes.tick_params(axis="y", labelleft=numbered)
        axes.axvline(0, color=style.INK, lw=1.0, ls=(0, (4, 3)))
        axes.grid(axis="y")
        axes.set_axisbelow(True)
        (self.bars,) = axes.fill(*self._outline(np.zeros(len(self.edges) - 1)).T, fc=style.BODY, ec=style.INK, lw=0.8)
        small = {"transform": axes.transAxes, "fontsize": 11.5, "va": "top", "color": style.INK}
        self.beyond = [write(axes, x, 0.97, ha=side, **small) for x, side in ((0.01, "left"), (0.99, "right"))]
        self.moving = [self.bars, *self.beyond]

    def move(self, heights, *, wanted):
        """Count heights [m] around the wanted one [m]; nan is not counted.

        Returns
        -------
        array of int, how many in each step; those beyond the scale are in none
        """
        off = MM * (heights[np.isfinite(heights)] - wanted)
        counts, _ = np.histogram(off, self.edges)
        low, high = int((off < self.edges[0]).sum()), int((off > self.edges[-1]).sum())
        self.beyond[0].set_text(f"◂ {low} farther" if low else "")
        self.beyond[1].set_text(f"{high} farther ▸" if high else "")
        self.bars.set_xy(self._outline(counts))
        return counts

    def _outline(self, counts):
        x = np.repeat(self.edges, 2)
        y = np.concatenate([[0], np.repeat(counts, 2), [0]])
        return np.column_stack([x, y])
