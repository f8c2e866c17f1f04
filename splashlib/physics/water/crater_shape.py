"""The outline of a drop's crater in time, for the picture."""

import numpy as np

from splashlib.physics.checks import not_negative
from splashlib.physics.water.crater import BEGIN, crater, crater_radius, crater_time
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
    While it deepens: the sphere of ``crater.crater``, its edge no wider than 1.3 of `crater_radius`, its floor no
    deeper than the layer. Before t U/D = 2 the crater is scaled down in proportion. On the way back the floor
    comes up to the surface by the time the column passes it, the edge staying (a drawing, C).

    Sources
    -------
    A. Bisighini et al., Phys. Rev. E 82 (2010) 036319.
    """
    time = float(not_negative("time", time, "s"))
    edge, depth = _edge_and_depth(drop, time)
    if depth <= 0 or edge <= 0:
        return np.empty(0), np.empty(0)
    away = np.linspace(0.0, edge, int(points))
    # Between a half sphere and a flat dish the same curve serves: an ellipse, flattened by the layer's bottom.
    return away, np.minimum(depth * np.sqrt(1 - (away / edge) ** 2), drop.film_depth)


def _edge_and_depth(drop, time):
    track, likely = crater(drop), crater_time(drop).likely
    first = BEGIN * drop.diameter / drop.speed
    grown = min(time / first, 1.0)
    at = min(max(time, first), likely)
    radius = float(np.interp(at, track.time, track.radius))
    middle = float(np.interp(at, track.time, track.middle))
    depth = (radius + middle) * grown
    edge = np.sqrt(max(radius**2 - min(middle, 0.0) ** 2, (0.5 * radius) ** 2)) * grown
    edge = min(edge, 1.3 * crater_radius(drop).likely)
    if time > likely:
        back = (time - likely) / max(jet(drop).rises.likely - likely, 1e-6)
        depth *= max(1 - back**2, 0.0)
    return edge, depth
