"""Thin walls of liquid round an axis: the crown's sheet, and the skin of a cavity seen from the water's side.

A wall is sampled in rows up it and columns round it. Every sample belongs to one instant of the light, so that a
long light smears the wall by its own motion at no extra cost.
"""

import bisect
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

PITCH = 1.0
"""Distance of samples on a wall [picture elements]; above 1 gaps would show."""

ROUND = tuple(sorted({round(48 * 1.08**n / 16) * 16 for n in range(60)}))
"""Numbers of columns that are used: few, so that what depends on them alone can be kept."""

GOLDEN = 0.6180339887

PHASES = 8
"""Neighbouring columns are lit at different instants, in turns of so many, so that no row shows as a line."""


@dataclass(frozen=True)
class Course:
    """A profile that changes in time.

    times (k,) [s]; values (k, points, channels), along the wall from its foot; there (k,), 0 where there is none.
    """

    times: np.ndarray
    values: np.ndarray
    there: np.ndarray

    def at(self, times, along):
        """Values for pairs of a time and a place along the wall (0 foot, 1 edge), and whether the wall is there."""
        knots, points = self.values.shape[:2]
        k, f = _between(self.times, times, knots)
        place = np.clip(along * (points - 1), 0, points - 1.000001)
        p = place.astype(int)
        g = (place - p)[:, None]
        values = self.values
        early = values[k, p] * (1 - g) + values[k, p + 1] * g
        late = values[np.minimum(k + 1, knots - 1), p] * (1 - g)
        late = late + values[np.minimum(k + 1, knots - 1), p + 1] * g
        f = f[:, None]
        return early * (1 - f) + late * f, self.there[np.where(f[:, 0] < 0.5, k, np.minimum(k + 1, knots - 1))]


def evenly(profile):
    """A profile (points, channels; height and radius first) with its points at even distances along the wall."""
    way = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(profile[:, 0]), np.diff(profile[:, 1])))])
    if way[-1] <= 0:
        return profile
    even = np.linspace(0, way[-1], len(profile))
    return np.stack([np.interp(even, way, channel) for channel in profile.T], -1)


def with_slopes(profile):
    """Height, radius and their slopes along the wall, then what other channels there are."""
    steps = len(profile) - 1
    slopes = [np.gradient(profile[:, n]) * steps for n in (0, 1)]
    return np.concatenate([profile[:, :2], np.stack(slopes, -1), profile[:, 2:]], 1)


def carry_over(values, there):
    """Where there is no wall yet or any more, keep the shape of the nearest time, so that paths stay smooth."""
    known = np.flatnonzero(there)
    if len(known):
        for k in np.flatnonzero(there == 0):
            values[k] = values[known[np.argmin(np.abs(known - k))]]


def _between(knots, times, count):
    if count == 1:
        return np.zeros(len(times), int), np.zeros(len(times))
    place = np.clip(np.interp(times, knots, np.arange(count)), 0, count - 1.000001)
    k = place.astype(int)
    return k, place - k


def instants(light, count):
    """`count` instants of a light, neighbours far apart in time: times, weights, numbers (as `Light.sampled`)."""
    return light.sampled((np.arange(count) + 0.5) * GOLDEN % 1.0)


def columns(radius, pitch=PITCH):
    """How many columns round a wall of a radius [picture elements]: one of few numbers, so that much can be kept."""
    needed = 2 * math.pi * radius / pitch
    return ROUND[min(bisect.bisect_left(ROUND, needed), len(ROUND) - 1)]


@lru_cache(maxsize=16)
def around(count):
    """Angle, cosine and sine of columns round the axis; the first half of them lies behind it."""
    theta = ((np.arange(count) + 0.5) * (2 * np.pi / count)).astype(np.float32)
    return theta, np.cos(theta), np.sin(theta)


ROWS, AROUND, VARIANTS = 128, 1024, 4
"""Size of the maps of a sheet's unevenness, up and round it, and how many there are."""


@lru_cache(maxsize=VARIANTS)
def _map(variant):
    """Unevenness of a thin sheet: turn and tilt of its normal [rad], and its haze."""
    rng = np.random.default_rng((variant, 5))
    around_, up = np.fft.rfftfreq(AROUND, 1 / AROUND), np.fft.fftfreq(ROWS, 1 / ROWS)

    def field(kx, ky, power):
        size = np.hypot(around_ / kx, up[:, None] / ky)
        shape = np.exp(-(size**2)) + 0.10 * (1 + size**2) ** -power
        shape[0, 0] = 0
        made = np.fft.irfft2(np.fft.rfft2(rng.standard_normal((ROWS, AROUND))) * shape)
        return (made / made.std()).astype(np.float32)

    return 0.24 * field(20, 1.8, 2.0), 0.17 * field(10, 5, 2.0), 0.55 * field(34, 1.5, 1.5)


@lru_cache(maxsize=48)
def wrinkles(count, variant):
    """The map for a number of columns, ROWS rows each."""
    place = (np.arange(count) + 0.5) * (AROUND / count) - 0.5
    left = np.floor(place).astype(int)
    share = (place - left).astype(np.float32)
    return tuple(each[:, left] * (1 - share) + each[:, (left + 1) % AROUND] * share for each in _map(variant))


