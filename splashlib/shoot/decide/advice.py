"""Advice from the chain of events: how long to hold off, and what the vessel and the table must take."""

import math
from dataclasses import dataclass, replace

from splashlib.physics import water_entry
from splashlib.shoot.chain.body_motion import impact_of
from splashlib.shoot.chain.stages import COLUMNS
from splashlib.shoot.chain.timeline import timeline
from splashlib.shoot.decide.dry import in_the_spray, wet_zone
from splashlib.shoot.setup.fields import show


@dataclass(frozen=True, kw_only=True)
class HoldOff:
    """How long the trigger should stay deaf after the beam is broken [s].

    needed: the latest of three things, and `decides` says which: "droplets", when the last thrown drops have fallen
    through the beam, "jet", when the column has fallen back through it, each 0 where none gets so high; "shutter",
    when the shutter is closed. enough: whether the set-up's hold-off is as long. lines: the same in words.
    """

    needed: float
    decides: str
    droplets: float
    jet: float
    shutter: float
    enough: bool
    lines: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class VesselAdvice:
    """What the vessel and the table must take; lengths [m].

    level_rise: band by which the level rises while the cavity is open. overflows: "no", "perhaps", "yes".
    spilled: how much runs over, likely [m3]. rim_needed, width_needed: rim above the water, and inner width, that
    would be enough. wet: band of the distance from the middle that thrown drops reach, at the height of the water;
    on_table: at the foot of the vessel. bottom_before_seal: whether the body lies on the bottom before its cavity
    closes. lines: the same in words.
    """

    level_rise: tuple[float, float, float]
    overflows: str
    spilled: float
    rim_needed: float
    width_needed: float
    wet: tuple[float, float, float]
    on_table: tuple[float, float, float]
    bottom_before_seal: bool
    lines: tuple[str, ...]


def hold_off_advice(setup):
    """Say how long the hold-off must be, so that the splash does not fire a second picture.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    HoldOff

    Notes
    -----
    Counted from the beam broken; the late end of each band, however rarely a column rises. Every further flash adds
    its light to a frame that is still open, and a trigger that hears again before its own picture is taken may
    begin a second one: so the shutter counts in every camera style.
    """
    late = {event.name: event.late for event in timeline(setup)}
    parts = {
        "droplets": late.get("droplets_at_beam", 0.0),
        "jet": max(late.get(name, 0.0) for _, _, name in COLUMNS),
        "shutter": max(late.get("shutter_closes", 0.0), 0.0),
    }
    decides = max(parts, key=parts.get)
    needed = parts[decides]
    return HoldOff(
        needed=needed,
        decides=decides,
        **parts,
        enough=setup.trigger.hold_off >= needed,
        lines=tuple(_hold_off_lines(setup, parts, decides)),
    )


REASONS = {"droplets": "the drops that fall back", "jet": "the jet", "shutter": "the open shutter"}
"""What a hold-off must outlast, in words."""


def _hold_off_lines(setup, parts, decides):
    beam = f"the beam at {show('beam.height', setup.beam.height)}"
    if parts["droplets"]:
        yield f"Thrown drops fall through {beam} until {parts['droplets']:.2f} s after it was broken."
    if parts["jet"]:
        yield f"A tall jet stands in {beam} until {parts['jet']:.2f} s."
    if not parts["droplets"] and not parts["jet"]:
        yield f"Neither thrown drops nor the jet get up to {beam}."
    if parts["shutter"]:
        yield f"The shutter is open until {parts['shutter']:.2f} s; a second flash would add to the same frame."
    needed = parts[decides]
    word = "long enough" if setup.trigger.hold_off >= needed else f"too short: set {math.ceil(10 * needed) / 10:.1f} s"
    why = f"; {REASONS[decides]} decides" if decides != "droplets" else f"; {REASONS[decides]} decide"
    yield f"A hold-off of {show('trigger.hold_off', setup.trigger.hold_off)} is {word}{why if needed else ''}."


def vessel_advice(setup):
    """Say whether the vessel is wide, deep and high enough, and how far the set gets wet.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    VesselAdvice

    Notes
    -----
    Level and bottom are those of `physics.vessel.vessel_effects`, the wet zone that of `dry`.
    A liquid drop does nothing to the level: its own 0.1 cm3 raise a vase by hundredths of a millimetre.
    """
    impact, vessel = impact_of(setup), setup.vessel
    rise, overflows, early_bottom, spilled = (0.0, 0.0, 0.0), "no", False, 0.0
    if not setup.drop.liquid:
        effects = water_entry.vessel_effects(impact)
        rise, overflows = tuple(effects.level_rise), effects.overflows(vessel.rim)
        early_bottom = effects.bottom_before_seal
        spilled = max(rise[1] - vessel.rim, 0.0) * vessel.width**2
    # The open-pool laws want five bodies of width.
    width = 5 * impact.diameter
    found = VesselAdvice(
        level_rise=rise,
        overflows=overflows,
        rim_needed=rise[2],
        width_needed=width,
        wet=wet_zone(setup),
        on_table=wet_zone(setup, -vessel.depth),
        spilled=spilled,
        bottom_before_seal=early_bottom,
        lines=(),
    )
    return replace(found, lines=tuple(_vessel_lines(setup, found)))


def spray_line(stand):
    """Say of one thing in the spray where it stands, how far the drops fly, and what to do."""
    which = f"The flash {stand.name}" if stand.what == "flash" else f"The {stand.what}"
    what = "Likely drops" if stand.state == "likely" else "The fastest drops"
    far = math.ceil(100 * stand.fastest)
    return (
        f"{which} stands in the spray, at {100 * stand.distance:.0f} cm. {what} reach it: move it beyond {far} cm, "
        "or put a clear sheet before it."
    )


def _vessel_lines(setup, found):
    vessel = setup.vessel
    low, likely, high = (1000 * each for each in found.level_rise)
    if high >= 0.5:
        yield f"The level rises by {likely:.0f} mm ({low:.0f} to {high:.0f}) while the cavity is open."
    rim = show("vessel.rim", vessel.rim)
    if found.overflows != "no" and vessel.tray == "none":
        word = "overflows" if found.overflows == "yes" else "may overflow"
        yield f"With a rim of {rim} it {word}: stand it in a tray, or give it a rim of {100 * found.rim_needed:.1f} cm."
    elif found.overflows != "no":
        much = f", about {1e3 * found.spilled:.1f} l" if found.spilled >= 5e-5 else ""
        yield f"The tray takes what runs over{much}: fill up to the brim again before the next drop."
    elif vessel.rim > 0.0015:
        yield f"The rim stands {rim} over the water: the crown is seen through splashed glass. Fill to the brim."
    if vessel.width < found.width_needed:
        yield (
            f"The walls are near: below {100 * found.width_needed:.0f} cm of width the stages are less sure, "
            "and waves run up the glass."
        )
    if found.bottom_before_seal:
        yield "The body lies on the bottom before its cavity closes: more water, or a softer landing under it."
    if found.wet[2]:
        near, far = 100 * found.on_table[1], 100 * found.on_table[2]
        yield f"Thrown drops wet the table to {near:.0f} cm from the middle, the fastest to {far:.0f} cm: clear it."
    for each in in_the_spray(setup):
        yield spray_line(each)
