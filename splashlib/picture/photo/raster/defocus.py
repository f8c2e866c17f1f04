"""The disc that a lens makes of every point out of focus."""

import math
from functools import lru_cache

import numpy as np

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


@lru_cache(maxsize=16)
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
