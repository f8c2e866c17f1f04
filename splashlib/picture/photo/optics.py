"""How a drop, a strand of water or a marble looks: small pictures of the lamp, traced through the real shape.

Clear water has no colour and no shade of its own. It shows the lamp twice, mirrored in its skin and bent through
its body, and little else. So each look is traced once for a place of the lamp, and kept.
Radiance 1 is a perfectly white card that faces the lamp; x is to the right, y up, z away from the camera.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from splashlib.physics.light import fresnel_reflectance

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
    """Radiance that comes from the directions `rays` (..., 3)."""
    card = rays @ np.asarray(card_of(lamp), np.float32)
    # A pale table edge below and a dark room above: enough for a thin outline where no lamp is seen.
    table = 0.08 * np.clip(-rays[..., 1], 0, 1) ** 2
    return toward(rays @ np.asarray(lamp.direction, np.float32), card, lamp) + table


def toward(to_lamp, to_card, lamp):
    """Radiance in directions with given cosines to the lamp and to the card: two soft-edged faces, dim ground."""
    face = _face(to_lamp, lamp.half_angle, 0.12)
    spill = 0.05 * np.clip(to_lamp, 0, 1) ** 3
    return lamp.radiance * face + spill + CARD * _face(to_card, CARD_ANGLE, 0.5) + 0.010


def _face(cosine, half_angle, softness):
    edge = np.cos(half_angle)
    soft = softness * half_angle * np.sin(half_angle) + 1e-3
    return np.clip((cosine - np.float32(edge)) / np.float32(soft) + np.float32(0.5), 0, 1)


def schlick(cosine, head_on=0.02):
    """Share that a clear surface mirrors, by the quick rule r0 + (1 - r0)(1 - cos)^5; within 0.02 of `fresnel`."""
    off = 1 - np.clip(cosine, 0, 1)
    square = off * off
    return head_on + (1 - head_on) * square * square * off


def bend(rays, normals, ratio):
    """Refract unit rays at a surface whose normals face them; `ratio` is index before over index behind."""
    cosine = -(rays * normals).sum(-1, keepdims=True)
    root = 1 - ratio**2 * (1 - cosine**2)
    return ratio * rays + (ratio * cosine - np.sqrt(np.clip(root, 0, None))) * normals


def bounce(rays, normals):
    """Mirror unit rays at a surface."""
    return rays - 2 * (rays * normals).sum(-1, keepdims=True) * normals


@lru_cache(maxsize=64)
def ball(lamp, index=1.333, cells=96):
    """A clear ball lit by one lamp: radiance on a square of `cells` x `cells` over the ball, row 0 at the top.

    Three paths are followed: mirrored outside, straight through, and once mirrored inside.
    """
    u = (np.arange(cells, dtype=np.float32) + 0.5) * 2 / cells - 1
    x, y = np.meshgrid(u, -u)
    inside = x**2 + y**2 < 1
    depth = np.sqrt(np.clip(1 - x**2 - y**2, 0, 1))
    point = np.stack([x, y, -depth], -1)
    ray = np.broadcast_to(np.array([0, 0, 1], np.float32), point.shape)
    share = fresnel_reflectance(np.clip(depth, 0, 1), index=index)
    look = share * surroundings(bounce(ray, point), lamp)
    within = bend(ray, point, 1 / index)
    second = point - 2 * (within * point).sum(-1, keepdims=True) * within
    look += (1 - share) ** 2 * surroundings(bend(within, -second, index), lamp)
    turned = bounce(within, second)
    third = second - 2 * (turned * second).sum(-1, keepdims=True) * turned
    look += (1 - share) ** 2 * share * surroundings(bend(turned, -third, index), lamp)
    return np.where(inside, look, 0).astype(np.float32)


@lru_cache(maxsize=64)
def strand(lamp, index=1.333, cells=64):
    """A clear upright strand across its width, left to right: mean radiance over strands that lean up to 35 degrees."""
    lean = np.linspace(-0.6, 0.6, 13)[:, None]
    u = (np.arange(cells) + 0.5) * 2 / cells - 1
    u, lean = np.broadcast_arrays(u[None, :], lean)
    deep = np.sqrt(1 - u**2)
    normal = np.stack([u, 0 * u, -deep], -1)
    normal = np.stack([normal[..., 0], -normal[..., 2] * np.sin(lean), normal[..., 2] * np.cos(lean)], -1)
    ray = np.broadcast_to([0.0, 0.0, 1.0], normal.shape)
    share = fresnel_reflectance(np.clip(-(ray * normal).sum(-1), 0, 1), index=index)
    look = share * surroundings(bounce(ray, normal), lamp)
    within = bend(ray, normal, 1 / index)
    axis = np.stack([0 * u, np.cos(lean), np.sin(lean)], -1)
    along = (within * axis).sum(-1, keepdims=True) * axis
    flat = within - along
    # The second surface of a round strand: step along the chord in the cross-section.
    chord = -2 * (flat * normal).sum(-1, keepdims=True) / (flat**2).sum(-1, keepdims=True)
    exit_normal = normal + chord * flat
    look += (1 - share) ** 2 * surroundings(bend(within, -exit_normal, index), lamp)
    return look.mean(0).astype(np.float32)


MILK_SKIN = 0.90
"""Share of the light that a white liquid gives back; class value for whole milk, 0.85-0.93."""


def milk_light(normals, lamp, through=0.10):
    """Radiance of a white liquid: light that enters, wanders and comes out again, and what its skin mirrors."""
    toward = normals @ np.asarray(lamp.direction, np.float32)
    wrap = np.float32(0.20 + 0.5 * np.sin(lamp.half_angle))
    shaded = np.clip((toward + wrap) / (1 + wrap), 0, None) + through
    gloss = mirrored(normals, lamp)
    return (MILK_SKIN * shaded * 0.92 + gloss).astype(np.float32)


def mirrored(normals, lamp, index=1.333):
    """What a clear skin mirrors of the surroundings, for normals that face the camera."""
    share = fresnel_reflectance(np.clip(-normals[..., 2], 0, 1), index=index)
    ray = np.broadcast_to(np.array([0, 0, 1], np.float32), normals.shape)
    return share * surroundings(bounce(ray, normals), lamp)
