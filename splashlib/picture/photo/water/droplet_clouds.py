"""Drops and beads in the air: which there are, where they are, and their clouds."""

import numpy as np

from splashlib.physics import droplets
from splashlib.picture.photo.raster.ball_sprites import SIDES
from splashlib.picture.photo.raster.layers import COARSE, coarsely, softness
from splashlib.picture.photo.raster.moving_balls import Balls, blobs, samples

FAINTEST = 0.12
"""Least size of a ball, in discs of its defocus, that is still drawn."""

FEW_KNOTS = 8
"""Up to so many knots, some 10 ms, a light is short against a flight."""

LONG, MANY = 8.0, 20_000
"""Way from which a ball is soft all over [its own sizes], and picture elements from which a layer of its own pays."""

LARGEST = 0.95 * SIDES[-1]
"""Width of a ball [picture elements] beyond which the largest of its pictures has too few cells for the frame's."""

MOST, MOST_FINE = 600_000, 2_400_000
"""Samples of one layer of balls at most, in coarse cells and in the frame's own; it gets coarser ones until it fits."""


def flying(scene, knots):
    """The droplets that are in the air: x, y, z arrays (knots, droplets), their radius [m], and when they are there.

    None if there are none. Before it is thrown and after it has landed a droplet has the nearest of its places.
    """
    thrown = scene.chance.thrown
    if not len(thrown.diameter) or not scene.splashes:
        return None
    clock = np.maximum(scene.water_time(knots), 0)
    where = np.array([droplets.places(thrown, float(time)) for time in clock])
    aloft = np.isfinite(where[:, 0])
    # In a short light those that are in the air for half of it are drawn whole.
    short = len(knots) <= FEW_KNOTS
    seen = aloft.mean(0) >= 0.5 if short else aloft.any(0)
    if not seen.any():
        return None
    where = _through_gaps(where[..., seen])
    x, z, y = where[:, 0] + scene.across, where[:, 1] + scene.behind, where[:, 2]
    return x, y, z, thrown.diameter[seen] / 2, np.ones_like(x) if short else aloft[:, seen].astype(float)


def _through_gaps(where):
    """Places with those before and after the flight filled in."""
    for k in range(1, len(where)):
        where[k] = np.where(np.isfinite(where[k]), where[k], where[k - 1])
    for k in range(len(where) - 2, -1, -1):
        where[k] = np.where(np.isfinite(where[k]), where[k], where[k + 1])
    return where


def ball_clouds(view, groups, knots, light, lamp, liquid):
    """Groups of balls behind the axis and in front of it: each a list of clouds, and a list of painted layers."""
    groups = [group for group in groups if group is not None and group[3].size]
    if not groups:
        return ([], []), ([], [])
    x, y, z, radius, there = (np.concatenate(each, -1) for each in zip(*groups, strict=True))
    deep = z.mean(0)
    column, row = view.place(x, y, z)
    size = radius * view.scale * view.distance / (view.distance + deep)
    blur = view.blur_disc(deep)
    # What is spread over seventy times its own size is not seen any more.
    seen = _in_frame(view, column, row, size + blur / 2) & (size > 0) & (2 * size > FAINTEST * blur)
    seen = np.flatnonzero(seen)
    balls = Balls(column[:, seen], row[:, seen], size[seen], blur[seen], there[:, seen])
    behind = deep[seen] > 0
    return [_drawn(balls.take(chosen), view, knots, light, lamp, liquid) for chosen in (behind, ~behind)]


def _drawn(balls, view, knots, light, lamp, liquid):
    """Balls as clouds; what is many and soft, drawn out far, or large, as layers with coarser cells."""
    soft = (balls.disc >= COARSE) | (balls.path > np.maximum(LONG * balls.size, 60))
    soft &= (balls.size * (balls.size + balls.path))[soft].sum() >= MANY
    large = np.ceil(np.log2(np.maximum(balls.size / LARGEST, 1)))
    level = np.maximum(large, soft)
    clouds, layers = [], []
    for each in np.unique(level):
        some, cell = balls.take(level == each), int(2**each)
        while samples(_in_cells(some, cell), light) > (MOST if cell > 1 else MOST_FINE):
            cell *= 2
        made = blobs(_in_cells(some, cell), light, knots, lamp, liquid)
        if cell == 1:
            clouds += made
        else:
            layers.append(coarsely(made, light, view.size, cell))
    return clouds, [layer for layer in layers if layer]


def _in_cells(balls, cell):
    """Balls in cells so many picture elements wide, less softly by what those cells add."""
    if cell == 1:
        return balls
    disc = np.sqrt(np.maximum(balls.disc**2 - softness(cell) ** 2, 0))
    return Balls(*(each / cell for each in (balls.column, balls.row, balls.radius, disc)), balls.there)


def _in_frame(view, column, row, size):
    width, height = view.size
    across = (column.max(0) > -size) & (column.min(0) < width + size)
    return across & (row.max(0) > -size) & (row.min(0) < height + size)
