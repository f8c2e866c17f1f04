"""Clouds of samples gathered into layers, and layers laid over the frame.

A cloud is a tuple of arrays of one shape: column, row, light, cover, and instant of the light.
"""

import numpy as np

from splashlib.picture.photo.defocus import SMALL, defocused, slightly_defocused
from splashlib.picture.photo.splat import Splat, Window, window_around

SOFT_FROM = 1.4
"""Discs of defocus from this size on [picture elements] are drawn for whole layers of water; drops have their own."""


def joined(clouds, light, height):
    """One cloud of many; what finds its row of the frame closed is left dark."""
    parts = [np.concatenate([np.ravel(c[n]) for c in clouds]).astype(np.float32, copy=False) for n in range(4)]
    if light.opening is not None:
        moments = np.concatenate([np.ravel(c[4]) for c in clouds])
        first, last = light.opening
        place = 1 - parts[1] / height
        open_ = (place >= first[moments]) & (place <= last[moments])
        parts[2], parts[3] = parts[2] * open_, parts[3] * open_
    return parts


def _spread(solids, films, light, size):
    """Clouds on the cells of a window: window, light, and how much is hidden there, None if nothing."""
    column, row, bright, cover = joined([*solids, *films], light, size[1])
    window = window_around(column, row, size)
    if window.empty:
        return None
    splat = Splat(column, row, window)
    if not solids:
        return window, splat.add(bright), None
    # Where samples lie denser than their cells the light is that of one surface, not of several.
    hidden = splat.add(cover[: sum(cloud[0].size for cloud in solids)])
    shown = splat.add(bright)
    if not films:
        shown /= np.maximum(hidden, 1)
    return window, shown, np.minimum(hidden, 1)


def _softened(window, bright, hidden, diameter, size):
    """A layer out of focus, on its larger window."""
    channels = [bright] if hidden is None else [bright, hidden]
    spread = slightly_defocused if diameter <= SMALL else defocused
    layer, margin = spread(np.stack(channels, -1), diameter)
    top, left = max(window.top - margin, 0), max(window.left - margin, 0)
    bottom = min(window.top + window.height + margin, size[1])
    right = min(window.left + window.width + margin, size[0])
    down, across = top - window.top + margin, left - window.left + margin
    cut = layer[down : down + bottom - top, across : across + right - left]
    grown = Window(left, top, right - left, bottom - top)
    return grown, cut[..., 0], None if hidden is None else np.clip(cut[..., 1], 0, 1)


def lay(image, solids, films, light, *, tint, disc=0.0, rows=None):
    """Lay clouds over an image, in place.

    Parameters
    ----------
    image : float32 array (3, height, width)
    solids, films : lists of clouds, or None among them: what hides the ground behind it, and what only adds light
    light : Light
    tint : array (3,), colour of the clouds' light
    disc : float, diameter of their disc of defocus [picture elements]
    rows : array (height,), share of the layer that each row of the frame shows; None for all of it
    """
    size = image.shape[2], image.shape[1]
    solids, films = ([c for c in clouds if c is not None and c[0].size] for clouds in (solids, films))
    layer = _spread(solids, films, light, size) if solids or films else None
    if layer is None:
        return
    if disc >= SOFT_FROM:
        layer = _softened(*layer, disc, size)
    window, bright, hidden = layer
    if rows is not None:
        shown = rows[window.slices[0]][:, None]
        bright = bright * shown
        hidden = None if hidden is None else hidden * shown
    kept = None if hidden is None else 1 - hidden
    # Colour by colour: numpy is several times slower along a last axis of three.
    for plane, colour in zip(image, tint, strict=True):
        part = plane[window.slices]
        if kept is not None:
            part *= kept
        part += bright * colour
