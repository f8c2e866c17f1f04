"""The crater of a drop: how large, how deep, when, and the column that rises out of it.

The crater is taken as part of a sphere of radius a whose middle lies z under the surface. The potential flow
around a sphere that widens and moves, with the pressure at the crater's floor set to that of the air, gives two
equations of motion. Its middle passes the surface downward later than its radius grows, so that the depth
a + z reaches a peak and comes back.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.impact import Band, ramp

# A. Bisighini, G. E. Cossali, C. Tropea, I. V. Roisman, Phys. Rev. E 82 (2010) 036319: up to t U/D = 2 the drop
# drives the floor; from there the two equations hold, with these measured values (in D and U).
BEGIN, RADIUS, WIDEN, MIDDLE, SINK = 2.0, 0.77 + 0.34, 0.17, -0.77 + 0.54, 0.27
# Below this Weber number there is hardly a crater, and the equations, made for one, take this.
CALM = 20.0
# Step of the integration, as a share of the time reached.
STEP = 0.04


class Crater(NamedTuple):
    """The crater in time: instants [s], radius of its sphere and depth of its middle [m], speed of its floor [m/s]."""

    time: np.ndarray
    radius: np.ndarray
    middle: np.ndarray
    sinking: np.ndarray

    @property
    def deepest(self):
        """When the floor turns [s] and how deep it is then [m], its speed taken as straight between two steps."""
        i = max(int(np.argmax(self.sinking <= 0)), 1) - 1
        here, there = self.sinking[i], self.sinking[i + 1]
        wait = (self.time[i + 1] - self.time[i]) * here / (here - there)
        depth = self.radius[i] + self.middle[i] + here * wait / 2
        return float(self.time[i] + wait), float(depth)


def crater_bound(drop):
    """Largest radius that the energy of the drop allows a half-sphere crater.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    float
        Radius [m].

    Notes
    -----
    R = D (Fr/3)^(1/4), Fr = U^2/(gD): the kinetic energy (pi/12) rho D^3 U^2 all in the weight of the water
    moved, (pi/4) rho g R^4. Not to be exceeded; surface tension and the flow that remains keep below it.

    Sources
    -------
    O. G. Engel, J. Appl. Phys. 37 (1966) 1798; H. C. Pumphrey, P. A. Elmore, J. Fluid Mech. 220 (1990) 539.
    """
    return drop.diameter * (drop.froude / 3) ** 0.25


def crater_radius(drop):
    """Radius of the half sphere with the volume of the crater at its largest.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    Band
        Radii [m], all within `crater_bound`.

    Notes
    -----
    (pi/4) rho g R^4 + pi sigma R^2 = e (pi/12) rho D^3 U^2, e the share of the energy that ends there: 0.85
    likely, with limits of 0.75 and 1.0 of the bound where tension allows them (it does above a Weber number of
    about 500; below, tension takes more and the lower limit is that of e = 0.5).

    Sources
    -------
    As `crater_bound`, with the surface energy of the half sphere less the disc that it replaces.
    """
    bound = crater_bound(drop)
    likely = _from_energy(drop, 0.85)
    return Band(min(0.75 * bound, _from_energy(drop, 0.5)), likely, bound)


def _from_energy(drop, share):
    weight = drop.liquid.density * GRAVITY / 4
    energy = share * drop.liquid.density * drop.diameter**3 * drop.speed**2 / 12
    tension = drop.liquid.tension
    # The root of weight q^2 + tension q = energy, in the form that keeps its digits for a slow drop.
    return math.sqrt(2 * energy / (tension + math.sqrt(tension**2 + 4 * weight * energy)))


@lru_cache(maxsize=256)
def crater(drop):
    """Follow the crater in a deep pool from t U/D = 2 until its floor is back at the surface.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    Crater

    Notes
    -----
    a'' = -(3/2) a'^2/a - 2/(We a^2) - z/(Fr a) + (7/4) z'^2/a, z'' = -3 a' z'/a - (9/2) z'^2/a - 2/Fr, lengths
    in D, speeds in U, Fr = U^2/(gD), We with D. The starting values were measured for We above 200; slower
    drops are a sketch. As the crater comes back its real floor goes over into the column; the width of the
    sphere is then too large.

    Sources
    -------
    A. Bisighini et al., Phys. Rev. E 82 (2010) 036319, the system before section IV, derived again here from
    the pressure on a widening and moving sphere.
    """
    time, state = BEGIN, (RADIUS, WIDEN, MIDDLE, SINK)
    rows = [(time, *state)]
    weber = max(drop.weber, CALM)
    while state[1] + state[3] > 0 or (state[0] + state[2] > 0 and state[0] > 0.3):
        step = STEP * _shortest(time, state, drop.froude)
        state = _step(state, step, drop.froude, weber)
        time += step
        rows.append((time, *state))
    times, radii, widen, middles, sink = np.array(rows).T
    unit, size = drop.diameter / drop.speed, drop.diameter
    return Crater(times * unit, radii * size, middles * size, (widen + sink) * drop.speed)


def _shortest(time, state, froude):
    """The shortest time in which something changes: a slow drop turns at once, tension may close a small crater."""
    radius, widen, _, sink = state
    return min(time * min(1.0, max(froude, 0.1) / 10), 3 * radius / max(abs(widen), abs(sink), 1e-9))


def _step(state, step, froude, weber):
    k1 = _rates(state, froude, weber)
    k2 = _rates([s + step / 2 * k for s, k in zip(state, k1, strict=True)], froude, weber)
    return tuple(s + step * k for s, k in zip(state, k2, strict=True))


def _rates(state, froude, weber):
    a, wide, z, sink = state
    widen = -1.5 * wide**2 / a - 2 / (weber * a * a) - z / (froude * a) + 1.75 * sink**2 / a
    return wide, widen, sink, -3 * wide * sink / a - 4.5 * sink**2 / a - 2 / froude


def crater_time(drop):
    """When the crater is deepest, or its floor on the bottom of a shallow layer.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    Band
        Times [s].

    Notes
    -----
    The peak of `crater`; from 0.8 of it to 1.5: the crater goes on widening after it is deepest, and its
    volume, by the energy of a half sphere with half of a point source's inertia, peaks up to 1.4 times later.

    Sources
    -------
    As `crater`; for the volume as `crater_bound`.
    """
    likely = _floor_time(drop, crater(drop))
    return Band(0.8 * likely, likely, 1.5 * likely)


def crater_depth(drop):
    """Greatest depth of the crater [m]: that of `crater`, 15 % less or more, within bound and layer."""
    depth = crater(drop).deepest[1]
    most = min(crater_bound(drop), drop.film_depth)
    return Band(*(min(depth * factor, most) for factor in (0.85, 1.0, 1.15)))


def _floor_time(drop, track):
    time, depth = track.deepest
    if depth <= drop.film_depth:
        return time
    down = track.time <= time
    floor = (track.radius + track.middle)[down]
    if floor[0] >= drop.film_depth:
        return float(track.time[0] * drop.film_depth / floor[0])
    return float(np.interp(drop.film_depth, floor, track.time[down]))


def crater_room(drop):
    """How far the layer lets the crater and its column be themselves: 0 for a thin film, 1 for a pool.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    float

    Notes
    -----
    A column needs a floor that comes up: none below 0.3, unhindered from 0.8 of the crater's radius. In between
    the column may even be taller than in a pool.

    Sources
    -------
    P. V. Hobbs, T. Osheroff, Science 158 (1967) 1184: columns fall off sharply under 7 mm of water and throw no
    drops under 3 mm, over craters of about 9 mm.
    """
    return ramp(drop.film_depth / crater_radius(drop).likely, low=0.3, high=0.8)
