"""Adding many small bits of light to a window of the frame, each spread over the four cells around it.

A place (x, y) is in picture elements, measured from the frame's top left corner; the middle of the first cell is
(0.5, 0.5). Light is kept: what falls into the window adds up to the sum of the weights, what misses it is dropped.
"""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Window:
    """A rectangle of the frame in whole cells."""

    left: int
    top: int
    width: int
    height: int

    @property
    def slices(self):
        """Index of the window's cells in a frame (rows, columns)."""
        return slice(self.top, self.top + self.height), slice(self.left, self.left + self.width)

    @property
    def empty(self):
        """True when no cell is in it."""
        return self.width <= 0 or self.height <= 0

    def joined(self, other):
        """The smallest window that holds both."""
        if self.empty or other.empty:
            return other if self.empty else self
        left, top = min(self.left, other.left), min(self.top, other.top)
        right = max(self.left + self.width, other.left + other.width)
        bottom = max(self.top + self.height, other.top + other.height)
        return Window(left, top, right - left, bottom - top)

    def within(self, larger):
        """Index of its cells in an array of the cells of a larger window."""
        top, left = self.top - larger.top, self.left - larger.left
        return slice(top, top + self.height), slice(left, left + self.width)


def window_around(x, y, size, margin=2):
    """The smallest window of a frame of `size` (width, height) that holds all places, with a margin."""
    if not len(x):
        return Window(0, 0, 0, 0)
    left, right = _span(x, size[0], margin)
    top, bottom = _span(y, size[1], margin)
    return Window(left, top, right - left, bottom - top)


def _span(values, limit, margin):
    low, high = float(values.min()), float(values.max())
    first = int(np.clip(np.floor(low) - margin, 0, limit))
    return first, int(np.clip(np.ceil(high) + margin, first, limit))


class Splat:
    """Places turned once into cells and shares, so that several weights can be added with them.

    Parameters
    ----------
    x, y : float32 arrays of one length, in picture elements
    window : Window
    """

    def __init__(self, x, y, window):
        self.window = window
        # One cell of margin on every side catches what lies outside; it is cut off at the end.
        self.across, self.down = window.width + 2, window.height + 2
        x = np.minimum(np.maximum(x - np.float32(window.left - 0.5), 0), np.float32(self.across - 1.001))
        y = np.minimum(np.maximum(y - np.float32(window.top - 0.5), 0), np.float32(self.down - 1.001))
        column, row = np.floor(x), np.floor(y)
        self.right, self.below = x - column, y - row
        # Whole numbers stay exact in float32 up to 16 million cells, far beyond any frame here.
        first = (row * np.float32(self.across) + column).astype(np.intp)
        self.cells = first + np.array([0, 1, self.across, self.across + 1])[:, None]

    def add(self, weight):
        """The window with `weight` spread into it, float32 (rows, columns); one number for each of the first places."""
        count = len(weight)
        shares = np.empty((4, count))
        right = weight * self.right[:count]
        np.multiply(right, self.below[:count], out=shares[3])
        np.subtract(right, shares[3], out=shares[1])
        np.multiply(weight, self.below[:count], out=shares[2])
        np.subtract(weight - right, shares[2], out=shares[0])
        shares[0] += shares[3]
        shares[2] -= shares[3]
        total = np.bincount(self.cells[:, :count].ravel(), shares.ravel(), self.across * self.down)
        return total.reshape(self.down, self.across)[1:-1, 1:-1].astype(np.float32)
