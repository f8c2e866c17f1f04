"""The account of the light, in stops: what each setting adds or takes, what it comes to, and the room beside it."""

from matplotlib.patches import Rectangle
from matplotlib.ticker import MultipleLocator

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

HEIGHT = 0.68
BESIDE = 1.328
"""Where the numbers end, as a share of the width; room for -20.0 beside the bars."""
UNDER = 7.0
"""So many stops under the flash a ghost is hardly seen."""


class AccountChart:
    """Draws a running sum, a bar for each line; zero is a well exposed frame.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    lines : int, lines of the account; result and room follow below
    camera : int, the first line that counts for the room, too
    span : (float, float) [stops]
    """

    def __init__(self, axes, *, lines, camera, span):
        self.axes, self.lines, self.span = axes, lines, span
        axes.set(xlim=span, ylim=(lines + 1.6, -0.6), yticks=[])
        axes.spines["left"].set_visible(False)
        axes.xaxis.set_major_locator(MultipleLocator(4))
        axes.tick_params(axis="x", labelsize=14.5)
        note = "0: well exposed. On grey: counts for the room, too.\nThe room left of the dashes: no ghost."
        axes.text(BESIDE, -0.12, note, transform=axes.transAxes, ha="right", va="top", fontsize=13.5, color=style.INK)
        axes.axhspan(camera - 0.5, lines - 0.5, color=style.FAINT, alpha=0.55, lw=0)
        axes.axvline(0, color=style.INK, lw=1.6)
        axes.axhline(lines - 0.5, color=style.INK, lw=1.2)
        axes.grid(axis="x")
        axes.set_axisbelow(True)
        rows = range(lines + 2)
        self.bars = [axes.add_patch(Rectangle((0, row - HEIGHT / 2), 0, HEIGHT, lw=0, zorder=2)) for row in rows]
        left = axes.get_yaxis_transform()
        strong = [{"fontweight": "bold"} if row >= lines else {} for row in rows]
        self.names = [
            write(axes, -0.02, row, "", ha="right", va="center", fontsize=16, transform=left, **strong[row])
            for row in rows
        ]
        right = {"ha": "right", "va": "center", "fontsize": 17, "transform": left}
        self.words = [write(axes, BESIDE, row, "", **right, **strong[row]) for row in rows]
        (self.limit,) = axes.plot([], [], color=style.INK, lw=2.4, ls=(0, (2, 1.2)))
        self.moving = [*self.bars, *self.names, *self.words, self.limit]

    def move(self, entries, *, room):
        """Draw the account.

        Parameters
        ----------
        entries : sequence of (str, float), each line's words and stops
        room : float, of the room's light alone, against a well exposed frame [stops]
        """
        start = 0.0
        for row, (name, stops) in enumerate(entries):
            self._set(row, name, start, stops, style.CAMERA if stops >= 0 else style.BODY)
            start += stops
        self._set(self.lines, "the frame", 0.0, start, style.INK)
        bad = room > start - UNDER
        self._set(self.lines + 1, "the room alone", 0.0, max(room, -99.0), style.BODY if bad else style.WATER)
        # More of the room is a longer bar: it comes in from the left.
        low, high = self.span
        self.bars[-1].set(x=low, width=min(max(room, low), high) - low)
        if room < -99:
            self.words[-1].set_text("dark")
        place, row = start - UNDER, self.lines + 1
        self.limit.set_data([place, place], [row - 0.45, row + 0.45])

    def _set(self, row, name, start, stops, color):
        low, high = self.span
        left, right = (min(max(edge, low), high) for edge in sorted((start, start + stops)))
        self.bars[row].set(x=left, width=right - left, facecolor=color)
        self.names[row].set_text(name)
        self.words[row].set_text(f"{stops:+.1f}".replace("-", "−") if abs(stops) >= 0.05 else "0")
