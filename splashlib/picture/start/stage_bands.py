"""A few stages of the splash as small bands on the time axis of another chart."""

from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

MS = 1000.0
ROWS = (
    {"crown_peak": "crown", "film_closes": "water closes"},
    {"cavity_seals": "cavity closes", "crater_deepest": "crater"},
    {"jet_peak": "jet", "spout_peak": "low jet"},
)
"""What may stand in each row; a splash has at most one of them, or the likelier one is shown."""


class StageBands:
    """Draws the band of crown, cavity and jet, each with its name over it and a mark at the likely instant.

    Parameters
    ----------
    axes : matplotlib Axes, whose times are in ms
    span : (float, float), times shown [s]
    tops : sequence of float, heights of the rows, in units of the axes
    tall : float, height of a band, in units of the axes
    """

    def __init__(self, axes, *, span, tops, tall):
        self.span, self.shown = span, []
        self.bars, self.ticks, self.names = [], [], []
        for top in tops:
            bar = Rectangle((0, top), 1, tall, facecolor=style.WATER, alpha=0.35, lw=0, zorder=2)
            self.bars.append(axes.add_patch(bar))
            self.ticks.append(axes.plot([0, 0], [top, top + tall], color=style.WATER, lw=2.5, zorder=3)[0])
            said = {"fontsize": style.FONT["small"], "color": style.INK, "va": "bottom"}
            self.names.append(write(axes, 0, top + 1.1 * tall, **said))
        self.moving = [*self.bars, *self.ticks, *self.names]

    def move(self, stages, contact):
        """Show other stages.

        Parameters
        ----------
        stages : sequence of Stage, times after contact [s]
        contact : float, when the body meets the water, on the clock of the axes [s]
        """
        self.shown = []
        for row, wanted in enumerate(ROWS):
            found = [stage for stage in stages if stage.name in wanted and contact + stage.early < self.span[1]]
            stage = max(found, key=lambda each: each.chance, default=None)
            self.bars[row].set_visible(stage is not None)
            self.names[row].set_visible(stage is not None)
            self.ticks[row].set_visible(stage is not None and contact + stage.likely <= self.span[1])
            if stage:
                self.shown.append((wanted[stage.name], contact + stage.early, contact + stage.late))
                self._place(row, wanted[stage.name], [contact + t for t in (stage.early, stage.likely, stage.late)])

    def _place(self, row, name, times):
        early, likely, late = (MS * min(time, self.span[1]) for time in times)
        self.bars[row].set(x=early, width=late - early)
        self.ticks[row].set_xdata([likely, likely])
        self.names[row].set_text(name)
        # A name that would run out of the chart ends with its band instead.
        far = early > MS * (self.span[0] + 0.75 * (self.span[1] - self.span[0]))
        self.names[row].set(x=late if far else early, ha="right" if far else "left")

    def words(self):
        """Say the bands, for a person who does not see them."""
        rows = [f"{name} {MS * early:.0f} to {MS * late:.0f} ms" for name, early, late in self.shown]
        return f"Stages of the splash on the time axis, after the beam is broken: {', '.join(rows)}." if rows else ""
