"""The judgement of a frame in words: the one place from which panels, readouts and alternative texts take theirs."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.shoot.decide.judgement import STILL_SEEN

TONES = {
    "": "good",
    "no_flash": "bad",
    "shut": "bad",
    "black": "bad",
    "white": "bad",
    "drowned": "bad",
    "burnt": "bad",
    "covered": "bad",
    "band": "warning",
    "bright": "warning",
    "dark": "warning",
}
"""How each fault of a frame is meant."""
WORDS = {
    "no_flash": "NO FLASH",
    "shut": "SHUTTER CLOSED",
    "black": "BLACK",
    "white": "BURNT OUT",
    "drowned": "FLASH DROWNED",
    "burnt": "BURNT OUT",
    "covered": "BAND",
    "band": "BAND",
    "bright": "TOO BRIGHT",
    "dark": "TOO DARK",
}
"""The large word for each fault."""
HIDES = ("no_flash", "shut", "black", "white", "drowned", "covered")
"""With these faults nothing is to be said of the body: it is not on the frame, or as good as not."""
JUST = 0.0005
"""Nearer to the contact than this is at the contact [s]: a millimetre and a half."""
RANK = ("good", "warning", "bad")


def worse(tone, other):
    """The more serious one of two tones."""
    return max(tone, other, key=RANK.index)


def stops_off(stops):
    """Say how far off a frame is, without a sign: "2.4 stops"."""
    return words.stops(abs(stops)).lstrip("+")


def fault(judged):
    """What spoils a frame most, in one sentence; "" when nothing does.

    Parameters
    ----------
    judged : shoot.decide.judgement.Judgement
    """
    name, covered = words.name_of(judged.setup.drop), 100 * (1 - judged.seen.lit)
    off = stops_off(judged.total) if math.isfinite(judged.total) else ""
    return {
        "": "",
        "no_flash": f"The {name} does not block enough of the beam. Nothing is triggered.",
        "shut": f"The flash fires while the shutter is closed. {_without_flash(judged)}",
        "black": f"The frame is black: {f'it gets {off} too little light' if off else 'it gets no light'}.",
        "white": f"The frame is burnt out all over: {off} too bright, and there is nothing on it but white.",
        "drowned": f"The room drowns the flash: its light is {stops_off(judged.ghost)} stronger." if judged.lit else "",
        "burnt": f"The frame is burnt out: {off} too bright, and what is white has lost its drawing.",
        "covered": f"A curtain covers {covered:.0f} % of the frame when the flash fires, and the {name} with it.",
        "band": f"A curtain covers {covered:.0f} % of the frame when the flash fires.",
        "bright": f"The frame is much too bright, by {off}.",
        "dark": f"The frame is much too dark, by {off}.",
    }[judged.fault]


def _without_flash(judged):
    if judged.room < STILL_SEEN:
        return "The frame is black."
    return "There is only the still set on the frame, in the light of the room."


def verdict(judged, system="metric"):
    """Judge a frame that is to show the body.

    Parameters
    ----------
    judged : shoot.decide.judgement.Judgement
    system : "metric" or "imperial"

    Returns
    -------
    tuple of str
        Tone and line.
    """
    if judged.fault in HIDES:
        return TONES[judged.fault], fault(judged)
    tone, line = _body(judged, system)
    spoilt = fault(judged)
    if not spoilt and judged.room_seen == "plain":
        under = stops_off(judged.ghost)
        spoilt, found = f"The room is plain to see: it lies only {under} under the flash.", "warning"
    else:
        found = TONES[judged.fault]
    if spoilt:
        line = f"{line} But {spoilt[:1].lower()}{spoilt[1:]}"
    return worse(tone, found), line


def _body(judged, system):
    """Where the light finds the body: a tone and one sentence."""
    seen, name = judged.seen, words.name_of(judged.setup.drop)
    when = words.ms(abs(seen.after_contact))
    high = words.length(abs(seen.height), "cm", system)
    if seen.where == "above":
        place = f"still {high} above the water" if seen.height >= 0 else f"only {high} deep"
        return "warning", f"Too early. The {name} is {place}, over the top of the frame."
    if not seen.in_frame and seen.after_contact > 0:
        return "bad", f"Too late. The {name} met the water {when} before the light: its splash is there, and no {name}."
    if not seen.in_frame:
        return (
            "bad",
            f"Too late for this frame. The {name} is {high} above the water, under the frame's lower edge.",
        )
    if seen.after_contact > 0:
        return "good", f"Caught {when} after contact: the {name} is {high} deep."
    return "good", f"Caught. The light finds the {name} {high} above the water, {when} before contact."


def short_body(judged, system="metric"):
    """Where the body is, in a few words: "1.2 cm under the water"."""
    seen = judged.seen
    if not seen.in_frame:
        return after_contact(seen.after_contact)
    high = words.length(abs(seen.height), "cm", system)
    return "just at the water" if abs(seen.after_contact) < JUST else f"{high} {_side(seen.height)} the water"


def _side(height):
    return "over" if height > 0 else "under"


def after_contact(after):
    """Say a time from the contact on [s]."""
    return f"{words.ms(abs(after))} {'after' if after > 0 else 'before'} contact"
