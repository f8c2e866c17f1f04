"""The dial of a flash head laid out straight: the marks passed are numbered, and so are the steps between them."""

import numpy as np

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

STEPS = 8  # from full power to 1/256
HIGH = 0.62  # of an arch
_BEND = np.linspace(0, np.pi, 25)


class PowerDial:
    """Draws the way from full power to the power in use.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    """

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(-1.0, 12.0), ylim=(-1.0, 1.25))
        axes.axis("off")
        axes.plot([0, STEPS], [0, 0], color=style.INK, lw=2)
        thirds = np.arange(3 * STEPS + 1) / 3
        axes.plot(thirds, 0 * thirds, ls="", marker="|", ms=9, mew=1.2, color=style.QUIET)
        for step in range(STEPS + 1):
            axes.plot([step, step], [-0.13, 0.13], color=style.INK, lw=2)
            axes.text(step, -0.22, f"1/{2**step}", ha="center", va="top", fontsize=15)
        axes.text(-0.95, -0.78, "marks", fontsize=12.5, color=style.QUIET, va="center", ha="left")
        axes.text(-0.95, 0.72, "steps", fontsize=12.5, color=style.BODY, va="center", ha="left", fontweight="bold")
        self._draw_moving()

    def _draw_moving(self):
        bold = {"ha": "center", "va": "center", "fontweight": "bold"}
        self.arches, self.numbers, self.counted = [], [], []
        for step in range(STEPS):
            self.arches += self.axes.plot([], [], color=style.BODY, lw=3)
            self.numbers.append(write(self.axes, step + 0.5, HIGH + 0.3, "", fontsize=20, color=style.BODY, **bold))
        for step in range(STEPS + 1):
            self.counted.append(write(self.axes, step, -0.78, "", fontsize=14, color=style.QUIET, **bold))
        (self.knob,) = self.axes.plot([], [], marker="o", ms=17, mec=style.INK, mew=1.5, color=style.LIGHT)
        self.large = write(self.axes, 8.8, 0.72, "", fontsize=28, color=style.BODY, fontweight="bold", va="center")
        self.small = write(self.axes, 8.8, -0.05, "", fontsize=19, color=style.INK, va="center")
        self.marks = write(self.axes, 8.8, -0.78, "", fontsize=14, color=style.QUIET, va="center")
        self.moving = [*self.arches, *self.numbers, *self.counted, self.knob, self.large, self.small, self.marks]

    def move(self, stops):
        """Draw the power in use.

        Parameters
        ----------
        stops : int, Fraction or float, from full power to the power in use; zero or less [stops]
        """
        down = min(-float(stops), float(STEPS))
        for step, (arch, number) in enumerate(zip(self.arches, self.numbers, strict=True)):
            wide = min(max(down - step, 0.0), 1.0)
            arch.set_data(step + wide * (1 - np.cos(_BEND)) / 2, wide * HIGH * np.sin(_BEND) + 0.1 * (wide > 0))
            arch.set_visible(wide > 0)
            number.set_text(str(step + 1) if wide > 0.99 else "")
        for step, word in enumerate(self.counted):
            word.set_text(str(step + 1) if step <= down + 0.01 else "")
        self.knob.set_data([down], [0])
        self.large.set_text(counted(-stops) if stops else "full power")
        self.small.set_text(f"{counted(-stops, 'stop')} less" if stops else "the longest flash")
        passed = int(down + 0.01) + 1
        self.marks.set_text(f"{passed} mark{'s' * (passed > 1)}: not what counts")


def counted(number, word="step"):
    """Say a number of steps: whole, or in thirds."""
    thirds = round(3 * float(number))
    whole, more = divmod(thirds, 3)
    if not more:
        return f"{whole} {word}{'s' * (whole != 1)}"
    return f"{whole} {more}/3 {word}s" if whole else f"{more}/3 {word}"
