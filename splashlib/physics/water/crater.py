"""The crater of a drop: how large, how deep, when, and the column that rises out of it.

Two descriptions, both published. By the energy of a half sphere the crater widens until the weight of the water
moved and the tension of its wall have taken the energy of the drop: that gives the one radius on which the
crown stands and to which the crater reaches, the likely depth and the likely time. As part of a sphere of radius
a whose middle lies z under the surface, driven by the pressure at its floor, it turns sooner and less deep: the
early limits. Craters are deeper than wide at first, and flat when they turn.
"""

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from splashlib.physics.constants import GRAVITY
from splashlib.physics.water.impact import Band, ramp
from splashlib.physics.water.rim import INERTIA

# A. Bisighini, G. E. Cossali, C. Tropea, I. V. Roisman, Phys. Rev. E 82 (2010) 036319: up to t U/D = 2 the drop
# drives the floor; from there the two equations hold, with these measured values (in D and U).
BEGIN, RADIUS, WIDEN, MIDDLE, SINK = 2.0, 0.77 + 0.34, 0.17, -0.77 + 0.54, 0.27
# Below this Weber number there is hardly a crater, and the equations, made for one, take this.
CALM = 20.0
# Step of the integration, as a share of the time reached.
STEP = 0.04
# Share of the drop's energy that ends in the crater; what is lost goes into crown, waves and swirls.
SHARE = 0.85
# Depth over the radius of the half sphere: it may be a fifth less (`crater`) or more, deeper than wide.
DEEP = Band(0.8, 1.0, 1.2)
# Points of the widening from nothing to the largest radius.
POINTS = 241


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
    likely = _from_energy(drop, SHARE)
    return Band(min(0.75 * bound, _from_energy(drop, 0.5)), likely, bound)


def _from_energy(drop, share):
    weight = drop.liquid.density * GRAVITY / 4
    energy = share * drop.liquid.density * drop.diameter**3 * drop.speed**2 / 12
    tension = drop.liquid.tension
    # The root of weight q^2 + tension q = energy, in the form that keeps its digits for a slow drop.
    return math.sqrt(2 * energy / (tension + math.sqrt(tension**2 + 4 * weight * energy)))


@lru_cache(maxsize=128)
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


@lru_cache(maxsize=128)
def widening(drop):
    """How the half sphere widens from the contact to its largest radius.

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    tuple of ndarray
        Times after contact, and radii, from 0 to `crater_radius` [s], [m].

    Notes
    -----
    kappa pi rho R^3 R'^2 + (pi/4) rho g R^4 + pi sigma R^2 = e (pi/12) rho D^3 U^2, kappa 0.5 (a half of a point
    source: the surface gives way), e 0.85. Early, R = D (e tau^2 25/24)^(1/5), the hollow of ``rim``; without
    tension the end comes at (1/2) sqrt(kappa) B(5/8, 1/2) sqrt(R/g) = 0.95 sqrt(R/g). With R = Rm sin q the
    time is a smooth integral over q.

    Sources
    -------
    O. G. Engel, J. Appl. Phys. 38 (1967) 3935 (energy of the widening crater); V. Lherm, R. Deguen, T. Alboussiere,
    M. Landeau, J. Fluid Mech. 937 (2022) A20 (the same balance, with the same integral for the time).
    """
    largest = crater_radius(drop).likely
    angle = np.linspace(0.0, math.pi / 2, POINTS)
    share = np.sin(angle)
    # Divided by pi rho: what weight and tension leave, over cos^2 q, which has no zero.
    weight, tension = GRAVITY * largest**4 / 4, drop.liquid.tension / drop.liquid.density * largest**2
    left = weight * (1 + share**2) + tension
    pace = np.sqrt(INERTIA * (largest * share) ** 3 / left) * largest
    steps = np.diff(angle) * (pace[1:] + pace[:-1]) / 2
    return np.concatenate([[0.0], np.cumsum(steps)]), largest * share


def crater_edge(drop, time):
    """Radius of the crater at the surface at one instant [m]: that of `widening`, and its largest from then on."""
    return float(np.interp(time, *widening(drop)))


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
    The end of `widening`; the early limit is the turn of the floor by `crater` (0.57 to 0.8 of it), the late
    one holds for the inertia of a point source, sqrt(2) of it.

    Sources
    -------
    As `widening` and `crater`.
    """
    likely = _floor_time(drop)
    turn = crater(drop).deepest[0] / widening(drop)[0][-1]
    return Band(min(max(turn, 0.57), 0.8) * likely, likely, math.sqrt(1 / INERTIA) * likely)


def crater_depth(drop):
    """Greatest depth of the crater [m].

    Parameters
    ----------
    drop : DropImpact

    Returns
    -------
    Band
        Depths [m], no deeper than the layer.

    Notes
    -----
    The radius of the half sphere of `crater_radius`, a fifth less or more. `crater_bound` holds for that radius,
    that is for the volume: a crater deeper than wide may pass it.

    Sources
    -------
    As `crater_radius`; the lower limit is near the depth of `crater`.
    """
    radius = crater_radius(drop).likely
    return Band(*(min(share * radius, drop.film_depth) for share in DEEP))


def _floor_time(drop):
    times, depths = widening(drop)
    if drop.film_depth >= depths[-1]:
        return float(times[-1])
    return float(np.interp(drop.film_depth, depths, times))


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
