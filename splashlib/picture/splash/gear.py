"""Flash heads and camera beside the set, at their distances, with the sheet before them where there is one."""

import numpy as np
from matplotlib.patches import Polygon, Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.dry_words import at_words, name_of
from splashlib.picture.kit.lettering import write
from splashlib.shoot import stands

CM = 100.0
MOST = 4
"""So many heads are drawn."""
WET = "#b3401a"
"""Edge of what drops can reach; its name says so, too."""
TALL, DEEP, CLEAR = 26.0, 5.0, 5.0
"""Height of a head's light at most, how deep it is drawn, and how far before it the sheet stands [cm]."""
EDGE = 1.5
"""Kept free between a name and the edge of the picture [cm]."""


class Gear:
    """Draws heads on the left, the camera on the right, heights and distances in cm.

    Parameters
    ----------
    axes : matplotlib Axes
    side : float, half the width that is shown; what stands farther away is drawn there [cm]
    floor : float, height of the table [cm]
    """

    def __init__(self, axes, *, side, floor):
        self.side, self.floor = side, floor
        self.heads = [_Thing(axes, Polygon(np.zeros((4, 2)), closed=True), side) for _ in range(MOST)]
        self.camera = _Thing(axes, Rectangle((0, 0), 1, 1), side)
        self.lens = axes.add_patch(Rectangle((0, 0), 1, 1, fc=style.QUIET, ec=style.INK, lw=1))
        self.moving = [each for thing in (*self.heads, self.camera) for each in thing.moving] + [self.lens]

    def move(self, setup, system="metric"):
        """Put everything where the set-up says."""
        found, count = stands(setup), len(setup.flashes)
        for number, thing in enumerate(self.heads):
            thing.show(number < count)
            if number < count:
                self._place_head(thing, found[number], setup.flashes[number], number, count, system)
        self._place_camera(setup, found[-2], found[-1], system)

    def _place_head(self, thing, stand, head, number, count, system):
        # Every second head stands on the other side, as in the photograph, over the camera.
        way, low = (-1, 2.0) if number % 2 == 0 else (1, 18.0)
        tall = min(CM * head.size, TALL)
        near = min(CM * stand.distance, self.side - DEEP - 1)
        far, middle = near + DEEP, low + tall / 2
        edge = min(1.5, tall / 2)
        front = [(way * near, low), (way * near, low + tall)]
        thing.shape.set_xy([*front, (way * far, middle + edge), (way * far, middle - edge)])
        words = f"{name_of(stand, count)}, {at_words(stand.distance, system)}"
        thing.say(stand, way, near, low, low + tall, words, style.LIGHT)

    def _place_camera(self, setup, lens, camera, system):
        near = min(CM * lens.distance, self.side - 17)
        far = min(CM * camera.distance, self.side - 8)
        level = CM * lens.height
        self.lens.set_bounds(near, level - 2.5, far - near, 5)
        self.camera.shape.set_bounds(far, level - 4, 6, 9)
        words = f"lens, {at_words(lens.distance, system)}"
        self.camera.say(lens, 1, near, level - 5, level + 6, words, style.CAMERA)


class _Thing:
    """One thing: its shape, the sheet before it, its name."""

    def __init__(self, axes, shape, side):
        self.side = side
        self.shape = axes.add_patch(shape)
        (self.sheet,) = axes.plot([], [], color=style.INK, lw=2.2)
        self.name = write(axes, 0, 0, ha="center", va="bottom", fontsize=13.5)
        self.moving = [self.shape, self.sheet, self.name]

    def show(self, seen):
        for each in self.moving:
            each.set_visible(seen)

    def say(self, stand, way, near, low, high, words, colour):
        """Name it, colour its edge by whether drops reach it, and draw its sheet."""
        edge, wide = (style.INK, 1.2) if stand.safe else (WET, 3.5)
        self.shape.set(facecolor=colour, edgecolor=edge, linewidth=wide)
        self.sheet.set_data([way * (near - CLEAR)] * 2, [low - 2, high + 2])
        self.sheet.set_visible(stand.shielded)
        behind = ", sheet" if stand.shielded else ""
        self.name.set(text=words + behind if stand.safe else f"{words}: wet!", color=style.INK if stand.safe else WET)
        self.name.set_position((way * min(near + 2, self.side - EDGE - self._half_name()), high + 3))

    def _half_name(self):
        """Half the width of the name [cm]."""
        box = self.name.get_window_extent()
        (left, _), (right, _) = self.name.axes.transData.inverted().transform(box.get_points())
        return (right - left) / 2
