"""Lead against lag: from the beam to the instant that is wanted, what the rig takes and what the delay waits."""

from matplotlib.patches import Rectangle

from splashlib.picture.kit import style

MS = 1000.0
TALL = 0.62  # of a bar, in rows


class LeadChart:
    """Draws one bar for each beam: lag, then delay, up to the light; a mark where the light is wanted.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    rows : sequence of str, names of the beams from above
    span : float, the longest time shown [s]
    """

    def __init__(self, axes, *, rows, span):
        self.axes, self.span = axes, MS * span
        places = range(len(rows))
        axes.set(xlim=(0, self.span), ylim=(len(rows) - 0.4, -0.6))
        axes.set_yticks(list(places), rows)
        axes.tick_params(axis="y", length=0)
        axes.set_xlabel("ms after the beam is broken")
        axes.axvline(0, color=style.BEAM, lw=2.0)
        self.rows = [_Row(axes, place, self.span) for place in places]
        self.moving = [artist for row in self.rows for artist in row.moving]

    def move(self, row, *, lead, lag, delay):
        """Draw one bar.

        Parameters
        ----------
        row : int, which
        lead : float, from the beam to the instant that is wanted [s]
        lag : float or None, from the beam to the light without any delay [s]; None: nothing is triggered
        delay : float [s]
        """
        self.rows[row].move(MS * lead, None if lag is None else MS * lag, MS * delay)


class _Row:
    def __init__(self, axes, place, span):
        self.span, low = span, place - TALL / 2
        self.lag = axes.add_patch(Rectangle((0, low), 0, TALL, fc=style.LAG, ec=style.INK, lw=0.8, hatch="////"))
        self.delay = axes.add_patch(Rectangle((0, low), 0, TALL, fc=style.FAINT, ec=style.INK, lw=0.8))
        (self.light,) = axes.plot([], [], color=style.LIGHT, lw=4.5, solid_capstyle="butt")
        (self.wanted,) = axes.plot([], [], marker="v", ms=10, color=style.BODY, mec=style.INK, ls="none")
        self.words = axes.text(0, place, "", va="center")
        self.place = place
        self.moving = [self.lag, self.delay, self.light, self.wanted, self.words]

    def move(self, lead, lag, delay):
        """All in ms."""
        self.wanted.set_data([min(max(lead, 0), self.span)], [self.place - TALL / 2 - 0.12])
        lit = lag is not None
        for artist in (self.lag, self.delay, self.light):
            artist.set_visible(lit)
        end = lag + delay if lit else max(lead, 0)
        if lit:
            self.lag.set_width(lag)
            self.delay.set(x=lag, width=delay)
            self.light.set_data([end, end], [self.place - TALL / 2 - 0.12, self.place + TALL / 2 + 0.12])
        self._say(max(end, lead), _words(lead, lag, delay))

    def _say(self, end, text):
        """The words stand behind the bar, or in it where it is long."""
        inside = end > 0.62 * self.span
        step = (-0.015 if inside else 0.015) * self.span
        self.words.set(text=text, x=min(end, self.span) + step, ha="right" if inside else "left")


def _words(lead, lag, delay):
    if lag is None:
        return "nothing breaks the beam"
    if lag + delay > lead + 0.05:
        return f"lag {lag:.1f} ms: {lag + delay - lead:.1f} ms too late"
    return f"lag {lag:.1f} + delay {delay:.1f} ms"
