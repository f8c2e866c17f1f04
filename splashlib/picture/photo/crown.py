"""The crown as the light finds it: its sheet."""

from functools import lru_cache

import numpy as np

from splashlib.physics import water_entry
from splashlib.picture.photo import optics
from splashlib.picture.photo.sheet import PITCH, Course, Uneven, carry_over, evenly, wall, with_slopes

POINTS = 24


def crown_course(scene, knots):
    """The crown's profile at times [s]: height, radius and their slopes along the sheet, from foot to rim."""
    values, there = np.zeros((len(knots), POINTS, 5), np.float32), np.zeros(len(knots), np.float32)
    for k, time in enumerate(scene.water_time(knots)):
        if time <= 0 or not scene.happens("crown_peak"):
            continue
        height, radius, thickness = water_entry.crown_outline(scene.impact, time, points=POINTS)
        if len(height) and height[-1] > 1e-4:
            values[k] = with_slopes(evenly(np.stack([height, radius, thickness], -1)))
            there[k] = 1
    carry_over(values, there)
    return Course(knots, values, there)


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
def ribs_of(shapes):
    """As `factor_of`, for the turn of the normal beside the ridges that lead to the threads [rad]."""
    kept = {}

    def ribs(count):
        if count not in kept:
            theta = ((np.arange(count) + 0.5) * (2 * np.pi / count)).astype(np.float32)
            kept[count] = shapes.rib_turn(theta)
        return kept[count]

    return ribs


def sheet_clouds(scene, view, course, light, lamp, liquid):
    """The sheet as two clouds, behind the axis and in front of it: column, row, light, cover, instant."""
    shapes = scene.chance
    # A film that hides what is behind it must have no gaps at all.
    rough, pitch = (1.0, PITCH) if liquid == "water" else (0.5, 0.8)
    uneven = Uneven(factor_of(shapes), ribs_of(shapes), scene.seed % 5, rough, pitch)
    made = wall(course, light, view, uneven)
    if made is None:
        return None
    return [_sheet_cloud(scene, view, made.half(number), number, light, lamp, liquid) for number in (0, 1)]


def _sheet_cloud(scene, view, part, number, light, lamp, liquid):
    column, row = view.place(part.x + scene.across, part.y, part.z + scene.behind)
    paint = _milk_sheet if liquid == "milk" else _water_sheet
    look, cover = paint(part, number, lamp)
    cells = part.area * np.float32(view.scale**2 * light.shares.sum())
    return column, row, look * cells, cover * cells, part.moments


def _water_sheet(part, number, lamp):
    """A clear film: two skins that mirror lamp and card, and a trace of haze; it hides hardly anything."""
    facing = np.abs(part.normal[2])
    seen = np.float32(lamp.radiance) * _match(part, lamp.direction, lamp.half_angle, 0.8)
    seen += np.float32(optics.CARD) * _match(part, optics.card_of(lamp), optics.CARD_ANGLE, 1.0) + np.float32(0.03)
    haze = np.float32(0.004) * (1 + part.haze)
    # Near the rim the sheet is thickest with what the rim has gathered.
    haze = haze * (1 + 2 * np.float32(part.along**6))[:, None]
    return 2 * optics.schlick(facing) * seen * facing + haze, np.float32(0.10) * facing


def _match(part, direction, half_angle, softness):
    """How fully a face of a half angle [rad] is mirrored: 1 where the normal lies midway to it."""
    nx, ny, nz = part.normal
    half = np.asarray(direction) - np.array([0, 0, 1])
    x, y, z = (half / np.linalg.norm(half)).astype(np.float32)
    edge = np.cos(half_angle / 2)
    near = np.abs(nx * x + ny * y + nz * z) - np.float32(edge)
    return np.clip(near / np.float32(softness * (1 - edge)) + np.float32(0.5), 0, 1)


def _milk_sheet(part, number, lamp):
    """A white film: lit from the side that the camera sees, and a little from behind, through it."""
    nx, ny, nz = part.normal
    sign = np.float32(-1 if number == 0 else 1)
    toward = sign * (nx * lamp.direction[0] + ny * lamp.direction[1] + nz * lamp.direction[2])
    wrap = np.float32(0.2 + 0.5 * np.sin(lamp.half_angle))
    shaded = np.clip((toward + wrap) / (1 + wrap), 0, None)
    through = np.clip((wrap - toward) / (1 + wrap), 0, None)
    facing = np.abs(nz)
    skin = optics.schlick(facing) * np.float32(0.08)
    return (optics.MILK_SKIN * (0.92 * shaded + 0.22 * through + 0.06) + skin) * facing, facing
