"""Which rows of the frame are open when: a slit that crosses the frame, and the flash that finds it somewhere."""

from matplotlib.patches import Polygon
from matplotlib.ticker import MaxNLocator

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

MS = 1000.0


class CurtainChart:
    """Draws the opening of one shutter: time to the right, rows of the picture upwards.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    named : bool, whether the rows are named at the left
    """

    def __init__(self, axes, *, named):
        self.axes, self.span = axes, None
        axes.set(ylim=(0, 1), yticks=[0, 1], yticklabels=["bottom", "top"] if named else ["", ""])
        axes.tick_params(axis="y", length=0)
        axes.set_facecolor(style.NIGHT)
        axes.set_xlabel("ms")
        axes.xaxis.set_major_locator(MaxNLocator(4, prune="upper"))
        self.open = axes.add_patch(Polygon([(0, 0)] * 4, closed=True, fc=style.CAMERA, alpha=0.9, lw=0))
        (self.missed,) = axes.plot([], [], color=style.LIGHT, lw=2, ls=(0, (1, 1.2)))
        (self.lit,) = axes.plot([], [], color=style.LIGHT, lw=6, solid_capstyle="butt")
        look = {"color": "white", "fontsize": 13, "ha": "center", "va": "center"}
        self.word = write(axes, 0, 0.5, **look)
        self.moving = [self.open, self.missed, self.lit, self.word]

    def set_span(self, span):
        """Set the time that is shown [s]; redraws what rests when it changes."""
        if span != self.span:
            self.span = span
            self.axes.set_xlim(-0.04 * MS * span, MS * span)

    def move(self, *, sweep, exposure, light, rows):
        """Draw one opening.

        Parameters
        ----------
        sweep : float, time between the first and the last row [s]
        exposure : float, how long each row is open [s]
        light : float, when the flash comes, since the curtain started [s]
        rows : (float, float), the first and the last row that are open then, as shares from the bottom
        """
        corners = [(0, 0), (sweep, 1), (sweep + exposure, 1), (exposure, 0)]
        self.open.set_xy([(MS * time, row) for time, row in corners])
        self.missed.set_data([MS * light] * 2, [0, 1])
        self.lit.set_data([MS * light] * 2, rows)
        self._name(sweep / 2, min(sweep / 2 + exposure, self.span), light)

    def _name(self, start, end, light):
        """Write into the slit, on the side of the flash that has more room, if it has enough."""
        start, end = max([(start, min(light, end)), (max(light, start), end)], key=lambda part: part[1] - part[0])
        self.word.set(x=MS * (start + end) / 2, text="open")
        self.word.set_visible((end - start) / self.span * self.axes.bbox.width > 60)
