"""What a real vessel does to the laws of the open pool: wider limits, a rising level, a bottom in the way."""

import math
from typing import NamedTuple

from splashlib.physics.checks import not_negative
from splashlib.physics.water.cavity import cavity_seal, cavity_volume
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.impact import Band, ramp
from splashlib.physics.water.sinking import body_depth, bottom_time
from splashlib.physics.water.threshold import splash_chance

# M. M. Mansoor et al., J. Fluid Mech. 743 (2014) 295: walls show in the cavity from a body wider than 1/16 of
# the tank. How much, for bodies of a fifth and more, is an estimate.
FREE_WIDTHS, TIGHT_WIDTHS, TIGHT = 5.0, 1.5, 0.25
SHALLOW = 0.25


class VesselEffects(NamedTuple):
    """What the vessel does to one impact; times in s, lengths in m.

    `narrow`, `shallow`: too little room for the open-pool laws; `widening`: factor on the limits of the stages;
    `level_rise`: how far the level rises while the cavity is open; `bottom`: when the body meets the bottom
    (infinite: never); `bottom_before_seal`: True where that comes first.
    """

    narrow: bool
    shallow: bool
    widening: float
    level_rise: Band
    bottom: float
    bottom_before_seal: bool

    def overflows(self, rim):
        """Whether a rim this far above the resting water is passed: "no", "perhaps" or "yes"."""
        rim = float(not_negative("rim", rim, "m"))
        if self.level_rise.high <= rim:
            return "no"
        return "yes" if self.level_rise.low > rim else "perhaps"


def vessel_effects(body):
    """What the vessel of a `SolidImpact` does to its splash.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    VesselEffects

    Notes
    -----
    Narrow is a width under 5 bodies, shallow a depth under that of the body at the seal. The level of a square
    vessel rises by (body + cavity)/width^2; the cavity is that of `cavity_volume` at the seal, good to 40 %.
    Waves that run up the wall come on top: half a crown's height is not unusual (C).

    Sources
    -------
    Volume over area; Mansoor et al. (2014) for the walls.
    """
    bottom = bottom_time(body)
    return VesselEffects(
        narrow=body.vessel_width < FREE_WIDTHS * body.diameter,
        shallow=is_shallow(body),
        widening=widening(body),
        level_rise=level_rise(body),
        bottom=bottom,
        bottom_before_seal=bottom < seal_time(body).likely,
    )


def is_shallow(body):
    """Whether the body is on the bottom by the time its cavity would close."""
    if body.water_depth == math.inf:
        return False
    return float(body_depth(body, seal_time(body).likely)) >= body.water_depth


def widening(body):
    """Factor by which a vessel widens the limits of the stages [-], 1 for an open pool (C)."""
    room = body.vessel_width / body.diameter
    tight = 0.0 if room >= FREE_WIDTHS else 1 - ramp(room, low=TIGHT_WIDTHS, high=FREE_WIDTHS)
    return (1 + TIGHT * tight) * (1 + SHALLOW * is_shallow(body))


def level_rise(body):
    """How far the water in a square vessel rises while the cavity is open.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    Band
        Rise of the level [m]; 0 for an open pool.

    Notes
    -----
    (volume of the body + cavity)/width^2; see `vessel_effects`.

    Sources
    -------
    Volume over area.
    """
    solid = math.pi / 6 * body.diameter**2 * body.length * min(body.relative_density, 1.0)
    air = cavity_volume(body, cavity_seal(body).time) if splash_chance(body) > 0 else 0.0
    area = body.vessel_width**2
    return Band(*((solid + share * air) / area for share in (0.6, 1.0, 1.4)))
