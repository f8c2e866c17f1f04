"""The crown as the light finds it: its sheet."""

import math
from functools import lru_cache

import numpy as np

from splashlib.physics import water_entry
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.raster.layers import Painted
from splashlib.picture.photo.water.sheet_tracing import Uneven, Wall
from splashlib.picture.photo.water.walls import AROUND, Course, carry_over, evenly, with_slopes

POINTS = 24
COARSE = 800
"""Columns of which the shapes of chance are computed."""


def crown_course(scene, knots):
    """The crown's profile at times [s]: height, radius and their slopes along the sheet, from foot to rim."""
    values, there = np.zeros((len(knots), POINTS, 5), np.float32), np.zeros(len(knots), np.float32)
    for k, time in enumerate(scene.water_time(knots)):
        if time <= 0 or not scene.splashes:
            continue
        height, radius, thickness = water_entry.crown_outline(scene.impact, time, points=POINTS, dome=scene.domed)
        if len(height) and height[-1] > 1e-4:
            radius = radius + flare(height, radius[0])
            values[k] = with_slopes(evenly(np.stack([height, radius, thickness], -1)))
            there[k] = 1
    carry_over(values, there)
    return Course(knots, values, there)


def flare(height, foot):
    """How far the foot of a crown runs out into the surface, over its wall [m].

    Parameters
    ----------
    height : array, over the surface [m]
    foot : float, radius on which the wall stands [m]

    Notes
    -----
    A fifth of that radius at the surface, and gone within a third of it: after spark photographs
    (A. M. Worthington, "A Study of Splashes" (1908); drops of 6 mm, spheres of 15 mm). A drawing.
    """
    scale = min(0.11 * foot, 0.25 * float(height[-1]))
    return 0.2 * foot * np.exp(-height / max(scale, 1e-9))


@lru_cache(maxsize=64)
def factor_of(shapes):
    """The crown's unevenness as a function of the number of columns, each computed once."""
    kept = {}

    def factor(count):
        if count not in kept:
            theta = ((np.arange(count) + 0.5) * (2 * np.pi / count)).astype(np.float32)
            kept[count] = shapes.height_factor(theta)
        return kept[count]

    return factor


@lru_cache(maxsize=64)
def uneven_of(shapes, variant, rough):
    """What makes one crown's sheet uneven."""
    coarse, fine = ((np.arange(count) + 0.5) * (2 * np.pi / count) for count in (COARSE, AROUND))
    shaped = factor_of(shapes)(COARSE), shapes.rib_turn(coarse.astype(np.float32))
    factor, ribs = (np.interp(fine, coarse, each, period=2 * np.pi).astype(np.float32) for each in shaped)
    return Uneven(factor, ribs, variant, rough)


def sheets(scene, view, course, light, lamp, liquid):
    """The sheet as two layers, behind the axis and in front of it; None where nothing is seen of it."""
    if not course.there.any():
        return None, None
    uneven = uneven_of(scene.chance, scene.variant, 1.0 if liquid == "water" else 0.5)
    wall = Wall(course, light, view, (scene.across, scene.behind))
    found = [wall.seen(sign, uneven) for sign in (-1, 1)]
    return tuple(seen and _painted(seen, lamp, liquid) for seen in found)


def _painted(seen, lamp, liquid):
    look, cover = (_milk_sheet if liquid == "milk" else _water_sheet)(seen, lamp)
    cover = None if cover is None else seen.painted(cover * seen.area)
    return Painted(seen.window, seen.painted(look * seen.area), cover)


def _water_sheet(made, lamp):
    """A clear film: two skins that mirror lamp and card, and a trace of haze; it hides hardly anything."""
    facing = np.abs(made.normal[2])
    seen = _match(made.normal, lamp.direction, lamp.half_angle, 0.8, lamp.radiance)
    seen += _match(made.normal, optics.card_of(lamp), optics.CARD_ANGLE, 1.0, optics.CARD)
    seen += np.float32(0.03)
    # Near the rim the sheet is thickest with what the rim has gathered.
    haze = np.maximum(1 + made.haze, 0) * (np.float32(0.004) * (1 + 2 * made.along**6))
    return optics.schlick(facing) * (2 * facing) * seen + haze, None


def _match(normal, direction, half_angle, softness, radiance):
    """What is mirrored of a face of a half angle [rad]: all of it where the normal lies midway to it."""
    half = np.asarray(direction) - np.array([0, 0, 1])
    x, y, z = (half / np.linalg.norm(half)).astype(np.float32)
    edge = math.cos(half_angle / 2)
    soft = softness * (1 - edge)
    nx, ny, nz = normal
    share = (np.abs(nx * x + ny * y + nz * z) - np.float32(edge - 0.5 * soft)) * np.float32(radiance / soft)
    return np.minimum(np.maximum(share, 0), np.float32(radiance))


def _milk_sheet(made, lamp):
    """A white film: lit from the side that the camera sees, and a little from behind, through it."""
    nx, ny, nz = made.normal
    x, y, z = lamp.direction
    # Normals point outwards; the camera sees the far half from inside.
    toward = made.sign * (nx * x + ny * y + nz * z)
    wrap = np.float32(0.2 + 0.5 * math.sin(lamp.half_angle))
    shaded = np.maximum(wrap + toward, 0) * np.float32(0.92 / (1 + wrap))
    through = np.maximum(wrap - toward, 0) * np.float32(0.22 / (1 + wrap))
    facing = np.abs(nz)
    skin = optics.schlick(facing) * np.float32(0.08)
    return (optics.MILK_SKIN * (shaded + through + 0.06) + skin) * facing, facing
