"""The instants of a drop that can be aimed at: contact, a stage, a height, a time after contact."""

from dataclasses import dataclass

import numpy as np

from splashlib.physics.checks import between
from splashlib.shoot.chain.body_motion import depth_in_water, time_falling
from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.stages import splash
from splashlib.shoot.chain.timeline import band, one_by_one, timeline

# How long after contact an instant may be aimed at [s]: the longest delay there is.
LONGEST = 10.0


@dataclass(frozen=True, kw_only=True)
class Instant:
    """An instant of the nominal drop [s after the beam is broken], its band, and since the release [s]."""

    time: float
    early: float
    late: float
    since_release: float


def instant_names(setup):
    """Return what `delay_for` knows by name for this body: "contact" and the stages of its splash."""
    return ("contact", *(stage.name for stage in splash(setup)))


def find_instant(setup, *, event=None, height=None, after_contact=None):
    """Date an instant of the nominal drop.

    Parameters
    ----------
    setup : Setup
    event : str, optional
        A name from `instant_names`; "contact" when nothing is given.
    height : float, optional
        Height of the lowest point [m], negative under water.
    after_contact : float, optional
        Time after contact [s], negative before it.

    Returns
    -------
    Instant
        ValueError with one line for an instant that this drop does not have.
    """
    if sum(each is not None for each in (event, height, after_contact)) > 1:
        raise ValueError("an instant is an event, a height or a time after contact; give one of them")
    if height is not None:
        return _at_height(setup, height)
    if after_contact is not None:
        return _after_contact(setup, after_contact)
    return _named(setup, "contact" if event is None else event)


def _instant(setup, times):
    time, early, late = times
    released = float(events(setup).released[0])
    return Instant(time=time, early=early, late=late, since_release=time - released)


def _named(setup, name):
    names = instant_names(setup)
    if name not in names:
        raise ValueError(f"event is {name!r:.40}; of this drop it must be one of {', '.join(names)}")
    found = next(event for event in timeline(setup) if event.name == name)
    return _instant(setup, (found.time, found.early, found.late))


def _after_contact(setup, after):
    when = events(setup)
    fall = float(when.contact[0] - when.released[0])
    after = between("after_contact", _one_number("after_contact", after), -fall, LONGEST, "s")
    return _instant(setup, (time + after for time in band(events(setup, one_by_one(setup)).contact)))


def _at_height(setup, height):
    release, depth = setup.drop.release_height, setup.vessel.depth
    height = between("height", _one_number("height", height), -depth, release, "m")
    when = events(setup, one_by_one(setup))
    if height < 0:
        after = _sinking_time(setup, -height)
        return _instant(setup, (time + after for time in band(when.contact)))
    falling = time_falling(setup, np.maximum(release + when.draw.release, 0.0), height)
    return _instant(setup, band(when.released + falling))


def _sinking_time(setup, depth):
    """When the lowest point is first so deep [s after contact]."""
    times = np.linspace(0.0, 5.0, 20_001)
    depths = np.asarray(depth_in_water(setup, times))
    deep = np.flatnonzero(depths >= depth - 1e-12)
    if not len(deep):
        raise ValueError(f"height is {-depth:g} m; this body stays above {-depths.max():.3g} m, so it must be higher")
    first = max(int(deep[0]), 1)
    return float(np.interp(depth, depths[first - 1 : first + 1], times[first - 1 : first + 1]))


def _one_number(name, value):
    if isinstance(value, bool) or not isinstance(value, int | float | np.integer | np.floating):
        raise ValueError(f"{name} is {value!r:.40}; it must be a number")
    return float(value)
