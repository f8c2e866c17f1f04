"""Speed at the water against release height, and what that speed draws in a short flash."""

import numpy as np

from splashlib.picture.kit import style

CM = 100.0
FLASH = 1e-4
"""The flash that the right-hand scale reckons with: 1/10 000 s."""


class SpeedChart:
    """Draws the speed of a body at the water for every release height, and the one in use.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    heights : array, release heights [m]
    free : array, the speed without air for each [m/s]
    fastest : float, speed shown [m/s]
    """

    def __init__(self, axes, *, heights, free, fastest):
        self.axes, self.heights = axes, CM * np.asarray(heights)
        axes.set(xlim=(0, self.heights[-1]), ylim=(0, fastest), xlabel="release height, cm")
        axes.plot(self.heights, free, color=style.INK, lw=1.3, ls=(0, (4, 2)))
        axes.grid()
        axes.set_axisbelow(True)
        streak = axes.secondary_yaxis("right", functions=(lambda v: 1e3 * FLASH * v, lambda s: s / FLASH / 1e3))
        streak.set_ylabel("mm in 1/10 000 s", labelpad=4)
        self._draw_moving()

    def _draw_moving(self):
        (self.curve,) = self.axes.plot([], [], color=style.BODY, lw=2.4)
        (self.guide,) = self.axes.plot([], [], color=style.QUIET, lw=1, ls=":")
        (self.dot,) = self.axes.plot([], [], marker="o", ms=11, mec=style.INK, mew=1.2, color=style.BODY)
        # Under the curve there is always room.
        right = self.heights[-1]
        self.word = self.axes.text(0.97 * right, 0.2, "", ha="right", fontsize=18, fontweight="bold")
        self.moving = [self.curve, self.guide, self.dot, self.word]

    def move(self, *, speeds, release_height, speed):
        """Draw one body.

        Parameters
        ----------
        speeds : array, its speed at the water for each of the release heights [m/s]
        release_height : float, the one in use [m]
        speed : float, at the water from there [m/s]
        """
        self.curve.set_data(self.heights, speeds)
        x, right = CM * release_height, self.heights[-1]
        self.guide.set_data([x, x, right], [0, speed, speed])
        self.dot.set_data([x], [speed])
        self.word.set_text(f"{speed:.2f}\nm/s")
