"""What the picture of the lesson `stops` says in words."""

import math

from splashlib.physics.stops import nearest_mark, stops_between
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.dry_words import warned
from splashlib.picture.kit.frame_words import TONES, WORDS, fault, stops_off
from splashlib.picture.photo.photograph import described
from splashlib.picture.stops.power_dial import counted
from splashlib.shoot import contact_speed, pulse_of
from splashlib.shoot.decide.exposure_account import HEADS
from splashlib.shoot.decide.judgement import HARDLY, MUCH, OFF, PLAIN
from splashlib.shoot.setup.figures import figures, fixed

HEADS_IN_WORDS = {1: "one head", 2: "two heads", 4: "four heads"}
"""So many heads can be picked; another number is rounded up to the next of them."""
NEAREST, FARTHEST = 0.15, 2.0
"""Distances of a lamp that can be set [m]."""
MOST_LOSS = 3.0
"""The thickest diffuser that can be set [stops]."""


def verdict(judged, owed=""):
    """Judge the light: a tone, a large word and a sentence.

    Parameters
    ----------
    judged : shoot.decide.judgement.Judgement
    owed : str, what would pay; "" where nothing can
    """
    if judged.fault in ("no_flash", "shut", "covered"):
        return TONES[judged.fault], WORDS[judged.fault].lower(), fault(judged)
    frame, ghost = judged.flash, judged.ghost
    if abs(frame) > OFF:
        return _off(frame, owed)
    if ghost < 0:
        return TONES["drowned"], "the room drowns it", fault(judged)
    if ghost < HARDLY:
        tone = "warning" if ghost >= PLAIN else "bad"
        line = (
            f"Bright enough, but the room gets in. It lies {stops_off(ghost)} under the flash; a ghost is hardly seen "
            "from 7 on."
        )
        return tone, "bright enough, but a ghost", line
    if math.isinf(ghost):
        return "good", "well exposed", "Well exposed, and the room is dark: no ghost."
    return "good", "well exposed", f"Well exposed. The room lies {stops_off(ghost)} under the flash: no ghost."


def _off(frame, owed):
    off = stops_off(frame)
    what = ("too dark", "are missing") if frame < 0 else ("too bright", "are too many")
    tone = "warning" if abs(frame) <= MUCH else "bad"
    means = f"One handle alone would do: {owed}." if owed else "No handle alone can mend it: move several."
    return tone, f"{off} {what[0]}", f"{off} {what[1]}. {means}"


def told(judged, *, noise, pays, moved="", system="metric"):
    """Say in words what the picture shows.

    Parameters
    ----------
    judged : shoot.decide.judgement.Judgement, with all heads
    noise : float, of a middle grey [-]
    pays : tuple of shoot.account Payment
    moved : str, name of the payment whose handle was moved last
    system : "metric" or "imperial"
    """
    tone, word, line = verdict(judged, owed(pays, moved, system))
    setup, head = judged.setup, judged.setup.flashes[0]
    tone, line = warned(setup, tone, line, system)
    steps = -stops_between(1, head.power, kind="power")
    streak = contact_speed(setup) * pulse_of(head).t01
    dark = math.isinf(judged.ghost)
    readout = (
        ("The frame", words.stops(judged.flash)),
        ("The room alone", "dark" if dark else words.stops(judged.room)),
        ("The room under the flash", "dark" if dark else words.stops(judged.ghost).lstrip("+")),
        ("From full power", counted(steps)),
        ("Flash duration t0.1", words.part_of_second(pulse_of(head).t01)),
        ("Streak at that speed", words.length(streak, "mm", system)),
        ("Noise in a middle grey", f"{fixed(100 * noise, 1)} %"),
    )
    alt = (
        f"{described(setup)} Its light: {word}. Beside it the light in stops: "
        f"power {nearest_mark(head.power, kind='power').label}, {counted(steps)} under full power; "
        f"{words.length(head.distance, 'cm', system)}; diffuser {words.stops(-head.diffuser_loss)}; "
        f"{heads_in_words(len(setup.flashes))}; f/{figures(setup.camera.aperture, 3)}; "
        f"ISO {figures(setup.camera.iso, 6)}. "
        f"The frame comes to {words.stops(judged.flash)}, the room to "
        f"{'nothing' if dark else words.stops(judged.room)}. "
        f"Noise in a middle grey is {fixed(100 * noise, 1)} %."
    )
    return Description(readout=readout, alt=alt, line=line, tone=tone)


def owed(pays, moved="", system="metric"):
    """Say what each handle alone would have to be, those that can pay, the one just moved first; "" where none can.

    Parameters
    ----------
    pays : sequence of shoot.account Payment, in the order in which they are offered
    moved : str, name of one of them
    system : "metric" or "imperial"
    """
    ordered = sorted(pays, key=lambda pay: pay.name != moved)
    said = [word for word in (_says(pay, system) for pay in ordered) if word]
    if not said:
        return ""
    return said[0] if len(said) == 1 else f"{', '.join(said[:-1])} or {said[-1]}"


def _says(pay, system):
    """One payment as a person would say it; "" for what no handle of the panel can be."""
    if pay.value is None:
        return ""
    say = {"distance": _distance, "diffuser": _diffuser, "heads": _heads}.get(pay.name)
    if say:
        return say(pay.value, system)
    return f"f/{figures(pay.value, 3)}" if pay.name == "aperture" else f"ISO {pay.value:.0f}"


def _distance(value, system):
    if not NEAREST <= value <= FARTHEST:
        return ""
    return f"the lamp at {words.length(value, 'cm', system, decimals=0)}"


def _diffuser(value, system):
    halves = round(2 * value) / 2
    if not 0 <= halves <= MOST_LOSS:
        return ""
    if not halves:
        return "no diffuser"
    return f"a diffuser of {figures(halves)} {'stop' if halves == 1 else 'stops'}"


def _heads(value, system):
    count = next((count for count in HEADS if count >= value), None)
    return "" if count is None else HEADS_IN_WORDS[count]


def heads_in_words(count):
    """Say a number of heads."""
    return HEADS_IN_WORDS[1] if count == 1 else f"{HEADS_IN_WORDS.get(count, f'{count} heads')} alike"
