"""Pictures that follow the hand: what rests is drawn once and kept, only what moves is drawn again.

A whole matplotlib figure takes tens of milliseconds to draw, most of it for axes, ticks and words that never
change. `Layered` keeps those as finished pixels and draws the few moving artists over a copy of them.
"""

import io
from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar, Protocol

import matplotlib
import numpy as np
from matplotlib.artist import Artist
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure
from PIL import Image

from splashlib.picture.kit import style

TONES = ("", "good", "warning", "bad")
DPI = 100
# Moving artists lie above all resting ones of their Axes. A full redraw then gives the very same picture.
LIFT = 1000.0
QUALITY = 88


@dataclass(frozen=True)
class Description:
    """What a picture says in words.

    Parameters
    ----------
    readout : pairs of str
        Label and value, in the order in which they are read.
    alt : str
        The alternative text: what the picture shows, for a person who does not see it.
    line : str
        The verdict in one sentence.
    tone : str
        How the verdict is meant: "good", "warning", "bad", or "" for neither; shown as a sign and a colour.
    idle : pairs of str
        Settings and extras that change nothing as things stand, and why: a panel lets their handles rest.
    """

    readout: tuple[tuple[str, str], ...]
    alt: str
    line: str = ""
    tone: str = ""
    idle: tuple[tuple[str, str], ...] = ()

    def __post_init__(self):
        if not self.alt.strip():
            raise ValueError("alt is empty; every picture needs a text that says what it shows")
        if self.tone not in TONES:
            raise ValueError(f"tone is {self.tone!r}; it must be one of {', '.join(map(repr, TONES))}")


class Picture(Protocol):
    """What a panel can show."""

    size: tuple[int, int]
    """Width and height [pixels]."""
    system: str
    """The units that the words use, "metric" or "imperial"; the panel sets it before `update`."""

    def update(self, setup, **extras) -> Description:
        """Follow the set-up, and say in words what is seen now."""

    def frame(self, *, moving: bool, scale: float = 1.0) -> bytes:
        """Give the encoded picture: JPEG while a handle moves, PNG at rest, `scale` times as fine."""


