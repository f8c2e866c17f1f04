"""What the picture of the lesson `camera` says: a large word for each frame, a verdict, a readout."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.frame_words import HIDES, TONES, WORDS, after_contact, fault, short_body, stops_off, worse
from splashlib.shoot.decide.delays import beam_for_lag
from splashlib.shoot.setup.field_rows import STYLES

NAMES = {"mirror": "Mirror down", "mirror_up": "Mirror up", "no_mirror": "No mirror", "held_open": "Held open"}
NUMBERED = {style: f"{number} {NAMES[style]}" for number, style in enumerate(STYLES, start=1)}
BODY = {"caught": ("good", "CAUGHT"), "early": ("warning", "TOO EARLY"), "late": ("bad", "GONE")}
"""Tone and large word of each outcome where the body is wanted in the frame."""
STAGE_WORDS = {"early": ("warning", "TOO EARLY"), "late": ("bad", "TOO LATE")}
"""The same where a stage of the splash is wanted; one that is caught has its own name."""
STAGES = {"contact": "contact", "crown_peak": "crown", "jet_peak": "jet"}
JUST = 0.00005
"""A delay is as good as another one that is nearer than this [s]."""


def verdict(shot, aim, system="metric"):
    """The tone, the large word and the line under one frame.

    They follow from the frame alone: the same light gets the same verdict, whichever delay brought it there.
    """
    spoilt, staged = shot.judged.fault, aim not in (None, "contact")
    if spoilt in (*HIDES, "band", "burnt"):
        return TONES[spoilt], WORDS[spoilt], _spoilt(shot.judged)
    if staged:
        tone, word = STAGE_WORDS.get(shot.outcome, ("good", STAGES[aim].upper()))
    else:
        tone, word = BODY[shot.outcome]
    line = after_contact(shot.seen.after_contact) if staged else short_body(shot.judged, system)
    return worse(tone, TONES[spoilt]), word, line


def _spoilt(judged):
    """What spoils a frame, in a few words."""
    dark = f"{100 * (1 - judged.seen.lit):.0f} % of it is dark"
    return {
        "no_flash": "the beam was not broken",
        "shut": "the flash was too early or late",
        "black": "no light to speak of",
        "white": f"{stops_off(judged.total)} too bright",
        "drowned": f"the room is {stops_off(judged.ghost)} stronger",
        "covered": f"{dark}, the body too",
        "band": dark,
        "burnt": f"{stops_off(judged.total)} too bright",
    }[judged.fault]


def told(setup, shots, aim, *, contact, wanted, system="metric"):
    """Say in words what the picture shows.

    Parameters
    ----------
    setup : Setup
    shots : sequence of Shot
    aim : str or None
    contact : float [s after the beam is broken]
    wanted : (float, float) or None, band of the stage that is aimed at [s]
    system : "metric" or "imperial"
    """
    mine = next(shot for shot in shots if shot.style == setup.camera.style)
    line = _verdict_line(mine, aim, contact)
    return Description(
        readout=_readout(mine, shots, aim, contact, system),
        alt=_alt(setup, shots, aim, contact, wanted, system),
        line=f"{NUMBERED[mine.style]}: {line}",
        tone=verdict(mine, aim)[0],
        idle=_idle(setup, aim),
    )


def _verdict_line(shot, aim, contact):
    """What the chosen camera gets, and what its delay has to do with it."""
    judged, lag = shot.judged, shot.lag
    spoilt = fault(judged)
    small = f"{spoilt[:1].lower()}{spoilt[1:]}"
    if judged.fault in (*HIDES, "band"):
        return small
    said = _stage_line(shot, aim) if aim not in (None, "contact") else _body_line(shot, lag, contact)
    return f"{said} But {small}" if small else said


def _idle(setup, aim):
    """Handles that change nothing as things stand, and why."""
    found = []
    if aim is not None:
        found.append(("trigger.delay", "Each camera has the best delay of its own now."))
    if setup.camera.style == "held_open":
        found.append(("camera.lag", "A shutter that is held open has no lag: the beam fires the flash."))
    return tuple(found)


def _body_line(shot, lag, contact):
    name = words.name_of(shot.setup.drop)
    if lag > contact:
        late = words.ms(lag - contact)
        said = f"the {name} is in the frame, but late" if shot.outcome == "caught" else f"the {name} has gone"
        return f"{said}. Even without any delay the light comes {late} after contact. No delay repairs that."
    return _in_reach(shot, name, contact - lag)


def _stage_line(shot, aim):
    if shot.short_by > 0:
        said = "within its band" if shot.outcome == "caught" else "too late"
        return f"the light comes {words.ms(shot.short_by)} after the {STAGES[aim]} is likely: {said}."
    return f"a delay of {words.ms(shot.setup.trigger.delay, 1)} puts the light on the {STAGES[aim]}."


def _in_reach(shot, name, best):
    """The instant of contact can be caught: say whether it is, and with which delay."""
    if shot.outcome == "late":
        return f"the {name} has gone, because the delay is too long. For the contact it is {words.ms(best, 1)}."
    said = "caught" if shot.outcome == "caught" else f"the {name} is still over the frame"
    if abs(shot.setup.trigger.delay - best) < JUST:
        return f"{said}. A delay of {words.ms(best, 1)} puts the light on the contact."
    return f"{said}. For the contact itself the delay is {words.ms(best, 1)}."


def _readout(mine, shots, aim, contact, system):
    name = NAMES[mine.style].lower()
    rows = [(NUMBERED[shot.style], f"{_light(shot)}: {verdict(shot, aim, system)[1].lower()}") for shot in shots]
    rows.append(("From the beam to the water", words.ms(contact, 1)))
    needed = beam_for_lag(mine.setup, mine.lag) if math.isfinite(mine.lag) else math.nan
    # Both are for the contact, whatever the lights are aimed at.
    rows.append((f"Delay for the contact, {name}", _best(contact - mine.lag)))
    lowest = "none" if math.isnan(needed) else words.length(max(needed, 0), "cm", system)
    rows.append((f"Lowest beam for it, {name}", lowest))
    return tuple(rows)


def _best(delay):
    if math.isnan(delay):
        return "-"
    return words.ms(delay, 1) if delay >= 0 else f"none, {words.ms(-delay, 1)} short"


def _light(shot):
    if math.isnan(shot.seen.light):
        return "no light"
    return f"{words.ms(shot.seen.light, 1)} ± {1000 * shot.spread:.1f}"


def _alt(setup, shots, aim, contact, wanted, system):
    frames = [f"{NUMBERED[shot.style]}: {_spoken(verdict(shot, aim, system))}" for shot in shots]
    dates = [f"{NUMBERED[shot.style]} {_light(shot)}" for shot in shots]
    high = words.length(setup.beam.height, "cm", system)
    stage = f" The {STAGES[aim]} comes after {words.ms(wanted[0])} to {words.ms(wanted[1])}." if wanted else ""
    return (
        f"Four simulated photographs of the same drop, side by side. {'. '.join(frames)}. Under them, on one clock, "
        f"the fall and the lags of the four cameras. The {words.name_of(setup.drop)} breaks the beam {high} over the "
        f"water and meets the water {words.ms(contact, 1)} later.{stage} The light comes after: {', '.join(dates)}."
    )


def _spoken(said):
    _, word, line = said
    return f"{word.lower()}, {line}"
