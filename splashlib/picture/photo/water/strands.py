"""Round strands of liquid: the rim of a crown, the threads on it, the column of a jet."""

from typing import NamedTuple

import numpy as np

from splashlib.physics.constants import WATER_INDEX
from splashlib.picture.photo.raster import optics

PITCH = 0.9
"""Greatest distance of the lanes across a strand [picture elements]."""

LANES = (3, 4, 6, 9, 13, 19, 28, 42, 63, 94, 141, 211, 316, 474)
"""Numbers of lanes that are used: few, so that many pieces are drawn in one go."""

MANY = 20_000
"""Pieces from which it pays to look which of them are in the frame."""

COVER = 0.6
"""Share of the ground behind a clear strand that its own picture replaces."""


class Pieces(NamedTuple):
    """Short pieces of strands, one entry each.

    column, row : middle, and radius, step : radius and length as seen [picture elements]; along : (x, y, z) of the
    unit vector along the strand; share : of the light that it gets; moment : instant of the light;
    lane : the one lane that is drawn, -1 to 1 across, or None for all of them.
    """

    column: np.ndarray
    row: np.ndarray
    radius: np.ndarray
    step: np.ndarray
    along: tuple
    share: np.ndarray
    moment: np.ndarray
    lane: np.ndarray | None = None

    def take(self, chosen):
        """Some of the pieces."""
        along = tuple(each[chosen] for each in self.along)
        lane = None if self.lane is None else self.lane[chosen]
        return Pieces(*(each[chosen] for each in self[:4]), along, *(each[chosen] for each in self[5:7]), lane)

    def inside(self, size):
        """Which of the pieces may be seen in a frame of a width and height."""
        reach = self.radius + self.step + 2
        across = (self.column > -reach) & (self.column < size[0] + reach)
        return across & (self.row > -reach) & (self.row < size[1] + reach)


def joined(pieces):
    """Several sets of pieces as one; all of them have lanes of their own, or none has."""
    columns = [np.concatenate(each) for each in zip(*(p[:4] + p[5:7] for p in pieces), strict=True)]
    along = tuple(np.concatenate(each) for each in zip(*(p.along for p in pieces), strict=True))
    lane = None if pieces[0].lane is None else np.concatenate([p.lane for p in pieces])
    return Pieces(*columns[:4], along, *columns[4:], lane)


def along_unit(x, y, z):
    """Three arrays as the parts of unit vectors."""
    size = 1 / np.sqrt(np.maximum(x * x + y * y + z * z, 1e-18))
    return x * size, y * size, z * size


def strands(sides, size, lamp, liquid):
    """Samples of strands, as many lanes across each piece as its width asks for.

    Parameters
    ----------
    sides : (list of Pieces, list of Pieces), behind the axis and in front of it
    size : (int, int), width and height of the frame [picture elements]
    lamp : optics.Lamp
    liquid : "water" or "milk"

    Returns
    -------
    two lists of clouds
    """
    pieces = joined([*sides[0], *sides[1]])
    border = sum(len(each.column) for each in sides[0])
    if len(pieces.column) > MANY:
        inside = np.flatnonzero(pieces.inside(size))
        pieces, border = pieces.take(inside), int(np.searchsorted(inside, border))
    made = [], []
    for lanes, chosen in _by_lanes(pieces):
        cloud = strand(pieces if chosen is None else pieces.take(chosen), lanes, lamp, liquid)
        cut = border if chosen is None else np.searchsorted(chosen, border)
        made[0].append(tuple(part[:cut] for part in cloud))
        made[1].append(tuple(part[cut:] for part in cloud))
    return made


def _by_lanes(pieces):
    """Numbers of lanes, and the pieces that are drawn with so many; None for all of them."""
    if pieces.lane is not None:
        return [(1, None)]
    kind = np.searchsorted(LANES[:-1], pieces.radius * (2 / PITCH))
    return [(LANES[k], np.flatnonzero(kind == k)) for k in np.unique(kind)]


def strand(pieces, lanes, lamp, liquid):
    """Samples of strands, `lanes` across each piece, or the one that a piece has as its own.

    Parameters
    ----------
    pieces : Pieces
    lanes : int
    lamp : optics.Lamp
    liquid : "water" or "milk"

    Returns
    -------
    tuple of arrays (pieces, lanes) : column, row, light, cover, moment
    """
    if pieces.lane is None:
        u = ((np.arange(lanes, dtype=np.float32) + 0.5) * 2 / lanes - 1)[None, :]
    else:
        u = pieces.lane.astype(np.float32)[:, None]
    x, y, z = (each.astype(np.float32)[:, None] for each in pieces.along)
    across = np.sqrt(x * x + y * y)
    safe = 1 / np.maximum(across, 1e-3)
    # Square to the strand in the picture, and from the strand towards the camera.
    side, front = (-y * safe, x * safe), (z * x * safe, z * y * safe, -across)
    radius = pieces.radius[:, None]
    column = pieces.column[:, None] + u * (radius * side[0])
    row = pieces.row[:, None] - u * (radius * side[1])
    look = _milk if liquid == "milk" else _water
    # Foreshortening is in the step already: it is the length of the piece as seen.
    cell = (2 / lanes * pieces.radius * np.maximum(pieces.step, 0.3) * pieces.share)[:, None]
    light = look(u, side, front, (x, y, z), across, lamp) * cell
    cover = np.broadcast_to(cell * (1.0 if liquid == "milk" else COVER), column.shape)
    return column, row, light, cover, np.broadcast_to(pieces.moment[:, None], column.shape)


def _milk(u, side, front, along, across, lamp):
    deep = np.sqrt(1 - u * u)
    normal = (u * side[0] + deep * front[0], u * side[1] + deep * front[1], deep * front[2])
    return optics.milk_light(normal, lamp)


def _water(u, side, front, along, across, lamp):
    """Mirrored in the skin, and bent through the round cross-section towards the axis."""
    deep = np.sqrt(1 - u * u)
    angle = np.arcsin(u)
    turn = 2 * (angle - np.arcsin(u / WATER_INDEX))
    dots = [
        (
            front[0] * x + front[1] * y + front[2] * z,
            side[0] * x + side[1] * y,
            along[0] * x + along[1] * y + along[2] * z,
        )
        for x, y, z in (lamp.direction, optics.card_of(lamp))
    ]

    def seen(on_front, on_side):
        """Radiance from a direction in the strand's own frame; along the strand a ray keeps its course."""
        cosines = (across * (on_front * front + on_side * side) + along[2] * axis for front, side, axis in dots)
        return optics.toward(*cosines, lamp)

    share = optics.schlick(deep * across)
    rest = 1 - share
    return share * seen(1 - 2 * u * u, 2 * u * deep) + rest * rest * seen(-np.cos(turn), -np.sin(turn))
