"""The swell where body or crown stands in the water, and the rings that run out from it over the surface."""

import numpy as np

from splashlib.picture.photo.sheet import columns
from splashlib.picture.photo.strands import strand

RINGS = 4
PACE = 0.32
"""Speed of the rings [m/s]: waves of a centimetre or so run at 0.23-0.35 (gravity and tension together)."""


def swell_clouds(scene, view, crown, light, lamp, liquid):
    """Swell and rings as clouds, behind the axis and in front of it, in the middle of the light."""
    middle = float(np.interp(0.5, np.cumsum(light.shares) / light.shares.sum(), light.times))
    since = float(scene.water_time(middle))
    if since <= 0:
        return None, None
    radius, thick = _foot(scene, crown, middle, since)
    rings = [(radius, thick)]
    front = radius + PACE * since
    for number in range(RINGS):
        place = radius + (front - radius) * (number + 1) / (RINGS + 0.6)
        rings.append((place, 0.35 * thick * np.exp(-2.2 * (place - radius) / max(radius, 1e-3))))
    clouds = [_ring(scene, view, *ring, light, lamp, liquid) for ring in rings]
    return tuple(_merged([cloud[side] for cloud in clouds]) for side in (0, 1))


def _foot(scene, crown, time, since):
    """Radius of the swell and half its thickness [m]: at the crown's foot, or where the body enters."""
    drop = scene.setup.drop
    profile, there = crown.at(np.array([time]), np.zeros(1))
    if there[0] > 0:
        return float(profile[0, 1]), 0.55 * float(profile[0, 4])
    under = np.clip(-float(scene.heights([time])[0]) / drop.height, 0, 1)
    section = 2 * np.sqrt(max(under * (1 - under), 0.0)) * drop.diameter / 2
    if section == 0:
        fade = np.exp(-since / max(scene.peak_time, 1e-3))
        return 0.8 * drop.diameter, 0.01 * drop.diameter * fade
    return section + 0.03 * drop.diameter, 0.035 * drop.diameter * min(4 * under, 1)


def _ring(scene, view, radius, thick, light, lamp, liquid):
    count = max(columns(radius * view.scale), 48)
    theta = (np.arange(count) + 0.5) * (2 * np.pi / count)
    x, z = radius * np.cos(theta) + scene.across, radius * np.sin(theta) + scene.behind
    column, row = view.place(x, 0.0 * x, z)
    tangents = np.stack([-np.sin(theta), 0.25 * np.cos(9 * theta), np.cos(theta)], -1)
    tangents /= np.linalg.norm(tangents, axis=1, keepdims=True)
    step = np.hypot(np.roll(column, -1) - column, np.roll(row, -1) - row)
    size = np.full(count, thick * view.scale)
    made = strand((column, row), tangents, size, step, lamp, liquid)
    share = light.shares.sum() * min(1.0, float(size[0]) * 2)
    x, y, bright, cover = made
    moments = np.full(x.shape, len(light.times) // 2)
    return [
        (x[part], y[part], bright[part] * share, cover[part] * share, moments[part])
        for part in (slice(0, count // 2), slice(count // 2, count))
    ]


def _merged(clouds):
    return tuple(np.concatenate([np.ravel(cloud[n]) for cloud in clouds]) for n in range(5))
