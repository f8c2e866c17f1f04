"""What the picture of the lesson `stops` says in words."""

import math

from splashlib.physics.stops import nearest_mark, stops_between
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.stops.account_chart import UNDER
from splashlib.picture.stops.power_dial import counted
from splashlib.shoot.chain.body_motion import contact_speed
from splashlib.shoot.decide.exposure_balance import room_over_metered
from splashlib.shoot.setup.pulses import pulse_of

RIGHT = 0.5
"""So many stops off is still a well exposed frame."""
MOST = 16
"""More heads than this are no advice."""


def verdict(frame, ghost, owed=""):
    """Judge the light: a tone, a large word and a sentence.

    Parameters
    ----------
    frame : float, of the flash against a well exposed frame [stops]
    ghost : float, of the room under the flash [stops]
    owed : str, what would pay; "" where nothing can
    """
    off = f"{abs(frame):.1f} stops"
    if abs(frame) > RIGHT:
        what = ("too dark", "are missing") if frame < 0 else ("too bright", "are too many")
        tone = "warning" if abs(frame) <= 1.5 else "bad"
        means = f"One handle alone would have to be: {owed}." if owed else "No handle alone can mend it: move several."
        return tone, f"{off} {what[0]}", f"{off} {what[1]}. {means}"
    if ghost < UNDER:
        tone = "warning" if ghost >= 5 else "bad"
        under = words.stops(ghost).lstrip("+")
        line = (
            f"Bright enough, but the room gets in. It lies {under} under the flash; a ghost is hardly seen from 7 on."
        )
        return tone, "bright enough, but a ghost", line
    if math.isinf(ghost):
        return "good", "well exposed", "Well exposed, and the room is dark: no ghost."
    return "good", "well exposed", f"Well exposed. The room lies {ghost:.1f} stops under the flash: no ghost."


def told(setup, *, frame, ghost, noise, pays, system="metric"):
    """Say in words what the picture shows.

    Parameters
    ----------
    setup : Setup, with all its heads
    frame, ghost : float, as for `verdict` [stops]
    noise : float, of a middle grey [-]
    pays : tuple of shoot.account Payment
    """
    tone, word, line = verdict(frame, ghost, owed(pays, system))
    head, steps = setup.flashes[0], -stops_between(1, setup.flashes[0].power, kind="power")
    streak = contact_speed(setup) * pulse_of(head).t01
    readout = (
        ("The frame", words.stops(frame)),
        ("The room alone", "dark" if math.isinf(ghost) else words.stops(room_over_metered(setup))),
        ("The room under the flash", "dark" if math.isinf(ghost) else words.stops(ghost).lstrip("+")),
        ("From full power", counted(steps)),
        ("Flash duration t0.1", words.part_of_second(pulse_of(head).t01)),
        ("Streak at that speed", words.length(streak, "mm", system)),
        ("Noise in a middle grey", f"{100 * noise:.1f} %"),
    )
    alt = (
        f"Simulated photograph of the {words.name_of(setup.drop)} just over the water: {word}. "
        "Beside it the light in stops: "
        f"power {nearest_mark(head.power, kind='power').label}, {counted(steps)} under full power; "
        f"{words.length(head.distance, 'cm', system)}; diffuser {words.stops(-head.diffuser_loss)}; "
        f"{heads_in_words(len(setup.flashes))}; f/{setup.camera.aperture:g}; ISO {setup.camera.iso:g}. "
        f"The frame comes to {words.stops(frame)}, the room to "
        f"{'nothing' if math.isinf(ghost) else words.stops(room_over_metered(setup))}. "
        f"Noise in a middle grey is {100 * noise:.1f} %."
    )
    return Description(readout=readout, alt=alt, line=line, tone=tone)


def owed(pays, system="metric"):
    """Say what each handle alone would have to be, those that can pay; "" where none can."""
    said = [_says(pay, system) for pay in pays if pay.value is not None and (pay.name != "heads" or pay.value <= MOST)]
    if not said:
        return ""
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} or {said[-1]}"


def _says(pay, system):
    if pay.name == "distance":
        return f"distance {words.length(pay.value, 'cm', system)}"
    if pay.name == "diffuser":
        return f"a diffuser of {pay.value:.1f} stops"
    return {"heads": f"{pay.value:g} heads", "aperture": f"f/{pay.value:g}", "iso": f"ISO {pay.value:.0f}"}[pay.name]


def heads_in_words(count):
    """Say a number of heads."""
    return {1: "one head", 2: "two heads alike", 4: "four heads alike"}.get(count, f"{count} heads alike")
