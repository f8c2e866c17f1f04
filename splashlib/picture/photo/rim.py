"""The edge of the crown: a thick rim, threads that grow out of it, beads on both, and droplets already thrown."""

import numpy as np

from splashlib.physics import droplets, spray
from splashlib.picture.photo.blobs import blobs
from splashlib.picture.photo.crown import factor_of
from splashlib.picture.photo.sheet import columns, instants
from splashlib.picture.photo.strands import strand

PIECES = 12
"""Pieces of a thread, root to tip."""

BEADS = 3
"""Beads on the rim for each thread."""


class Edge:
    """The rim and its threads at several instants of one light; arrays are (instants, angles)."""

    def __init__(self, scene, view, course, light):
        self.scene, self.view, self.course, self.light = scene, view, course, light
        self.shapes = scene.chance
        self.moments = instants(light, self._copies())
        self.times = light.times[self.moments]
        self.thick = rim_radius(scene)

    def _copies(self):
        """So many instants that the edge moves no more than a picture element between them."""
        edge = self.course.values[:, -1, :2]
        moved = np.hypot(*np.diff(edge, axis=0).T).sum() if len(edge) > 1 else 0.0
        return int(np.clip(np.ceil(moved * self.view.scale), 1, 64))

    def at(self, theta, times, factor):
        """Place of the edge at angles and times: x, y, z and the sheet's direction there (out, up), all (t, a)."""
        profile, there = self.course.at(np.asarray(times), np.ones(len(times)))
        height, radius, rise, widen = (profile[:, n, None] for n in range(4))
        radius = radius * (1 + 0.35 * (factor - 1))
        long = np.maximum(np.hypot(rise, widen), 1e-6)
        x, z = radius * np.cos(theta), radius * np.sin(theta)
        return x + self.scene.across, height * factor, z + self.scene.behind, widen / long, rise / long, there

    def growth(self, times):
        """How far the threads have grown, 0 to 1: they need about the time of the crown."""
        since = self.scene.water_time(times)
        peak = max(self.scene.peak_time, 1e-4)
        return np.clip(since / peak, 0, 1.3)[:, None]


def rim_radius(scene):
    """Half the thickness of the rim [m]: that of the threads which make the usual droplets (1.89 to 1)."""
    usual = droplets.droplet_size(scene.impact).likely
    return min(usual / spray.DROP_OF_THREAD / 2, 0.022 * scene.setup.drop.diameter + 1e-4)


