"""Power against duration: how long each kind of flash shines when it is turned down."""

import math

import numpy as np

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

US = 1e6
LOW, HIGH = 25, 24_000  # durations of the axis [us]
LAST = 8  # stops below full power that the axis has room for
KINDS = {
    "quenched": ("quenched", style.WATER, "-"),
    "capacitor_switched": ("capacitor-switched", style.CAMERA, (0, (6, 2))),
    "voltage_controlled": ("voltage-controlled", style.BODY, (0, (2, 1.5))),
    "high_speed_sync": ("high-speed sync", style.BEAM, (0, (6, 2, 1.5, 2))),
}
"""Name, colour and dashes of each kind."""
TICKS = {50: "1/20 000", 100: "1/10 000", 1000: "1/1000", 10_000: "1/100"}
PLACES = {
    "quenched": (-0.1, 150),
    "capacitor_switched": (2.6, 1500),
    "voltage_controlled": (-0.1, 15_500),
    "high_speed_sync": (3.5, 4300),
}
"""Where the names stand, each beside its line: stops below full power, duration [us]."""


class DurationChart:
    """Draws t0.1 against the power for every kind of head, the class as a band, and where the head in use is.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    """

    def __init__(self, axes):
        self.axes = axes
        axes.set(yscale="log", xlim=(-0.25, LAST + 0.25), ylim=(LOW, HIGH))
        axes.set_xticks(range(0, LAST + 1, 1), ["1/1", "", "1/4", "", "1/16", "", "1/64", "", "1/256"])
        axes.set_yticks(list(TICKS), list(TICKS.values()))
        axes.tick_params(axis="y", which="minor", length=0)
        axes.grid()
        axes.set_axisbelow(True)
        axes.set_xlabel("flash power")
        self.lines, self.names = {}, {}
        for kind, (name, color, dashes) in KINDS.items():
            (self.lines[kind],) = axes.plot([], [], color=color, ls=dashes, lw=2.2)
            self.names[kind] = write(
                axes, *PLACES[kind], name, color=color, fontsize=11.5, fontweight="bold", va="center"
            )
        self.band = axes.fill_between([0, 1], [LOW, LOW], color=style.INK, alpha=0.13, lw=0)
        (self.limit,) = axes.plot([], [], color=style.INK, lw=1.6)
        self.enough = write(axes, -0.1, 0, "points below this line", fontsize=11.5, va="top")
        (self.dot,) = axes.plot([], [], "o", ms=13, mec="white", mew=1.5)
        self.moving = [self.band, self.limit, self.enough, *self.lines.values(), *self.names.values(), self.dot]

    def move(self, kind, *, power, durations, marks, band, longest):
        """Draw all kinds, and the head in use.

        Parameters
        ----------
        kind : str, of the head in use
        power : float, its power fraction [-]
        durations : dict of kind -> sequence of t0.1 at each of the marks [s]
        marks : sequence of power fractions [-]
        band : sequence of (shortest, longest) of the class in use at each of the marks [s]
        longest : float, longest duration in which droplets are points [s]
        """
        stops = -np.log2(marks)
        for name, times in durations.items():
            self.lines[name].set_data(stops, US * np.asarray(times))
            self.lines[name].set_linewidth(4 if name == kind else 2)
        low, high = US * np.asarray(band).T
        self.band.set_verts([np.column_stack([np.r_[stops, stops[::-1]], np.r_[low, high[::-1]]])])
        self.limit.set_data([-0.25, LAST + 0.25], [US * longest] * 2)
        self.enough.set_y(US * longest * 0.93)
        self.dot.set_data([-math.log2(power)], [US * np.interp(-math.log2(power), *_rising(stops, durations[kind]))])
        self.dot.set_color(KINDS[kind][1])


def _rising(stops, times):
    """Places in rising order with their values, as interpolation wants them."""
    order = np.argsort(stops)
    return np.asarray(stops)[order], np.asarray(times)[order]
