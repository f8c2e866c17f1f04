"""Photographs of the same drop in a row, each with a name above it, a large word and a line under it."""

import numpy as np
from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import Layered, Pixels
from splashlib.picture.kit.lettering import write

GAP, NAME, BADGE, LINE = 10, 30, 36, 28  # between frames; heights of name, word and line [pixels]
"""Grounds of the large words: the colours that the panel's own verdict has."""
QUICK = 2 / 3
"""How fine photographs are while a handle moves; at rest they are as fine as the screen."""
SIGNS = {"good": "✓", "warning": "!", "bad": "✕"}
GROUNDS = {"good": style.GOOD, "warning": style.WARNING, "bad": style.BAD}


class Shots:
    """A row of frames.

    Parameters
    ----------
    figure : matplotlib Figure
    names : sequence of str, one for each frame
    top : float, upper edge of the row [pixels from the top of the figure]
    shot : function (setup, size=(width, height)) -> uint8 array (height, width, 3): the photograph
    aspect : float, width of a frame over its height
    """

    def __init__(self, figure, names, *, top, shot, aspect=1.5):
        self.shot, self.setups, self._shown = shot, (), None
        wide, tall = figure.bbox.width, figure.bbox.height
        self.width = (wide - GAP * (len(names) + 1)) / len(names)
        self.height = round(self.width / aspect)
        self.depth = NAME + self.height + BADGE + LINE
        """Height of the whole row [pixels]."""
        words = figure.add_axes((0, 1 - (top + self.depth) / tall, 1, self.depth / tall))
        words.set(xlim=(0, wide), ylim=(self.depth, 0))
        words.axis("off")
        self.lefts = [GAP + number * (self.width + GAP) for number in range(len(names))]
        self.images = [self._frame(figure, left, top, wide, tall) for left in self.lefts]
        for left, name in zip(self.lefts, names, strict=True):
            words.text(left, NAME / 2 - 1, name, fontsize=16, fontweight="bold", va="center")
        words.text(wide - GAP, NAME / 2, "simulated", fontsize=11.5, color=style.QUIET, ha="right", va="center")
        self._draw_moving(words)

    def _frame(self, figure, left, top, wide, tall):
        low = tall - top - NAME - self.height
        axes = figure.add_axes((round(left) / wide, round(low) / tall, round(self.width) / wide, self.height / tall))
        axes.axis("off")
        return Pixels(axes)

    def _draw_moving(self, words):
        under = NAME + self.height
        centred = {"ha": "center", "va": "center"}
        self.badges, self.words, self.lines, self.rims = [], [], [], []
        for left in self.lefts:
            middle = left + self.width / 2
            self.badges.append(words.add_patch(Rectangle((left, under), self.width, BADGE, lw=0)))
            large = {"fontsize": 20, "fontweight": "bold", "color": "white", **centred}
            self.words.append(write(words, middle, under + BADGE / 2, **large))
            self.lines.append(write(words, middle, under + BADGE + LINE / 2, fontsize=14.5, **centred))
            rim = Rectangle((left, NAME), self.width, self.height + BADGE, fill=False, ec=style.INK, lw=4)
            self.rims.append(words.add_patch(rim))
        self.moving = [*self.images, *self.badges, *self.words, *self.lines, *self.rims]

    def move(self, setups, *, verdicts, chosen=None):
        """Show other drops.

        Parameters
        ----------
        setups : sequence of Setup, one for each frame
        verdicts : sequence of (tone, word, line)
        chosen : int, optional, the frame with a rim
        """
        self.setups, self._shown = tuple(setups), None
        for number, (tone, word, line) in enumerate(verdicts):
            self.badges[number].set_facecolor(GROUNDS[tone])
            self.words[number].set_text(f"{SIGNS[tone]} {word}")
            self.lines[number].set_text(line)
            self.rims[number].set_visible(number == chosen)

    def expose(self, scale=None):
        """Make the pictures, `scale` times as fine as the frames, unless they are there already.

        Without a scale any that are there will do.
        """
        if self._shown is not None and scale in (None, self._shown):
            return
        scale = scale or 1.0
        size = round(round(self.width) * scale), round(self.height * scale)
        for image, setup in zip(self.images, self.setups, strict=True):
            image.show(np.ascontiguousarray(self.shot(setup, size=size)))
        self._shown = scale


class ShotsPicture(Layered):
    """A picture with a row of photographs in it; its `build` sets `shots`."""

    shots: Shots

    def pixels(self, *, scale=1.0):
        """Draw the present state, with the photographs that are there."""
        self.shots.expose()
        return super().pixels(scale=scale)

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture; the photographs are coarser while a handle moves."""
        self.shots.expose(QUICK if moving else scale)
        return super().frame(moving=moving, scale=scale)
