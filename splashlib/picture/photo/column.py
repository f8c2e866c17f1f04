"""The jet: a column of liquid on the axis with a round head, and the drops that leave it."""

import numpy as np

from splashlib.physics import water_entry
from splashlib.physics.constants import GRAVITY
from splashlib.picture.photo.rim import ball_clouds
from splashlib.picture.photo.sheet import PITCH, Course, instants
from splashlib.picture.photo.strands import strand

POINTS = 40
HEADS = ((1.30, 0.95), (1.62, 0.75), (2.05, 0.55))
"""Drops that leave the head: how high they get over the column's height, size over the radius of its stem (C)."""


def jet_happens(scene):
    """Whether a column rises in this drop."""
    return any(scene.happens(name) for name in ("jet_rises", "jet_starts", "spout_rises"))


def jet_course(scene, knots):
    """The column's profile at times [s]: height and radius [m] from foot to head."""
    values, there = np.zeros((len(knots), POINTS, 2), np.float32), np.zeros(len(knots), np.float32)
    if jet_happens(scene):
        for k, time in enumerate(scene.water_time(knots)):
            height, radius = water_entry.jet_outline(scene.impact, max(float(time), 0.0), points=POINTS)
            if len(height):
                values[k] = np.stack([height, radius], -1)
                there[k] = 1
    return Course(knots, values, there)


def jet_cloud(scene, view, course, light, lamp, liquid):
    """The column as one cloud."""
    if not course.there.any():
        return None
    length = course.values[:, -1, 0].max() + np.abs(np.diff(course.values[:, -1, 0])).sum()
    moved = np.abs(np.diff(course.values[:, -1, 0])).sum() * view.scale
    rows = int(np.clip(length * view.scale / PITCH * (1 if moved < 0.3 else 3), 6, 2400))
    along = (np.arange(rows) + 0.5) / rows
    moments = instants(light, rows)
    profile, there = course.at(light.times[moments], along)
    height, radius = profile[:, 0], profile[:, 1]
    sway, swell = _waver(scene, height)
    tops = course.at(light.times[moments], np.ones(rows))[0][:, 0]
    stem = course.values[:, POINTS // 2, 1].max()
    # The head gathers what the stem feeds it; the foot runs out into the level surface.
    foot = course.values[:, 0, 1].max()
    head = 0.55 * np.exp(-(((tops - height) / (1.6 * stem) - 1) ** 2))
    radius = radius * (swell + head) + 0.8 * foot * np.exp(-height / (0.3 * foot))
    bend = sway * radius.min() * np.clip(height / scene.setup.drop.diameter, 0, 1)
    column, row = view.place(scene.across + bend, height, np.full(rows, scene.behind))
    step = tops * view.scale / rows
    lean = np.gradient(bend) / max(tops.max() / rows, 1e-6)
    tangents = np.stack([np.clip(lean, -0.5, 0.5), np.ones(rows), 0.15 * sway], -1)
    tangents /= np.linalg.norm(tangents, axis=1, keepdims=True)
    x, y, bright, cover = strand((column, row), tangents, radius * view.scale, step, lamp, liquid)
    share = (there * light.shares.sum())[:, None]
    return x, y, bright * share, cover * share, np.broadcast_to(moments[:, None], x.shape)


def _waver(scene, height):
    """How far the column sways, in radii, and how it swells, along its height."""
    rng = np.random.default_rng((scene.seed, 11))
    size = scene.setup.drop.diameter
    sway, swell = np.zeros_like(height), np.ones_like(height)
    for wave in range(1, 5):
        phase = rng.uniform(0, 2 * np.pi, 2)
        sway += rng.normal(0, 0.16) / wave * np.sin(wave * height / size + phase[0])
        swell += rng.normal(0, 0.045) * np.sin(1.9 * wave * height / size + phase[1])
    return sway, swell


def head_clouds(scene, view, knots, light, lamp, liquid):
    """Drops over the head of the column, behind the axis and in front of it."""
    if not jet_happens(scene):
        return [None, None]
    course = water_entry.jet(scene.impact)
    rises, top = course.rises.likely, course.height.likely
    stem = float(water_entry.jet_outline(scene.impact, course.peak.likely)[1][POINTS // 2])
    rng = np.random.default_rng((scene.seed, 12))
    high = top * np.array([h for h, _ in HEADS]) * rng.uniform(0.93, 1.07, len(HEADS))
    since = np.maximum(scene.water_time(knots)[:, None] - rises, 0)
    height = np.sqrt(2 * GRAVITY * high) * since - GRAVITY * since**2 / 2
    size = stem * np.array([s for _, s in HEADS]) * rng.uniform(0.85, 1.15, len(HEADS))
    free = (height > water_entry.jet_height(scene.impact, scene.water_time(knots).clip(0))[:, None] + size).all(0)
    x = scene.across + rng.normal(0, 0.5, len(HEADS)) * size + 0 * height
    z = np.full_like(height, scene.behind - 1e-4)
    return ball_clouds(view, (x, height, z), size * free, knots, light, lamp, liquid)
