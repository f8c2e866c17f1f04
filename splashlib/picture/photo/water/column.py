"""The jet: a column of liquid on the axis, and the drops that leave its head.

A body's column is thin and fast at first, sheds a line of drops, and thickens from below into a tall cone; a drop's
is stout from the start and ends in a round head (A. M. Worthington, "A Study of Splashes" (1908)).
"""

import numpy as np

from splashlib.physics import water_entry
from splashlib.physics.water.jet import pinch_jet, spout
from splashlib.picture.photo.water.strands import Pieces, along_unit, strands
from splashlib.picture.photo.water.walls import PITCH, Course, instants, span_in_frame

POINTS = 40
STILL = 2.0
"""Motion of the head up to which the column is drawn as it stands in the middle of the light [picture elements]."""

MOST = 2400
"""Rows of a column at most."""

STEM, BASE = 0.08, 0.16
"""Radius of a body's column half-way up, and what its foot is wider, once it is fully fed [diameters of the body]."""

THIN, FED = 0.3, 0.4
"""How thick such a column is when it passes the surface, over its full thickness, and the share of its way to the
top in which it gets that."""

HEADS = ((1.06, 0.80), (1.14, 0.65), (1.22, 0.85), (1.33, 0.55), (1.45, 0.70), (1.60, 0.45), (1.80, 0.55))
DROP_HEADS = ((1.12, 0.95),)
"""Drops that leave the head: how high they get over the column's height, size over the radius of its stem (C)."""


def jet_happens(scene):
    """Whether a column rises in this drop."""
    return any(scene.happens(name) for name in ("jet_rises", "jet_starts", "spout_rises"))


def jet_course(scene, knots):
    """The column's profile at times [s]: height and radius [m] from foot to head."""
    values, there = np.zeros((len(knots), POINTS, 2), np.float32), np.zeros(len(knots), np.float32)
    if jet_happens(scene):
        for k, time in enumerate(scene.water_time(knots)):
            time = max(float(time), 0.0)
            height, radius = water_entry.jet_outline(scene.impact, time, points=POINTS, slipped=scene.slipped)
            if len(height):
                values[k] = np.stack([height, radius if scene.setup.drop.liquid else _cone(scene, height, time)], -1)
                there[k] = 1
    return Course(knots, values, there)


def _course(scene):
    """When the column of this drop rises and is at its peak [s], and how high it gets [m], likely values."""
    of = water_entry.jet if scene.setup.drop.liquid else spout if scene.slipped else pinch_jet
    dates = of(scene.impact)
    return dates.rises.likely, dates.peak.likely, dates.height.likely


def _cone(scene, height, time):
    """Radius of a body's column over its height [m]: the longer it has been fed, the thicker."""
    rises, peak, _ = _course(scene)
    size = scene.setup.drop.diameter * (THIN + (1 - THIN) * min(max((time - rises) / (FED * (peak - rises)), 0.0), 1.0))
    stem = STEM * size * (1.5 - height / max(float(height[-1]), 1e-9))
    return stem + BASE * size * np.exp(-height / (1.2 * BASE * size))


