"""A fall as a strobe shows it: where the body is every 20 ms, on a dark strip and against the clock beside it."""

import numpy as np

from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import DPI

CM, MS = 100.0, 1000.0
PERIOD = 0.020
"""Time from one picture of the body to the next [s]."""
LARGE = 18.0  # words for the back of the room [points]
LEAST = 5.0
"""The body is drawn to scale, but never smaller than this [pixels]."""
ROOM_ABOVE, ROOM_BELOW = 0.14, 0.14
"""Room for the hand above the highest release height, and for the water, as shares of that height."""


class Strobe:
    """Draws one fall twice at the same scale of heights: on a strip as a strobe, and against time.

    The scale has steps, so that a low fall is as easy to see as a high one.

    Parameters
    ----------
    strip, chart : matplotlib Axes of the same height, used for nothing else
    scales : sequence of (highest release height [m], longest time [s]), in rising order
    """

    def __init__(self, strip, chart, *, scales):
        self.strip, self.chart, self.scales, self.scale = strip, chart, scales, None
        for axes, alpha in ((strip, 0.35), (chart, 0.13)):
            axes.axhspan(-1000, 0, color=style.WATER, alpha=alpha, lw=0)
            axes.axhline(0, color=style.WATER, lw=1.5)
        strip.set(xlim=(-1, 1), xticks=[], ylabel="cm over the water", facecolor=style.NIGHT)
        strip.spines["bottom"].set_visible(False)
        chart.set_xlabel("ms since it was let go")
        chart.tick_params(axis="y", labelleft=False, length=0)
        chart.grid()
        chart.set_axisbelow(True)
        self._draw_moving()
        self._set_scale(scales[-1])

    def _set_scale(self, scale):
        if scale == self.scale:
            return
        self.scale, (height, longest) = scale, scale
        top, floor = (1 + ROOM_ABOVE) * height, -ROOM_BELOW * height
        self.pixels_per_metre = self.strip.bbox.height / (top - floor)
        # Both Axes share their heights; ticks on the water and above it only.
        self.strip.set(ylim=(CM * floor, CM * top), yticks=np.arange(0, CM * top, 10 if height < 1 else 20))
        self.chart.set_xlim(-0.05 * MS * longest, MS * longest)

    def _draw_moving(self):
        chart, edge = self.chart, {"mec": style.NIGHT, "mew": 0.7, "color": style.BODY, "ls": "none"}
        (self.free,) = chart.plot([], [], color=style.INK, lw=1.3, ls=(0, (4, 2)))
        (self.dots,) = chart.plot([], [], marker="o", **edge)
        (self.shots,) = self.strip.plot([], [], marker="o", **edge)
        (self.hand,) = self.strip.plot([], [], marker="v", ms=12, color=style.QUIET, ls="none")
        (self.contact,) = chart.plot([], [], marker="v", ms=10, color=style.WATER, ls="none")
        (self.step,) = chart.plot([], [], color=style.INK, lw=1.6, marker="_", ms=10)
        self.gap = chart.text(0, 0, "", va="center")
        self.when = chart.text(0, 0, "", va="center", ha="center", fontsize=LARGE, fontweight="bold")
        self.moving = [self.free, self.dots, self.contact, self.step, self.gap, self.when, self.shots, self.hand]

    def move(self, *, diameter, release_height, way, contact):
        """Draw one fall.

        Parameters
        ----------
        diameter : float, how tall the body is [m]
        release_height : float [m]
        way : function of an array of times [s] -> heights with air, heights without [m]
        contact : float, when the body meets the water [s]

        Returns
        -------
        float, how far it falls from the last picture but one to the last [m]
        """
        fits = [scale for scale in self.scales if release_height <= scale[0]]
        self._set_scale(fits[0] if fits else self.scales[-1])
        shots = np.arange(int(contact / PERIOD) + 1) * PERIOD
        middle = CM * (way(shots)[0] + diameter / 2)
        size = max(LEAST, diameter * self.pixels_per_metre) * 72 / DPI
        self.dots.set_data(MS * shots, middle)
        self.shots.set_data(np.zeros(len(shots)), middle)
        for artist in (self.dots, self.shots):
            artist.set_markersize(size)
        grip = 9 / self.pixels_per_metre
        self.hand.set_data([0], [CM * (release_height + diameter + grip)])
        self._move_lines(way, contact, CM * diameter / 2)
        return self._move_step(MS * shots[-2:], middle[-2:], MS * contact)

    def _move_lines(self, way, contact, half):
        height, longest = self.scale
        times = np.linspace(0, contact, 40)
        free = CM * way(times)[1]
        down = free >= 0
        self.free.set_data(MS * times[down], free[down] + half)
        self.contact.set_data([MS * contact], [0])
        middle = min(contact, 0.77 * longest)
        self.when.set(x=MS * middle, y=-0.6 * ROOM_BELOW * CM * height, text=f"{MS * contact:.0f} ms")

    def _move_step(self, when, middle, contact):
        """A bracket around the last step: left of the curve, where it has gone, or right where that is narrow."""
        longest, fallen = MS * self.scale[1], middle[0] - middle[1]
        left = contact > 0.5 * longest
        beside = when[0] - 0.05 * longest if left else when[1] + 0.08 * longest
        self.step.set_data([beside, beside], middle)
        self.gap.set(
            x=beside + (-1 if left else 1) * 0.035 * longest,
            y=max(middle.mean(), 0.08 * CM * self.scale[0]),
            text=f"{fallen:.1f} cm\nin 20 ms",
            ha="right" if left else "left",
        )
        return fallen / CM
