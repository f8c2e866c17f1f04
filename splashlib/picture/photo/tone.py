"""From light on the sensor to the picture's numbers: noise, shoulder, and the usual curve of a screen."""

from functools import lru_cache

import numpy as np

KNEE = 0.6
"""Radiance up to which the picture is exactly proportional to the light; above it a film-like shoulder."""

STEPS = 8192
TOP = 4.0
"""Radiance at which the picture is pure white [white cards]."""

FULL_WELL = 60_000.0
"""Electrons of a full picture element at ISO 100: class value for 24 x 36 mm sensors, 40-100 thousand."""

READ_NOISE = 4.0
"""Electrons of noise of an unexposed picture element: class value, 2-8."""


def shoulder(light):
    """Light as the picture gives it back, 0 to 1: as it is up to the knee, then flattening towards white."""
    over = np.clip(light - KNEE, 0, None)
    room = 1 - KNEE
    return np.minimum(light, KNEE) + room * (1 - np.exp(-over / room))


def encode(light):
    """Screen value 0 to 1 of a shown light 0 to 1 (IEC 61966-2-1)."""
    light = np.clip(light, 0, 1)
    return np.where(light <= 0.0031308, 12.92 * light, 1.055 * np.maximum(light, 1e-9) ** (1 / 2.4) - 0.055)


def decode(values):
    """Light 0 to 1 of screen values 0 to 255: `encode` backwards."""
    value = np.asarray(values) / 255.0
    return np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)


@lru_cache(maxsize=1)
def _table():
    # Steps even in the square root of the light: fine in the shadows, where the eye and the curve are.
    light = TOP * (np.arange(STEPS + 1) / STEPS) ** 2
    shown = shoulder(light)
    shown = np.where(light >= TOP, 1.0, shown)
    return np.round(255 * encode(shown)).astype(np.uint8)


def develop(light):
    """Turn light on the sensor into the numbers of a picture.

    Parameters
    ----------
    light : float32 array, changed in place
        1 is a white card exposed as metered.

    Returns
    -------
    uint8 array of the same shape
    """
    np.minimum(np.maximum(light, 0, out=light), TOP, out=light)
    np.sqrt(light, out=light)
    light *= np.float32(STEPS / np.sqrt(TOP))
    light += np.float32(0.5)
    return np.take(_table(), light.astype(np.uint16), mode="clip")


def picture_of(light):
    """Turn three planes of light (3, height, width), changed in place, into a picture (height, width, 3)."""
    picture = np.empty((*light.shape[1:], 3), np.uint8)
    for number, plane in enumerate(light):
        picture[..., number] = develop(plane)
    return picture


def noise_of(iso):
    """Noise of one picture element of the sensor: what grows with the light, and what is there in the dark.

    Parameters
    ----------
    iso : float

    Returns
    -------
    tuple of float
        g and d so that the variance is g light + d^2, with light 1 a white card exposed as metered.

    Notes
    -----
    Photons: N electrons scatter by sqrt(N); a white card as metered fills the well at ISO 100, and ISO/100
    times less of it above. Fixed pattern and dark current are neglected; they show after seconds, not
    milliseconds. The photograph shows this noise at every one of its own elements, as the picture looks at
    full size; a whole picture shown small averages it away.
    """
    electrons = FULL_WELL * 100 / iso
    return 1 / electrons, READ_NOISE / electrons


@lru_cache(maxsize=1)
def _grain():
    """A long row of normal numbers; each picture starts somewhere else in it."""
    return np.random.default_rng(20).standard_normal(1 << 21, dtype=np.float32)


def add_noise(light, *, iso, rng):
    """Add the noise of the sensor, in place.

    Parameters
    ----------
    light : float32 array
        1 is a white card exposed as metered.
    iso : float
    rng : numpy.random.Generator
    """
    gain, dark = noise_of(iso)
    grain = _grain()
    start = int(rng.integers(len(grain) - light.size)) if light.size < len(grain) else 0
    if light.size > len(grain):
        grain = np.resize(grain, light.size)
    spread = light * np.float32(gain)
    spread += np.float32(dark**2)
    np.sqrt(spread, out=spread)
    spread *= grain[start : start + light.size].reshape(light.shape)
    light += spread
