"""What is under the surface: the skin of the cavity behind a body or of a drop's crater, seen through the water."""

import numpy as np

from splashlib.physics import water_entry
from splashlib.physics.constants import WATER_INDEX
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.water.walls import ASLANT, Course, carry_over, evenly, skin, with_slopes

POINTS = 160
TOTAL = 1 / WATER_INDEX
"""Sine of the angle beyond which water mirrors everything at air."""


def cavity_course(scene, knots):
    """The cavity's profile at times [s], from its deepest point up to its mouth."""
    values, there = np.zeros((len(knots), POINTS, 4), np.float32), np.zeros(len(knots), np.float32)
    heights = scene.heights(knots)
    for k, (height, clock) in enumerate(zip(heights, scene.water_time(knots), strict=True)):
        found = _outline(scene, float(height), float(clock))
        if found is not None:
            values[k] = with_slopes(evenly(np.stack(found, -1), ASLANT))
            there[k] = 1
    carry_over(values, there)
    return Course(knots, values, there)


def _outline(scene, height, clock):
    if clock <= 0:
        return None
    if scene.setup.drop.liquid:
        away, depth = water_entry.crater_outline(scene.impact, clock, points=POINTS)
        return (-depth, away) if len(away) else None
    if scene.slipped:
        return None
    depth, radius = water_entry.cavity_outline(scene.impact, clock, points=POINTS)
    if not scene.happens("cavity_seals"):
        radius = _without_bubble(scene.impact, clock, depth, radius)
    if not len(depth) or depth[-1] <= 0:
        return None
    # The cavity ends at the widest part of the body, where the chain of events has it.
    widest = -(height + scene.setup.drop.height / 2)
    return (-depth * max(widest, 1e-4) / depth[-1])[::-1], radius[::-1]


def _without_bubble(impact, clock, depth, radius):
    """A cavity that does not seal, as in a shallow vase, fills from below: nothing of it stays with the body."""
    seal = water_entry.cavity_seal(impact)
    return np.where((clock > seal.time) & (depth >= seal.depth), 0.0, radius)


def cavity_cloud(scene, view, course, light, lamp):
    """The near half of the cavity's skin as one cloud."""
    part = skin(course, light, view, variant=scene.variant, rough=0.30)
    if part is None:
        return None
    column, row = view.place(part.x + scene.across, part.y, part.z + scene.behind)
    bright, cover = look(part.normal, lamp)
    cells = part.area * np.float32(view.scale**2)
    return column, row, bright * cells, cover * cells, part.moments


def look(normal, lamp):
    """Light and cover of air under water, for normals out of the air: beyond the critical angle all is mirrored."""
    nx, ny, nz = normal
    facing = np.minimum(np.abs(nz), 1)
    total = (np.sqrt(1 - facing * facing) - np.float32(TOTAL)) / np.float32(0.03) + np.float32(0.5)
    total = np.minimum(np.maximum(total, 0), 1)
    # The camera's ray, mirrored: how near it comes to lamp and card, and whether it goes up to the bright surface.
    to_lamp, to_card = (
        np.float32(z) - 2 * nz * (nx * x + ny * y + nz * z) for x, y, z in (lamp.direction, optics.card_of(lamp))
    )
    seen = np.float32(0.55) * optics.toward(to_lamp, to_card, lamp)
    seen += np.float32(0.05) * np.maximum(-2 * nz * ny, 0) + np.float32(0.045) * np.maximum(1 - 2 * nz * nz, 0)
    clear = 1 - total
    light = (total + np.float32(0.035) * clear) * seen + np.float32(0.004) * clear
    return light * facing, (np.float32(0.92) * total + np.float32(0.25) * clear) * facing
