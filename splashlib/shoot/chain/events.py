"""The one chain of events, from the hand that lets go to the light that fades. Lags are added up only here.

Time zero is the instant when the beam is broken.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from splashlib.shoot.chain.body_motion import breaks_beam, depth_in_water, height_in_air, time_falling
from splashlib.shoot.chain.scatter import Draw, draw_scatters, nominal_draw
from splashlib.shoot.chain.stages import stage_times
from splashlib.shoot.setup.parts import Setup
from splashlib.shoot.setup.pulses import pulse_times


@dataclass(frozen=True, kw_only=True)
class Events:
    """The dated events of n drops [s]: arrays of length n, those of the flash n by number of heads.

    What does not happen is nan: no mirror in this style, no light when the body missed the beam. A drop that
    misses has its zero where a centred one would have broken the beam.
    """

    draw: Draw
    released: np.ndarray
    beam_broken: np.ndarray
    trigger_answers: np.ndarray
    mirror_up: np.ndarray
    curtain_starts: np.ndarray
    shutter_open: np.ndarray
    flash_starts: np.ndarray
    flash_peak: np.ndarray
    flash_half: np.ndarray
    flash_fades: np.ndarray
    contact: np.ndarray
    shutter_closes: np.ndarray
    missed: np.ndarray
    lit: np.ndarray
    setup: Setup

    def __len__(self):
        return len(self.contact)

    @cached_property
    def stages(self):
        """Name of each stage of the splash to its times [s], nan where it does not happen."""
        return stage_times(self.setup, self.draw, self.contact)

    @property
    def light(self):
        """The instant that the first head's picture shows: half of its light is out [s]."""
        return self.flash_half[:, 0]


def events(setup, draw=None):
    """Date the events of every drop in a draw.

    Parameters
    ----------
    setup : Setup
    draw : Draw, optional
        One drop or many; without it the nominal drop.

    Returns
    -------
    Events
        Times after the beam is broken [s].

    Notes
    -----
    Beam to signal: lag of the trigger and the delay. Signal to frame fully open: lag of the camera, which
    then fires the flash; with the shutter held open the signal fires the flash itself, and the shutter was
    opened a set time before the release. Then the lag of each head's route. A lag is never less than nothing.
    """
    return _nominal(setup) if draw is None else _dated(setup, draw)


# Panels ask for the nominal drop of one set-up many times while a handle moves, each for its own part.
@lru_cache(maxsize=64)
def _nominal(setup):
    when = _dated(setup, nominal_draw(setup))
    for value in vars(when).values():
        if isinstance(value, np.ndarray):
            value.setflags(write=False)
    return when


def _dated(setup, draw):
    release = np.maximum(setup.drop.release_height + draw.release, 0.0)
    at_break, missed = breaks_beam(setup, draw.toward)
    to_break = time_falling(setup, release, at_break)
    contact = time_falling(setup, release, 0.0) - to_break
    answers = np.where(missed, np.nan, _late(setup.trigger.lag, draw.trigger) + setup.trigger.delay)
    starts, opens = _shutter(setup, draw, answers, -to_break)
    fires = answers if setup.camera.style == "held_open" else opens
    flash = _flash(setup, draw, fires)
    mirror = starts if setup.camera.style == "mirror" else np.full_like(starts, np.nan)
    return Events(
        draw=draw,
        released=-to_break,
        beam_broken=np.where(missed, np.nan, 0.0),
        trigger_answers=answers,
        mirror_up=mirror,
        curtain_starts=starts,
        shutter_open=opens,
        **flash,
        contact=contact,
        shutter_closes=opens + setup.camera.exposure_time,
        missed=missed,
        lit=lit_share(setup, flash["flash_half"] - starts[:, None]),
        setup=setup,
    )


def _late(lag, scatter):
    return np.maximum(lag + scatter, 0.0)


def _shutter(setup, draw, answers, released):
    """When the first curtain starts and when the frame is fully open [s]."""
    camera = setup.camera
    if camera.style == "held_open":
        opens = released - camera.open_before
    else:
        # The frame cannot be open sooner than its curtain can cross it.
        opens = answers + np.maximum(_late(camera.lag, draw.camera), camera.sweep)
    return opens - camera.sweep, opens


def _flash(setup, draw, fires):
    """When each head starts, peaks, has given half its light, and has faded [s]: n by number of heads."""
    route_lag = np.array([head.route_lag for head in setup.flashes])
    peak, half, fade = np.array([pulse_times(head) for head in setup.flashes]).T
    starts = fires[:, None] + _late(route_lag, draw.route)
    return {
        "flash_starts": starts,
        "flash_peak": starts + peak,
        "flash_half": starts + half,
        "flash_fades": starts + fade,
    }


def open_rows(setup, since_curtain):
    """Which rows of the frame are open a time after the first curtain started.

    Parameters
    ----------
    setup : Setup
    since_curtain : float or array
        Time since the first curtain started [s].

    Returns
    -------
    tuple of arrays
        First and last open row, as shares of the frame from the edge that is uncovered first; equal when the
        frame is dark, 0 and 1 when all of it is open.

    Notes
    -----
    The edge of the opening crosses the frame at a steady pace in the sweep time, the closing edge follows
    one exposure time later. A leaf shutter (no sweep) opens and closes everywhere at once.
    """
    since = np.asarray(since_curtain, float)
    sweep, exposure = setup.camera.sweep, setup.camera.exposure_time
    if sweep == 0:
        return np.zeros_like(since), ((since >= 0) & (since <= exposure)).astype(float)
    with np.errstate(over="ignore"):  # a sweep of next to nothing: infinite is as good as 1
        first, last = (np.clip(each / sweep, 0, 1) for each in (since - exposure, since))
    return np.nan_to_num(first), np.nan_to_num(last)


def lit_share(setup, light_since_curtain):
    """Share of the frame that is open when half of the light is out: 1 all of it, 0 none [-]."""
    first, last = open_rows(setup, light_since_curtain)
    return last - first


def simulate(setup, n, rng):
    """Drop n times.

    Parameters
    ----------
    setup : Setup
    n : int
        Number of drops.
    rng : numpy.random.Generator

    Returns
    -------
    Events
        Arrays of length n.
    """
    return events(setup, draw_scatters(setup, n, rng))


def body_height(setup, time, *, draw=None):
    """Height of the lowest point of the body over the water at given times.

    Parameters
    ----------
    setup : Setup
    time : float or array
        Times after the beam is broken [s]; it goes with the drops of `draw` by numpy's rules (for n drops at
        k times give an array of shape (k, 1)). nan gives nan.
    draw : Draw, optional
        The drops; without it the nominal one.

    Returns
    -------
    float or ndarray
        Height [m]: the release height while it is in the hand, negative under water.
    """
    when = events(setup, draw)
    time = np.asarray(time, float)
    release = np.maximum(setup.drop.release_height + when.draw.release, 0.0)
    in_air = height_in_air(setup, release, np.nan_to_num(time - when.released))
    under = 0.0 - depth_in_water(setup, np.nan_to_num(time - when.contact))
    height = np.where(np.isnan(time), np.nan, np.where(time < when.contact, in_air, under))
    return float(height[0]) if draw is None and time.ndim == 0 else height
