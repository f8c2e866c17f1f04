"""The chain of one drop written out step by step, without arrays and without closed forms: the independent check."""

import math

from splashlib.physics.constants import GRAVITY
from splashlib.shoot import body_terminal_speed, pulse_of


def fall_to(setup, drop_height, to_height, step=2e-5):
    """Time from rest until a fall of `drop_height` - `to_height` is done, by small steps (fourth order)."""
    vt = body_terminal_speed(setup.drop)
    fallen, speed, time = 0.0, 0.0, 0.0
    wanted = max(drop_height - to_height, 0.0)

    def rate(v):
        return GRAVITY * (1 - (v / vt) ** 2)

    while fallen < wanted:
        k1 = rate(speed)
        k2 = rate(speed + step / 2 * k1)
        k3 = rate(speed + step / 2 * k2)
        k4 = rate(speed + step * k3)
        faster = speed + step / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        further = fallen + step * (speed + faster) / 2
        if further >= wanted:
            return time + step * (wanted - fallen) / (further - fallen)
        fallen, speed, time = further, faster, time + step
    return time


def lowest_point_at_break(setup, toward):
    """Lower the ellipse in tiny steps until the wanted share of the beam's middle line is dark."""
    a, b = setup.drop.diameter / 2, setup.drop.height / 2
    beam = setup.beam
    if abs(toward) >= a:
        return None
    half_chord = b * math.sqrt(1 - (toward / a) ** 2)
    needed = beam.blocked_share * beam.width
    if 2 * half_chord < needed:
        return None
    low, high = beam.height - 2 * b - beam.width, beam.height + 2 * b + beam.width
    for _ in range(80):
        lowest = (low + high) / 2
        middle = lowest + b
        dark = min(middle + half_chord, beam.top) - max(middle - half_chord, beam.bottom)
        # Coming from above, the dark part grows until the body reaches its lower edge.
        enough = dark >= needed or middle + half_chord < beam.top
        low, high = (lowest, high) if enough else (low, lowest)
    return (low + high) / 2


def one_drop(setup, draw, i):
    """Date the events of drop i of a draw; None for the light when the beam is missed."""
    camera = setup.camera
    release = max(setup.drop.release_height + draw.release[i], 0.0)
    at_break = lowest_point_at_break(setup, draw.toward[i])
    missed = at_break is None
    at_break = setup.beam.top - setup.beam.blocked_share * setup.beam.width if missed else at_break
    to_break = fall_to(setup, release, at_break)
    dates = {"released": -to_break, "contact": fall_to(setup, release, 0.0) - to_break, "missed": missed}
    if missed:
        return dates
    answers = max(setup.trigger.lag + draw.trigger[i], 0.0) + setup.trigger.delay
    if camera.style == "held_open":
        opens, fires = -to_break - camera.open_before, answers
    else:
        opens = fires = answers + max(camera.lag + draw.camera[i], camera.sweep, 0.0)
    dates |= {"trigger_answers": answers, "shutter_open": opens, "shutter_closes": opens + camera.exposure_time}
    for k, head in enumerate(setup.flashes):
        starts = fires + max(head.route_lag + draw.route[i, k], 0.0)
        dates[f"flash_starts.{k}"] = starts
        dates[f"flash_half.{k}"] = starts + _half(pulse_of(head))
    return dates


def _half(pulse):
    """When half of the light is out, from its brightness alone."""
    count = 200_000
    step = 4 * pulse.t01 / count
    light = [float(x) for x in pulse.intensity([step * (k + 0.5) for k in range(count)])]
    half, total = sum(light) / 2, 0.0
    for k, each in enumerate(light):
        total += each
        if total >= half:
            return step * (k + 1)
    return math.inf
