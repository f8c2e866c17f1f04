"""The rim of a crown: thrown up by the water that the impact drives outward, held back by tension and weight.

One model serves solid bodies and drops. The hollow widens as an expanding half sphere with the kinetic energy
of the drop (for a body: of the water it drives apart while it goes in): Rdot = A U (t U/D)^(-3/5). The water
at its edge is turned up and leaves as a sheet with that speed, so that each piece flies freely upward, the
earlier the faster: the sheet is drawn out and thins. The rim runs into it, gathers it, and is slowed by the
tension of both its faces and by its own weight: a heavy ring, which comes to rest and sinks again.
"""

import math
from functools import lru_cache
from typing import NamedTuple

from splashlib.physics.constants import GRAVITY

# Hemispherical hollow: kappa pi rho R^3 Rdot^2 = (pi/12) rho D^3 U^2, kappa 1 for a point source and about a
# half where the free surface can give way; R/D = (2.5 tau/sqrt(12 kappa))^(2/5), 1.0 tau^0.4 for kappa 0.5,
# and Rdot/U = 0.4 tau^-0.6.
INERTIA = 0.5
SPREAD = 1 / math.sqrt(12 * INERTIA)
SPEED = (SPREAD * 2.5**-1.5) ** 0.4
FADE = 0.6
# The whole sheet leaves once the front is half a radius under, a quarter of a diameter of way: the level surface
# then cuts a sphere at 60 degrees, and with the water piled up there (H. Wagner, Z. angew. Math. Mech. 12 (1932)
# 193) stands beside its widest part. An eighth or a half of a diameter makes a crown 1.6 times higher or lower.
START = 0.25
# What leaves before half a diameter of way tears off as fine spray; droplets that are seen leave from there on.
DROPLETS = 0.5
# Share by which neither time nor the mass of the rim grows in one step, and the longest step, in times so far.
GROWTH, STEP = 0.2, 0.05
MOST_STEPS = 2000


class Rim(NamedTuple):
    """A rim at one moment: piece that reaches it left at `left` [s]; `time` [s], height [m], speed [m/s].

    `reach` is the upward speed of the pieces that just arrive at the rim: that of a droplet let go there;
    `mass` is that of the rim per length round the ring [kg/m].
    """

    left: float
    time: float
    height: float
    speed: float
    reach: float
    mass: float


def release_speed(*, diameter, speed, left):
    """Speed with which the sheet leaves the surface at a time after contact [m/s]."""
    return SPEED * speed * (left * speed / diameter) ** -FADE


def hollow_radius(*, diameter, speed, time):
    """Radius of the widening hollow by the same law, before gravity and tension count [m]."""
    return diameter * (2.5 * SPREAD * max(time, 0.0) * speed / diameter) ** 0.4


def droplets_start(*, diameter, speed):
    """When the first of the droplets that are seen leaves the rim [s after contact]."""
    return DROPLETS * diameter / speed


@lru_cache(maxsize=128)
def rise(diameter, speed, tension, density, thickness):
    """Follow the rim from the start of the sheet over its highest point until it is back at the surface.

    Parameters
    ----------
    diameter, speed : float
        Of the body or drop [m], [m/s].
    tension, density : float
        Of the liquid [N/m], [kg/m3].
    thickness : float
        Thickness of the sheet where it leaves, at t U/D = 1 [m]; at other times e = thickness sqrt(t U/D).

    Returns
    -------
    tuple of Rim
        From the start until it is down; one entry where tension wins from the start (a swell, no sheet).

    Notes
    -----
    z = x w - g x^2/2 for the piece that left at s, x = t - s, w = A U (s U/D)^-q. Between two pieces the sheet
    is drawn out to |dz/ds| = w + q x w/s - g x. The rim, at speed v, takes in pieces at the rate
    ds/dt = (w - g x - v)/|dz/ds|, each of mass rho e w ds:
    dm/dt = rho e w ds/dt - 0.4 m/t, m dv/dt = rho e w (ds/dt)(w - g x - v) - 2 sigma - m g.
    The term 0.4 m/t is the ring that grows with the hollow. It starts as thick as the sheet and with the speed
    of Taylor and Culick against it, w - sqrt(2 sigma/(rho e)). Neglected: drag of the air on the sheet, and the
    water that the rim loses as drops (a lighter rim is held back more: 10 % of the height, where they leave the
    rim as thick as its slowing allows, Wang and Bourouiba 2018).

    Sources
    -------
    I. V. Roisman, C. Tropea, J. Fluid Mech. 472 (2002) 373 (a crown as pieces in free flight that meet a rim
    with mass); G. I. Taylor, Proc. R. Soc. A 253 (1959) 313; F. E. C. Culick, J. Appl. Phys. 31 (1960) 1128.
    """
    path = _Path(diameter, speed, tension, density, thickness)
    track = [path.first()]
    while len(track) < MOST_STEPS and (track[-1].speed > 0 or track[-1].height > 0):
        track.append(path.after(track[-1]))
        if track[-1].speed <= 0 < track[-2].speed:
            track.insert(-1, _at_rest(*track[-2:]))
    return tuple(track if len(track) > 3 else track[:1])


