"""Turned round: which delay catches an instant, and where the beam must be so that it can be caught."""

import math
from dataclasses import replace

from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.framing import framed
from splashlib.shoot.chain.scatter import nominal_draw, two_scatters
from splashlib.shoot.decide.delays import bare_delay, beam_for_lag
from splashlib.shoot.decide.remedies import find_remedies
from splashlib.shoot.setup.fields import change

__all__ = ["beam_bounds", "best_beam_height", "delay_for", "late_lag"]


def delay_for(setup, *, event=None, height=None, after_contact=None):
    """Find the delay that puts the light on an instant of the drop.

    Parameters
    ----------
    setup : Setup
        Its own delay plays no part.
    event : str, optional
        "contact" (also when nothing is given) or a stage of the splash, such as "crown_peak".
    height : float, optional
        Height of the body's lowest point over the water [m]; negative under water.
    after_contact : float, optional
        Time after the contact [s]; negative before it.

    Returns
    -------
    Delay
        For the light of the first flash head. Out of reach is an answer (`short_by`), not an error; an
        instant that this drop does not have is a ValueError.

    Notes
    -----
    delay = instant - lags, all of them from the one chain of events; see `chain.events`.
    """
    found = bare_delay(setup, event=event, height=height, after_contact=after_contact)
    wanted = {"event": event, "height": height, "after_contact": after_contact}
    return replace(found, remedies=find_remedies(setup, found, wanted))


def late_lag(setup):
    """Time from the beam broken to the light, no delay, when every lag is late by two scatters [s]."""
    late, none = two_scatters(setup), nominal_draw(setup)
    shifts = {name: getattr(none, name) + late[name] for name in ("trigger", "camera", "route")}
    draw = replace(none, **shifts)
    return float(events(change(setup, "trigger.delay", 0.0), draw).light[0])


def beam_bounds(setup, *, event=None, height=None, after_contact=None):
    """How high the beam must be at least, for each reason apart.

    Parameters
    ----------
    setup : Setup
    event, height, after_contact :
        The instant to be caught, as for `delay_for`; contact when nothing is given.

    Returns
    -------
    dict
        "rim": its lower edge clears the rim; "frame": it clears the framed area (a visible beam writes a spot
        into an open frame, and many sensors see infrared too); "lag": the delay stays 0 or more with every
        lag late by two scatters, nan when no height does. Heights of the beam's middle [m].
    """
    half = setup.beam.width / 2
    wanted = {"event": event, "height": height, "after_contact": after_contact}
    return {
        "rim": setup.vessel.rim + half,
        "frame": framed(setup).top + half,
        "lag": beam_for_lag(setup, late_lag(setup), **wanted),
    }


def best_beam_height(setup, *, event=None, height=None, after_contact=None):
    """Find the lowest beam that clears rim and frame and leaves the camera its lag.

    Low is good: the nearer the beam to the water, the less a release that is too high or too low matters.

    Parameters
    ----------
    setup : Setup
        Its own beam height and delay play no part.
    event, height, after_contact :
        The instant to be caught, as for `delay_for`; contact when nothing is given.

    Returns
    -------
    float
        Height of the beam's middle over the water [m]; ValueError with one line when no height will do.
    """
    bounds = beam_bounds(setup, event=event, height=height, after_contact=after_contact)
    if math.isnan(bounds["lag"]):
        raise ValueError(_no_beam_for_lag(setup))
    reason = max(bounds, key=bounds.get)
    highest = setup.drop.release_height - setup.beam.width / 2
    if bounds[reason] > highest:
        lowest = 100 * bounds[reason]
        raise ValueError(
            f"no beam height will do: for the {reason} it must be at {lowest:.1f} cm or higher, "
            f"and it must stay under the hand, at {100 * highest:.1f} cm or lower"
        )
    return bounds[reason]


def _no_beam_for_lag(setup):
    lag = late_lag(setup)
    if math.isnan(lag):
        return "no beam height will do: the body does not block enough of the beam to fire anything"
    return (
        f"no beam height will do: the light comes up to {1000 * lag:.1f} ms after the beam is broken, "
        "longer than from the release to the instant that is wanted"
    )
