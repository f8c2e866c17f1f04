"""What the picture of the lesson `splash` says: what the clock shows, which delay brings the light there, what next."""

import math
from functools import lru_cache

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.dry_words import warned
from splashlib.picture.kit.frame_words import fault
from splashlib.picture.photo.description import facts
from splashlib.picture.photo.photograph import scene_of
from splashlib.picture.splash.stage_chart import NAMES, SURE, in_a_hundred
from splashlib.picture.splash.wet_zone_words import far_words
from splashlib.shoot import contact_speed, hold_off_advice, splash, vessel_advice
from splashlib.shoot.decide.delays import bare_delay
from splashlib.shoot.decide.judgement import judge

JUST = 0.0005
"""Nearer to the contact than this is at the contact [s]."""
LIKELY = 0.5
"""What comes less often than this is not to be waited for."""
SHOWN = ("crown_peak", "dome_closes", "cavity_seals", "jet_rises", "jet_starts", "jet_peak", "crater_deepest",
         "spout_peak", "film_closes", "crown_falls", "droplets_highest")  # fmt: skip
"""Stages that a picture is taken for, the most wanted first."""


def clock_words(clock):
    """Say the time of the clock, to half a millisecond where it stands between two."""
    decimals = 0 if abs(1e3 * clock - round(1e3 * clock)) < 0.05 else 1
    if abs(clock) < JUST:
        return "at the contact"
    return f"{words.ms(abs(clock), decimals)} {'after' if clock > 0 else 'before'} contact"


def stage_at(stages, clock):
    """The stage that a photographer at this instant is after: the one whose likely time is nearest, in bands."""
    inside = [stage for stage in stages if stage.name in SHOWN and stage.early <= clock <= stage.late]
    return min(inside, key=lambda stage: abs(math.log(max(clock, 1e-4) / stage.likely)), default=None)


def told(setup, stages, *, clock, delay, view, system="metric"):
    """Say in words what the picture of `splash` shows.

    Parameters
    ----------
    setup : Setup
    stages : sequence of Stage
    clock : float [s after contact]
    delay : shoot Delay, for the learner's own camera and this instant
    view : Setup, that of the photograph
    system : "metric" or "imperial"

    Returns
    -------
    tuple
        dict of str: "clock", "now", "delay", "next", the words in the picture; Description.
    """
    stage = stage_at(stages, clock)
    decimals = 1 if setup.drop.liquid else 0
    said = {
        "clock": _capital(clock_words(clock)),
        "now": _now(setup, stages, stage, clock, decimals),
        "delay": words.ms(delay.value, 1) if not delay.short_by else "out of reach",
        "next": _next(setup, stage, delay),
    }
    tone = "bad" if delay.short_by else "good" if stage or clock <= JUST else "warning"
    tone, line = warned(setup, tone, _line(setup, said, splash(setup), clock, delay), system)
    alt = f"{_photo_alt(view)} {_capital(clock_words(clock))}: {said['now']} {line} {_stages_alt(stages)}"
    return said, Description(
        readout=_readout(setup, said, stage, system), alt=alt, line=line, tone=tone, idle=_idle(setup)
    )


def _idle(setup):
    if not setup.drop.liquid:
        return ()
    return (("drop.surface", f"A drop of {setup.drop.form} has no surface of its own to be rough or dry."),)


def _capital(text):
    return text[:1].upper() + text[1:]


def _photo_alt(view):
    seen = facts(scene_of(view))
    parts = [f"a crown {1e3 * seen.crown:.0f} mm high"] if seen.crown > JUST else []
    parts += [f"a jet {1e3 * seen.jet:.0f} mm high"] if seen.jet > JUST else []
    body = {"over": "over the water", "entering": "half in the water", "under": "under water"}.get(seen.judged.body)
    parts += [f"the {seen.name} {body}"] if body else []
    return f"Simulated photograph: {', '.join(parts) or 'the water, and nothing over it'}."


