"""Clouds of samples gathered into layers, and layers laid over the frame."""

import numpy as np

from splashlib.picture.photo.defocus import defocused
from splashlib.picture.photo.splat import Splat, Window, window_around

SOFT_FROM = 1.4
"""Discs of defocus from this size on [picture elements] are drawn for whole layers of water; drops have their own."""


def joined(clouds, light, height):
    """One cloud of many: column, row, light, cover; what finds its row of the frame closed is left dark."""
    clouds = [cloud for cloud in clouds if cloud is not None and cloud[0].size]
    if not clouds:
        return None
    parts = [np.concatenate([np.ravel(c[n]) for c in clouds]).astype(np.float32, copy=False) for n in range(4)]
    if light.opening is not None:
        moments = np.concatenate([np.ravel(c[4]) for c in clouds])
        first, last = light.opening
        place = 1 - parts[1] / height
        open_ = (place >= first[moments]) & (place <= last[moments])
        parts[2], parts[3] = parts[2] * open_, parts[3] * open_
    return parts


def spread(cloud, size, hides):
    """A cloud on the cells of a window of the frame: window, light, and how much it hides (None if nothing)."""
    column, row, bright, cover = cloud
    window = window_around(column, row, size)
    if window.empty:
        return None
    splat = Splat(column, row, window)
    if not hides:
        return window, splat.add(bright), None
    # Where samples lie denser than their cells the light is that of one surface, not of several.
    hidden = splat.add(cover)
    return window, splat.add(bright) / np.maximum(hidden, 1), np.minimum(hidden, 1)


def softened(window, bright, hidden, diameter, size):
    """A layer out of focus, on its larger window."""
    channels = [bright] if hidden is None else [bright, hidden]
    layer, margin = defocused(np.stack(channels, -1), diameter)
    top, left = max(window.top - margin, 0), max(window.left - margin, 0)
    bottom = min(window.top + window.height + margin, size[1])
    right = min(window.left + window.width + margin, size[0])
    cut = layer[
        top - window.top + margin : bottom - window.top + margin,
        left - window.left + margin : right - window.left + margin,
    ]
    grown = Window(left, top, right - left, bottom - top)
    return grown, cut[..., 0], None if hidden is None else np.clip(cut[..., 1], 0, 1)


def lay(image, clouds, light, *, tint, hides, disc=0.0, rows=None):
    """Lay clouds over an image, in place.

    Parameters
    ----------
    image : float32 array (height, width, 3)
    clouds : list of clouds (column, row, light, cover, moment), or None among them
    light : Light
    tint : array (3,), colour of the clouds' light
    hides : bool, whether they cover what is behind
    disc : float, diameter of their disc of defocus [picture elements]
    rows : array (height,), share of the layer that each row of the frame shows; None for all of it
    """
    size = image.shape[1], image.shape[0]
    cloud = joined(clouds, light, size[1])
    layer = None if cloud is None else spread(cloud, size, hides)
    if layer is None:
        return
    if disc >= SOFT_FROM:
        layer = softened(*layer, disc, size)
    window, bright, hidden = layer
    part = image[window.slices]
    if rows is not None:
        shown = rows[window.slices[0]][:, None]
        bright = bright * shown
        hidden = None if hidden is None else hidden * shown
    if hidden is not None:
        part *= (1 - hidden)[..., None]
    part += bright[..., None] * tint
