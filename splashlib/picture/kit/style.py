"""The look of every figure: one palette, one set of line widths, roles instead of colours.

The hues follow the colour-blind-safe set of M. Okabe and K. Ito ("Color Universal Design", 2008), so that any two
roles stay apart for every common kind of colour vision; each role has a shape or a label of its own as well.
"""

INK = "#1d2b33"  # text, axes
PAPER = "#fbfaf6"  # ground of a chart
FAINT = "#d9d6cc"  # grid, frames
QUIET = "#6a747a"  # second-rank text
BODY = "#d55e00"  # what falls
WATER = "#0072b2"  # water and its surface
BEAM = "#cc3377"  # the beam
LIGHT = "#e69f00"  # the flash
CAMERA = "#009e73"  # mirror, curtains, open shutter
LAG = "#8a8f94"  # time that passes unused
NIGHT = "#0b1117"  # a dark frame, the studio
GOOD = "#00735a"  # a verdict that all is well
WARNING = "#8a5a00"  # a verdict to think about
BAD = "#b3401a"  # a verdict that it will not do
DAMP = "#9cc3dc"  # what water may reach; the likely side of a band

FONT = {"family": "DejaVu Sans", "small": 10.5, "normal": 12.0, "large": 15.0}

RC = {
    "font.family": FONT["family"],
    "font.size": FONT["normal"],
    # A learner may call a body what they like: "$" begins no formula.
    "text.parse_math": False,
    "axes.titlesize": FONT["normal"],
    "axes.titleweight": "bold",
    "axes.titlelocation": "left",
    "axes.labelsize": FONT["small"],
    "axes.labelcolor": INK,
    "axes.edgecolor": QUIET,
    "axes.linewidth": 0.8,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.facecolor": PAPER,
    "figure.facecolor": PAPER,
    "text.color": INK,
    "xtick.labelsize": FONT["small"],
    "ytick.labelsize": FONT["small"],
    "xtick.color": QUIET,
    "ytick.color": QUIET,
    "xtick.labelcolor": INK,
    "ytick.labelcolor": INK,
    "grid.color": FAINT,
    "grid.linewidth": 0.7,
    "legend.frameon": False,
    "legend.fontsize": FONT["small"],
    "lines.linewidth": 2.0,
    "lines.solid_capstyle": "round",
}