def _stages_alt(stages):
    rows = (f"{NAMES[each.name]} {words.ms(each.early)} to {words.ms(each.late)}" for each in stages)
    return f"Beside it the stages as bands on a time axis: {', '.join(rows)}."


def _now(setup, stages, stage, clock, decimals):
    if clock <= JUST:
        return f"The {words.name_of(setup.drop)} is still in the air." if clock < -JUST else "The first touch."
    if stage is None:
        return _before(stages, clock, decimals)
    band = f"{words.ms(stage.early, decimals)} to {words.ms(stage.late, decimals)}"
    rare = "" if stage.chance >= SURE else f", {in_a_hundred(stage.chance)} drops"
    return f"{_capital(NAMES[stage.name])}: {band}{rare}."


def _before(stages, clock, decimals):
    """What is coming, when the clock stands in no band."""
    coming = [each for each in stages if each.name in SHOWN and each.early > clock]
    if not coming:
        return "The water comes to rest."
    first = min(coming, key=lambda each: each.early)
    return f"Still to come: {NAMES[first.name]}, from {words.ms(first.early, decimals)}."


@lru_cache(maxsize=128)
def _bracket(setup, name):
    """The delays between which a stage comes; asked for again at every step of the clock."""
    return bare_delay(setup, event=name)


@lru_cache(maxsize=64)
def _advice(setup):
    return hold_off_advice(setup), vessel_advice(setup)


def _next(setup, stage, delay):
    if math.isinf(delay.short_by):
        return "Nothing breaks the beam: there is no light."
    if delay.short_by:
        return f"The light is {words.ms(delay.short_by)} late with no delay at all."
    if stage is None:
        return "Too early? More delay. Too late? Less."
    bracket = _bracket(setup, stage.name)
    return (
        f"Too early? More, up to {words.ms(bracket.late)}. "
        f"Too late? Less, down to {words.ms(bracket.early)}."
    )  # fmt: skip


def _line(setup, said, stages, clock, delay):
    if math.isinf(delay.short_by):
        return fault(judge(setup))
    crownless = f" {_no_crown(setup, stages)}" if clock > JUST and _no_crown(setup, stages) else ""
    return f"{_delay_line(said, delay)}{crownless}"


def _no_crown(setup, stages):
    """Why there is no crown to wait for, if there is none."""
    chance = next((stage.chance for stage in stages if stage.name == "crown_peak"), 0.0)
    if chance >= LIKELY:
        return ""
    name = words.name_of(setup.drop)
    if setup.drop.surface == "smooth_dry" and not setup.drop.liquid:
        rest = "No crown comes" if chance == 0 else f"A crown hardly comes, {in_a_hundred(chance)} drops"
        return f"{rest}: smooth and dry, the {name} slips into the water. Wet it, or let it fall from higher."
    return "No crown comes." if chance == 0 else f"A crown hardly comes: {in_a_hundred(chance)} drops."


def _delay_line(said, delay):
    if delay.short_by:
        return (
            f"Out of reach for this camera: without any delay the light is {words.ms(delay.short_by)} late. "
            "Take a later stage, a higher beam, or hold the shutter open."
        )
    return f"Set the delay to {said['delay']}. {said['next']}"


def _readout(setup, said, stage, system):
    hold, vessel = _advice(setup)
    bracket = _bracket(setup, stage.name) if stage else None
    return (
        ("Clock", said["clock"].lower()),
        ("Delay to set", said["delay"]),
        ("Stage", NAMES[stage.name] if stage else "none"),
        ("Delays to try for it", f"{words.ms(bracket.early)} to {words.ms(bracket.late)}" if bracket else "-"),
        ("Speed at the water", words.speed(contact_speed(setup), system)),
        ("Hold-off at least", f"{math.ceil(10 * hold.needed) / 10:.1f} s"),
        ("Thrown drops reach", far_words(vessel.wet[1], system) if vessel.wet[2] else "hardly past the rim"),
        ("Water rises", words.length(vessel.level_rise[1], "cm", system)),
    )
