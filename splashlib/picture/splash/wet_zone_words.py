"""What the picture of the wet zone says: what overflows, what gets wet, how long the beam must stay deaf."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.shoot import sees


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
    wet = f"wet to {likely}, fastest {far}" if vessel.wet[2] else "hardly a drop flies"
    level = {"no": "stays in the vessel", "perhaps": "may overflow", "yes": "overflows"}[vessel.overflows]
    tone, line = _verdict(setup, hold, vessel, system)
    readout = (
        ("Water rises", f"{rise} (rim {words.length(setup.vessel.rim, 'cm', system)})"),
        ("Rim that is enough", words.length(vessel.rim_needed, "cm", system)),
        ("Width that leaves the splash alone", words.length(vessel.width_needed, "cm", system)),
        ("Thrown drops, likely", likely if vessel.wet[2] else "none"),
        ("Thrown drops, the fastest", far if vessel.wet[2] else "none"),
        ("Last drops in the beam", f"{hold.droplets:.2f} s" if hold.droplets else "none"),
        ("Jet in the beam until", f"{hold.jet:.2f} s" if hold.jet else "not so high"),
        ("Shutter open until", f"{hold.shutter:.2f} s" if hold.shutter else "-"),
        ("Hold-off needed", f"{at_least(hold.needed):.1f} s"),
    )
    alt = (
        f"The set from the side. The water rises by {rise} and {level}. The table: {wet}. Below on a clock: "
        f"{' '.join(hold.lines)}"
    )
    return (f"Water: {level}", f"Table: {wet}"), Description(
        readout=readout, alt=alt, line=line, tone=tone, idle=_idle(setup)
    )


def _idle(setup):
    if setup.camera.style == "held_open":
        return ()
    return (("camera.open_time", "Your shutter is not held open, so this time counts for nothing."),)


def far_words(distance, system="metric"):
    """Say how far drops fly [m]: in whole centimetres or inches, which is more than is known."""
    return words.length(distance, "cm", system, decimals=-1 if system == "imperial" else 0)


def at_least(seconds):
    """A time that is long enough, in tenths of a second [s]."""
    return math.ceil(10 * seconds - 1e-9) / 10


def _verdict(setup, hold, vessel, system):
    if setup.camera.style == "held_open" and sees(setup).lit == 0:
        return "bad", "The flash fires while the shutter is closed: the frame is black. Hold the shutter open longer."
    if not hold.enough:
        why = {"droplets": "drops fall back", "jet": "a tall jet stands in the beam", "shutter": "the shutter is open"}
        time = at_least(hold.needed)
        return "bad", f"The hold-off is too short: {why[hold.decides]} until {time:.1f} s. Set that or more."
    rim = words.length(vessel.rim_needed, "cm", system)
    if vessel.overflows != "no":
        word = "overflows" if vessel.overflows == "yes" else "may overflow"
        return "warning", f"The vessel {word}. Let water out until the rim stands {rim} over it."
    if vessel.wet[2]:
        # Where current is at stake the fastest drops count, not the likely ones.
        far = far_words(vessel.wet[2], system)
        return "good", f"One flash, and the water stays in. Keep lamps and plugs beyond {far}, or shielded."
    return "good", "One flash, and the water stays in. Hardly a drop leaves the vessel."