def highest(track):
    """Which entry of a track of `rise` is the highest point."""
    return max(range(len(track)), key=lambda i: track[i].height)


def _at_rest(before, after):
    """The rim at the top of its way, its speed taken as straight in the step that holds it."""
    share = before.speed / (before.speed - after.speed)
    between = Rim(*(a + share * (b - a) for a, b in zip(before, after, strict=True)))
    top = before.height + before.speed * (between.time - before.time) / 2
    return between._replace(speed=0.0, height=max(top, before.height, after.height))


class _Path:
    """What the rim of one impact moves through. A state is (left, time, height, speed, mass), as in `Rim`."""

    def __init__(self, diameter, speed, tension, density, thickness):
        pace = speed / diameter
        self.start = START / pace
        self.pull, self.slowest = 2 * tension, 0.05 * speed
        self.density = density
        # Speed of the sheet w = leaving s^-q, and its mass per time and length of the edge, flowing s^(1/2 - q).
        self.leaving = release_speed(diameter=diameter, speed=speed, left=1.0)
        self.flowing = density * thickness * math.sqrt(pace) * self.leaving

    def first(self):
        left = self.start
        leaving = self.leaving * left**-FADE
        thick = self.flowing * left ** (0.5 - FADE) / (self.density * leaving)
        speed = leaving - math.sqrt(self.pull / (self.density * thick))
        return Rim(left, left, 0.0, speed, leaving, math.pi / 4 * self.density * thick**2)

    def after(self, rim):
        """The rim one step later, by midpoints; the step ends where it passes the surface downward."""
        now = (rim.left, rim.time, rim.height, rim.speed, rim.mass)
        slope = self._slope(now)
        step = self._step(now, slope)
        halfway = self._slope(_moved(now, slope, step / 2))
        left, time, height, speed, mass = _moved(now, halfway, step)
        if height < 0 < rim.height:
            landing = _moved(now, halfway, step * rim.height / (rim.height - height))
            left, time, height, speed, mass = (*landing[:2], 0.0, min(landing[3], 0.0), landing[4])
        return Rim(left, time, height, speed, self.leaving * left**-FADE - GRAVITY * (time - left), mass)

    def _slope(self, state):
        """How fast a state changes: pieces taken in, time, speed, gain of speed and of mass, each per time."""
        left, time, _, speed, mass = state
        leaving, age = self.leaving * left**-FADE, max(time - left, 0.0)
        faster = max(leaving - GRAVITY * age - speed, 0.0)
        drawn = max(leaving + FADE * age * leaving / left - GRAVITY * age, 0.02 * leaving)
        taking = faster / drawn if left < time else min(faster / drawn, 1.0)
        gain = self.flowing * left ** (0.5 - FADE) * taking
        return taking, 1.0, speed, (gain * faster - self.pull) / mass - GRAVITY, gain - (1 - FADE) * mass / time

    def _step(self, state, slope):
        """A step in which neither the time nor the mass nor the rim's lag behind the sheet changes much."""
        left, time, _, speed, mass = state
        gain = slope[4] + (1 - FADE) * mass / time
        faster = max(self.leaving * left**-FADE - GRAVITY * (time - left) - speed, 0.0)
        force = max(self.pull, gain * faster) / mass + GRAVITY
        longest = min(STEP * time, GROWTH * mass / max(gain, 1e-12))
        return max(min(longest, GROWTH * max(faster, self.slowest) / force), 1e-4 * time)


def _moved(state, slope, step):
    left, time, height, speed, mass = state
    time += step
    return (
        min(left + step * slope[0], time),
        time,
        height + step * slope[2],
        speed + step * slope[3],
        max(mass + step * slope[4], 1e-12),
    )
