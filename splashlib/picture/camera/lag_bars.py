"""The chain of lags as dated bars: one row for each camera, all on the clock of the beam."""

from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.colors import to_rgba
from matplotlib.patches import Patch, Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

MS = 1000.0
TALL = 0.56  # of a row
WAIT = "#b9bdc0"
COLORS = {
    "open": to_rgba(style.CAMERA, 0.22),
    "trigger": to_rgba(style.BEAM),
    "delay": to_rgba(WAIT),
    "camera": to_rgba(style.CAMERA),
    "curtain": to_rgba(style.INK),
    "flash": to_rgba(style.LIGHT),
}
LEGEND = {
    "trigger": "trigger",
    "delay": "delay",
    "camera": "mirror, camera",
    "curtain": "first curtain",
    "open": "frame open",
}
LETTER = 10.5  # rough width of a letter of the words in a bar [pixels]


class LagBars:
    """Draws rows of links, each row ending with its light.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    names : sequence of str, from top to bottom
    """

    def __init__(self, axes, *, names):
        self.axes, self.span = axes, None
        axes.set(ylim=(len(names) - 0.5, -0.5))
        axes.set_yticks(range(len(names)), names, fontweight="bold")
        axes.tick_params(axis="y", length=0)
        axes.axvline(0, color=style.BEAM, lw=1.4, ls=(0, (5, 2)))
        axes.grid(axis="x")
        axes.set_axisbelow(True)
        axes.spines["left"].set_visible(False)
        keys = [Patch(facecolor=COLORS[link], label=word) for link, word in LEGEND.items()]
        axes.legend(handles=keys, ncols=len(keys), loc="upper left", bbox_to_anchor=(0, -0.165), fontsize=13,
                    handlelength=0.9, handletextpad=0.4, columnspacing=1.2, borderpad=0)  # fmt: skip
        self._draw_moving(len(names))

    def set_scale(self, span):
        """Set the times that are shown [s]; redraws what rests when they change."""
        if span != self.span:
            self.span = span
            self.axes.set_xlim([MS * time for time in span])

    def _draw_moving(self, count):
        axes = self.axes
        self.mark = axes.add_patch(Rectangle((0, 0), 0, 1, fc=style.INK, alpha=0.10, lw=0))
        self.wanted = axes.add_patch(Rectangle((0, -0.5), 0, count, fc=style.WATER, alpha=0.22, lw=0))
        self.bars = PolyCollection([], lw=0)
        axes.add_collection(self.bars)
        (self.contact,) = axes.plot([], [], color=style.WATER, lw=2)
        self.lights = LineCollection([], colors=style.LIGHT, lw=2.2, zorder=0.9)
        self.spreads = LineCollection([], colors=style.INK, lw=2.4)
        for lines in (self.lights, self.spreads):
            axes.add_collection(lines)
        (self.stars,) = axes.plot([], [], marker="*", ms=19, mec=style.INK, mew=1.0, color=style.LIGHT, ls="none")
        inside = {"va": "center", "ha": "center", "fontsize": 13}
        self.waits = [write(axes, 0, row, color=style.INK, **inside) for row in range(count)]
        self.works = [write(axes, 0, row, color="white", fontweight="bold", **inside) for row in range(count)]
        self.dates = [write(axes, 0, row, va="center", fontsize=14.5, fontweight="bold") for row in range(count)]
        self.moving = [self.mark, self.wanted, self.bars, self.contact, self.lights, self.spreads, self.stars]
        self.moving += [*self.waits, *self.works, *self.dates]

    def move(self, rows, *, contact, wanted=None, chosen=None):
        """Draw the chains.

        Parameters
        ----------
        rows : sequence of (links, early, late, words): Links, band of the light [s], names of links in words
        contact : float [s]
        wanted : (float, float) or None, band of a stage that is aimed at [s]
        chosen : int or None, the row that stands out
        """
        low, high = self.axes.get_xlim()
        self.mark.set_visible(chosen is not None)
        self.mark.set(x=low, width=high - low, y=(chosen or 0) - 0.5)
        self.wanted.set_visible(wanted is not None)
        if wanted is not None:
            self.wanted.set(x=MS * wanted[0], width=MS * (wanted[1] - wanted[0]))
        self.contact.set_data([MS * contact] * 2, self.axes.get_ylim())
        self._move_bars([row[0] for row in rows])
        self._move_lights(rows)
        for row, (links, early, late, words) in enumerate(rows):
            self._write(row, {link.name: link for link in links}, early, late, words)

    def _move_bars(self, chains):
        boxes, colors = [], []
        for row, links in enumerate(chains):
            # What is open lies under the rest.
            for link in sorted(links, key=lambda each: each.name != "open"):
                boxes.append(_box(MS * link.start, MS * link.end, row))
                colors.append(COLORS[link.name])
        self.bars.set_verts(boxes)
        self.bars.set_facecolor(colors)

    def _move_lights(self, rows):
        found = [(MS * _light(links), row) for row, (links, *_) in enumerate(rows) if links]
        self.stars.set_data([when for when, _ in found], [row for _, row in found])
        self.lights.set_segments([[(when, row), (when, -0.5)] for when, row in found])
        spreads = [[(MS * early, row), (MS * late, row)] for row, (links, early, late, _) in enumerate(rows) if links]
        self.spreads.set_segments(spreads)

    def _write(self, row, links, early, late, words):
        for text, name in ((self.waits[row], "delay"), (self.works[row], "camera")):
            self._inside(text, links.get(name), words.get(name, ""))
        low, high = self.axes.get_xlim()
        date = self.dates[row]
        if not links:
            date.set(x=0, ha="left", text="  nothing is triggered", color=style.INK)
            return
        when, spread = MS * links["flash"].end, MS * (late - early) / 2
        said = f"{when:.0f} ± {spread:.{0 if spread >= 0.95 else 1}f} ms"
        room = (high - low) / self.axes.bbox.width
        if when > high:
            date.set(x=high, ha="right", text=f"{said} ▶ ")
        elif max(when, MS * late) + 120 * room > high:
            date.set(x=min(when - 16 * room, MS * early - 5 * room), ha="right", text=said)
        else:
            date.set(x=max(when + 16 * room, MS * late + 5 * room), ha="left", text=said)

    def _inside(self, text, link, word):
        """Write into a bar where it is long enough."""
        low, high = self.axes.get_xlim()
        start, end = (min(max(MS * each, low), high) for each in ((link.start, link.end) if link else (0, 0)))
        said = f"{word} {MS * link.time:.0f} ms" if link else ""
        text.set_visible((end - start) / (high - low) * self.axes.bbox.width > LETTER * len(said) > 0)
        text.set(x=(start + end) / 2, text=said)


def _light(links):
    return next(link.end for link in links if link.name == "flash")


def _box(start, end, row):
    low, high = row - TALL / 2, row + TALL / 2
    return [(start, low), (end, low), (end, high), (start, high)]
