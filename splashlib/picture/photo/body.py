"""The falling body as a small picture of its own: shape, shading by one light, gloss, what is inside glass.

A sprite has premultiplied red, green, blue and coverage, twice as fine down as across: the fall moves it
by fractions of a row. Radiance 1 is a perfectly white card that faces the lamp.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from splashlib.physics.light import fresnel_reflectance
from splashlib.picture.photo import optics

FINE = 2
"""Rows of a sprite for one row of the frame."""

GLASS, WATER = 1.52, 1.333
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


@lru_cache(maxsize=48)
def sprite(body, offset, lamp):
    """The body lit by one lamp, or by an even room when `lamp` is None.

    Parameters
    ----------
    body : Body
    offset : (float, float), of its middle from the middle of the sprite, right and down [picture elements]
    lamp : optics.Lamp or None

    Returns
    -------
    float32 array (rows * FINE, columns, 4)
    """
    u, v, cover = _grid(body, offset)
    deep = np.sqrt(np.clip(1 - u**2 - v**2, 0, 1))
    normals = np.stack([u / body.across, v / body.up, -deep / body.across], -1)
    normals /= np.linalg.norm(normals, axis=-1, keepdims=True)
    paint = {"glass": _glass, "water": _water}.get(body.look, _solid)
    colour = paint(body, np.stack([u, v, -deep], -1), normals, lamp)
    return np.concatenate([colour * cover[..., None], cover[..., None]], -1).astype(np.float32)


def _grid(body, offset):
    """Places on the body, -1 to 1 right and up, and the share of each cell that it covers."""
    columns = 2 * (int(np.ceil(body.across)) + 2)
    rows = 2 * (int(np.ceil(body.up)) + 2) * FINE
    x = np.arange(columns, dtype=np.float32) + 0.5 - columns / 2 - offset[0]
    y = ((np.arange(rows, dtype=np.float32) + 0.5) - rows / 2) / FINE - offset[1]
    u, v = np.meshgrid(x / body.across, -y / body.up)
    radius = np.hypot(u, v)
    # Distance to the edge in picture elements, by the first-order rule f/|grad f|.
    slope = np.hypot(u / body.across, v / body.up) / np.maximum(radius, 1e-6)
    cover = np.clip((1 - radius) / np.maximum(slope, 1e-6) + 0.5, 0, 1)
    # The soft outer edge takes its shade from just inside.
    keep = np.minimum(1, 0.999 / np.maximum(radius, 1e-6))
    return u * keep, v * keep, cover


def _solid(body, places, normals, lamp):
    """An opaque body: soft-edged daylight from one side, a little fill, and a wet gloss."""
    if body.look == "fruit":
        colour, normals = _peel(body, places, normals)
    else:
        colour = np.array(PLAIN[body.look], np.float32)
    if lamp is None:
        return colour * (0.62 + 0.38 * normals[..., 1:2])
    toward = normals @ np.asarray(lamp.direction, np.float32)
    wrap = np.float32(0.5 * np.sin(lamp.half_angle) + (0.22 if body.look == "milk" else 0))
    light = np.clip((toward + wrap) / (1 + wrap), 0, None)
    card = normals @ np.asarray(optics.card_of(lamp), np.float32)
    fill = 0.035 + 0.04 * np.clip(-normals[..., 1], 0, 1) + 0.14 * np.clip(card + 0.35, 0, None)
    return colour * (light + fill)[..., None] + _gloss(normals, lamp)[..., None]


def _gloss(normals, lamp):
    """What a wet skin mirrors of the lamp."""
    share = fresnel_reflectance(np.clip(-normals[..., 2], 0, 1), index=WATER)
    ray = np.broadcast_to(np.array([0, 0, 1], np.float32), normals.shape)
    return share * optics.surroundings(optics.bounce(ray, normals), lamp)


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


def _turned(places, turn):
    """Places on the body in its own frame, its stalk along y."""
    spin, lean, roll = turn
    cos, sin = np.cos([spin, lean, roll]), np.sin([spin, lean, roll])
    about_y = np.array([[cos[0], 0, sin[0]], [0, 1, 0], [-sin[0], 0, cos[0]]])
    about_x = np.array([[1, 0, 0], [0, cos[1], -sin[1]], [0, sin[1], cos[1]]])
    about_z = np.array([[cos[2], -sin[2], 0], [sin[2], cos[2], 0], [0, 0, 1]])
    return places @ (about_y @ about_x @ about_z).T.astype(np.float32)


def _peel(body, places, normals):
    """Colour and dimpled normals of a citrus fruit."""
    own = _turned(places, body.turn)
    drift, pores, down, along = _skin()
    cells = len(drift)
    turn = (np.arctan2(own[..., 2], own[..., 0]) / (2 * np.pi) * cells).astype(int) % cells
    rise = ((np.arccos(np.clip(own[..., 1], -1, 1)) / np.pi) * (cells - 1)).astype(int)
    ripe = np.clip(0.45 + 0.35 * drift[rise, turn], 0, 1)[..., None]
    colour = FRUIT + (RIPE - FRUIT) * ripe
    colour = colour * (1 + 0.05 * pores[rise, turn])[..., None]
    stalk = np.clip((own[..., 1] - 0.975) / 0.008, 0, 1)[..., None]
    hollow = np.exp(-(((own[..., 1] - 1) / 0.05) ** 2))[..., None]
    colour = (colour * (1 - 0.35 * hollow)) * (1 - stalk) + STALK * stalk
    # Pores fade where the skin is seen aslant and where a cell holds several of them.
    depth = 0.10 * min(1.0, body.across / 60) * np.clip(-normals[..., 2:], 0, 1)
    # The map is pinched at both ends of the fruit.
    depth = depth * np.clip(4 * (1 - np.abs(own[..., 1:2])), 0, 1)
    bumped = normals.copy()
    bumped[..., 0:1] += depth * along[rise, turn][..., None]
    bumped[..., 1:2] += depth * down[rise, turn][..., None]
    return colour, bumped / np.linalg.norm(bumped, axis=-1, keepdims=True)


def _look_up(table, places):
    """Values of a square picture of the ball at places -1 to 1 right and up."""
    cells = len(table)
    column = np.clip(((places[..., 0] + 1) / 2 * cells).astype(int), 0, cells - 1)
    row = np.clip(((1 - places[..., 1]) / 2 * cells).astype(int), 0, cells - 1)
    return table[row, column]


def _clear(body, places, lamp, index):
    if lamp is None:
        return np.float32(0.05) + 0.25 * np.clip(np.hypot(places[..., 0], places[..., 1]) - 0.75, 0, 1)
    cells = int(np.clip(2 * max(body.across, body.up), 24, 400))
    return _look_up(optics.ball(lamp, index, cells), places)


def _water(body, places, normals, lamp):
    return np.repeat(_clear(body, places, lamp, WATER)[..., None], 3, -1)


def _glass(body, places, normals, lamp):
    """A clear marble with twisted coloured vanes inside, seen magnified by its own curve."""
    clear = _clear(body, places, lamp, GLASS)[..., None] * np.array([0.97, 1, 0.98], np.float32)
    side = 0.6 if lamp is None else 0.55 + 0.45 * np.clip(places @ np.asarray(lamp.direction, np.float32), -1, 1)
    u, v = places[..., 0], places[..., 1]
    cos, sin = np.cos(body.turn[2]), np.sin(body.turn[2])
    u, v = cos * u + sin * v, cos * v - sin * u
    reach = 0.60 * np.sqrt(np.clip(1 - (v / 0.78) ** 2, 0, 1))
    look = clear
    for number in range(3):
        angle = body.turn[0] + number * 2.094 + 1.5 * v
        look = _vane(look, u, reach, angle, side, number)
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
