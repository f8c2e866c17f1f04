"""The water's surface seen from a little above: which rows it fills, and how much it mirrors there."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from splashlib.physics.constants import WATER_INDEX
from splashlib.physics.light.clear_surface import fresnel_reflectance


@dataclass(frozen=True, eq=False)
class Surface:
    """Rows of the surface between the fall line and the front glass.

    waterline, front : int, row of the surface in the plane of fall, and at the front glass
    mirrored : array (height,), share that the surface mirrors in each row between them, 0 elsewhere
    through : array (height,), share of what is under water that each row shows
    """

    waterline: int
    front: int
    mirrored: np.ndarray
    through: np.ndarray


@lru_cache(maxsize=32)
def surface_of(view, pool):
    """The surface of a pool in a view."""
    height = view.size[1]
    near = view.distance / max(view.distance - pool.width / 2, 0.2 * view.distance)
    waterline = int(np.clip(round(float(view.row(0.0))), 0, height))
    front = int(np.clip(round(float(view.row(view.eye * (1 - near)))), waterline, height))
    slope = view.eye / np.hypot(view.eye, view.distance)
    share = float(fresnel_reflectance(slope, index=WATER_INDEX))
    mirrored, through = np.zeros(height, np.float32), np.zeros(height, np.float32)
    mirrored[waterline:front] = share
    through[waterline:front] = 0.0 if pool.milk else 1 - share
    through[front:] = 0.0 if pool.milk else 1.0
    return Surface(waterline, front, mirrored, through)


def near_edge(view, columns, middle, half_width, depth):
    """Row at which a round thing standing in the water meets it on the side of the camera, for each column.

    Parameters
    ----------
    columns : array of column numbers
    middle, half_width : float, of the thing's section with the surface [picture elements]
    depth : float, how far the section reaches towards the camera [m]
    """
    sag = view.row(view.eye * (1 - view.distance / (view.distance - depth))) - view.row(0.0)
    across = (columns + 0.5 - middle) / max(half_width, 1e-6)
    return view.row(0.0) + sag * np.sqrt(np.clip(1 - across**2, 0, 1))
