"""Round strands of liquid: the rim of a crown, the threads on it, the column of a jet."""

import numpy as np

from splashlib.picture.photo import optics

PITCH = 0.75
COVER = 0.6
"""Share of the ground behind a clear strand that its own picture replaces."""


def strand(places, tangents, radius, step, lamp, liquid, lanes=None):
    """Samples of strands, several lanes across each piece.

    Parameters
    ----------
    places : (column, row), arrays (pieces,), middle of each piece [picture elements]
    tangents : array (pieces, 3), unit vectors along the strand
    radius, step : arrays, radius and length of each piece [picture elements]
    lamp : optics.Lamp
    liquid : "water" or "milk"

    Returns
    -------
    tuple of arrays (pieces, lanes) : column, row, light, cover
    """
    lanes = lanes or int(np.clip(np.ceil(2 * radius.max() / PITCH), 3, 60))
    u = ((np.arange(lanes, dtype=np.float32) + 0.5) * 2 / lanes - 1)[None, :]
    across = np.hypot(tangents[:, 0], tangents[:, 1])
    safe = np.maximum(across, 1e-3)
    # Square to the strand in the picture, and from the strand towards the camera.
    side = np.stack([-tangents[:, 1] / safe, tangents[:, 0] / safe, 0 * safe], -1)
    front = np.stack([tangents[:, 2] * tangents[:, 0] / safe, tangents[:, 2] * tangents[:, 1] / safe, -across], -1)
    x = places[0][:, None] + u * (radius * side[:, 0])[:, None]
    y = places[1][:, None] - u * (radius * side[:, 1])[:, None]
    look = _milk if liquid == "milk" else _water
    light = look(u, side, front, tangents, across, lamp)
    # Foreshortening is in `step` already: it is the length of the piece as seen.
    cell = (2 / lanes * radius * np.maximum(step, 0.3))[:, None] * np.ones_like(u)
    return x, y, light * cell, cell * (1.0 if liquid == "milk" else COVER)


def _milk(u, side, front, tangents, across, lamp):
    normals = u[..., None] * side[:, None, :] + np.sqrt(1 - u**2)[..., None] * front[:, None, :]
    return optics.milk_light(normals.astype(np.float32), lamp)


def _water(u, side, front, tangents, across, lamp):
    """Mirrored in the skin, and bent through the round cross-section towards the axis."""
    sine, cosine = u, np.sqrt(1 - u**2)
    turn = 2 * (np.arcsin(sine) - np.arcsin(sine / 1.333))
    double = 2 * np.arcsin(sine)
    onward = _seen(-np.cos(turn), -np.sin(turn), side, front, tangents, across, lamp)
    mirrored = _seen(np.cos(double), np.sin(double), side, front, tangents, across, lamp)
    share = optics.schlick(cosine * across[:, None])
    return (share * mirrored + (1 - share) ** 2 * onward).astype(np.float32)


def _seen(on_front, on_side, side, front, tangents, across, lamp):
    """Radiance from directions given in the strand's own frame; along the strand a ray keeps its course."""
    cosines = []
    for direction in (lamp.direction, optics.card_of(lamp)):
        to = np.asarray(direction)
        flat = on_front * (front @ to)[:, None] + on_side * (side @ to)[:, None]
        cosines.append(across[:, None] * flat + (tangents[:, 2] * (tangents @ to))[:, None])
    return optics.toward(*cosines, lamp)
