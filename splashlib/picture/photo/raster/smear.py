"""A picture of a moving thing in a light that lasts: a sprite, averaged over the rows where the light finds it."""

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view


def smeared(sprite, *, fine, tops, light, height):
    """Average a sprite over the instants of a light.

    Parameters
    ----------
    sprite : float32 array (rows * fine, columns, channels)
    fine : int, rows of the sprite for one row of the frame
    tops : array, row of the sprite's upper edge at each instant of the light
    light : lights.Light
    height : int, rows of the frame

    Returns
    -------
    tuple
        First row, float32 array (rows, columns, channels); no rows where it is never in the frame.
    """
    tall = len(sprite)
    seen = (tops < height) & (tops + tall / fine > 0) & (light.shares > 0)
    if not seen.any():
        return 0, np.zeros((0, *sprite.shape[1:]), np.float32)
    tops, shares = tops[seen], light.shares[seen]
    first = max(int(np.floor(tops.min())), 0)
    last = min(int(np.ceil(tops.max() + tall / fine)) + 1, height)
    rows = np.arange(first, last)
    if light.opening is None:
        weights = _weights(_spread(tops - first, shares, tall, fine, len(rows)), tall, fine, len(rows))
    else:
        mask = light.row_mask(rows, height)[seen]
        weights = _masked(tops - first, shares, mask, tall, fine, len(rows))
    flat = weights @ sprite[::-1].reshape(tall, -1)
    return first, flat.reshape(len(rows), *sprite.shape[1:])


def _cells(tops, tall, fine):
    """Each shift as a whole number of fine rows, counted from a sprite just above the window, and the rest."""
    shift = (tops * fine + tall).clip(0)
    whole = np.floor(shift).astype(int)
    return whole, shift - whole


def _spread(tops, shares, tall, fine, rows):
    """Light by shift: each instant's share is split over the two nearest fine rows."""
    whole, part = _cells(tops, tall, fine)
    size = tall + (rows + 1) * fine + 1
    return np.bincount(whole, shares * (1 - part), size) + np.bincount(whole + 1, shares * part, size)


def _weights(spread, tall, fine, rows):
    """Rows of the frame by rows of the sprite, from the lowest of these upwards."""
    boxed = sliding_window_view(spread, fine).mean(-1).astype(np.float32)
    return sliding_window_view(boxed, tall)[1::fine][:rows]


def _masked(tops, shares, mask, tall, fine, rows):
    """As `_weights`, where each row of the frame has instants of its own: instants by rows in `mask`."""
    whole, part = _cells(tops, tall, fine)
    spread = np.zeros((len(tops), tall + (rows + 1) * fine + 1))
    number = np.arange(len(tops))
    spread[number, whole] += shares * (1 - part)
    spread[number, whole + 1] += shares * part
    by_row = mask.T @ spread
    boxed = sliding_window_view(by_row, fine, axis=1).mean(-1)
    start = np.arange(rows) * fine + 1
    return np.take_along_axis(boxed, start[:, None] + np.arange(tall), 1).astype(np.float32)