class Layered:
    """A figure for a panel: a subclass builds it once, and moves its artists in `update`.

    A subclass sets `size`, and writes `build(figure)`, which draws everything and returns the artists that
    will move, and `update(setup, **extras)`, which moves them and returns `Description`. The resting layer is drawn
    again by itself when something in it changes (axis limits, a title); `invalidate()` forces it.

    Moving artists are drawn in the order of their zorder, above all that rests. That equals matplotlib's own
    full redraw, pixel for pixel, as long as nothing that moves in one Axes reaches into the next (there it
    lies above, not below) and legends have a fixed place (the "best" one follows what moves).

    Parameters
    ----------
    size : (int, int), optional
        Width and height [pixels], instead of the class's own.
    """

    size: tuple[int, int] = (900, 400)
    system: str = "metric"
    rc: ClassVar[dict] = {}

    def __init__(self, size=None):
        self.size = tuple(size or self.size)
        self.static_draws = 0
        self._layers = {}
        self._moving = []
        inches = [pixels / DPI for pixels in self.size]
        with matplotlib.rc_context(self._look()):
            self.figure = Figure(figsize=inches, dpi=DPI)
            self.canvas = FigureCanvasAgg(self.figure)
            self.moves(*(self.build(self.figure) or ()))

    def build(self, figure) -> Iterable[Artist]:
        """Draw everything once; return the artists that will move."""
        raise NotImplementedError

    def moves(self, *artists):
        """Declare artists as moving ones, and leave them out of the resting layer."""
        for artist in artists:
            if artist in self._moving:
                continue
            # An animated artist is left out of an ordinary draw, and its changes do not make the figure
            # stale; so a stale figure means that the resting layer really changed.
            artist.set_animated(True)
            artist.set_zorder(artist.get_zorder() + LIFT)
            self._moving.append(artist)
        self.invalidate()

    def invalidate(self):
        """Have the resting layer drawn again at the next frame."""
        self._layers.clear()

    def pixels(self, *, scale=1.0):
        """Draw the present state.

        Returns
        -------
        uint8 array (height, width, 4), which the next call overwrites
        """
        stale = self.figure.stale
        if scale != self.figure.get_dpi() / DPI:
            self.figure.set_dpi(DPI * scale)
        if stale:
            self.invalidate()
        if scale not in self._layers:
            self._draw_resting(scale)
        renderer = self.canvas.get_renderer()
        buffer = np.asarray(renderer.buffer_rgba())
        buffer[:] = self._layers[scale]
        for artist in self._moving:
            artist.draw(renderer)
        self.figure.stale = False
        return buffer

    def redrawn(self):
        """Draw everything from nothing, as matplotlib does it by itself; slow, for comparison."""
        self.figure.set_dpi(DPI)
        for artist in self._moving:
            artist.set_animated(False)
        with matplotlib.rc_context(self._look()):
            self.canvas.draw()
        for artist in self._moving:
            artist.set_animated(True)
        self.invalidate()
        return np.array(self.canvas.buffer_rgba())

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture: JPEG while a handle moves, PNG at rest."""
        if moving:
            return jpeg(self.pixels())
        return png(self.pixels(scale=scale))

    def _look(self):
        return {**style.RC, **self.rc}

    def _draw_resting(self, scale):
        with matplotlib.rc_context(self._look()):
            self.canvas.draw()
        # Kept: the everyday layer, and one finer one for screens with small pixels.
        self._layers = {1.0: self._layers[1.0]} if 1.0 in self._layers else {}
        self._layers[scale] = np.array(self.canvas.buffer_rgba())
        self._moving.sort(key=self._place)
        self.static_draws += 1

    def _place(self, artist):
        """The key by which an ordinary draw would order this artist among the moving ones."""
        axes = artist.axes
        if axes is None:
            return artist.get_zorder(), 0, 0.0, 0
        owner = self.figure.axes.index(axes) if axes in self.figure.axes else 0
        children = axes.get_children()
        index = children.index(artist) if artist in children else len(children)
        return axes.get_zorder(), owner, artist.get_zorder(), index


class Pixels(Artist):
    """An image that fills its Axes and is copied there as it is, past matplotlib's resampling.

    For photographs: an array of just the size of the Axes costs a copy, any other size one quick resize.

    Parameters
    ----------
    axes : matplotlib Axes
    array : uint8 array (height, width, 3), optional
    """

    def __init__(self, axes, array=None):
        super().__init__()
        self._array = None
        axes.add_artist(self)
        self.show(array)

    def show(self, array):
        """Set the image; None shows nothing."""
        if array is not None:
            array = np.asarray(array)
            if array.dtype != np.uint8 or array.ndim != 3 or array.shape[2] != 3:
                found = f"{array.dtype} of shape {array.shape}"
                raise ValueError(f"array is {found}; it must be uint8 of shape (height, width, 3)")
        self._array = array
        self.stale = True

    def size(self):
        """Width and height that need no resize [pixels]."""
        left, bottom, right, top = self._box()
        return right - left, top - bottom

    def draw(self, renderer):
        if self._array is None or not self.get_visible():
            return
        left, bottom, right, top = self._box()
        image = _fitted(self._array, (right - left, top - bottom))
        target = np.asarray(renderer.buffer_rgba())
        height = target.shape[0]
        target[height - top : height - bottom, left:right, :3] = image
        target[height - top : height - bottom, left:right, 3] = 255
        self.stale = False

    def _box(self):
        return [round(edge) for edge in self.axes.bbox.extents]


def _fitted(array, size):
    if (array.shape[1], array.shape[0]) == size:
        return array
    return np.asarray(Image.fromarray(array).resize(size, Image.Resampling.BILINEAR))


def jpeg(array, *, quality=QUALITY):
    """Encode pixels as JPEG, with full colour in every pixel: halved colour smears thin red lines.

    Parameters
    ----------
    array : uint8 array (height, width, 3 or 4)

    Returns
    -------
    bytes
    """
    mode = "RGBX" if array.shape[2] == 4 else "RGB"
    size = array.shape[1], array.shape[0]
    image = Image.frombuffer(mode, size, np.ascontiguousarray(array), "raw", mode, 0, 1)
    out = io.BytesIO()
    image.save(out, "JPEG", quality=quality, subsampling=0)
    return out.getvalue()


def png(array):
    """Encode pixels as PNG, without loss.

    Parameters
    ----------
    array : uint8 array (height, width, 3 or 4)

    Returns
    -------
    bytes
    """
    out = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(array[:, :, :3])).save(out, "PNG", compress_level=4)
    return out.getvalue()
