"""What the picture of the lesson `freeze` says: a large word for each light, a verdict, a readout."""

from dataclasses import replace

from splashlib.physics.pulse import class_t01
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.frame_words import TONES, WORDS, fault
from splashlib.shoot import contact_speed, pulse_of, show
from splashlib.shoot.decide.flash_duration import (
    DROPLET,
    POINT,
    power_for_points,
    seen_on_print,
    shortest_power,
    stops_below_full,
    unseen_from,
)
from splashlib.shoot.decide.judgement import judge

LIGHTS = ("1 Full power", "2 Your power", "3 High-speed sync", "4 Two heads")
"""What stands over the four photographs."""
UNKNOWN = "-"


def size(value, unit, system="metric"):
    """Say a length to two digits, or whole above ten: 0.27 mm, 9.7 mm, 18 mm; never finer than a hundredth."""
    number = value * words.LENGTHS[unit][0]
    return words.length(value, unit, system, decimals=2 if number < 0.995 else 1 if number < 9.95 else 0)


def grade(streak, seen=True):
    """How a droplet with a streak [m] looks, one that is seen on the print or not: a tone and a large word."""
    if streak <= POINT * DROPLET or not seen:
        return "good", "POINTS"
    return ("warning", "NEARLY") if streak <= DROPLET else ("bad", "STREAKS")


def verdict(setup, *, moved, apart, seen=True, system="metric"):
    """The tone, the large word and the line under one photograph.

    Parameters
    ----------
    setup : Setup
    moved : float, streak of a droplet in the first head's light [m]
    apart : float, how far apart two heads draw the body [m]
    seen : bool, whether that streak is long enough to be seen on the print
    system : "metric" or "imperial"
    """
    if judge(setup).fault == "no_flash":
        return TONES["no_flash"], WORDS["no_flash"], "the beam was not broken"
    # Edges that lie nearer than the smear is long are not seen apart.
    if len(setup.flashes) > 1 and apart > max(POINT * DROPLET, moved):
        return "bad", "DOUBLE", f"edges {size(apart, 'mm', system)} apart"
    tone, word = grade(moved, seen)
    if setup.flashes[0].kind == "high_speed_sync":
        word = "SMEARED"
    return tone, word, f"droplets {size(moved, 'mm', system)} long"


def print_words(streak, system="metric"):
    """Two lines on the streak on a print."""
    long, away = size(streak, "mm", system), size(unseen_from(streak), "m", system)
    return f"on the print {long} long,\ntoo small to see from {away}"


def told(setup, *, streak, print_width, shots, apart, system="metric"):
    """Say in words what the picture shows.

    Parameters
    ----------
    setup : Setup
    streak : physics.blur.Streak, of a droplet in the first head's light
    print_width : float, of the print [m]
    shots : sequence of (tone, word, line), one for each of the four photographs
    apart : float, how far apart the two heads of the last one draw the body [m]
    system : "metric" or "imperial"
    """
    seen = seen_on_print(setup, streak.on_print, print_width)
    missed = judge(setup).fault == "no_flash"
    line = fault(judge(setup)) if missed else verdict_line(setup, streak, print_width, system)
    return Description(
        readout=_readout(setup, streak, print_width, apart, system),
        alt=_alt(setup, streak, shots, line, system),
        line=line,
        tone="bad" if missed else grade(streak.on_object, seen)[0],
    )


def verdict_line(setup, streak, print_width, system="metric"):
    """Say how far a droplet moves in the light, what that is on the print, and what would be short enough."""
    head = setup.flashes[0]
    far = size(streak.on_object, "mm", system)
    if head.kind == "high_speed_sync":
        return f"High-speed sync freezes nothing: a droplet is smeared over {far} at any power."
    lasts = words.part_of_second(pulse_of(head).t01)
    said = {"POINTS": "Droplets are points", "NEARLY": "Droplets are nearly points", "STREAKS": "Droplets are streaks"}
    word = grade(streak.on_object, seen_on_print(setup, streak.on_print, print_width))[1]
    there = _on_print(setup, streak, print_width, system)
    return f"{said[word]}: in {lasts} they move {far}, {there}.{_advice(setup, word)}"


def _on_print(setup, streak, print_width, system):
    """What a streak is on the print, and who sees it."""
    long, away = size(streak.on_print, "mm", system), size(unseen_from(streak.on_print), "m", system)
    wide = words.length(print_width, "cm", system, decimals=0)
    if seen_on_print(setup, streak.on_print, print_width):
        return f"{long} on a print {wide} wide, which is seen from nearer than {away}"
    return f"{long} on a print {wide} wide: too small to be seen there"


def _advice(setup, word):
    if word == "POINTS":
        return ""
    fits = power_for_points(setup)
    if fits is not None:
        return f" From {_power(fits)} down they are points."
    best = shortest_power(setup)
    lasts = words.part_of_second(pulse_of(_at(setup, best)).t01)
    return f" No power of this unit makes them points; its shortest flash is {lasts}, at {_power(best)}."


def _at(setup, power):
    return replace(setup.flashes[0], power=power)


def _power(value):
    return show("flashes.0.power", value)


def _readout(setup, streak, print_width, apart, system):
    head = setup.flashes[0]
    pulse = pulse_of(head)
    short, long = class_t01(head.kind, power=head.power)
    fits = power_for_points(setup)
    lag, route = show("flashes.0.route_lag", head.route_lag), show("flashes.0.route", head.route)
    return (
        ("Duration t0.1", words.part_of_second(pulse.t01)),
        ("Duration t0.5", words.part_of_second(pulse.t05)),
        ("t0.1 in this class of units", f"{words.part_of_second(short)} to {words.part_of_second(long)}"),
        ("Speed of the droplet", words.speed(contact_speed(setup), system)),
        ("Streak on the set", size(streak.on_object, "mm", system)),
        ("Streak in pixels", f"{streak.pixels:.0f} px"),
        (f"On a print {words.length(print_width, 'cm', system)} wide", size(streak.on_print, "mm", system)),
        ("Too small to see from", size(unseen_from(streak.on_print), "m", system)),
        ("Points from", UNKNOWN if fits is None else f"{_power(fits)} down"),
        ("Light under full power", words.stops(-stops_below_full(setup))),
        ("Two heads draw the body apart by", size(apart, "mm", system)),
        ("Fires after the trigger", f"{lag} ({route})"),
    )


def _alt(setup, streak, shots, line, system):
    frames = [f"{name}: {word.lower()}, {said}" for name, (_, word, said) in zip(LIGHTS, shots, strict=True)]
    head = setup.flashes[0]
    pulse = pulse_of(head)
    kind = show("flashes.0.kind", head.kind)
    return (
        f"Four simulated photographs of the same splash in four lights. {'. '.join(frames)}. Under them the light of "
        f"the {kind} flash at {_power(head.power)} against time: {1e6 * pulse.t05:.0f} µs at half of its peak, "
        f"{1e6 * pulse.t01:.0f} µs at a tenth; the duration of four kinds of flash against the power; and a droplet "
        f"of {size(DROPLET, 'mm', system)} in enlarged pixels, with a streak of {streak.pixels:.0f} pixels. {line}"
    )