def jet_clouds(scene, view, course, light, lamp, liquid):
    """The column as clouds."""
    if not course.there.any():
        return []
    tops = course.values[:, -1, 0]
    moved = np.abs(np.diff(tops)).sum() * view.scale
    # So small a motion of its head is not seen; drawn, it would only leave the rows unevenly spaced.
    still = moved < STILL
    rows = (tops.max() * view.scale + moved) / PITCH * (1 if still else 3)
    # Only where it may be in the frame, when all of it would be too much.
    low, high = span_in_frame(course.values[..., 0], view) if rows > MOST else (0.0, 1.0)
    rows = int(min(max(rows * (high - low), 6), MOST))
    along = low + (high - low) * (np.arange(rows) + 0.5) / rows
    times, weights, moments = _middle(light, rows) if still else instants(light, rows)
    (height, radius), there = course.at(times, along)[0].T, course.at(times, along)[1]
    top = course.at(times, np.ones(rows))[0][:, 0]
    sway, swell = _waver(scene, height)
    radius = _modelled(course, height, radius, top, scene.setup.drop.liquid) * swell
    bend = sway * radius.min() * np.minimum(height / scene.setup.drop.diameter, 1)
    column, row = view.place(scene.across + bend, height, scene.behind)
    lean = np.gradient(bend) * rows / max(float(top.max()) * (high - low), 1e-6)
    direction = along_unit(np.clip(lean, -0.5, 0.5), np.ones(rows), 0.15 * sway)
    step = top * view.scale * ((high - low) / rows)
    pieces = Pieces(column, row, radius * view.scale, step, direction, there * weights, moments)
    return strands(([pieces], []), view.size, lamp, liquid)[0]


def _middle(light, rows):
    """As `instants`, all of them in the middle of the light."""
    number = round(light.at_middle(np.arange(len(light.times))))
    return np.full(rows, light.times[number]), np.full(rows, light.shares.sum()), np.full(rows, number)


def _modelled(course, height, radius, top, liquid):
    """The head is round, and a drop's gathers what the stem feeds it; the foot runs out into the level surface."""
    stem, foot = course.values[:, -1 if not liquid else POINTS // 2, 1].max(), course.values[:, 0, 1].max()
    ball, below = 1.45 * stem, top - height
    neck = np.exp(-1.5 * np.maximum(below / ball - 1, 0) ** 2)
    gathered = np.maximum(radius, stem) * (1 + (0.45 if liquid else 0.2) * neck)
    tip = np.sqrt(1 - np.clip(1 - below / ball, 0, 1) ** 2)
    return gathered * tip + 0.5 * foot * np.exp(-height / (0.4 * foot))


def _waver(scene, height):
    """How far the column sways, in radii, and how it swells, along its height."""
    phases, sizes = scene.chance.waves
    size = scene.setup.drop.diameter
    sway, swell = np.zeros_like(height), np.ones_like(height)
    for wave in range(1, 5):
        sway += 0.16 * sizes[0, wave - 1] / wave * np.sin(wave * height / size + phases[0, wave - 1])
        swell += 0.045 * sizes[1, wave - 1] * np.sin(1.9 * wave * height / size + phases[1, wave - 1])
    return sway, swell


def heads(scene, knots):
    """Drops over the head of the column: x, y, z arrays (knots, drops), radius [m], when there; None if none."""
    if not jet_happens(scene):
        return None
    clock = np.maximum(scene.water_time(knots), 0)[:, None]
    rises, peak, _ = _course(scene)
    liquid = scene.setup.drop.liquid
    # A stout column lets a drop go when it stands still, not before.
    if clock[-1, 0] <= (0.9 * peak if liquid else rises):
        return None
    up, share = np.array(DROP_HEADS if liquid else HEADS).T
    stem = _stem(scene, peak)
    chance = np.resize(scene.chance.waves[1], len(up))
    up = up * (1 + 0.02 * chance)
    # The same course, so much higher and slower by its root: free flight in the end.
    since = rises + np.maximum(clock - rises, 0) / np.sqrt(up)
    height = up * water_entry.jet_height(scene.impact, since, slipped=scene.slipped)
    size = stem * share * (1 + 0.1 * chance)
    free = (height > water_entry.jet_height(scene.impact, clock, slipped=scene.slipped) + size).all(0)
    x = scene.across + 0.5 * chance * size + 0 * height
    return x, height, np.full_like(height, scene.behind + 1e-5), size * free, np.ones_like(height)


def _stem(scene, peak):
    """Radius of the column at its peak, half-way up [m]."""
    if not scene.setup.drop.liquid:
        return STEM * scene.setup.drop.diameter
    return float(water_entry.jet_outline(scene.impact, peak)[1][POINTS // 2])
