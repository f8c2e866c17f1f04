"""Words that move cheaply: each is set once, kept as pixels, and laid over the picture wherever it goes.

matplotlib sets every letter again at every draw, a good half millisecond for a label; a panel with twenty labels
spends its time on nothing else. A label that was set before costs a twentieth of that here.
"""

from functools import lru_cache

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.colors import to_rgba
from matplotlib.figure import Figure
from matplotlib.text import Text

ROOM = 4  # kept free around the words [pixels]


class Lettering(Text):
    """A Text that keeps its pixels. It takes no box and no rotation; it stands on whole pixels."""

    def draw(self, renderer):
        if not self.get_visible() or not self.get_text():
            return
        x, y = self.get_transform().transform(self.get_unitless_position())
        mask, left, top = _set(*self._style(), renderer.dpi)
        target = np.asarray(renderer.buffer_rgba())
        _lay_over(target, mask, round(x) + left, target.shape[0] - round(y) - top, to_rgba(self.get_color()))
        self.stale = False

    def _style(self):
        return (
            self.get_text(),
            self.get_fontproperties().copy(),
            self.get_horizontalalignment(),
            self.get_verticalalignment(),
            self._linespacing,
        )


def write(axes, x, y, text="", **kwargs):
    """Put words on Axes, as `axes.text` does."""
    words = Lettering(x, y, text, **{"transform": axes.transData, "clip_on": False, **kwargs})
    axes.add_artist(words)
    return words


@lru_cache(maxsize=1024)
def _set(text, font, across, upright, spacing, dpi):
    """Set words: how much each pixel is covered, and where the block stands from the words' own place."""
    figure = Figure(dpi=dpi)
    FigureCanvasAgg(figure)
    words = Text(0, 0, text, fontproperties=font, ha=across, va=upright, linespacing=spacing, color="black")
    words.set_figure(figure)
    box = words.get_window_extent(RendererAgg(8, 8, dpi))
    left, low = int(np.floor(box.x0)) - ROOM, int(np.floor(box.y0)) - ROOM
    wide, tall = int(np.ceil(box.x1)) + ROOM - left, int(np.ceil(box.y1)) + ROOM - low
    sheet = RendererAgg(wide, tall, dpi)
    words.set_position((-left, -low))
    words.draw(sheet)
    mask = np.asarray(sheet.buffer_rgba())[:, :, 3].astype(np.float32) / 255
    return mask, left, low + tall


def _lay_over(target, mask, x, y, color):
    """Blend words in a colour into a picture, as far as they lie in it."""
    tall, wide = target.shape[:2]
    left, top = max(x, 0), max(y, 0)
    right, low = min(x + mask.shape[1], wide), min(y + mask.shape[0], tall)
    if left >= right or top >= low:
        return
    cover = (mask[top - y : low - y, left - x : right - x] * color[3])[:, :, None]
    part = target[top:low, left:right, :3]
    ink = np.array(color[:3], np.float32) * 255
    part[...] = part + (ink - part) * cover + 0.5
    target[top:low, left:right, 3] = 255
