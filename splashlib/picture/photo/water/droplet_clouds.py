"""Drops and beads in the air: which there are, where they are, and their clouds."""

import numpy as np

from splashlib.physics import droplets
from splashlib.picture.photo.raster.layers import COARSE, coarsely
from splashlib.picture.photo.raster.moving_balls import Balls, blobs

FAINTEST = 0.12
"""Least size of a ball, in discs of its defocus, that is still drawn."""

FEW_KNOTS = 8
"""Up to so many knots, some 10 ms, a light is short against a flight."""

LONG, MANY = 8.0, 20_000
"""Way from which a ball is soft all over [its own sizes], and picture elements from which a layer of its own pays."""


def flying(scene, knots):
    """The droplets that are in the air: x, y, z arrays (knots, droplets), their radius [m], and when they are there.

    None if there are none. Before it is thrown and after it has landed a droplet has the nearest of its places.
    """
    thrown = scene.chance.thrown
    if not len(thrown.diameter) or not scene.happens("crown_peak"):
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
    """Groups of balls behind the axis and in front of it: each a list of clouds, and a painted layer of soft ones."""
    groups = [group for group in groups if group is not None and group[3].size]
    if not groups:
        return ([], None), ([], None)
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
    """Balls as clouds; many soft or far drawn out ones as a layer with coarser cells."""
    soft = (balls.disc >= COARSE) | (balls.path > np.maximum(LONG * balls.size, 60))
    if (balls.size * (balls.size + balls.path))[soft].sum() < MANY:
        return blobs(balls, light, knots, lamp, liquid), None
    fine, rest = balls.take(~soft), balls.take(soft)
    disc = np.sqrt(np.maximum(rest.disc**2 - COARSE**2, 0))
    halved = Balls(*(each / 2 for each in (rest.column, rest.row, rest.radius, disc)), rest.there)
    coarse = coarsely(blobs(halved, light, knots, lamp, liquid), light, view.size)
    return blobs(fine, light, knots, lamp, liquid), coarse


def _in_frame(view, column, row, size):
    width, height = view.size
    across = (column.max(0) > -size) & (column.min(0) < width + size)
    return across & (row.max(0) > -size) & (row.min(0) < height + size)
