"""Thin walls of liquid round an axis: their course in time, their unevenness, and samples of a cavity's skin.

A skin is sampled in rows up it and columns round it. Every sample belongs to one instant of the light, so that a
long light smears the skin by its own motion at no extra cost. The crown's sheet is traced instead: see `sheet_tracing`.
"""

import bisect
import math
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.constants import GOLDEN_SECTION

PITCH = 1.0
"""Distance of samples on a wall [picture elements]; above 1 gaps would show."""

ROUND = tuple(sorted({round(48 * 1.08**n / 16) * 16 for n in range(72)}))
"""Numbers of columns that are used: few, so that what depends on them alone can be kept."""

ASLANT = 0.5
"""What a step outwards on a skin counts against one upwards: seen from the side it is foreshortened."""

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


def evenly(profile, radial=1.0):
    """A profile (points, channels; height and radius first) with its points at even distances along the wall.

    Steps of the radius count `radial` times.
    """
    way = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(profile[:, 0]), radial * np.diff(profile[:, 1])))])
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
    return light.sampled((np.arange(count) + 0.5) * GOLDEN_SECTION % 1.0)


def columns(radius):
    """How many columns round a wall of a radius [picture elements]: one of few numbers, so that much can be kept."""
    needed = 2 * math.pi * radius / PITCH
    return ROUND[min(bisect.bisect_left(ROUND, needed), len(ROUND) - 1)]


@lru_cache(maxsize=16)
def around(count):
    """Angle, cosine and sine of columns round the axis; the first half of them lies behind it."""
    theta = ((np.arange(count) + 0.5) * (2 * np.pi / count)).astype(np.float32)
    return theta, np.cos(theta), np.sin(theta)


ROWS, AROUND, VARIANTS = 256, 2048, 4
"""Size of the maps of a sheet's unevenness, up and round it, and how many there are."""


@lru_cache(maxsize=VARIANTS)
def map_of(variant):
    """Unevenness of a thin sheet: turn and tilt of its normal [rad], and its haze."""
    rng = np.random.default_rng((variant, 5))
    rows, columns = ROWS // 2, AROUND // 2
    around_, up = np.fft.rfftfreq(columns, 1 / columns), np.fft.fftfreq(rows, 1 / rows)

    def field(kx, ky, power):
        size = np.hypot(around_ / kx, up[:, None] / ky)
        shape = np.exp(-(size**2)) + 0.10 * (1 + size**2) ** -power
        shape[0, 0] = 0
        made = np.fft.irfft2(np.fft.rfft2(rng.standard_normal((rows, columns))) * shape)
        return _doubled(_doubled((made / made.std()).astype(np.float32)).T).T.copy()

    return 0.24 * field(20, 1.8, 2.0), 0.17 * field(10, 5, 2.0), 0.55 * field(34, 1.5, 1.5)


def _doubled(values):
    """Twice as many rows, those between the old ones the mean of both; the last runs on into the first."""
    between = (values + np.roll(values, -1, 0)) / 2
    return np.stack([values, between], 1).reshape(-1, values.shape[1])


MOST = 1_000_000
"""Samples of a skin, about, at most."""


class Skin(NamedTuple):
    """Samples of a wall: places [m], outward normals, area [m2] times its share of the light, and instant."""

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray
    normal: tuple
    area: np.ndarray
    moments: np.ndarray


