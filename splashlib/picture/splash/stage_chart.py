"""The stages of a splash on a time axis: a band for each, with its likely instant, and a hand that moves over them."""

from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

MS = 1000.0
ROWS = 10
NAMES = {
    "body_under": "body is under",
    "crown_peak": "crown at its highest",
    "crown_falls": "crown has fallen back",
    "dome_closes": "crown closes to a dome",
    "cavity_seals": "cavity closes",
    "crater_deepest": "crater at its deepest",
    "bubble_pinched": "bubble is shut in",
    "jet_rises": "jet comes out",
    "jet_starts": "jet comes out",
    "jet_peak": "jet at its highest",
    "film_closes": "water closes over it",
    "spout_rises": "low jet comes out",
    "spout_peak": "low jet at its highest",
    "droplets_highest": "droplets highest",
    "droplets_at_beam": "last droplets at the beam",
    "jet_at_beam": "jet has left the beam",
    "spout_at_beam": "low jet has left the beam",
    "meets_bottom": "body on the bottom",
    "deepest": "body at its deepest",
    "surfaces": "body comes up again",
}
"""What a stage is called where a learner reads it."""
DARK, PALE = "#005a8c", style.DAMP
SURE = 0.995
"""A stage with a chance of at least this is said to happen always."""


def in_a_hundred(chance):
    """Say a chance as photographers meet it: so many of 100 drops."""
    return f"{100 * chance:.0f} of 100"


def most_likely(stages, rows=ROWS):
    """The stages that there is room for, in the order of their times; the rarest stay away first."""
    kept = sorted(stages, key=lambda stage: -stage.chance)[:rows]
    return [stage for stage in stages if stage in kept]


class StageChart:
    """Draws the bands of the stages of one splash against the time after contact.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    """

    def __init__(self, axes):
        self.axes, self.span = axes, None
        axes.set(ylim=(ROWS - 0.4, -0.6), yticks=[])
        axes.set_xlabel("time after contact, ms")
        axes.grid(axis="x")
        axes.spines["left"].set_visible(False)
        axes.axvline(0, color=style.WATER, lw=1.5)
        self.hand = axes.axvline(0, color=style.LIGHT, lw=4, zorder=1)
        self.bars, self.ticks, self.names, self.chances = [], [], [], []
        for row in range(ROWS):
            self.bars.append(axes.add_patch(Rectangle((0, row - 0.3), 1, 0.6, lw=0, zorder=2)))
            (tick,) = axes.plot([0, 0], [row - 0.42, row + 0.42], color=style.INK, lw=3, zorder=3)
            self.ticks.append(tick)
            side = {"va": "center_baseline", "fontsize": 12.5, "zorder": 4, "clip_on": False}
            self.names.append(write(axes, 0, row, ha="right", **side))
            self.chances.append(write(axes, 0, row, ha="left", color=style.INK, **{**side, "fontsize": 11.5}))
        self.moving = [self.hand, *self.bars, *self.ticks, *self.names, *self.chances]

    def set_span(self, span):
        """Show other times [s]; only a change costs anything."""
        if span != self.span:
            self.span = span
            self.axes.set_xlim(MS * span[0], MS * span[1])

    def move(self, stages, clock):
        """Draw the bands of a splash.

        Parameters
        ----------
        stages : sequence of Stage
            At most ROWS of them; times after contact [s].
        clock : float
            Where the hand stands [s after contact].
        """
        self.hand.set_xdata([MS * clock] * 2)
        for row in range(ROWS):
            shown = stages[row] if row < len(stages) else None
            for artist in (self.bars[row], self.ticks[row], self.names[row], self.chances[row]):
                artist.set_visible(shown is not None)
            if shown:
                self._row(row, shown, shown.early <= clock <= shown.late)

    def _row(self, row, stage, now):
        low, high = MS * self.span[0], MS * self.span[1]
        early, likely, late = (MS * min(time, self.span[1]) for time in (stage.early, stage.likely, stage.late))
        self.bars[row].set(x=early, width=late - early, facecolor=DARK if now else PALE)
        self.ticks[row].set_xdata([likely, likely])
        self.ticks[row].set_visible(MS * stage.likely <= high)
        self.names[row].set_text(("▸ " if now else "") + NAMES.get(stage.name, stage.name.replace("_", " ")))
        self.names[row].set(x=low, color=style.INK if now else style.QUIET)
        rare = stage.chance < SURE
        room = late + 0.16 * (high - low) < high
        self.chances[row].set_text(in_a_hundred(stage.chance) if rare else "")
        pad = 0.008 * (high - low)
        self.chances[row].set(x=late + pad if room else early - pad, ha="left" if room else "right")
