"""The stops ledger: what each setting adds to the light or takes from it, one bar under the other."""

from matplotlib.patches import Rectangle
from matplotlib.ticker import MultipleLocator

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write
from splashlib.shoot.setup.figures import fixed

HEIGHT = 0.62


class ExposureBars:
    """Draws a running sum of stops; zero is a well exposed frame.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    rows : sequence of str, the names of the entries, top to bottom; the last one is the result
    span : (float, float), stops shown
    """

    def __init__(self, axes, *, rows, span):
        self.axes, self.span, self.last = axes, span, len(rows) - 1
        axes.set(xlim=span, ylim=(len(rows) - 0.4, -0.6))
        axes.set_yticks(range(len(rows)), rows)
        axes.tick_params(axis="y", length=0)
        axes.xaxis.set_major_locator(MultipleLocator(2))
        axes.set_xlabel("stops against a well exposed frame")
        axes.axvline(0, color=style.INK, lw=1.2)
        axes.axhline(self.last - 0.5, color=style.FAINT, lw=1)
        axes.grid(axis="x")
        axes.set_axisbelow(True)
        self.bars = [self._bar(row) for row in range(len(rows))]
        self.words = [write(axes, 0, row, va="center", fontsize=style.FONT["small"]) for row in range(len(rows))]
        self.moving = [*self.bars, *self.words]

    def _bar(self, row):
        return self.axes.add_patch(Rectangle((0, row - HEIGHT / 2), 0, HEIGHT, lw=0, zorder=2))

    def move(self, entries):
        """Draw the entries and their sum.

        Parameters
        ----------
        entries : sequence of float, the stops of every row but the last [stops]
        """
        start = 0.0
        for row, stops in enumerate(entries):
            self._set(row, start, stops, style.CAMERA if stops >= 0 else style.BODY)
            start += stops
        self._set(self.last, 0.0, start, style.INK)

    def _set(self, row, start, stops, color):
        low, high = self.span
        left, right = (min(max(edge, low), high) for edge in sorted((start, start + stops)))
        self.bars[row].set(x=left, width=right - left, facecolor=color)
        beside = right + 0.25 if right < high - 2.2 else left - 0.25
        self.words[row].set(
            x=beside, text=fixed(stops, 1, sign=True).replace("-", "−"), ha="left" if beside > left else "right"
        )
