"""The light of a flash against time, with the two durations that are quoted for it marked across the curve."""

import numpy as np

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

US = 1e6
SPANS = (200e-6, 1e-3, 4e-3, 16e-3, 64e-3)
"""Time axes [s]; the first one with room for the pulse is shown."""
TICKS = (0.0, 0.25, 0.5, 0.75, 1.0)  # shares of the time axis
POINTS = 320
LETTER = 0.046  # room for a letter of a name, as a share of the time axis
LARGE = 15.0  # words for the back of the room [points]


class PulseChart:
    """Draws one pulse, filled, and behind it the pulse of the same head at full power as a line.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    """

    def __init__(self, axes):
        self.axes, self.span = axes, None
        axes.set(xlim=(-0.03, 1), ylim=(0, 1.22), yticks=[0.1, 0.5, 1.0], yticklabels=["0.1", "½", "1"])
        axes.set_xticks(TICKS, [""] * len(TICKS))
        axes.grid()
        axes.set_axisbelow(True)
        axes.set_xlabel("µs since it began", labelpad=17)
        # The words at the ticks move: a new time scale then needs no new resting layer.
        below = {"transform": axes.get_xaxis_transform(), "ha": "center", "va": "top", "fontsize": 11.5}
        self.ticks = [write(axes, place, -0.025, **below) for place in TICKS]
        (self.full,) = axes.plot([], [], color=style.QUIET, lw=1.5, ls=(0, (4, 2)))
        self.fill = axes.fill_between([0, 1], [0, 0], color=style.LIGHT, alpha=0.45, lw=0)
        (self.line,) = axes.plot([], [], color=style.LIGHT, lw=2.5)
        self.bars = [axes.plot([], [], color=color, lw=4, marker="|", ms=13, mew=3)[0]
                     for color in (style.WATER, style.BEAM)]  # fmt: skip
        self.names = [write(axes, 0, 0, fontsize=LARGE, fontweight="bold", color=color, va="center")
                      for color in (style.WATER, style.BEAM)]  # fmt: skip
        self.moving = [self.full, self.fill, self.line, *self.bars, *self.names, *self.ticks]
        self._set_span(SPANS[1])

    def _set_span(self, span):
        if span == self.span:
            return
        self.span = span
        for place, word in zip(TICKS, self.ticks, strict=True):
            word.set_text(thousands(US * span * place))

    def move(self, pulse, full):
        """Draw a pulse, and the full one behind it.

        Parameters
        ----------
        pulse, full : physics.pulse.Pulse
        """
        fits = [span for span in SPANS if pulse.t01 <= 0.7 * span]
        self._set_span(fits[0] if fits else SPANS[-1])
        along = np.linspace(-0.03, 1, POINTS)
        light = pulse.intensity(self.span * along)
        self.line.set_data(along, light)
        self.full.set_data(along, full.intensity(self.span * along))
        self.fill.set_verts([np.column_stack([np.r_[along, 1, along[0]], np.r_[light, 0, 0]])])
        for fraction, bar, name in zip((0.5, 0.1), self.bars, self.names, strict=True):
            self._mark(pulse, fraction, bar, name)

    def _mark(self, pulse, fraction, bar, name):
        """One duration: a bar as long as the light is above the fraction, its name behind it."""
        start, length = _begins(pulse, fraction) / self.span, pulse.duration(fraction) / self.span
        bar.set_data([start, start + length], [fraction, fraction])
        said = f"t{fraction:.1f}  {thousands(US * pulse.duration(fraction))} µs"
        # Behind the bar, but never past the end of the axis.
        name.set(x=min(start + length + 0.03, 1 - LETTER * len(said)), y=fraction + 0.065, text=said)


def _begins(pulse, fraction):
    """When the light first is above a fraction of its peak [s]; the rise is straight."""
    rise = getattr(pulse, "rise", 0.0)
    return fraction * min(rise, getattr(pulse, "cut", rise))


def thousands(value):
    """A whole number with narrow spaces between thousands; above 1000 to the next ten."""
    digits = 10 if value >= 1000 else 1
    return f"{round(value / digits) * digits:,}".replace(",", "\N{NARROW NO-BREAK SPACE}")
