"""The edge of the crown: a thick rim, threads that grow out of it, beads on both."""

import math

import numpy as np

from splashlib.physics import droplets
from splashlib.physics.constants import GOLDEN_SECTION
from splashlib.physics.droplets import spray
from splashlib.physics.water.crown import rim_track
from splashlib.picture.photo.water.crown_sheet import COARSE, factor_of
from splashlib.picture.photo.water.strands import Pieces, along_unit
from splashlib.picture.photo.water.walls import columns

NODES = 9
"""Points of a thread, root to tip, between which it runs straight."""


SMEARED = 8.0
"""Motion of the edge from which a single lane of every strand is drawn at a time [picture elements]."""

LOBES = 0.5
"""Size of the beads on a fat rim, over its own thickness: the largest of them are nearly as thick."""

MOST = 200_000
"""Pieces of the rim, and of all threads, at most."""


class Edge:
    """The rim and its threads at several instants of one light; arrays are (instants, angles)."""

    def __init__(self, scene, view, course, light):
        self.scene, self.view, self.course = scene, view, course
        self.shapes = scene.chance
        edge = course.values[:, -1, :2]
        # So many instants that the edge moves no more than a picture element between them.
        moved = np.hypot(*np.diff(edge, axis=0).T).sum() * view.scale if len(edge) > 1 else 0.0
        most = MOST // columns(float(course.values[:, -1, 1].max()) * view.scale)
        count = int(min(max(np.ceil(1.3 * moved), 1), 96, max(most, 1)))
        self.times, weights, self.moments = light.sampled((np.arange(count) + 0.5) / count)
        self.shares = weights / count
        self.lanes = np.arange(count) * GOLDEN_SECTION % 1.0 * 2 - 1 if moved > SMEARED else None
        """Where across its strands each instant is drawn, -1 to 1, when the motion fills the rest; or None."""
        self.thick = thread_radius(scene)

    def at(self, theta, times, factor):
        """Place of the edge at angles and times: x, y, z, the direction of the sheet (out, up), whether it is there."""
        profile, there = self.course.at(times, np.ones(len(times)))
        height, radius, rise, widen = (profile[:, n, None] for n in range(4))
        radius = radius * (1 + 0.35 * (factor - 1))
        long = np.maximum(np.hypot(rise, widen), 1e-6)
        x, z = radius * np.cos(theta), radius * np.sin(theta)
        return x + self.scene.across, height * factor, z + self.scene.behind, widen / long, rise / long, there

    def growth(self, times):
        """How far the threads have grown, 0 to 1: they need about the time of the crown."""
        peak = max(self.scene.peak_time, 1e-4)
        return np.minimum(np.maximum(self.scene.water_time(times) / peak, 0), 1.3)[:, None]


def rim_radius(edge, times):
    """Half the thickness of the rim at times [m]: it gathers the sheet that runs into it, and flattens as it lands."""
    track = rim_track(edge.scene.impact)
    round_ = [math.sqrt(each.mass / (math.pi * edge.scene.impact.liquid.density)) for each in track]
    gathered = np.interp(edge.scene.water_time(times), [each.time for each in track], round_)
    high = edge.course.at(times, np.ones(len(times)))[0][:, 0]
    return np.minimum(gathered, 0.2 * high)


def thread_radius(scene):
    """Half the thickness of the threads [m], which make the usual droplets (1.89 to 1)."""
    usual = droplets.droplet_size(scene.impact).likely
    return min(usual / spray.DROP_OF_THREAD / 2, 0.022 * scene.setup.drop.diameter + 1e-4)


def rim_pieces(edge):
    """The rim, as pieces behind the axis and in front of it."""
    view = edge.view
    count = columns(float(edge.course.values[:, -1, 1].max()) * view.scale)
    theta = (np.arange(count) + 0.5) * (2 * np.pi / count)
    factor = factor_of(edge.shapes)(count)
    x, y, z, _, _, there = edge.at(theta, edge.times, factor)
    swell = 0.75 + 0.45 * np.minimum(np.maximum((factor - 1) / max(float(factor.std()), 1e-6), -1), 2)
    radius = rim_radius(edge, edge.times)[:, None] * view.scale * swell
    along = along_unit(*(np.roll(a, -1, 1) - np.roll(a, 1, 1) for a in (x, y, z)))
    column, row = view.place(x, y, z)
    step = np.hypot(np.roll(column, -1, 1) - column, np.roll(row, -1, 1) - row)
    half = count // 2
    return [
        _pieces(edge, [a[:, part] for a in (column, row, radius, step, *along)], there, half)
        for part in (slice(0, half), slice(half, count))
    ]


