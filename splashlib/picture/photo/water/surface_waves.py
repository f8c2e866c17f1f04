"""The swell where body or crown stands in the water, and the rings that run out from it over the surface."""

import math

import numpy as np

from splashlib.picture.photo.water.strands import Pieces, along_unit
from splashlib.picture.photo.water.walls import around, columns

RINGS = 4
PACE = 0.32
"""Speed of the rings [m/s]: waves of a centimetre or so run at 0.23-0.35 (gravity and tension together)."""


def swell_pieces(scene, view, crown, light):
    """Swell and rings as pieces of strands, by turns behind the axis and in front of it, in the middle of the light."""
    middle = light.at_middle(light.times)
    since = float(scene.water_time(middle))
    if since <= 0:
        return []
    radius, thick = _foot(scene, crown, middle, since)
    places = radius + PACE * since * (np.arange(RINGS) + 1) / (RINGS + 0.6)
    rings = [(radius, thick)]
    rings += [(place, 0.35 * thick * math.exp(-2.2 * (place / radius - 1))) for place in places]
    # A ring much thinner than a picture element is not worth its samples.
    rings = [ring for ring in rings if ring[1] * view.scale > 0.04]
    return [pieces for ring in rings for pieces in _ring(scene, view, *ring, light)]


def _foot(scene, crown, time, since):
    """Radius of the swell and half its thickness [m]: at the crown's foot, or where the body enters."""
    drop = scene.setup.drop
    profile, there = crown.at(np.array([time]), np.zeros(1))
    if there[0] > 0:
        return float(profile[0, 1]), 0.55 * float(profile[0, 4])
    under = min(max(-float(scene.heights([time])[0]) / drop.height, 0.0), 1.0)
    section = math.sqrt(under * (1 - under)) * drop.diameter
    if section == 0:
        fade = math.exp(-since / max(scene.peak_time, 1e-3))
        return 0.8 * drop.diameter, 0.01 * drop.diameter * fade
    return section + 0.03 * drop.diameter, 0.035 * drop.diameter * min(4 * under, 1)


def _ring(scene, view, radius, thick, light):
    count = columns(radius * view.scale)
    theta, cos, sin = around(count)
    column, row = view.place(radius * cos + scene.across, 0.0, radius * sin + scene.behind)
    step = np.hypot(np.roll(column, -1) - column, np.roll(row, -1) - row)
    size = np.full(count, thick * view.scale)
    share = np.full(count, light.shares.sum() * min(1.0, 2 * thick * view.scale))
    moment = np.full(count, len(light.times) // 2)
    along = along_unit(-sin, 0.25 * np.cos(9 * theta), cos)
    half = count // 2
    return [
        Pieces(*(a[cut] for a in (column, row, size, step)), tuple(a[cut] for a in along), share[cut], moment[cut])
        for cut in (slice(0, half), slice(half, count))
    ]
