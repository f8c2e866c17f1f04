"""The same drop many times over: where each body is when the light comes, and how far apart they are."""

import math
from dataclasses import dataclass, replace

import numpy as np

from splashlib.shoot.chain.events import body_height, events, simulate
from splashlib.shoot.chain.framing import framed, in_view, light_lag
from splashlib.shoot.chain.scatter import Draw, nominal_draw
from splashlib.shoot.decide.delays import bare_delay
from splashlib.shoot.setup.fields import change
from splashlib.shoot.setup.parts import Setup

DECIMALS = 4
"""A trigger's delay is set to a tenth of a millisecond: so many decimals of a second."""


@dataclass(frozen=True, kw_only=True, eq=False)
class Spread:
    """Where the bodies of n drops are at the light [m]; nan for a body that missed the beam.

    draw: the drops. heights: of the lowest points over the water. lit: whether the light finds the shutter open.
    seen: whether it is, and any of the body is in the framed area.
    """

    draw: Draw
    heights: np.ndarray
    lit: np.ndarray
    seen: np.ndarray

    def __len__(self):
        return len(self.heights)

    @property
    def missed(self):
        """How many bodies missed the beam."""
        return int(np.isnan(self.heights).sum())

    @property
    def span(self):
        """From the lowest body to the highest [m]; nan when all of them missed the beam."""
        return math.nan if self.missed == len(self) else float(np.nanmax(self.heights) - np.nanmin(self.heights))


@dataclass(frozen=True, kw_only=True)
class Aim:
    """A set-up whose delay puts the light on a height.

    lead: from the beam broken to the body at that height [s]. lag: from the beam broken to the light without
    delay [s]. short_by: how much longer the lag is than the lead [s], else 0; the delay is then zero. Where the
    body does not block the beam at all, lead and lag are nan, and short_by is infinite.
    """

    setup: Setup
    lead: float
    lag: float
    short_by: float


def spread(setup, n, rng):
    """Drop n times, and say where the bodies are when half of the first head's light is out.

    Parameters
    ----------
    setup : Setup
    n : int
    rng : numpy.random.Generator
        The same generator drops the same bodies whatever beam, delay and camera style.

    Returns
    -------
    Spread
    """
    when = simulate(setup, n, rng)
    heights, frame = body_height(setup, when.light, draw=when.draw), framed(setup)
    after = when.light - when.contact
    shown = in_view(setup, frame, height=heights, across=when.draw.across, since_contact=after)
    lit = np.nan_to_num(when.lit[:, 0]) > 0
    return Spread(draw=when.draw, heights=heights, lit=lit, seen=shown & lit)


def aim(setup, *, height):
    """Set the delay so that the light finds the nominal body at a height, to a tenth of a millisecond.

    Parameters
    ----------
    setup : Setup
        Its own delay plays no part.
    height : float
        Of the lowest point over the water [m].

    Returns
    -------
    Aim
    """
    found, lag = bare_delay(setup, height=height), light_lag(setup)
    return Aim(
        setup=change(setup, "trigger.delay", round(found.value, DECIMALS)),
        lead=lag + found.value - found.short_by,
        lag=lag,
        short_by=found.short_by,
    )


def hand_too_high(setup, error):
    """How much lower the body is in the picture when the hand is too high.

    Parameters
    ----------
    setup : Setup
        With its delay.
    error : float
        How much too high the hand is [m].

    Returns
    -------
    float
        Way downwards in the picture [m], by the chain of events; nan without light.
    """
    none = nominal_draw(setup)
    high = replace(none, release=none.release + error)
    as_meant, as_was = (body_height(setup, events(setup, draw).light, draw=draw) for draw in (none, high))
    return float(as_meant[0] - as_was[0])
