"""Small pictures of a lit ball, in many sizes and softnesses: what drops and beads look like."""

import itertools
from functools import lru_cache

import numpy as np

from splashlib.physics.constants import WATER_INDEX
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.raster.defocus import defocused

SIDES = (1, 2, 3, 4, 5, 6, 8, 10, 13, 17, 22, 29, 38, 50, 66, 86)
"""Sizes in which the picture of a ball is kept: cells across, and rows down (no more than across)."""

PITCH = 0.95
COVER = 0.75
"""Share of the ground behind a clear drop that its own picture replaces."""

SOFTNESS = (0.0, *(0.2 * 1.5**n for n in range(12)))
"""Discs of defocus, in diameters of the ball, for which its picture is kept (the last is 17)."""

FINE = 96


class Pictures:
    """Pictures of one lit ball in many sizes and softnesses, each made when it is first asked for."""

    def __init__(self, lamp, liquid):
        self.sharp = np.stack(ball_of(liquid, lamp, FINE), -1)
        self.soft, self.mean = {0: self.sharp}, float(self.sharp[..., 0].mean())
        self.starts = np.full((len(SOFTNESS), len(SIDES), len(SIDES)), -1)
        self.lights, self.covers, self.right, self.down = np.zeros((4, 0), np.float32)

    def find(self, soft, across, down):
        """Where the pictures for arrays of softness, cells across and cells down (numbers) begin."""
        starts = self.starts[soft, across, down]
        missing = starts < 0
        if missing.any():
            wanted = {*zip(soft[missing].tolist(), across[missing].tolist(), down[missing].tolist(), strict=True)}
            self._make(sorted(wanted))
            starts = self.starts[soft, across, down]
        return starts

    def _make(self, wanted):
        made = []
        place = len(self.lights)
        for kind, across, down in wanted:
            self.starts[kind, across, down] = place
            picture = _shrunk(self._softened(kind), SIDES[down], SIDES[across]).reshape(-1, 2)
            made.append(np.concatenate([picture, _middles(SIDES[down], SIDES[across])], 1))
            place += len(picture)
        kept = np.stack([self.lights, self.covers, self.right, self.down], 1)
        # Light, cover, and where in the picture each cell lies, -1/2 to 1/2 right and down.
        self.lights, self.covers, self.right, self.down = np.concatenate([kept, *made]).T.copy()

    def _softened(self, kind):
        """The ball spread by a disc; its picture fills a square as wide as ball and disc together."""
        if kind not in self.soft:
            cells = max(int(FINE / (1 + SOFTNESS[kind])), 12)
            ball = _shrunk(self.sharp, cells, cells)
            both, _ = defocused(ball, SOFTNESS[kind] * cells)
            trim = max((len(both) - round(cells * (1 + SOFTNESS[kind]))) // 2, 0)
            self.soft[kind] = both[trim : len(both) - trim, trim : len(both) - trim]
        return self.soft[kind]


@lru_cache(maxsize=12)
def pictures_of(lamp, liquid):
    """The pictures of a ball of a liquid in the light of a lamp."""
    return Pictures(lamp, liquid)


def ball_of(liquid, lamp, cells):
    """Light and cover of a ball of water or milk on a square of cells."""
    u = (np.arange(cells, dtype=np.float32) + 0.5) * 2 / cells - 1
    x, y = np.meshgrid(u, -u)
    inside = (x**2 + y**2 < 1).astype(np.float32)
    if liquid == "water":
        return optics.ball(lamp, WATER_INDEX, cells), COVER * inside
    deep = np.sqrt(np.maximum(1 - x**2 - y**2, 0))
    return inside * optics.milk_light((x, y, -deep), lamp), inside


def _shrunk(picture, rows, columns):
    """Average a picture (cells, cells, channels) down to rows by columns of nearly equal size."""
    edges_r = np.linspace(0, len(picture), rows + 1).round().astype(int)[:-1]
    edges_c = np.linspace(0, len(picture), columns + 1).round().astype(int)[:-1]
    summed = np.add.reduceat(np.add.reduceat(picture, edges_r, 0), edges_c, 1)
    tall, wide = (np.diff(np.append(edges, len(picture))) for edges in (edges_r, edges_c))
    return (summed / (tall[:, None, None] * wide[None, :, None])).astype(np.float32)


def _middles(rows, columns):
    """Where the cells of a picture lie, right and down from its middle, in its own size."""
    down, right = np.mgrid[0.5:rows, 0.5:columns].reshape(2, -1).astype(np.float32)
    return np.stack([right / columns - 0.5, down / rows - 0.5], 1)


def steps(values):
    """The least of SIDES that is not below each value: their numbers."""
    return np.minimum(np.searchsorted(SIDES, values - 1e-6), len(SIDES) - 1)


SIZES, DISCS = np.array(SIDES), np.array(SOFTNESS)
_BETWEEN = np.array([(a + b) / 2 for a, b in itertools.pairwise(SOFTNESS)])


def nearest_softness(disc):
    """Numbers of the kept softnesses nearest to discs of defocus, in diameters of the ball."""
    return np.searchsorted(_BETWEEN, disc)
