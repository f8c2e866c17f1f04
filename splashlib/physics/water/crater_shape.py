"""The outline of a drop's crater in time, for the picture."""

import numpy as np

from splashlib.physics.checks import not_negative
from splashlib.physics.water.crater import crater_edge, widening
from splashlib.physics.water.jet import jet


def crater_outline(drop, time, *, points=60):
    """Outline of the crater at one instant: depth over the distance from the axis.

    Parameters
    ----------
    drop : DropImpact
    time : float
        Time after contact [s].
    points : int

    Returns
    -------
    tuple of ndarray
        Distances from the axis out to the edge, and the depth at each [m]; empty before contact and once the
        surface is level again.

    Notes
    -----
    The half sphere of ``crater.widening``: depth and edge are its radius until it is deepest, its floor no deeper
    than the layer. The edge is the foot of the crown and stays; on the way back the floor comes up to the surface
    by the time the column passes it, from slow to fast (a drawing, C).

    Sources
    -------
    As ``crater.widening``.
    """
    time = float(not_negative("time", time, "s"))
    edge, depth = crater_edge(drop, time), _depth(drop, time)
    if depth <= 0 or edge <= 0:
        return np.empty(0), np.empty(0)
    away = np.linspace(0.0, edge, int(points))
    # Between a half sphere and a flat dish the same curve serves: an ellipse, flattened by the layer's bottom.
    return away, np.minimum(depth * np.sqrt(1 - (away / edge) ** 2), drop.film_depth)


def _depth(drop, time):
    depth, deepest = crater_edge(drop, time), float(widening(drop)[0][-1])
    back = (time - deepest) / (jet(drop).rises.likely - deepest)
    return depth * max(1 - max(back, 0.0) ** 2, 0.0)
