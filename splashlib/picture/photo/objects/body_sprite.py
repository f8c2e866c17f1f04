"""The falling body as a small picture of its own: shape, shading by one light, gloss, what is inside glass.

A sprite has premultiplied red, green, blue and coverage, twice as fine down as across: the fall moves it
by fractions of a row. Radiance 1 is a perfectly white card that faces the lamp.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from splashlib.physics.constants import GLASS_INDEX, WATER_INDEX
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.raster.kept_results import kept
from splashlib.picture.photo.water.strands import along_unit

FINE = 2
"""Rows of a sprite for one row of the frame."""

FRUIT = np.array([0.92, 0.235, 0.008], np.float32)
RIPE = np.array([0.94, 0.37, 0.018], np.float32)
STALK = np.array([0.17, 0.23, 0.06], np.float32)
PLAIN = {"white": (0.86, 0.86, 0.84), "milk": (0.90, 0.885, 0.84), "stone": (0.30, 0.29, 0.28)}


@dataclass(frozen=True)
class Body:
    """What is drawn: look, half axes right and up in picture elements, and how it is turned [rad]."""

    look: str
    across: float
    up: float
    turn: tuple[float, float, float] = (0.5, 0.35, 0.0)


def look_of(drop):
    """Which of the looks goes with what falls: by its form, then by a word in its name; fruit when in doubt."""
    if drop.liquid:
        return drop.form
    words = {"marble": "glass", "glass": "glass", "ball": "white", "stone": "stone", "pebble": "stone"}
    name = drop.name.lower()
    return next((look for word, look in words.items() if word in name), "fruit")


@kept(megabytes=24)
def sprite(body, offset, lamp, part=None):
    """The body lit by one lamp, or by an even room when `lamp` is None.

    Parameters
    ----------
    body : Body
    offset : (float, float), of its middle from the middle of the sprite, right and down [picture elements]
    lamp : optics.Lamp or None
    part : (int, int, int, int), optional
        First row and the one after the last, first column and the one after the last; else the whole sprite.

    Returns
    -------
    float32 array (rows * FINE, columns, 4)
    """
    rows, columns = whole(body)
    u, v, cover = _grid(body, offset, part or (0, rows, 0, columns))
    deep = np.sqrt(np.maximum(1 - u * u - v * v, 0))
    normal = along_unit(u / body.across, v / body.up, -deep / body.across)
    paint = {"glass": _glass, "water": _water}.get(body.look, _solid)
    picture = np.empty((*u.shape, 4), np.float32)
    picture[..., :3] = paint(body, (u, v, -deep), normal, lamp)
    picture[..., :3] *= cover[..., None]
    picture[..., 3] = cover
    picture.setflags(write=False)
    return picture


def whole(body):
    """Rows and columns of the whole sprite of a body."""
    return 2 * (math.ceil(body.up) + 2) * FINE, 2 * (math.ceil(body.across) + 2)


def _grid(body, offset, part):
    """Places on the body, -1 to 1 right and up, and the share of each cell that it covers."""
    rows, columns = whole(body)
    first, last, begin, end = part
    x = np.arange(begin, end, dtype=np.float32) + 0.5 - columns / 2 - offset[0]
    y = ((np.arange(first, last, dtype=np.float32) + 0.5) - rows / 2) / FINE - offset[1]
    u, v = np.meshgrid(x / body.across, -y / body.up)
    radius = np.hypot(u, v)
    # Distance to the edge in picture elements, by the first-order rule f/|grad f|.
    slope = np.hypot(u / body.across, v / body.up) / np.maximum(radius, 1e-6)
    cover = np.clip((1 - radius) / np.maximum(slope, 1e-6) + 0.5, 0, 1)
    # The soft outer edge takes its shade from just inside.
    keep = np.minimum(1, 0.999 / np.maximum(radius, 1e-6))
    return u * keep, v * keep, cover


def _solid(body, place, normal, lamp):
    """An opaque body: soft-edged daylight from one side, a little fill, and a wet gloss."""
    if body.look == "fruit":
        colour, normal = _peel(body, place, normal)
    else:
        colour = np.array(PLAIN[body.look], np.float32)
    if lamp is None:
        return colour * (0.62 + 0.38 * normal[1])[..., None]
    if body.look == "milk":
        return colour / max(colour) * optics.milk_light(normal, lamp)[..., None]
    to_lamp, to_card = (
        normal[0] * x + normal[1] * y + normal[2] * z for x, y, z in (lamp.direction, optics.card_of(lamp))
    )
    wrap = np.float32(0.5 * np.sin(lamp.half_angle))
    light = np.maximum((to_lamp + wrap) / (1 + wrap), 0)
    light += 0.035 + 0.04 * np.maximum(-normal[1], 0) + 0.14 * np.maximum(to_card + 0.35, 0)
    return colour * light[..., None] + optics.mirrored(normal, lamp)[..., None]


@lru_cache(maxsize=2)
def _skin(cells=256):
    """Colour drift and pores of a peel on a map of longitude and latitude: values and slopes."""
    rng = np.random.default_rng(1851)
    waves = np.fft.fftfreq(cells, 1 / cells)
    # The map is 2 pi wide and pi tall: the same step is twice as far along as up.
    k = np.hypot(*np.meshgrid(waves / 2, waves))

    def noise(shape):
        field = np.fft.ifft2(np.fft.fft2(rng.standard_normal((cells, cells))) * shape).real
        return (field / field.std()).astype(np.float32)

    drift = noise(np.exp(-((k / 3) ** 2)))
    pores = noise(np.exp(-(((k - 30) / 10) ** 2)))
    pores = np.minimum(pores, 0.5)
    return drift, pores, np.gradient(pores, axis=0), np.gradient(pores, axis=1)


def _turned(place, turn):
    """Places on the body in its own frame, its stalk along y."""
    spin, lean, roll = turn
    cos, sin = np.cos([spin, lean, roll]), np.sin([spin, lean, roll])
    about_y = np.array([[cos[0], 0, sin[0]], [0, 1, 0], [-sin[0], 0, cos[0]]])
    about_x = np.array([[1, 0, 0], [0, cos[1], -sin[1]], [0, sin[1], cos[1]]])
    about_z = np.array([[cos[2], -sin[2], 0], [sin[2], cos[2], 0], [0, 0, 1]])
    matrix = (about_y @ about_x @ about_z).astype(np.float32)
    return tuple(sum(m * p for m, p in zip(row, place, strict=True)) for row in matrix)


def _peel(body, place, normal):
    """Colour and dimpled normals of a citrus fruit."""
    x, y, z = _turned(place, body.turn)
    drift, pores, down, along = _skin()
    cells = len(drift)
    column = (np.arctan2(z, x) * np.float32(cells / (2 * np.pi))).astype(np.intp) % cells
    row = (np.arccos(np.clip(y, -1, 1)) * np.float32((cells - 1) / np.pi)).astype(np.intp)
    at = row * cells + column
    ripe = np.clip(0.45 + 0.35 * drift.take(at), 0, 1)
    hollow = 1 - 0.35 * np.exp(-(((y - 1) / 0.05) ** 2))
    shade = (1 + 0.05 * pores.take(at)) * hollow
    stalk = np.clip((y - 0.975) / 0.008, 0, 1)
    colour = np.empty((*y.shape, 3), np.float32)
    for n in range(3):
        skin = (FRUIT[n] + (RIPE[n] - FRUIT[n]) * ripe) * shade
        colour[..., n] = skin + (STALK[n] - skin) * stalk
    # Pores fade where the skin is seen aslant, where a cell holds several, and at both pinched ends of the map.
    depth = 0.10 * min(1.0, body.across / 60) * np.clip(-normal[2], 0, 1) * np.clip(4 - 4 * np.abs(y), 0, 1)
    return colour, along_unit(normal[0] + depth * along.take(at), normal[1] + depth * down.take(at), normal[2])


def _look_up(table, place):
    """Values of a square picture of the ball at places -1 to 1 right and up."""
    cells = len(table)
    column = np.clip((place[0] + 1) * (cells / 2), 0, cells - 1).astype(np.intp)
    row = np.clip((1 - place[1]) * (cells / 2), 0, cells - 1).astype(np.intp)
    return table[row, column]


def _clear(body, place, lamp, index):
    if lamp is None:
        return np.float32(0.05) + 0.25 * np.clip(np.hypot(place[0], place[1]) - 0.75, 0, 1)
    cells = int(np.clip(2 * max(body.across, body.up), 24, 400))
    return _look_up(optics.ball(lamp, index, cells), place)


def _water(body, place, normal, lamp):
    return _clear(body, place, lamp, WATER_INDEX)[..., None]


def _glass(body, place, normal, lamp):
    """A clear marble with twisted coloured vanes inside, seen magnified by its own curve."""
    look = _clear(body, place, lamp, GLASS_INDEX)[..., None] * np.array([0.97, 1, 0.98], np.float32)
    side = 0.6
    if lamp is not None:
        side = 0.55 + 0.45 * sum(p * d for p, d in zip(place, lamp.direction, strict=True))
    cos, sin = np.cos(body.turn[2]), np.sin(body.turn[2])
    u, v = cos * place[0] + sin * place[1], cos * place[1] - sin * place[0]
    reach = 0.60 * np.sqrt(np.clip(1 - (v / 0.78) ** 2, 0, 1))
    for number in range(3):
        look = _vane(look, u, reach, body.turn[0] + number * 2.094 + 1.5 * v, side, number)
    return look


def _vane(behind, u, reach, angle, side, number):
    """One vane from the axis outwards, over what lies behind it."""
    width = np.cos(angle) * reach
    soft = 0.03
    from_axis = np.clip(u * np.sign(width) / soft + 0.5, 0, 1) * (reach > 0.01)
    to_edge = np.clip((np.abs(width) - np.abs(u)) / soft + 0.5, 0, 1)
    cover = (0.85 * from_axis * to_edge)[..., None]
    hues = np.array([[0.02, 0.17, 0.36], [0.62, 0.66, 0.52], [0.04, 0.36, 0.33]], np.float32)
    shade = (0.35 + 0.65 * np.abs(np.cos(angle))) * side
    return behind * (1 - cover) + cover * hues[number] * shade[..., None]
