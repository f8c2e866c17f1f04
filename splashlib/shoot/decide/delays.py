"""The delay that an instant needs, and the beam height that a lag needs: one instant, no advice yet."""

import math
from dataclasses import dataclass

from splashlib.shoot.chain.body_motion import breaks_beam, height_in_air
from splashlib.shoot.chain.framing import light_lag
from splashlib.shoot.chain.instants import find_instant

# A delay that is short by less than this is not short: sums of lags carry rounding errors [s].
NANOSECOND = 1e-9


@dataclass(frozen=True, kw_only=True)
class Remedy:
    """One way out: in words, and as a change. `path` and `value` go to `change` [SI].

    The path "event" or "after_contact" [s] means: ask `delay_for` for that instant instead.
    """

    text: str
    path: str
    value: float | str


@dataclass(frozen=True, kw_only=True)
class Delay:
    """The delay that catches an instant [s].

    value: never negative. early, late: the delays for the early and the late end of the instant's band.
    short_by: how much too late the light comes even without any delay; 0 when the instant can be caught,
    infinite when the body does not block the beam. remedies: what would help, each tried out.
    """

    value: float
    early: float
    late: float
    short_by: float
    remedies: tuple[Remedy, ...] = ()


def bare_delay(setup, *, event=None, height=None, after_contact=None):
    """As `delay_for`, without the remedies."""
    return delay_to(setup, find_instant(setup, event=event, height=height, after_contact=after_contact))


def delay_to(setup, instant):
    """The delay that puts the light on an `Instant` that is found already."""
    lag = light_lag(setup)
    if math.isnan(lag):
        return Delay(value=0.0, early=0.0, late=0.0, short_by=math.inf)
    needed, early, late = (time - lag for time in (instant.time, instant.early, instant.late))
    return Delay(
        value=max(needed, 0.0),
        early=max(early, 0.0),
        late=max(late, 0.0),
        short_by=-needed if needed < -NANOSECOND else 0.0,
    )


def beam_for_lag(setup, lag, *, event=None, height=None, after_contact=None):
    """Beam height at which a lag ends just at the instant [m]; nan when even the whole fall is shorter.

    Parameters
    ----------
    setup : Setup
    lag : float
        Time from the beam broken to the light [s].
    event, height, after_contact :
        The instant, as for `delay_for`.

    Returns
    -------
    float
        Height of the beam's middle [m]; it may lie above the hand or under the water.
    """
    instant = find_instant(setup, event=event, height=height, after_contact=after_contact)
    to_break = instant.since_release - lag
    if not to_break >= 0:
        return math.nan
    lowest = float(height_in_air(setup, setup.drop.release_height, to_break))
    return lowest + setup.beam.height - float(breaks_beam(setup)[0])
