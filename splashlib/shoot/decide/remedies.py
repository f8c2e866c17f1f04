"""What to do about an instant that cannot be caught. Each remedy is tried out before it is offered."""

import math

from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.framing import lead, light_lag
from splashlib.shoot.chain.timeline import timeline
from splashlib.shoot.decide.delays import Remedy, bare_delay, beam_for_lag
from splashlib.shoot.setup.fields import change, field, show

# Stages of the splash that people photograph; the way of the body under water is not among them.
PICTURES = ("crown_peak", "dome_closes", "spout_peak", "jet_rises", "jet_starts", "jet_peak", "droplets_highest")


def find_remedies(setup, delay, wanted):
    """Return the remedies that work for an instant.

    Parameters
    ----------
    setup : Setup
    delay : Delay
        The answer so far.
    wanted : dict
        The instant, as keywords of `delay_for`.

    Returns
    -------
    tuple of Remedy
        None needed, none offered.
    """
    if math.isinf(delay.short_by):
        offers = (_smaller_share,)
    elif delay.short_by > 0:
        offers = (_higher_beam, _mirror_up, _hold_open, _later)
    elif not _settable(delay):
        offers = ()
    else:
        offers = (_open_longer,)
    found = (_offered(offer, setup, delay, wanted) for offer in offers)
    return tuple(remedy for remedy in found if remedy is not None)


def _offered(offer, setup, delay, wanted):
    """One remedy, or None where it does not help, or asks for what no set-up can have."""
    try:
        return offer(setup, delay, wanted)
    except ValueError:
        return None


def _tried(setup, path, value, wanted):
    """The delay with one setting changed, or None when that is impossible or leaves the instant uncaught."""
    try:
        changed = change(setup, path, value)
        delay = bare_delay(changed, **wanted)
    except ValueError:
        return None
    return delay if delay.short_by == 0 and _settable(delay) and _lit(changed, delay) else None


def _settable(delay):
    """Whether a trigger can wait so long."""
    return delay.value <= field("trigger.delay").limits[1]


def _lit(setup, delay):
    """Whether the light finds all of the frame open with this delay."""
    return bool(events(change(setup, "trigger.delay", delay.value)).lit[0, 0] > 1 - 1e-9)


def _remedy(setup, path, value, wanted, text):
    delay = _tried(setup, path, value, wanted)
    if delay is None:
        return None
    return Remedy(text=f"{text}; the delay is then {1000 * delay.value:.1f} ms", path=path, value=value)


def _higher_beam(setup, delay, wanted):
    height = beam_for_lag(setup, light_lag(setup), **wanted)
    if math.isnan(height):
        return None
    # Up to the next full millimetre: a rounded height must still be high enough.
    height = math.ceil(1000 * height - 1e-6) / 1000
    text = f"raise the beam to {show('beam.height', height)} (for this lag, without room for its scatter)"
    return _remedy(setup, "beam.height", height, wanted, text)


def _mirror_up(setup, delay, wanted):
    if setup.camera.style != "mirror":
        return None
    lag = show("camera.mirror_up.lag", setup.camera.mirror_up.lag)
    text = f"raise the mirror before the drop: the camera lag is then {lag}"
    return _remedy(setup, "camera.style", "mirror_up", wanted, text)


def _hold_open(setup, delay, wanted):
    if setup.camera.style == "held_open":
        return None
    text = "hold the shutter open in the dark and let the beam fire the flash"
    return _remedy(setup, "camera.style", "held_open", wanted, text)


def _later(setup, delay, wanted):
    """The first picture of the water that this rig can catch, more likely than not; else the first instant."""
    lag = light_lag(setup)
    pictures = [each for each in timeline(setup) if each.name in PICTURES and each.chance >= 0.5]
    for stage in pictures:
        found = bare_delay(setup, event=stage.name)
        # Even an early one: half of the splashes missed would be no remedy.
        if stage.early >= lag and found.short_by == 0:
            text = f"choose a later instant: {stage.label}; the delay is then {1000 * found.value:.1f} ms"
            return Remedy(text=text, path="event", value=stage.name)
    after = math.ceil(1000 * (lag - lead(setup)) - 1e-6) / 1000
    side = "after" if after >= 0 else "before"
    text = f"choose a later instant: from {abs(1000 * after):.0f} ms {side} contact on"
    found = bare_delay(setup, after_contact=after)
    return Remedy(text=text, path="after_contact", value=after) if found.short_by == 0 else None


def _smaller_share(setup, delay, wanted):
    share = math.floor(100 * setup.drop.height / setup.beam.width) / 100
    if not 0.01 <= share < setup.beam.blocked_share:
        return None
    text = f"set the trigger so that {show('beam.blocked_share', share)} of the beam blocked are enough"
    return _remedy(setup, "beam.blocked_share", share, wanted, text)


def _open_longer(setup, delay, wanted):
    """When the frame is no longer, or not all, open at the light: the exposure that would be long enough."""
    if _lit(setup, delay):
        return None
    when = events(change(setup, "trigger.delay", delay.value))
    path = "camera.open_time" if setup.camera.style == "held_open" else "camera.shutter"
    needed = float(when.light[0] - when.curtain_starts[0])
    time = math.ceil(10 * needed + 1e-6) / 10 if path == "camera.open_time" else setup.camera.sync_speed
    text = f"the shutter closes too soon: expose for {show(path, time)}"
    return _remedy(setup, path, time, wanted, text)
