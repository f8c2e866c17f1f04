"""The disc that a lens makes of every point out of focus."""

import math
from functools import lru_cache

import numpy as np

from splashlib.picture.photo.raster.kept_results import kept

SHARP = 0.7
"""Discs smaller than this [picture elements] are left out: the element itself is as large."""


@lru_cache(maxsize=64)
def disc(diameter):
    """A disc of even light, its sum 1, on an odd square of cells; shares of cells at its edge are counted."""
    side = 2 * int(np.ceil((diameter + 1) / 2)) + 1
    fine = int(np.clip(np.ceil(64 / diameter), 1, 16))
    places = (np.arange(side * fine) + 0.5) / fine - side / 2
    inside = np.hypot(*np.meshgrid(places, places)) <= diameter / 2
    cells = inside.reshape(side, fine, side, fine).mean((1, 3))
    return (cells / cells.sum()).astype(np.float32)


def defocused(layer, diameter):
    """A layer (rows, columns, channels) with each point spread to a disc, and the margin added on every side.

    Parameters
    ----------
    layer : float32 array
    diameter : float [picture elements]

    Returns
    -------
    tuple
        float32 array (rows + 2 margin, columns + 2 margin, channels), margin
    """
    if diameter < SHARP:
        return layer, 0
    kernel = disc(round(float(diameter), 2))
    margin = len(kernel) // 2
    rows, columns = layer.shape[0] + 2 * margin, layer.shape[1] + 2 * margin
    shape = _easy(rows), _easy(columns)
    spread = np.fft.rfft2(layer, shape, axes=(0, 1))
    spread *= _transform(round(float(diameter), 2), shape)[..., None]
    return np.fft.irfft2(spread, shape, axes=(0, 1))[:rows, :columns].astype(np.float32), margin


@kept(megabytes=16)
def _transform(diameter, shape):
    return np.fft.rfft2(disc(diameter), shape)


@lru_cache(maxsize=512)
def _easy(count):
    """The next length that a fast transform likes: only 2, 3 and 5 divide it."""
    while True:
        rest = count
        for factor in (2, 3, 5):
            while rest % factor == 0:
                rest //= factor
        if rest == 1:
            return count
        count += 1


LARGE = 12.0
"""Discs beyond this size [picture elements] are spread on coarser cells: nothing fine is left under them."""

CELLS = 24.0
"""Greatest diameter of such a disc in its coarser cells, which are at least twice as wide."""

SMALL = 4.8
"""Up to this diameter a few spreads over three cells each way can stand for a disc [picture elements]."""


def slightly_defocused(layer, diameter):
    """As `defocused`, for small discs: spreads of three by three cells with the disc's own variance, D^2/16."""
    variance = diameter**2 / 16
    times = math.ceil(variance / 0.49)
    side = np.float32(variance / (2 * times))
    wide = np.pad(layer, ((times, times), (times, times), (0, 0)))
    for _ in range(times):
        tall = wide * (1 - 2 * side)
        tall[1:] += side * wide[:-1]
        tall[:-1] += side * wide[1:]
        wide = tall * (1 - 2 * side)
        wide[:, 1:] += side * tall[:, :-1]
        wide[:, :-1] += side * tall[:, 1:]
    return wide, times


def softened(layer, top, left, diameter, size):
    """A layer that lies in a frame, out of focus, as far as it falls into the frame.

    Parameters
    ----------
    layer : float32 array (rows, columns, channels)
    top, left : int, where in the frame it begins; it may begin outside
    diameter : float, of its disc [picture elements]
    size : (int, int), width and height of the frame [picture elements]

    Returns
    -------
    tuple
        float32 array (rows, columns, channels), top, left. No larger than the frame, however large the disc is.
    """
    if diameter > LARGE:
        cell = max(math.ceil(diameter / CELLS), 2)
        coarse = _averaged(layer, top % cell, left % cell, cell)
        spread, margin = defocused(coarse, diameter / cell)
        return enlarged(spread, top // cell - margin, left // cell - margin, cell, size)
    spread, margin = (slightly_defocused if diameter <= SMALL else defocused)(layer, diameter)
    top, left = top - margin, left - margin
    first, begin = max(top, 0), max(left, 0)
    last, end = min(top + spread.shape[0], size[1]), min(left + spread.shape[1], size[0])
    return spread[first - top : max(last, first) - top, begin - left : max(end, begin) - left], first, begin


def _averaged(layer, above, before, cell):
    """Means of a layer over square cells, the first of which begin so many elements above it and before it."""
    rows = np.arange(-above, layer.shape[0], cell).clip(0)
    columns = np.arange(-before, layer.shape[1], cell).clip(0)
    return np.add.reduceat(np.add.reduceat(layer, rows, 0), columns, 1) / np.float32(cell) ** 2


def enlarged(layer, top, left, cell, size):
    """A layer of coarse cells as picture elements of a frame, smoothly; dark beyond its own edge.

    Parameters
    ----------
    layer : float32 array (rows, columns, channels)
    top, left : int, where it begins [cells]
    cell : float, side of a cell [picture elements]
    size : (int, int), width and height of the frame [picture elements]

    Returns
    -------
    tuple
        float32 array (rows, columns, channels), top, left [picture elements], within the frame
    """
    rows, first = _between_cells(top, layer.shape[0], cell, size[1])
    columns, begin = _between_cells(left, layer.shape[1], cell, size[0])
    wide = np.pad(layer, ((1, 1), (1, 1), (0, 0)))
    upper, share = rows
    made = wide[upper] * (1 - share)[:, None, None] + wide[upper + 1] * share[:, None, None]
    before, share = columns
    return made[:, before] * (1 - share)[:, None] + made[:, before + 1] * share[:, None], first, begin


def _between_cells(start, count, cell, limit):
    """For the elements that see a row of cells with a margin of one: cell before each, share of the next, and first."""
    first = min(max(math.floor((start - 0.5) * cell), 0), limit)
    last = max(min(math.ceil((start + count + 0.5) * cell), limit), first)
    place = (np.arange(first, last) + 0.5) / cell + 0.5 - start
    place = np.clip(place, 0, count + 0.999)
    before = place.astype(np.intp)
    return (before, (place - before).astype(np.float32)), first
