"""How a drop, a strand of water or a marble looks: small pictures of the lamp, traced through the real shape.

Clear water has no colour and no shade of its own. It shows the lamp twice, mirrored in its skin and bent through
its body, and little else. So each look is traced once for a place of the lamp, and kept.
Radiance 1 is a perfectly white card that faces the lamp; x is to the right, y up, z away from the camera.
"""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.physics.constants import WATER_INDEX
from splashlib.physics.light.clear_surface import fresnel_reflectance
from splashlib.picture.photo.raster.kept_results import kept

PLACES = {
    # Where a lamp stands, seen from the drop: unit vectors once normalised. Class arrangements of still life.
    "side": (-0.93, 0.32, 0.17),
    "front": (-0.42, 0.42, -0.80),
    "behind": (-0.50, 0.42, 0.76),
}


@dataclass(frozen=True)
class Lamp:
    """One light as the scene sees it: unit direction to it, half angle of its face [rad], radiance of its face."""

    direction: tuple[float, float, float]
    half_angle: float
    radiance: float


CARD_ANGLE, CARD = 0.50, 0.70
"""The pale card across from the lamp that every set has: half angle [rad] and radiance."""


def card_of(lamp):
    """Direction to the card that throws some of the lamp's light back: across from it, a little behind the drop."""
    side = -1.0 if lamp.direction[0] > 0 else 1.0
    return unit((0.82 * side, 0.12, 0.56))


def unit(vector):
    """The vector scaled to length 1, as a tuple (so that looks can be cached by it)."""
    vector = np.asarray(vector, float)
    return tuple((vector / np.linalg.norm(vector)).round(6).tolist())


def surroundings(rays, lamp):
    """Radiance that comes from directions, their x, y and z in a tuple of arrays."""
    x, y, z = rays
    to_lamp, to_card = (x * a + y * b + z * c for a, b, c in (lamp.direction, card_of(lamp)))
    # A pale table edge below and a dark room above: enough for a thin outline where no lamp is seen.
    below = np.minimum(y, 0)
    return toward(to_lamp, to_card, lamp) + np.float32(0.08) * below * below


def toward(to_lamp, to_card, lamp):
    """Radiance in directions with given cosines to the lamp and to the card: two soft-edged faces, dim ground."""
    spill = np.maximum(to_lamp, 0)
    light = _face(to_lamp, lamp.half_angle, 0.12, lamp.radiance)
    light += _face(to_card, CARD_ANGLE, 0.5, CARD)
    light += np.float32(0.05) * spill * spill * spill + np.float32(0.010)
    return light


def _face(cosine, half_angle, softness, radiance):
    edge = math.cos(half_angle)
    soft = softness * half_angle * math.sin(half_angle) + 1e-3
    share = (cosine - np.float32(edge - 0.5 * soft)) * np.float32(radiance / soft)
    return np.minimum(np.maximum(share, 0), np.float32(radiance))


def schlick(cosine, head_on=0.02):
    """Share that a clear surface mirrors, by the quick rule r0 + (1 - r0)(1 - cos)^5; within 0.02 of `fresnel`."""
    off = 1 - cosine
    square = off * off
    return np.float32(head_on) + np.float32(1 - head_on) * (square * square * off)


def bend(ray, normal, ratio):
    """Refract a unit ray at a surface whose normal faces it; `ratio` is index before over index behind."""
    cosine = -sum(r * n for r, n in zip(ray, normal, strict=True))
    root = np.sqrt(np.maximum(1 - ratio**2 * (1 - cosine * cosine), 0))
    return tuple(ratio * r + (ratio * cosine - root) * n for r, n in zip(ray, normal, strict=True))


def bounce(ray, normal):
    """Mirror a unit ray at a surface."""
    twice = 2 * sum(r * n for r, n in zip(ray, normal, strict=True))
    return tuple(r - twice * n for r, n in zip(ray, normal, strict=True))


@kept(megabytes=8)
def ball(lamp, index=WATER_INDEX, cells=96):
    """A clear ball lit by one lamp: radiance on a square of `cells` x `cells` over the ball, row 0 at the top.

    Three paths are followed: mirrored outside, straight through, and once mirrored inside.
    """
    u = (np.arange(cells, dtype=np.float32) + 0.5) * 2 / cells - 1
    x, y = np.meshgrid(u, -u)
    inside = x**2 + y**2 < 1
    depth = np.sqrt(np.maximum(1 - x**2 - y**2, 0))
    point, ray = (x, y, -depth), (0 * x, 0 * x, 0 * x + 1)
    share = fresnel_reflectance(depth, index=index)
    look = share * surroundings(bounce(ray, point), lamp)
    within = bend(ray, point, 1 / index)
    second = _across(point, within)
    look += (1 - share) ** 2 * surroundings(bend(within, tuple(-p for p in second), index), lamp)
    turned = bounce(within, second)
    third = _across(second, turned)
    look += (1 - share) ** 2 * share * surroundings(bend(turned, tuple(-p for p in third), index), lamp)
    return np.where(inside, look, 0).astype(np.float32)


def _across(point, ray):
    """Where a ray that starts at a point of the unit ball meets it again."""
    way = -2 * sum(r * p for r, p in zip(ray, point, strict=True))
    return tuple(p + way * r for p, r in zip(point, ray, strict=True))


MILK_SKIN = 0.90
"""Share of the light that a white liquid gives back; class value for whole milk, 0.85-0.93."""


def milk_light(normal, lamp, through=0.10):
    """Radiance of a white liquid: light that enters, wanders and comes out again, and what its skin mirrors.

    `normal` is a tuple of arrays, facing the camera.
    """
    x, y, z = lamp.direction
    wrap = np.float32(0.20 + 0.5 * math.sin(lamp.half_angle))
    shaded = np.maximum((normal[0] * x + normal[1] * y + normal[2] * z + wrap) / (1 + wrap), 0) + np.float32(through)
    return (MILK_SKIN * 0.92) * shaded + mirrored(normal, lamp)


def mirrored(normal, lamp):
    """What a wet skin mirrors of the surroundings, for normals (a tuple of arrays) that face the camera."""
    x, y, z = normal
    ray = (-2 * z * x, -2 * z * y, 1 - 2 * z * z)
    return schlick(np.minimum(-z, 1)) * surroundings(ray, lamp)