def rim_clouds(edge, lamp, liquid):
    """The rim as two clouds, behind the axis and in front of it."""
    course, view = edge.course, edge.view
    count = max(columns(float(course.values[:, -1, 1].max()) * view.scale), 72)
    theta = (np.arange(count) + 0.5) * (2 * np.pi / count)
    factor = factor_of(edge.shapes)(count)
    x, y, z, _, _, there = edge.at(theta, edge.times, factor)
    swell = 0.75 + 0.45 * np.clip((factor - factor.mean()) / max(factor.std(), 1e-6), -1, 2)
    radius = edge.thick * np.minimum(edge.growth(edge.times) + 0.35, 1) * swell
    tangents = np.stack([np.roll(a, -1, 1) - np.roll(a, 1, 1) for a in (x, y, z)], -1)
    tangents /= np.maximum(np.linalg.norm(tangents, axis=-1, keepdims=True), 1e-9)
    column, row = view.place(x, y, z)
    step = np.hypot(np.roll(column, -1, 1) - column, np.roll(row, -1, 1) - row)
    clouds = []
    for part in (slice(0, count // 2), slice(count // 2, count)):
        cut = [a[:, part].ravel() for a in (column, row, radius * view.scale, step)]
        clouds.append(_strand_cloud(edge, cut, tangents[:, part].reshape(-1, 3), count // 2, there, lamp, liquid))
    return clouds


def _strand_cloud(edge, cut, tangents, pieces, there, lamp, liquid):
    column, row, radius, step = cut
    x, y, light, cover = strand((column, row), tangents, radius, step, lamp, liquid)
    share = (np.repeat(there, pieces) * edge.light.shares.sum() / len(edge.times))[:, None]
    moments = np.repeat(edge.moments, pieces)[:, None] + np.zeros(x.shape[1], int)
    return x, y, light * share, cover * share, moments


def thread_clouds(edge, lamp, liquid):
    """The threads, behind the axis and in front of it."""
    shapes = edge.shapes
    behind = np.sin(shapes.angles) > 0
    return [_threads(edge, chosen, lamp, liquid) for chosen in (behind, ~behind)]


def _threads(edge, chosen, lamp, liquid):
    x, y, z = thread_places(edge, chosen, edge.times, np.linspace(0, 1, PIECES))
    if not x.size:
        return None
    taper = np.linspace(0, 1, PIECES)
    radius = edge.thick * (0.42 + 0.75 * np.exp(-5 * taper)) * np.minimum(edge.growth(edge.times) + 0.2, 1)[..., None]
    tangents = np.stack([np.gradient(a, axis=2) for a in (x, y, z)], -1)
    tangents /= np.maximum(np.linalg.norm(tangents, axis=-1, keepdims=True), 1e-9)
    column, row = edge.view.place(x, y, z)
    step = np.hypot(np.gradient(column, axis=2), np.gradient(row, axis=2))
    radius = np.broadcast_to(radius * edge.view.scale, column.shape)
    fine = max(1, int(np.ceil(step.max())))
    flat = [_finer(a, fine).reshape(-1) for a in (column, row, radius, step / fine)]
    there = edge.course.at(edge.times, np.ones(len(edge.times)))[1]
    tangents = _finer(np.moveaxis(tangents, -1, 0), fine).reshape(3, -1).T
    return _strand_cloud(edge, flat, tangents, len(flat[0]) // len(edge.times), there, lamp, liquid)


def _finer(values, times):
    """Put `times` values for every one along the last axis, on straight lines between them."""
    if times == 1:
        return values
    n = values.shape[-1]
    place = np.linspace(0, n - 1.000001, n * times)
    k = place.astype(int)
    f = place - k
    return values[..., k] * (1 - f) + values[..., k + 1] * f


def thread_places(edge, chosen, times, along):
    """Places on the chosen threads: x, y, z arrays (times, threads, places)."""
    shapes = edge.shapes
    theta = shapes.angles[chosen]
    factor = _factor_at(shapes, theta)
    x, y, z, out, up, _ = edge.at(theta, times, factor)
    rng = np.random.default_rng((shapes.seed, 7))
    bend = rng.normal(0, 0.30, (2, len(shapes.angles)))[:, chosen]
    length = 11 * edge.thick * shapes.lengths[chosen] * edge.growth(times)
    out = out + bend[0]
    reach = length[..., None] * along
    sway = bend[1][:, None] * along * reach
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    away = reach * out[..., None]
    return (
        x[..., None] + away * cos - sway * sin,
        y[..., None] + reach * up[..., None],
        z[..., None] + away * sin + sway * cos,
    )


def _factor_at(shapes, theta):
    factor = factor_of(shapes)(800)
    return factor[(theta % (2 * np.pi) / (2 * np.pi) * 800).astype(int) % 800]


def bead_clouds(edge, knots, lamp, liquid):
    """Beads at the tips of the threads and on the rim, behind the axis and in front of it."""
    shapes, view = edge.shapes, edge.view
    rng = np.random.default_rng((shapes.seed, 8))
    every = np.ones(len(shapes.angles), bool)
    tips = [a[..., 0] for a in thread_places(edge, every, knots, np.ones(1))]
    size_tips = rng.uniform(0.75, 1.7, len(shapes.angles)) * (0.6 + 0.6 * shapes.lengths)
    theta = rng.uniform(0, 2 * np.pi, BEADS * len(shapes.angles))
    ring = edge.at(theta, knots, _factor_at(shapes, theta))[:3]
    size_ring = rng.gamma(3, 0.38, len(theta)).clip(0.5, 1.6)
    x, y, z = (np.concatenate([a, b], 1) for a, b in zip(tips, ring, strict=True))
    radius = edge.thick * np.concatenate([size_tips, size_ring]) * float(np.clip(edge.growth(knots).mean() + 0.2, 0, 1))
    there = edge.course.there.max()
    return ball_clouds(view, (x, y, z), radius * there, knots, edge.light, lamp, liquid)


def droplet_clouds(scene, view, knots, light, lamp, liquid):
    """The droplets that are in the air, behind the axis and in front of it."""
    thrown = scene.chance.thrown
    if not len(thrown.diameter) or not scene.happens("crown_peak"):
        return [None, None]
    where = np.array([droplets.places(thrown, max(float(t), 0.0)) for t in scene.water_time(knots)])
    flying = np.isfinite(where[:, 0]).any(0)
    if not flying.any():
        return [None, None]
    where = _through_gaps(where[..., flying])
    x, z, y = where[:, 0] + scene.across, where[:, 1] + scene.behind, where[:, 2]
    return ball_clouds(view, (x, y, z), thrown.diameter[flying] / 2, knots, light, lamp, liquid)


def _through_gaps(where):
    """Droplets thrown or landed while the light lasts stay at the nearest place where they were seen."""
    for k in range(1, len(where)):
        where[k] = np.where(np.isfinite(where[k]), where[k], where[k - 1])
    for k in range(len(where) - 2, -1, -1):
        where[k] = np.where(np.isfinite(where[k]), where[k], where[k + 1])
    return where


def ball_clouds(view, places, radius, knots, light, lamp, liquid):
    """Balls [m] as two clouds, behind the axis and in front of it."""
    x, y, z = places
    clouds = []
    for chosen in (z.mean(0) > 0, z.mean(0) <= 0):
        chosen = chosen & (radius > 0)
        if not chosen.any():
            clouds.append(None)
            continue
        column, row = view.place(x[:, chosen], y[:, chosen], z[:, chosen])
        deep = z[:, chosen].mean(0)
        size = radius[chosen] * view.scale * view.distance / (view.distance + deep)
        seen = _in_frame(view, column, row, size)
        if not seen.any():
            clouds.append(None)
            continue
        blur = view.blur_disc(deep[seen])
        made = blobs((column[:, seen], row[:, seen]), size[seen], blur, light, knots, lamp, liquid)
        clouds.append(made)
    return clouds


def _in_frame(view, column, row, size):
    width, height = view.size
    across = (column.max(0) > -size) & (column.min(0) < width + size)
    return across & (row.max(0) > -size) & (row.min(0) < height + size)