@dataclass
class Wall:
    """Samples of a wall, rows by columns: places [m], outward normals, area [m2] times its share
    of the light, and instant."""

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    normal: tuple
    area: np.ndarray
    along: np.ndarray
    moments: np.ndarray
    haze: np.ndarray


@dataclass(frozen=True)
class Uneven:
    """What makes a wall uneven: functions of the number of columns (height of the edge over the course's, turn of
    the normal beside ridges [rad]), which wrinkles, how strong these are, and the distance of samples."""

    factor: object = np.ones
    ribs: object = np.zeros
    variant: int = 0
    rough: float = 1.0
    pitch: float = PITCH


def wall(course, light, view, uneven, *, front_only=False):
    """Sample a wall of revolution.

    Parameters
    ----------
    course : Course, channels height, radius and their slopes along the wall [m]
    light : Light
    view : View; only what may fall into its frame is sampled
    uneven : Uneven
    front_only : bool, for a skin that is seen from outside: leave out what lies behind, and a steep wall's clear middle

    Returns
    -------
    Wall or None
    """
    shapes = course.values[course.there > 0]
    if not len(shapes):
        return None
    low, high = _span_in_frame(shapes[..., 0], view, 0.0 if front_only else 0.15)
    reach = np.hypot(np.diff(shapes[..., 0], axis=1), np.diff(shapes[..., 1], axis=1)).sum(1).max()
    swept = np.abs(np.diff(shapes[:, -1, 0])).sum() + np.abs(np.diff(shapes[:, -1, 1])).sum()
    rows = int(np.clip((high - low) * (1.08 * reach + swept) * view.scale / uneven.pitch, 6, 900))
    count = columns(shapes[..., 1].max() * view.scale, uneven.pitch)
    along = low + (high - low) * (np.arange(rows) + 0.5) / rows
    times, weights, moments = instants(light, rows * PHASES)
    profile, there = course.at(times, np.repeat(along, PHASES))
    there = (there * weights * ((high - low) / rows)).astype(np.float32)
    profile = _by_phase(profile.astype(np.float32), rows)
    part = _skin_columns(profile, count) if front_only else slice(0, count)
    return _round(profile, _by_phase(there, rows), along, _by_phase(moments, rows), count, part, uneven)


def _skin_columns(profile, count):
    """Columns in front of the axis; of a steep wall only the outer ones, since one looks through its middle."""
    front = np.arange(count // 2, count)
    lean = np.abs(profile[..., 3]) / np.maximum(np.abs(profile[..., 2]), 1e-9)
    if np.quantile(lean, 0.95) > 0.5:
        return front
    outer = np.abs(np.cos((front // PHASES + 0.5) * PHASES * 2 * np.pi / count)) > 0.6
    return front[outer]


def _by_phase(values, rows):
    """Row values, PHASES for each row, as arrays (rows, 1, PHASES, ...)."""
    return values.reshape(rows, 1, PHASES, *values.shape[1:])


def _span_in_frame(heights, view, uneven):
    """First and last place along a wall that may be in the frame, with a margin for what is uneven about it."""
    row = view.row(heights)
    margin = uneven * np.abs(heights).max() * view.scale + 20
    seen = ((row > -margin) & (row < view.size[1] + margin)).any(0)
    places = np.flatnonzero(seen)
    last = heights.shape[1] - 1
    if not len(places):
        return 0.0, 1e-3
    return max(places[0] - 1, 0) / last, min(places[-1] + 1, last) / last


def _round(profile, there, along, moments, count, part, uneven):
    """Turn a profile round the axis: columns are held in groups of PHASES until the end."""
    height, radius, rise, widen = (profile[..., n] for n in range(4))
    _, cos, sin = (_grouped(each[part]) for each in around(count))
    up = np.float32(along**1.5)[:, None, None]
    stretch = 1 + (_grouped(uneven.factor(count)[part]) - 1) * up
    pick = np.minimum((along * ROWS).astype(int), ROWS - 1)
    turn, tilt, haze = (_grouped(each[pick][:, part]) for each in wrinkles(count, uneven.variant))
    rough = np.float32(uneven.rough)
    radius = radius * (1 + np.float32(0.35) * (stretch - 1))
    lean = widen / np.maximum(np.abs(rise), 1e-6) + rough * tilt
    norm = 1 / np.sqrt(1 + lean * lean)
    turn = rough * turn + _grouped(uneven.ribs(count)[part]) * up
    # cos and sin of the turned angle to second order: turns are small.
    even = norm * (1 - np.float32(0.5) * turn * turn)
    turn = turn * norm
    normal = (cos * even - sin * turn, -lean * norm, sin * even + cos * turn)
    area = np.float32(2 * np.pi / count) * np.hypot(rise, widen) * there * radius * stretch
    moments = np.broadcast_to(moments, area.shape)
    flat = [_flat(each) for each in (radius * cos, height * stretch, radius * sin, area, moments, haze)]
    x, y, z, area, moments, haze = flat
    return Wall(x, y, z, tuple(_flat(each) for each in normal), area, along, moments, haze)


def _grouped(values):
    """The last axis, columns, split into groups of PHASES."""
    return values.reshape(*values.shape[:-1], -1, PHASES)


def _flat(values):
    """Groups of columns joined again: (rows, columns)."""
    return values.reshape(len(values), -1)
