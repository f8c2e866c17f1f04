"""Where a learner stands, as a picture: a row of squares for each lesson, one square for each question."""

import io

import matplotlib as mpl
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from splashlib.picture.kit.style import CAMERA, INK, LIGHT, PAPER, QUIET, RC

# Shape and sign differ as well as colour.
LOOKS = {
    "right": {"facecolor": CAMERA, "edgecolor": CAMERA, "sign": "✓", "ink": PAPER},
    "tried": {"facecolor": PAPER, "edgecolor": LIGHT, "sign": "~", "ink": INK},
    "open": {"facecolor": PAPER, "edgecolor": QUIET, "sign": "", "ink": INK},
}
WORDS = {"right": "right", "tried": "tried", "open": "not yet"}
ROW, EDGE = 0.42, 0.78  # height of a row [in], edge of a square in rows


def standing(ax, rows):
    """Draw the rows into axes.

    Parameters
    ----------
    ax : matplotlib.axes.Axes
    rows : list of (title, list of states), a state being "right", "tried" or "open"
    """
    longest = max((len(states) for _, states in rows), default=1)
    for number, (title, states) in enumerate(rows):
        y = len(rows) - number
        ax.text(-0.35, y, title, ha="right", va="center")
        for place, state in enumerate(states):
            _square(ax, place, y, LOOKS[state])
        done = sum(state == "right" for state in states)
        ax.text(longest + 0.1, y, f"{done} of {len(states)}", ha="left", va="center", color=QUIET)
    for place, state in enumerate(LOOKS):
        _square(ax, 2.2 * place, -0.15, LOOKS[state])
        ax.text(2.2 * place + 0.95, -0.15, WORDS[state], ha="left", va="center", color=QUIET)
    ax.set(xlim=(-6.2, max(longest + 1.8, 7.4)), ylim=(-0.8, len(rows) + 0.7), aspect="equal")
    ax.axis("off")


def _square(ax, x, y, look):
    colours = {key: look[key] for key in ("facecolor", "edgecolor")}
    ax.add_patch(Rectangle((x, y - EDGE / 2), EDGE, EDGE, linewidth=2, **colours))
    ax.text(x + EDGE / 2, y, look["sign"], ha="center", va="center", color=look["ink"], weight="bold")


def standing_png(rows):
    """Draw the rows as a PNG; returns bytes."""
    with mpl.rc_context(RC):
        longest = max((len(states) for _, states in rows), default=1)
        width, height = max(longest + 1.8, 7.4) + 6.2, len(rows) + 1.5
        figure = Figure(figsize=(ROW * width, ROW * height), dpi=110)
        FigureCanvasAgg(figure)
        standing(figure.add_axes((0, 0, 1, 1)), rows)
        png = io.BytesIO()
        figure.savefig(png, format="png")
    return png.getvalue()
