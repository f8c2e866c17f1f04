"""Close up at the water: bodies let go together, at the instant when a fall without air would end."""

import textwrap

from matplotlib.patches import Circle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import drawable

MM = 1000.0
DRY = "#f2efe6"  # words and lines on the dark frame
NARROWEST = 33.0  # least room for a body and the words under it [mm]
WORDS = 12.5  # size of the words [points]
WIDEST = 11  # letters in one line under a body
KEY = "ring: without air\ndisc: with air"


class ArrivalChart:
    """Draws several bodies side by side: a ring where each would be without air, a disc where it is.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    bodies : dict of name -> diameter [m], from left to right
    top, floor : float, heights shown [m]
    """

    def __init__(self, axes, *, bodies, top, floor):
        self.axes = axes
        sizes = [MM * size for size in bodies.values()]
        rooms = [max(size + 8, NARROWEST) for size in sizes]
        tall = MM * (top - floor)
        # Wide bodies of a learner's own may ask for more than there is: then the frame shows more height, too.
        width = max(sum(rooms), tall * axes.bbox.width / axes.bbox.height)
        tall = width * axes.bbox.height / axes.bbox.width
        floor, self.top = MM * floor, MM * floor + tall
        axes.set(xlim=(0, width), ylim=(floor, self.top), xticks=[], yticks=[], facecolor=style.NIGHT)
        for side in axes.spines.values():
            side.set_visible(False)
        axes.axhspan(floor, 0, color=style.WATER, alpha=0.35, lw=0)
        axes.axhline(0, color=style.WATER, lw=1.6)
        axes.text(4, self.top - 5, KEY, color=DRY, fontsize=WORDS, va="top", linespacing=1.4)
        self.columns = {
            name: _Column(axes, name, place, MM * bodies[name], floor)
            for name, place in zip(bodies, _middles(rooms, width), strict=True)
        }
        self.moving = [artist for column in self.columns.values() for artist in column.moving]

    def move(self, *, behind, chosen):
        """Place the bodies.

        Parameters
        ----------
        behind : dict of name -> float, how far each still is above the water [m]
        chosen : str, the one that stands out
        """
        for name, column in self.columns.items():
            column.move(MM * behind[name], self.top - 8, chosen=name == chosen)


class _Column:
    """One body, its ring, its gap and its words."""

    def __init__(self, axes, name, place, size, floor):
        self.size = size
        axes.add_patch(Circle((place, size / 2), size / 2, fill=False, ec=DRY, lw=1.2, ls=(0, (3, 2)), zorder=2))
        self.place = place
        self.disc = axes.add_patch(Circle((place, size / 2), size / 2, fc=style.BODY, ec=DRY, zorder=3))
        (self.gap,) = axes.plot([place, place], [0, 0], color=style.LIGHT, lw=2.2, zorder=4)
        centred = {"ha": "center", "color": DRY, "fontsize": WORDS}
        self.much = axes.text(place, 0, "", va="bottom", fontweight="bold", **centred)
        axes.text(place, floor / 2, "\n".join(textwrap.wrap(drawable(name), WIDEST)[:2]), va="center", **centred)
        self.moving = [self.disc, self.gap, self.much]

    def move(self, behind, top, *, chosen):
        middle = behind + self.size / 2
        self.disc.set_center((self.place, middle))
        self.disc.set(alpha=1.0 if chosen else 0.55, linewidth=3.0 if chosen else 0)
        self.gap.set_data([self.place, self.place], [0, behind])
        above = min(behind + self.size + 2, top)
        self.much.set(y=above, text=f"{behind:.0f} mm" if behind >= 9.5 else f"{behind:.1f} mm")


def _middles(rooms, width):
    """Middles of columns of these widths, spread over the whole width."""
    rooms = [room + (width - sum(rooms)) / len(rooms) for room in rooms]
    return [sum(rooms[:number]) + room / 2 for number, room in enumerate(rooms)]
