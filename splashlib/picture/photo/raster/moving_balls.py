"""Droplets and beads: pictures of a lit ball, laid where each is while the light lasts, or along its way."""

from typing import NamedTuple

import numpy as np

from splashlib.picture.photo.lights import FAINTEST
from splashlib.picture.photo.raster.ball_sprites import DISCS, PITCH, SIDES, SIZES, nearest_softness, pictures_of, steps
from splashlib.picture.photo.raster.defocus import SHARP

STREAK = 4.0
"""Way down from which a ball is drawn as a streak, line by line [picture elements]."""

STRAIGHT = 0.05
"""Light [s] in which the ways of droplets are straight and even enough: a fall bends them by 3 mm, where next to no
light is left."""

MOST_COPIES = 200


class Balls(NamedTuple):
    """Balls in the frame [picture elements].

    column, row : arrays (knots, balls), places at the times of the knots; radius; disc : diameter of the defocus;
    there : array (knots, balls), 1 where the ball is in the air, 0 where it is not.
    """

    column: np.ndarray
    row: np.ndarray
    radius: np.ndarray
    disc: np.ndarray
    there: np.ndarray

    def take(self, chosen):
        """Some of the balls."""
        return Balls(*(each[..., chosen] for each in self))

    @property
    def size(self):
        """How wide each is drawn, its disc of defocus included."""
        return 2 * self.radius + self.disc

    @property
    def path(self):
        """How long the way of each is, through all knots."""
        return np.hypot(np.diff(self.column, axis=0), np.diff(self.row, axis=0)).sum(0)

    @property
    def ways(self):
        """How far each goes across and down, from the first to the last knot."""
        return self.column[-1] - self.column[0], self.row[-1] - self.row[0]


def blobs(balls, light, knots, lamp, liquid):
    """Clouds of balls: one of those that hardly move, one of those that are drawn out.

    Parameters
    ----------
    balls : Balls
    light : Light
    knots : array, times [s]
    lamp : optics.Lamp
    liquid : "water" or "milk"

    Returns
    -------
    list of clouds
    """
    balls = balls._replace(disc=np.where(balls.disc < SHARP, 0, balls.disc))
    kept = pictures_of(lamp, liquid)
    # Balls whose light is smeared so far that it changes no pixel by a grey level are left out.
    balls = balls.take(kept.mean * light.strength * balls.size >= FAINTEST * balls.path)
    streaked = _streaked(balls, light)
    clouds = []
    if not streaked.all():
        clouds.append(_copied(balls.take(~streaked), light, knots, kept))
    if streaked.any():
        clouds.append(_drawn_out(balls.take(streaked), light, knots, kept))
    return clouds


def samples(balls, light):
    """How many samples `blobs` makes of them, about [-]."""
    if not balls.radius.size:
        return 0
    cells = SIZES[steps(balls.size / PITCH)]
    drawn_out = _streaked(balls, light)
    lines = (balls.size + np.abs(balls.ways[1])) / PITCH
    return float(np.where(drawn_out, lines * cells, _copies(balls) * cells**2).sum())


def _streaked(balls, light):
    """Which of the balls are drawn line by line, along a way that is nearly straight and nearly upright."""
    across, down = np.abs(balls.ways)
    if light.span[1] - light.span[0] > STRAIGHT:
        return np.zeros(down.shape, bool)
    return (down > STREAK) & (down > 0.7 * across)


def _pictures(balls, kept, rows=None):
    """Where each ball's picture begins, its cells across and down, and the area of one cell."""
    kind = nearest_softness(balls.disc / (2 * balls.radius))
    across = steps(balls.size / PITCH)
    down = across if rows is None else np.minimum(steps(rows), across)
    wide, tall = SIZES[across], SIZES[down]
    # The nearest softness is not quite the one asked for; the light is that of the ball all the same.
    drawn = 2 * balls.radius * (1 + DISCS[kind])
    return kept.find(kind, across, down), wide, tall, drawn * drawn / (wide * tall)


def _numbered(counts):
    """For counts of samples of each ball: the ball of every sample, and its number among them."""
    ball = np.repeat(np.arange(len(counts)), counts)
    return ball, np.arange(len(ball)) - np.repeat(np.cumsum(counts) - counts, counts)


