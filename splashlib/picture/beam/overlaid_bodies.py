"""One frame with the bodies of many drops in it, laid over each other, and how far apart they are."""

import numpy as np
from matplotlib.collections import PolyCollection
from matplotlib.colors import to_rgba

from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import Pixels
from splashlib.picture.kit.lettering import write

MM = 1000.0
PALE = "#f3f1ea"
RIM = "#ffb27a"  # the edge of a translucent body
_TURN = np.linspace(0, 2 * np.pi, 41)[:-1]
ROUND = np.column_stack([np.cos(_TURN), np.sin(_TURN)]) / 2


class OverlaidBodies:
    """Draws the framed area in mm over the water, and every body in it, translucent.

    Parameters
    ----------
    axes : matplotlib Axes of the frame's proportions, used for nothing else
    frame : splashlib.shoot Frame
    vessel : splashlib.shoot Vessel
    """

    def __init__(self, axes, *, frame, vessel):
        self.axes = axes
        self.half, self.low, self.high = MM * frame.width / 2, MM * frame.bottom, MM * frame.top
        axes.set(xlim=(-self.half, self.half), ylim=(self.low, self.high), facecolor=style.NIGHT, xticks=[], yticks=[])
        for spine in axes.spines.values():
            spine.set(visible=True, color=style.INK)
        axes.axhspan(-1e4, 0, color=style.WATER, alpha=0.45, lw=0)
        axes.axhline(0, color="#8cc4ec", lw=1.4)
        wall = MM * vessel.width / 2
        for side in (-wall, wall):
            axes.plot([side, side], [-1e4, MM * vessel.rim], color=style.LAG, lw=1.6)
        self._draw_moving()

    def _draw_moving(self):
        axes = self.axes
        # Thirty photographs over each other go here, in place of the plain bodies.
        self.photo = Pixels(axes)
        fill, edge = to_rgba(style.BODY, 0.13), to_rgba(RIM, 0.5)
        self.bodies = PolyCollection([], facecolors=fill, edgecolors=edge, lw=0.8)
        axes.add_collection(self.bodies, autolim=False)
        (self.beam,) = axes.plot([], [], color=style.BEAM, lw=4)
        (self.wanted,) = axes.plot([], [], color=PALE, lw=1.2, ls=(0, (4, 3)))
        (self.reach,) = axes.plot([], [], color=PALE, lw=2.4, marker="_", ms=16, mew=2.4)
        middle = (self.low + self.high) / 2
        self.empty = write(axes, 0, middle, fontsize=24, color=PALE, fontweight="bold", ha="center", va="center")
        self.note = write(axes, -0.96 * self.half, 0.95 * self.high, color=PALE, va="top", fontweight="bold")
        low = 0.94 * self.low + 0.06 * self.high
        self.label = write(
            axes, 0.96 * self.half, low, "simulated", color=PALE, ha="right", fontsize=style.FONT["small"]
        )
        self.moving = [self.photo, self.label, self.bodies, self.beam, self.wanted, self.reach, self.empty, self.note]

    def move(self, *, drop, heights, across, wanted, beam, empty="", note=""):
        """Draw the bodies of many drops.

        Parameters
        ----------
        drop : splashlib.shoot Drop
        heights, across : arrays, of the lowest points and sideways [m]; nan for a body that is not there
        wanted : float, the height that was aimed at [m]
        beam : float, height of the beam [m]
        empty : str, said in the middle of the frame instead
        note : str, said in a corner
        """
        there = np.isfinite(heights)
        self.overlay(None)
        self._place(drop, MM * heights[there], MM * across[there])
        self.wanted.set_data([-self.half, self.half], [MM * wanted] * 2)
        self.beam.set_data([-self.half, self.half], [MM * beam] * 2)
        self._measure(MM * heights[there], hidden=bool(empty))
        self.empty.set_text(empty)
        self.note.set_text(note)

    def overlay(self, photo):
        """Show photographs of the drops, uint8 (height, width, 3), in place of the bodies; None shows the bodies."""
        self.photo.show(photo)
        self.bodies.set_visible(photo is None)
        self.label.set_visible(photo is not None)

    def _place(self, drop, heights, across):
        size = MM * np.array([drop.breadth, drop.height])
        middles = np.column_stack([across, heights + size[1] / 2])
        self.bodies.set_verts(middles[:, None, :] + size * ROUND)

    def _measure(self, heights, *, hidden):
        """A bracket from the lowest body's lowest point to the highest body's."""
        shown = len(heights) > 1 and not hidden
        self.reach.set_visible(shown)
        if shown:
            x = 0.42 * self.half
            self.reach.set_data([x, x], np.clip([heights.min(), heights.max()], self.low, self.high))