def _pieces(edge, parts, there, count):
    column, row, radius, step, *along = (part.ravel() for part in parts)
    share, moment = np.repeat(there * edge.shares, count), np.repeat(edge.moments, count)
    lane = None if edge.lanes is None else np.repeat(edge.lanes, count)
    return Pieces(column, row, radius, step, tuple(along), share, moment, lane)


def thread_pieces(edge):
    """The threads, as pieces behind the axis and in front of it."""
    behind = np.sin(edge.shapes.angles) > 0
    return [_threads(edge, chosen) for chosen in (behind, ~behind)]


def _threads(edge, chosen):
    taper = np.linspace(0, 1, NODES)
    x, y, z, there = thread_places(edge, chosen, edge.times, taper)
    grown = np.minimum(edge.growth(edge.times) + 0.2, 1)[..., None]
    radius = edge.thick * edge.view.scale * (0.42 + 0.75 * np.exp(-5 * taper)) * grown
    column, row = edge.view.place(x, y, z)
    step = np.hypot(np.diff(column, axis=2), np.diff(row, axis=2))
    # So many instants that they bound the pieces leave no gaps either: the motion fills them.
    fine = int(np.clip(np.ceil(step.max()), 1, max(MOST // step.size, 1)))
    along = [np.repeat(np.diff(a, axis=2), fine, axis=2) for a in (x, y, z)]
    parts = [_between(a, fine) for a in (column, row, np.broadcast_to(radius, column.shape))]
    parts = [*parts, np.repeat(step / fine, fine, axis=2), *along_unit(*along)]
    return _pieces(edge, parts, there, parts[0][0].size)


def _between(values, fine):
    """The middles of `fine` pieces of every straight stretch along the last axis."""
    place = (np.arange(fine) + 0.5) / fine
    made = values[..., :-1, None] * (1 - place) + values[..., 1:, None] * place
    return made.reshape(*values.shape[:-1], -1)


def thread_places(edge, chosen, times, along):
    """Places on the chosen threads, x, y, z arrays (times, threads, places), and whether the crown is there."""
    shapes = edge.shapes
    theta = shapes.angles[chosen]
    x, y, z, out, up, there = edge.at(theta, times, _factor_at(shapes, theta))
    bend, sway = shapes.bends[:, chosen]
    reach = (11 * edge.thick * shapes.lengths[chosen] * edge.growth(times))[..., None] * along
    sway = sway[:, None] * along * reach
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    away = reach * (out + bend)[..., None]
    places = x[..., None] + away * cos - sway * sin, y[..., None] + reach * up[..., None]
    return *places, z[..., None] + away * sin + sway * cos, there


def _factor_at(shapes, theta):
    factor = factor_of(shapes)(COARSE)
    return factor[(theta % (2 * np.pi) / (2 * np.pi) * COARSE).astype(int) % COARSE]


def beads(edge, knots):
    """Beads at the tips of the threads and on the rim: x, y, z arrays (knots, beads), radius [m], and when there."""
    shapes = edge.shapes
    every = np.ones(len(shapes.angles), bool)
    tips = thread_places(edge, every, knots, np.ones(1))
    ring = edge.at(shapes.bead_angles, knots, _factor_at(shapes, shapes.bead_angles))
    places = [np.concatenate([tip[..., 0], each], 1) for tip, each in zip(tips[:3], ring[:3], strict=True)]
    grown = min(float(edge.growth(knots).mean()) + 0.2, 1.0)
    # A rim that has grown fat carries lobes of about its own thickness.
    size = max(edge.thick * grown, LOBES * float(rim_radius(edge, knots).mean())) * edge.course.there.max()
    return *places, size * shapes.bead_sizes, np.ones_like(places[0])
