"""Words that move cheaply: each is set once, kept as pixels, and laid over the picture wherever it goes.

matplotlib sets every letter again at every draw, a good half millisecond for a label; a panel with twenty labels
spends its time on nothing else. A label that was set before costs a twentieth of that here, and one with a new number
in it no more than the number.
"""

import math
import unicodedata
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from matplotlib.backends.backend_agg import FigureCanvasAgg, RendererAgg
from matplotlib.colors import to_rgba
from matplotlib.figure import Figure
from matplotlib.font_manager import FontProperties, findfont, get_font
from matplotlib.text import Text

from splashlib.picture.kit import style

LACKING = "□"
MARGIN = 4  # kept free around the words [pixels]


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


@lru_cache(maxsize=256)
def drawable(text, font=None):
    """Words with a box in place of every letter that the font lacks; what has no width of its own is left out."""
    face = get_font(findfont(font or FontProperties(family=style.FONT["family"])))
    return "".join(_letter(letter, face) for letter in text)


def _letter(letter, face):
    if letter == "\n" or face.get_char_index(ord(letter)):
        return letter
    return "" if unicodedata.category(letter)[0] in "MC" else LACKING


@lru_cache(maxsize=256)
def _set(text, font, across, upright, spacing, dpi):
    """Set words: how much each pixel is covered, and where the block stands from the words' own place."""
    text = drawable(text, font)
    if "\n" in text or upright not in BASE:
        return _whole(text, font, across, upright, spacing, dpi)
    words = [_word(word, font, dpi) for word in text.split(" ")]
    ends = np.cumsum([word.advance for word in words])
    long = float(ends[-1]) - words[-1].advance + words[-1].width
    tall, deep = (max(getattr(word, name) for word in words) for name in ("tall", "deep"))
    start = {"left": 0.0, "center": -long / 2, "right": -long}[across]
    # Words are put together on whole pixels, so that each is set only once.
    places = [round(start + float(end) - word.advance) + word.left for word, end in zip(words, ends, strict=True)]
    top = max(word.top for word in words)
    left, right = min(places), max(place + word.mask.shape[1] for place, word in zip(places, words, strict=True))
    low = min(word.top - word.mask.shape[0] for word in words)
    mask = np.zeros((top - low, right - left), np.float32)
    for place, word in zip(places, words, strict=True):
        part = mask[top - word.top : top - word.top + word.mask.shape[0], place - left :][:, : word.mask.shape[1]]
        np.maximum(part, word.mask, out=part)
    return mask, left, top + round(BASE[upright](tall, deep))


BASE = {
    "baseline": lambda tall, deep: 0,
    "bottom": lambda tall, deep: deep,
    "center": lambda tall, deep: deep - tall / 2,
    "top": lambda tall, deep: deep - tall,
}
"""Where the baseline of a line stands from its place, by how it is aligned, its height and depth, as in `Text`."""


class Word(NamedTuple):
    """A word set on its baseline: its pixels and where they stand, how wide it is without and with a blank after it,
    and height and depth of a line with it [pixels]."""

    mask: np.ndarray
    left: int
    top: int
    width: float
    advance: float
    tall: float
    deep: float


@lru_cache(maxsize=256)
def _word(text, font, dpi):
    blank, least_tall, least_deep = _line(font, dpi)
    if not text:
        return Word(np.zeros((0, 0), np.float32), 0, 0, 0.0, blank, least_tall, least_deep)
    sheet = RendererAgg(8, 8, dpi)
    width, tall, deep = sheet.get_text_width_height_descent(text, font, False)
    left, top = -MARGIN, MARGIN + math.ceil(tall - deep)
    sheet = RendererAgg(math.ceil(width) + 2 * MARGIN, top + MARGIN + math.ceil(deep), dpi)
    sheet.draw_text(_black(sheet), MARGIN, top, text, font, 0)
    mask = np.asarray(sheet.buffer_rgba())[:, :, 3].astype(np.float32) / 255
    return Word(mask, left, top, width, width + blank, max(tall, least_tall), max(deep, least_deep))


@lru_cache(maxsize=64)
def _line(font, dpi):
    """Width of a blank, and the height and depth that a line has at least."""
    measure = RendererAgg(8, 8, dpi).get_text_width_height_descent
    return measure(" ", font, False)[0], *measure("lp", font, False)[1:]


def _black(renderer):
    context = renderer.new_gc()
    context.set_foreground("black")
    return context


def _whole(text, font, across, upright, spacing, dpi):
    """As `_set`, by matplotlib alone."""
    figure = Figure(dpi=dpi)
    FigureCanvasAgg(figure)
    look = {"fontproperties": font, "ha": across, "va": upright, "linespacing": spacing, "color": "black"}
    words = Text(0, 0, text, parse_math=False, **look)
    words.set_figure(figure)
    box = words.get_window_extent(RendererAgg(8, 8, dpi))
    left, low = int(np.floor(box.x0)) - MARGIN, int(np.floor(box.y0)) - MARGIN
    wide, tall = int(np.ceil(box.x1)) + MARGIN - left, int(np.ceil(box.y1)) + MARGIN - low
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
