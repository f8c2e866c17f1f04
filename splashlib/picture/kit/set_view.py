"""The set from the side, to scale: hand, beam, vessel with its water, and the body where the light finds it."""

import numpy as np
from matplotlib.patches import Ellipse, Polygon, Rectangle

from splashlib.picture.kit import style

CM = 100.0
NEAR = 0.06
"""A beam so near to the frame's upper edge, as a share of the height shown, would run through the frame's name."""


class SetView:
    """Draws one drop seen from the side, heights in cm over the water.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    vessel : splashlib.shoot Vessel, drawn once
    top : float, the highest height shown [m]
    floor : float, the lowest height shown [m], negative
    frame : splashlib.shoot Frame, what the camera sees, drawn once
    """

    def __init__(self, axes, *, vessel, top, floor, frame=None):
        self.axes = axes
        self.half_width = CM * vessel.width / 2
        axes.set(xlim=(-12, 12), ylim=(CM * floor, CM * top), aspect="equal", anchor="C")
        axes.axis("off")
        self._draw_vessel(vessel)
        self.frame_name = self._draw_frame(frame) if frame else None
        (self.beam,) = axes.plot([], [], color=style.BEAM, lw=1.6, ls=(0, (5, 2)), zorder=3)
        (self.lamp,) = axes.plot([], [], marker="s", ms=7, color=style.BEAM, ls="none", zorder=4)
        self.hand = axes.add_patch(Polygon(np.zeros((4, 2)), closed=True, color=style.QUIET, zorder=2))
        self.start = axes.add_patch(Ellipse((0, 0), 1, 1, fill=False, ec=style.QUIET, lw=1, ls=":", zorder=3))
        self.body = axes.add_patch(Ellipse((0, 0), 1, 1, color=style.BODY, zorder=5))
        self.moving = [self.beam, self.lamp, self.hand, self.start, self.body]
        self.moving += [self.frame_name] if frame else []

    def _draw_vessel(self, vessel):
        half, depth, rim = self.half_width, CM * vessel.depth, CM * vessel.rim
        self.axes.add_patch(Rectangle((-half, -depth), 2 * half, depth, color=style.WATER, alpha=0.18, lw=0))
        self.axes.plot([-half, half], [0, 0], color=style.WATER, lw=1.5)
        walls = [-half, -half, half, half], [rim, -depth, -depth, rim]
        self.axes.plot(*walls, color=style.INK, lw=1.4, solid_joinstyle="miter")

    def _draw_frame(self, frame):
        wide, low, high = CM * frame.width, CM * frame.bottom, CM * frame.top
        self.axes.add_patch(Rectangle((-wide / 2, low), wide, high - low, fill=False, ec=style.QUIET, lw=1.0, ls=":"))
        self.frame_top = high
        words = {"ha": "left", "color": style.QUIET, "fontsize": 11, "textcoords": "offset points"}
        return self.axes.annotate("frame", (-wide / 2, high), (3, 3), **words)

    def _keep_the_name_clear(self, beam):
        """Write "frame" on its upper edge, or under the beam where that runs along the edge."""
        low, high = self.axes.get_ylim()
        near = abs(beam - self.frame_top) < NEAR * (high - low)
        self.frame_name.xy = (self.frame_name.xy[0], min(beam, self.frame_top) if near else self.frame_top)
        self.frame_name.set(position=(3, -6 if near else 3), va="top" if near else "bottom")

    def move(self, *, drop, beam_height, height):
        """Place the hand, the beam and the body.

        Parameters
        ----------
        drop : splashlib.shoot Drop
        beam_height : float [m]
        height : float or None, lowest point of the body when the light comes [m]; None: nothing to see
        """
        side = self.half_width + 2.5
        self.beam.set_data([-side, side], [CM * beam_height] * 2)
        self.lamp.set_data([-side, side], [CM * beam_height] * 2)
        if self.frame_name:
            self._keep_the_name_clear(CM * beam_height)
        wide, tall = self._size(drop)
        self._place(self.start, wide, tall, CM * drop.release_height)
        grip = CM * drop.release_height + tall
        self.hand.set_xy([(-0.8, grip - 0.4), (-2.6, grip + 5), (2.6, grip + 5), (0.8, grip - 0.4)])
        self.body.set_visible(height is not None)
        if height is not None:
            self._place(self.body, wide, tall, CM * height)

    @staticmethod
    def _size(drop):
        across, along = CM * drop.diameter, CM * drop.length
        return (across, along) if drop.hang == "upright" else (along, across)

    @staticmethod
    def _place(ellipse, wide, tall, lowest):
        ellipse.set_center((0, lowest + tall / 2))
        ellipse.set_width(wide)
        ellipse.set_height(tall)
