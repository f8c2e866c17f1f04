"""Clouds of samples gathered into layers, and layers laid over the frame.

A cloud is a tuple of arrays of one shape: column, row, light, cover, and instant of the light.
"""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.picture.photo.raster.defocus import softened
from splashlib.picture.photo.raster.splatting import Splat, Window, window_around

SOFT_FROM = 1.4
"""Discs of defocus from this size on [picture elements] are drawn for whole layers of water; drops have their own."""

AT_ONCE = 500_000
"""Samples that are laid on the frame in one go; it bounds the memory that takes."""

COARSE = 4.6
"""Disc of defocus that cells twice as wide stand for [picture elements]: two steps between cells spread by D^2/16."""


def joined(clouds, light, height):
    """One cloud of many; what finds its row of the frame closed is left dark."""
    parts = [np.concatenate([np.ravel(c[n]) for c in clouds]).astype(np.float32, copy=False) for n in range(4)]
    if light.opening is not None:
        moments = np.concatenate([np.ravel(c[4]) for c in clouds])
        first, last = light.opening
        place = 1 - parts[1] / height
        open_ = (place >= first[moments]) & (place <= last[moments])
        parts[2], parts[3] = parts[2] * open_, parts[3] * open_
    return parts


@dataclass(frozen=True, eq=False)
class Painted:
    """A layer that is a picture already: light and cover (rows, columns) on a window; cover None for a clear film."""

    window: Window
    light: np.ndarray
    cover: np.ndarray | None


def _spread(clouds, painted, light, size, cell=1):
    """Clouds and a painted layer on the cells of a window: window, light, and how much is hidden there; None if empty.

    `size` is the frame's [picture elements]; clouds are in cells, `cell` picture elements wide.
    """
    window = painted.window if painted else Window(0, 0, 0, 0)
    if clouds:
        column, row, bright, cover = joined(clouds, light, size[1] / cell)
        window = window.joined(window_around(column, row, [-(-side // cell) for side in size]))
    if window.empty:
        return None
    hidden, shown = np.zeros((2, window.height, window.width), np.float32)
    if clouds:
        for first in range(0, len(column), AT_ONCE):
            part = slice(first, first + AT_ONCE)
            splat = Splat(column[part], row[part], window)
            hidden += splat.add(cover[part])
            shown += splat.add(bright[part])
    if painted:
        part = painted.window.within(window)
        if painted.cover is not None:
            hidden[part] += painted.cover
            shown[part] += painted.light
    # Where samples lie denser than their cells the light is that of one surface, not of several.
    shown /= np.maximum(hidden, 1)
    if painted and painted.cover is None:
        shown[part] += painted.light
    return window, shown, np.minimum(hidden, 1)


def coarsely(clouds, light, size, cell=2):
    """Gather clouds of things out of focus, or large, in coarser cells: each doubling needs a quarter of the samples.

    Parameters
    ----------
    clouds : list of clouds, their places in such cells
    light : Light
    size : (int, int), width and height of the frame [picture elements]
    cell : int, a power of two: picture elements that a cell is wide

    Returns
    -------
    Painted or None
        In picture elements; softer by what `softness` says.
    """
    layer = _spread(clouds, None, light, size, cell)
    if layer is None:
        return None
    window, *values = layer
    while cell > 1:
        cell //= 2
        limit = [-(-side // cell) for side in size]
        left, top = 2 * window.left, 2 * window.top
        window = Window(left, top, min(2 * window.width, limit[0] - left), min(2 * window.height, limit[1] - top))
        values = [_doubled(_doubled(each).T).T[: window.height, : window.width] for each in values]
    return Painted(window, *values)


def softness(cell):
    """Disc of defocus that `coarsely` stands for [picture elements]: each of its steps adds its own variance."""
    return COARSE * math.sqrt((cell**2 - 1) / 3)


def _doubled(values):
    """Twice as many rows, each three parts of its own and one of the nearer neighbour."""
    made = np.repeat(values * np.float32(0.75), 2, axis=0)
    made[2::2] += np.float32(0.25) * values[:-1]
    made[1:-1:2] += np.float32(0.25) * values[1:]
    return made


def _softened(window, bright, hidden, diameter, size):
    """A layer out of focus, on its larger window."""
    cut, top, left = softened(np.stack([bright, hidden], -1), window.top, window.left, diameter, size)
    grown = Window(left, top, cut.shape[1], cut.shape[0])
    return grown, cut[..., 0], np.clip(cut[..., 1], 0, 1)


def lay(image, clouds, light, *, tint, painted=None, disc=0.0, rows=None):
    """Lay clouds and a painted layer over an image, in place.

    Parameters
    ----------
    image : float32 array (3, height, width)
    clouds : list of clouds, or None among them
    light : Light
    tint : array (3,), colour of the clouds' light
    painted : Painted or None
    disc : float, diameter of their disc of defocus [picture elements]
    rows : array (height,), share of the layer that each row of the frame shows; None for all of it
    """
    size = image.shape[2], image.shape[1]
    clouds = [c for c in clouds if c is not None and c[0].size]
    layer = _spread(clouds, painted, light, size)
    if layer is None:
        return
    if disc >= SOFT_FROM:
        layer = _softened(*layer, disc, size)
    window, bright, hidden = layer
    if rows is not None:
        shown = rows[window.slices[0]][:, None]
        bright, hidden = bright * shown, hidden * shown
    kept = 1 - hidden
    # Colour by colour: numpy is several times slower along a last axis of three.
    for plane, colour in zip(image, tint, strict=True):
        part = plane[window.slices]
        part *= kept
        part += bright * colour
