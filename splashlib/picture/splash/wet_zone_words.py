"""What the picture of the wet zone says: what overflows, what gets wet, how long the beam must stay deaf."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.dry_words import at_words, beyond_words, name_of, spray_warning
from splashlib.picture.kit.frame_words import TONES, fault
from splashlib.shoot import stands
from splashlib.shoot.decide.judgement import judge


def told(setup, hold, vessel, system="metric"):
    """Say in words what the picture shows.

    Parameters
    ----------
    setup : Setup
    hold : shoot HoldOff
    vessel : shoot VesselAdvice
    system : "metric" or "imperial"

    Returns
    -------
    tuple
        The two large words in the picture, on the left about the vessel and on the right about the set; Description.
    """
    rise = words.length(vessel.level_rise[1], "cm", system)
    likely, far = (far_words(each, system) for each in vessel.wet[1:])
    wet = f"drops to {likely}, fastest {far}" if vessel.wet[2] else "hardly a drop flies"
    level = _level(setup, vessel)
    tone, line = _verdict(setup, hold, vessel, system)
    readout = (
        ("Water rises", f"{rise} (rim {words.length(setup.vessel.rim, 'cm', system)})"),
        ("Rim that would hold it", words.length(vessel.rim_needed, "cm", system)),
        ("Width that leaves the splash alone", words.length(vessel.width_needed, "cm", system)),
        ("Thrown drops, likely", likely if vessel.wet[2] else "none"),
        ("Thrown drops, the fastest", f"{far}, on the table {_on_table(vessel, system)}" if vessel.wet[2] else "none"),
        *((_capital(name_of(each, len(setup.flashes))), _stands(each, system)) for each in stands(setup)),
        ("Last drops in the beam", f"{hold.droplets:.2f} s" if hold.droplets else "none"),
        ("Jet in the beam until", f"{hold.jet:.2f} s" if hold.jet else "not so high"),
        ("Shutter open until", f"{hold.shutter:.2f} s" if hold.shutter else "-"),
        ("Hold-off needed", f"{at_least(hold.needed):.1f} s"),
    )
    beside = " ".join(f"The {name_of(each, len(setup.flashes))}: {_stands(each, system)}." for each in stands(setup))
    alt = (
        f"The set from the side. The water rises by {rise} and {level}. Over the table: {wet}. {beside} Below on a "
        f"clock: {' '.join(hold.lines)}"
    )
    return (f"Water: {level}", f"Spray: {wet}"), Description(
        readout=readout, alt=alt, line=line, tone=tone, idle=_idle(setup)
    )


def _idle(setup):
    if setup.camera.style == "held_open":
        return ()
    return (("camera.open_time", "Your shutter is not held open, so this time counts for nothing."),)


def _capital(text):
    return text[:1].upper() + text[1:]


def _level(setup, vessel):
    if vessel.overflows == "no":
        return "stays in the vessel"
    if setup.vessel.tray == "tray":
        return "runs over into the tray" if vessel.overflows == "yes" else "may run over into the tray"
    return "overflows" if vessel.overflows == "yes" else "may overflow"


def _on_table(vessel, system):
    return far_words(vessel.on_table[2], system)


STATES = {
    "dry": "dry",
    "shielded": "in the spray, behind a sheet",
    "likely": "in the spray of likely drops",
    "fastest": "in the spray of the fastest drops",
}
"""How something stands, in words; keys as `Stand.state`."""


def _stands(each, system):
    return f"at {at_words(each.distance, system)}, {STATES[each.state]}"


def far_words(distance, system="metric"):
    """Say how far drops fly [m]: in whole centimetres or inches, which is more than is known."""
    return words.length(distance, "cm", system, decimals=-1 if system == "imperial" else 0)


def at_least(seconds):
    """A time that is long enough, in tenths of a second [s]."""
    return math.ceil(10 * seconds - 1e-9) / 10


def _verdict(setup, hold, vessel, system):
    judged = judge(setup)
    if judged.fault == "no_flash":
        return TONES["no_flash"], fault(judged)
    if setup.camera.style == "held_open" and judged.fault == "shut":
        return TONES["shut"], f"{fault(judged)} Hold the shutter open longer."
    if not hold.enough:
        why = {"droplets": "drops fall back", "jet": "a tall jet stands in the beam", "shutter": "the shutter is open"}
        time = at_least(hold.needed)
        return "bad", f"The hold-off is too short: {why[hold.decides]} until {time:.1f} s. Set that or more."
    warning = spray_warning(setup, system)
    if warning:
        return warning
    rim = words.length(vessel.rim_needed, "cm", system)
    if vessel.overflows != "no" and setup.vessel.tray == "none":
        word = "overflows" if vessel.overflows == "yes" else "may overflow"
        return "warning", f"The vessel {word}. Stand it in a tray, or let water out until the rim stands {rim} over it."
    if setup.vessel.rim > BRIM and setup.vessel.rim > vessel.rim_needed / 2:
        why = "But the crown is seen through a splashed rim: fill to the brim, in a tray."
        return "warning", f"{_kept(setup, vessel)} {why}"
    if vessel.wet[2]:
        # Where current is at stake the fastest drops count, and those that land on the table.
        far = beyond_words(vessel.on_table[2], system)
        return "good", f"{_kept(setup, vessel)} Plugs and power packs beyond {far}, or higher than the spray."
    return "good", f"{_kept(setup, vessel)} Hardly a drop leaves the vessel."


BRIM = 0.002
"""A rim no higher than this over the water counts as the brim [m]."""


def _kept(setup, vessel):
    into = "stays in" if vessel.overflows == "no" else "runs over into the tray: refill after each drop"
    return f"One flash. The water {into}."
