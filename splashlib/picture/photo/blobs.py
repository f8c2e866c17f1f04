"""Droplets and beads: small pictures of a lit ball, laid along the way that each goes while the light lasts."""

import itertools
from functools import lru_cache

import numpy as np

from splashlib.picture.photo import optics
from splashlib.picture.photo.defocus import SHARP, defocused

SIDES = (1, 2, 3, 4, 5, 6, 8, 10, 13, 17, 22, 29, 38, 50, 66, 86)
"""Sizes in which the picture of a ball is kept: cells across, and rows down (no more than across)."""

PITCH = 0.95
MOST_COPIES = 400
COVER = 0.75
"""Share of the ground behind a clear drop that its own picture replaces."""

SOFTNESS = (0.0, *(0.2 * 1.5**n for n in range(12)))
"""Discs of defocus, in diameters of the ball, for which its picture is kept (the last is 17)."""

FINE = 96


class Pictures:
    """Pictures of one lit ball in many sizes and softnesses, each made when it is first asked for."""

    def __init__(self, lamp, liquid):
        self.sharp = np.stack(ball_of(liquid, lamp, FINE), -1)
        self.soft = {0: self.sharp}
        self.starts = np.full((len(SOFTNESS), len(SIDES), len(SIDES)), -1)
        self.lights, self.covers = np.zeros(0, np.float32), np.zeros(0, np.float32)

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
            made.append(_shrunk(self._softened(kind), SIDES[down], SIDES[across]).reshape(-1, 2))
            place += len(made[-1])
        made = np.concatenate(made)
        self.lights = np.concatenate([self.lights, made[:, 0]])
        self.covers = np.concatenate([self.covers, made[:, 1]])

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
        return optics.ball(lamp, 1.333, cells), COVER * inside
    deep = np.sqrt(np.maximum(1 - x**2 - y**2, 0))
    return inside * optics.milk_light((x, y, -deep), lamp), inside


def _shrunk(picture, rows, columns):
    """Average a picture (cells, cells, channels) down to rows by columns of nearly equal size."""
    edges_r = np.linspace(0, len(picture), rows + 1).round().astype(int)[:-1]
    edges_c = np.linspace(0, len(picture), columns + 1).round().astype(int)[:-1]
    summed = np.add.reduceat(np.add.reduceat(picture, edges_r, 0), edges_c, 1)
    tall, wide = (np.diff(np.append(edges, len(picture))) for edges in (edges_r, edges_c))
    return (summed / (tall[:, None, None] * wide[None, :, None])).astype(np.float32)


def _steps(values):
    """The least of SIDES that is not below each value: their numbers."""
    return np.minimum(np.searchsorted(SIDES, values - 1e-6), len(SIDES) - 1)


def blobs(places, radius, blur, light, knots, lamp, liquid):
    """Samples of many balls.

    Parameters
    ----------
    places : (column, row), arrays (knots, balls), in picture elements, at the times `knots`
    radius, blur : arrays, radius of each ball and diameter of its disc of defocus [picture elements]
    light : Light
    knots : array, times [s]
    lamp : optics.Lamp
    liquid : "water" or "milk"

    Returns
    -------
    tuple of arrays : column, row, light, cover, and the instant of every sample, ball by ball
    array : samples of each ball
    """
    column, row = places
    blur = np.where(blur < SHARP, 0, blur)
    size = 2 * radius + blur
    moved, fallen = _ways(column, row)
    # A long streak down is laid in single lines; in a short one copies fill the gaps between fewer lines.
    long = (fallen > 3 * size) & (fallen > 0.9 * moved)
    kind = np.searchsorted(_BETWEEN, blur / (2 * radius))
    across = _steps(size / PITCH)
    gap = np.minimum(np.maximum(0.05 * fallen, PITCH), np.maximum(size / 2, PITCH))
    down = np.where(long, 0, np.minimum(_steps(size / gap), across))
    kept = pictures_of(lamp, liquid)
    start, wide, tall = kept.find(kind, across, down), _SIDES[across], _SIDES[down]
    copies = np.where(moved > 0.8, np.minimum(np.ceil(1.3 * moved / PITCH + 1), MOST_COPIES), 1).astype(int)
    samples = wide * tall * copies
    ball = np.repeat(np.arange(len(radius)), samples)
    number = np.arange(len(ball)) - np.repeat(np.cumsum(samples) - samples, samples)
    wide, tall = wide[ball], tall[ball]
    copy, cell = np.divmod(number, wide * tall)
    line, place = np.divmod(cell, wide)
    times, weights, moment = light.sampled((copy + 0.5) / copies[ball])
    x, y = _at(column, row + _drawn_longer(row, size, fallen, long), times, knots, ball)
    x += size[ball] * ((place + 0.5) / wide - 0.5)
    y += size[ball] * ((line + 0.5) / tall - 0.5)
    # The nearest softness is not quite the one asked for; the light is that of the ball all the same.
    drawn = 2 * radius * (1 + _SOFTNESS[kind])
    area = (drawn * drawn / samples)[ball] * weights
    picture = start[ball] + cell
    return (x, y, kept.lights[picture] * area, kept.covers[picture] * area, moment), samples


def _ways(column, row):
    """How far each ball moves while the light lasts, and how far up or down [picture elements]."""
    if len(row) == 1:
        return np.zeros(row.shape[1]), np.zeros(row.shape[1])
    across, down = np.diff(column, axis=0), np.diff(row, axis=0)
    return np.hypot(across, down).sum(0), np.abs(down.sum(0))


def _drawn_longer(row, size, fallen, long):
    """What to add to the rows of single lines, so that their streak is as long as that of the whole ball."""
    middle = (row.min(0) + row.max(0)) / 2
    return (row - middle) * np.where(long, 0.8 * size / np.maximum(fallen, 1e-6), 0)


_SIDES, _SOFTNESS = np.array(SIDES), np.array(SOFTNESS)
# Halfway between two kinds of softness, so that the nearer one is taken.
_BETWEEN = np.array([(a + b) / 2 for a, b in itertools.pairwise(SOFTNESS)])


def _at(column, row, times, knots, ball):
    if len(knots) == 1:
        return column[0, ball], row[0, ball]
    place = np.clip(np.interp(times, knots, np.arange(len(knots))), 0, len(knots) - 1.000001)
    k = place.astype(int)
    f = (place - k).astype(np.float32)
    x = column[k, ball] * (1 - f) + column[k + 1, ball] * f
    return x, row[k, ball] * (1 - f) + row[k + 1, ball] * f
