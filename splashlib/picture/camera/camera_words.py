"""What the picture of the lesson `camera` says: a large word for each frame, a verdict, a readout."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.shoot.decide.delays import beam_for_lag
from splashlib.shoot.setup.field_rows import STYLES

NAMES = {"mirror": "Mirror down", "mirror_up": "Mirror up", "no_mirror": "No mirror", "held_open": "Held open"}
NUMBERED = {style: f"{number} {NAMES[style]}" for number, style in enumerate(STYLES, start=1)}
TONES = {"caught": "good", "early": "warning", "late": "bad", "band": "warning", "black": "bad", "no_light": "bad"}
WORDS = {
    "caught": "CAUGHT",
    "late": "GONE",
    "early": "TOO EARLY",
    "band": "BAND",
    "black": "BLACK",
    "no_light": "NO FLASH",
}
"""The large word of each outcome of `shoot.styles`; a stage of the splash is "TOO LATE" and not "GONE"."""
JUST = 0.0005
"""Nearer to the contact than this is at the contact [s]: a millimetre and a half."""
STAGES = {"contact": "contact", "crown_peak": "crown", "jet_peak": "jet"}


def verdict(shot, aim, system="metric"):
    """The tone, the large word and the line under one frame."""
    line = _line(shot, aim, system)
    if shot.outcome == "late" and aim not in (None, "contact"):
        return "bad", "TOO LATE", line
    if shot.outcome == "caught" and aim == "contact" and shot.short_by > JUST:
        # In the frame, but not at the instant that was asked for.
        return "warning", "LATE", line
    return TONES[shot.outcome], WORDS[shot.outcome], line


def _line(shot, aim, system):
    seen = shot.seen
    if shot.outcome == "no_light":
        return "the beam was not broken"
    if shot.outcome == "black":
        return "the shutter is closed"
    if shot.outcome == "band":
        return f"{100 * (1 - seen.lit):.0f} % of it is dark"
    if shot.outcome == "late" or aim not in (None, "contact"):
        return after_words(seen.after_contact)
    high = words.length(abs(seen.height), "cm", system)
    if abs(seen.after_contact) < JUST:
        return "just at the water"
    return f"{high} {'over' if seen.height > 0 else 'under'} the water"


def after_words(after):
    """Say a time from the contact on [s]."""
    return f"{words.ms(abs(after))} {'after' if after > 0 else 'before'} contact"


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
    )


def _verdict_line(shot, aim, contact):
    """What the chosen camera gets, and what its delay has to do with it."""
    name, lag = words.name_of(shot.setup.drop), shot.lag
    if shot.outcome == "no_light":
        return f"the {name} does not block the beam. Nothing is triggered."
    if shot.outcome == "black":
        return "the flash fires while the shutter is closed. The frame is black."
    if shot.outcome == "band":
        return f"a curtain covers {100 * (1 - shot.seen.lit):.0f} % of the frame when the flash fires."
    if aim not in (None, "contact"):
        return _stage_line(shot, aim)
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
    if abs(shot.setup.trigger.delay - best) < 0.00005:
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
