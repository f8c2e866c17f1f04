"""The rim of a crown: thrown up by the water that the impact drives outward, held back by surface tension.

One model serves solid bodies and drops. The hollow widens as an expanding half sphere with the kinetic energy
of the drop (for a body: of the water it drives apart while it goes in): Rdot = A U (t U/D)^(-3/5). The water
at its edge is turned up and leaves as a sheet with that speed, so that each piece flies freely upward, the
earlier the faster: the sheet is drawn out and thins. Its rim eats back into it with the speed of Taylor and
Culick, sqrt(2 sigma/(rho e)), e the thickness there. Where the pieces that reach the rim are no faster than
that, the rim stands still: the crown is at its highest.
"""

import math
from functools import lru_cache
from typing import NamedTuple

from splashlib.physics.constants import GRAVITY

# Hemispherical hollow: kappa pi rho R^3 Rdot^2 = (pi/12) rho D^3 U^2, kappa 1 for a point source and about a
# half where the free surface can give way; R/D = (2.5 tau/sqrt(12 kappa))^(2/5), 1.0 tau^0.4 for kappa 0.5,
# and Rdot/U = 0.4 tau^-0.6.
SPREAD = 1 / math.sqrt(12 * 0.5)
SPEED = (SPREAD * 2.5**-1.5) ** 0.4
FADE = 0.6
# The sheet leaves once the front of drop or body is under: half a diameter of way.
START = 0.5
# Share by which neither time nor the age of the piece grows in one step.
STEP = 0.06


class Rim(NamedTuple):
    """A rim at one moment: piece that reaches it left at `left` [s]; `time` [s], height [m], speed [m/s].

    `reach` is the upward speed of the pieces that just arrive at the rim: that of a droplet let go there.
    """

    left: float
    time: float
    height: float
    speed: float
    reach: float


def release_speed(*, diameter, speed, left):
    """Speed with which the sheet leaves the surface at a time after contact [m/s]."""
    return SPEED * speed * (left * speed / diameter) ** -FADE


def hollow_radius(*, diameter, speed, time):
    """Radius of the widening hollow by the same law, before gravity and tension count [m]."""
    return diameter * (2.5 * SPREAD * max(time, 0.0) * speed / diameter) ** 0.4


@lru_cache(maxsize=512)
def rise(diameter, speed, tension, density, thickness):
    """Follow the rim from the start of the sheet to its highest point.

    Parameters
    ----------
    diameter, speed : float
        Of the body or drop [m], [m/s].
    tension, density : float
        Of the liquid [N/m], [kg/m3].
    thickness : float
        Thickness of the sheet where it leaves [m].

    Returns
    -------
    tuple of Rim
        From the start to the peak; one entry where tension wins from the start (a swell, no sheet).

    Notes
    -----
    z = x w - g x^2/2 for the piece that left at s, x = t - s, w = A U (s U/D)^-q. The sheet is drawn out by
    l = (w + q x w/s - g x)/w, e = e0/l, V = sqrt(2 sigma/(rho e)). The rim takes in pieces at the rate
    ds/dt = V/(w l), so dt/ds = sqrt(l) w/V0; it stands still where w - g x = V. Stepped by midpoints.
    Neglected: widening of the crown (it thins the sheet further), drag of the air on the sheet, the water that
    the rim has lost as drops (a lighter rim is held back more).

    Sources
    -------
    G. I. Taylor, Proc. R. Soc. A 253 (1959) 313; F. E. C. Culick, J. Appl. Phys. 31 (1960) 1128 (rim speed);
    I. V. Roisman, C. Tropea, J. Fluid Mech. 472 (2002) 373 (a crown as pieces in free flight).
    """
    retreat = math.sqrt(2 * tension / (density * thickness))
    left = time = START * diameter / speed
    track = [_rim(diameter, speed, retreat, left, time)]
    while track[-1].speed > 0 and len(track) < 400:
        before = _rate(diameter, speed, retreat, left, time)
        # With little tension the rim takes in pieces slowly: then time sets the pace.
        step = min(STEP * left, STEP * time / before)
        rate = _rate(diameter, speed, retreat, left + step / 2, time + before * step / 2)
        time, left = time + rate * step, left + step
        track.append(_rim(diameter, speed, retreat, left, time))
    return tuple(track if len(track) < 2 else _ending_at_rest(track))


def _pull_out(diameter, speed, left, time):
    w = release_speed(diameter=diameter, speed=speed, left=left)
    x = max(time - left, 0.0)
    return w, x, max(1 + FADE * x / left - GRAVITY * x / w, 0.05)


def _rate(diameter, speed, retreat, left, time):
    w, _, drawn = _pull_out(diameter, speed, left, time)
    return max(math.sqrt(drawn) * w / retreat, 1.0)


def _rim(diameter, speed, retreat, left, time):
    w, x, drawn = _pull_out(diameter, speed, left, time)
    reach = w - GRAVITY * x
    return Rim(left, time, x * w - GRAVITY * x * x / 2, reach - retreat * math.sqrt(drawn), reach)


def _ending_at_rest(track):
    """Cut the last step where the rim comes to rest."""
    a, b = track[-2:]
    share = min(max(a.speed / (a.speed - b.speed), 0.0), 1.0) if a.speed > b.speed else 1.0
    end = Rim(*(p + share * (q - p) for p, q in zip(a, b, strict=True)))
    return (*track[:-1], end)