def skin(course, light, view, *, variant=0, rough=1.0):
    """Sample a wall of revolution as it is seen from outside: its near half, and a steep one's outer parts only.

    Parameters
    ----------
    course : Course, channels height, radius and their slopes along the wall [m], points even by `ASLANT`
    light : Light
    view : View; only what may fall into its frame is sampled
    variant : int, which wrinkles it has
    rough : float, how strong they are

    Returns
    -------
    Skin or None
    """
    shapes = course.values[course.there > 0]
    if not len(shapes):
        return None
    low, high = span_in_frame(shapes[..., 0], view)
    reach = np.hypot(np.diff(shapes[..., 0], axis=1), ASLANT * np.diff(shapes[..., 1], axis=1)).sum(1).max()
    swept = np.abs(np.diff(shapes[:, -1, 0])).sum() + np.abs(np.diff(shapes[:, -1, 1])).sum()
    rows = int(np.clip((high - low) * (1.08 * reach + swept) * view.scale / PITCH, 6, 900))
    along = low + (high - low) * (np.arange(rows) + 0.5) / rows
    times, weights, moments = instants(light, rows * PHASES)
    profile, there = course.at(times, np.repeat(along, PHASES))
    share = (there * weights * ((high - low) / rows)).astype(np.float32)
    profile, share, moments = (each.reshape(rows, PHASES, -1) for each in (profile.astype(np.float32), share, moments))
    steep = np.quantile(np.abs(profile[..., 3]) / np.maximum(np.abs(profile[..., 2]), 1e-9), 0.95) <= 0.5
    # Narrow rows need fewer columns than wide ones.
    widest = profile[..., 1].max(1) * view.scale
    halved = np.log2(np.clip(widest.max() / np.maximum(widest, 1e-6), 1, 8)).astype(int)
    made = []
    for half in np.unique(halved):
        chosen = np.flatnonzero(halved == half)
        count, uneven = columns(widest[chosen].max()), (rough, variant, along[chosen])
        most = _cosine_in_frame(profile[chosen, :, 1], view)
        part = _skin_columns(count, steep, most)
        if len(part) * rows > MOST:
            count = columns(widest[chosen].max() * MOST / (len(part) * rows))
            part = _skin_columns(count, steep, most)
        if len(part):
            made.append(_round(profile[chosen], share[chosen], moments[chosen], count, part, uneven))
    if not made:
        return None
    joined = [np.concatenate(parts) for parts in zip(*made, strict=True)]
    return Skin(*joined[:3], tuple(joined[3:6]), *joined[6:])


def _skin_columns(count, steep, most=1.0):
    """Columns in front of the axis, with a cosine up to `most` that the frame holds.

    Of a steep wall only the outer ones, since one looks through its middle.
    """
    front = np.arange(count // 2, count)
    if not steep and most >= 1:
        return front
    cosine = np.abs(np.cos((front // PHASES + 0.5) * PHASES * 2 * np.pi / count))
    return front[(cosine > 0.6 * steep) & (cosine <= most)]


def _cosine_in_frame(radius, view):
    """Greatest cosine of a column round the axis that some row of a wall, radius [m], may have in the frame.

    The axis is taken to stand in the frame; a half more of its width is allowed for where it stands.
    """
    return min(view.size[0] / view.scale / max(float(radius.min()), 1e-9), 1.0) + 0.02


def span_in_frame(heights, view):
    """First and last place along a wall that may be in the frame, with a margin."""
    row = view.row(heights)
    seen = ((row > -20) & (row < view.size[1] + 20)).any(0)
    places = np.flatnonzero(seen)
    last = heights.shape[1] - 1
    if not len(places):
        return 0.0, 1e-3
    return max(places[0] - 1, 0) / last, min(places[-1] + 1, last) / last


def _round(profile, share, moments, count, part, uneven):
    """Turn some rows of a profile round the axis: x, y, z, normal, area and instant, flat."""
    rough, variant, along = uneven
    # Columns are held in groups of PHASES until the end.
    height, radius, rise, widen = (profile[:, None, :, n] for n in range(4))
    cos, sin = (each[part].reshape(-1, PHASES) for each in around(count)[1:])
    pick = np.minimum((along * ROWS).astype(int), ROWS - 1)
    place = np.ix_(pick, ((part + 0.5) * (AROUND / count)).astype(int))
    turn, tilt = (each[place].reshape(len(pick), -1, PHASES) for each in map_of(variant)[:2])
    rough = np.float32(rough)
    lean = widen / np.maximum(np.abs(rise), 1e-6) + rough * tilt
    norm = 1 / np.sqrt(1 + lean * lean)
    # cos and sin of the turned angle to second order: turns are small.
    even, turn = norm * (1 - np.float32(0.5) * (rough * turn) ** 2), norm * rough * turn
    normal = (cos * even - sin * turn, -lean * norm, sin * even + cos * turn)
    area = np.float32(2 * np.pi / count) * np.hypot(rise, widen) * radius * share[:, None, :, 0]
    parts = (radius * cos, height, radius * sin, *normal, area, moments[:, None, :, 0])
    return [np.broadcast_to(each, tilt.shape).ravel() for each in parts]