def _copied(balls, light, knots, kept):
    """Whole pictures, as many of each as its way is long."""
    start, wide, tall, area = _pictures(balls, kept)
    copies = _copies(balls)
    # First where and how bright each copy is, then the cells of its picture.
    ball, number = _numbered(copies)
    times, weights, moment = light.sampled((number + 0.5) / copies[ball])
    x, y, there = _at(balls, times, knots, ball)
    weights = weights * there * (area / copies)[ball]
    copy, cell = _numbered((wide * tall)[ball])
    picture = start[ball][copy] + cell
    size, weights = balls.size[ball][copy], weights[copy].astype(np.float32)
    x, y = x[copy] + size * kept.right[picture], y[copy] + size * kept.down[picture]
    return x, y, kept.lights[picture] * weights, kept.covers[picture] * weights, moment[copy]


def _copies(balls):
    """How many whole pictures of each ball its way is made of."""
    moved = balls.path
    # What is out of focus has no edges that could show one by one, nor has what is drawn out far.
    apart = np.maximum(PITCH + balls.disc / 4, np.where(moved > 4 * balls.size, balls.size / 3, 0))
    return np.where(moved > 0.8, np.minimum(np.ceil(moved / apart + 1), MOST_COPIES), 1).astype(int)


def _at(balls, times, knots, ball):
    """Column and row of balls at times, and whether they are in the air."""
    parts = balls.column, balls.row, balls.there
    if len(knots) == 1:
        return [part[0, ball] for part in parts]
    place = np.clip(np.interp(times, knots, np.arange(len(knots))), 0, len(knots) - 1.000001)
    k = place.astype(int)
    f = place - k
    return [part[k, ball] * (1 - f) + part[k + 1, ball] * f for part in parts]


def _drawn_out(balls, light, knots, kept):
    """Streaks: on each line across the way lies the light that found the ball there, picture row by picture row.

    Ways are taken as straight and even.
    """
    across, down = balls.ways
    # Rows of the picture may be as tall as half the way, since the motion fills them; a few keep its ends round.
    start, wide, tall, area = _pictures(balls, kept, rows=np.clip(2 * balls.size / np.abs(down), 5, SIDES[-1]))
    long = balls.size + np.abs(down)
    lines = np.ceil(long / PITCH).astype(int)
    step = long / lines
    ball, line = _numbered(lines)
    y = (np.minimum(balls.row[0], balls.row[-1]) - balls.size / 2)[ball] + (line + 0.5) * step[ball]
    when = np.minimum(np.maximum((y - balls.row[0, ball]) / down[ball], 0), 1)
    x = balls.column[0, ball] + across[ball] * when
    moment = np.searchsorted(light.times, knots[0] + when * (knots[-1] - knots[0])).clip(0, len(light.times) - 1)
    of, place = _numbered(wide[ball])
    picture = start[ball][of] + place
    columns = balls.size[ball][of] * kept.right[picture]
    bright, cover = np.zeros((2, len(of)), np.float32)
    for row in range(tall.max()):
        share = _found(balls, light, knots, ball, y - step[ball] / 2, step[ball], (row + 0.5) / tall[ball])
        share = (share * (area * (row < tall))[ball]).astype(np.float32)[of]
        at = picture + (np.minimum(row, tall - 1) * wide)[ball][of]
        bright += kept.lights[at] * share
        cover += kept.covers[at] * share
    return x[of] + columns, y[of], bright, cover, moment[of]


def _found(balls, light, knots, ball, upper, step, place):
    """Share of the light that finds a row of a ball, at `place` down its picture, on a line of the frame."""
    offset = balls.size[ball] * (place - 0.5)
    first, way = balls.row[0, ball] + offset, (balls.row[-1] - balls.row[0])[ball]
    lasts = knots[-1] - knots[0]
    shares = ((edge - first) / way for edge in (upper, upper + step))
    before, after = (light.given_by(knots[0] + np.minimum(np.maximum(s, 0), 1) * lasts) for s in shares)
    return np.abs(after - before)
