"""What the picture of the lesson `room` says: the large word, a verdict, a readout."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.picture.kit.frame_words import TONES, WORDS, fault
from splashlib.picture.photo.frames_by_light import spot, still_open
from splashlib.picture.photo.photograph import described
from splashlib.shoot import change, dark_enough, show
from splashlib.shoot.decide.exposure_balance import flash_light, ghost_stops, room_light, room_over_metered
from splashlib.shoot.decide.judgement import HARDLY, PLAIN, WHOLE, judge
from splashlib.shoot.decide.room_light import AGAIN, ROOMS, STRAYS, stray_lux
from splashlib.shoot.setup.figures import figures

LEVELS = {
    "none": ("good", "CLEAN", "It is gone"),
    "gone": ("good", "CLEAN", "It is gone"),
    "hardly": ("good", "CLEAN ENOUGH", "It is hardly seen"),
    "trace": ("warning", "A TRACE OF ROOM", "It is seen where the picture is dark"),
    "plain": ("bad", "ROOM PLAIN TO SEE", "It is plain to see"),
    "drowned": ("bad", WORDS["drowned"], "It is stronger than the flash"),
}
"""For each level of the judgement: tone, the large word, and the same in a sentence."""
NAMES = {
    "indicator": "The indicator lamp",
    "telephone": "The telephone's screen",
    "modelling": "The modelling lamp",
}
FAINTEST_SPOT = 2.0**-9
"""Exposure of a spot that is still found on black, 1 a white card as metered."""

RED_SPOT = "A RED SPOT"


def verdict(setup, now, other=None, beam=None):
    """The tone and the large word under the photograph.

    Parameters
    ----------
    setup, now : Setup
        As chosen; and as photographed, in all the light there is.
    other : str, optional
        What else gives light.
    beam : Setup, optional
        The one whose beam is in the frame.
    """
    judged = judge(now)
    if judged.fault in ("no_flash", "shut"):
        slit = judged.fault == "shut" and now.camera.style != "held_open"
        return TONES[judged.fault], "NEARLY ALL DARK" if slit else WORDS[judged.fault]
    if judged.fault in ("black", "white", "burnt"):
        return TONES[judged.fault], WORDS[judged.fault]
    if judged.seen.lit < WHOLE:
        return "warning", f"A DARK BAND, {100 * (1 - judged.seen.lit):.0f} %"
    if other == "again" and still_open(now, AGAIN):
        return "bad", "TWO PICTURES IN ONE"
    if beam is not None and spot(beam) > FAINTEST_SPOT:
        return "bad", RED_SPOT
    if judged.fault in ("bright", "dark"):
        return TONES[judged.fault], WORDS[judged.fault]
    return LEVELS[judged.room_seen][:2]


def told(setup, now, other=None, beam=None):
    """Say in words what the picture shows."""
    tone, word = verdict(setup, now, other, beam)
    line = _line(setup, now, other, beam)
    return Description(readout=_readout(setup, now), alt=_alt(now, other, beam, word), line=line, tone=tone)


def _line(setup, now, other, beam):
    judged, camera = judge(now), now.camera
    slit = camera.style != "held_open" and math.isfinite(judged.seen.light)
    if judged.fault == "shut" and not slit:
        return f"{fault(judged)} Hold it open for longer."
    if judged.fault in ("no_flash", "black", "white"):
        return fault(judged)
    if judged.seen.lit < WHOLE:
        covered = f"{100 * (1 - judged.seen.lit):.0f} % of the frame" if judged.lit else "nearly all of the frame"
        return (
            f"{show('camera.shutter', camera.shutter)} is too fast: a curtain covers {covered} when the flash fires. "
            f"{_at_sync(now)}"
        )
    said = _others(setup, now, other, beam)
    if judged.fault in ("burnt", "bright", "dark"):
        return f"{fault(judged)} {said}"
    return said


def _others(setup, now, other, beam):
    """What the room does, and what else gives light."""
    if other == "again":
        return _again(now)
    if beam is not None:
        return _beam(beam)
    room = _room(now)
    return f"{NAMES[other]} alone gives {light(stray_lux(setup, other))}. {room}" if other in STRAYS else room


def _at_sync(now):
    """What the fastest shutter with the whole frame open would do."""
    under = ghost_stops(change(now, "camera.shutter", now.camera.sync_speed))
    if under >= HARDLY:
        return "The room was dark enough before that."
    return f"And at {show('camera.shutter', now.camera.sync_speed)} the room is too bright: darken it."


def _room(now):
    under, enough = ghost_stops(now), dark_enough(now)
    side = "under" if under >= 0 else "over"
    said = "gives no light" if math.isinf(under) else f"lies {abs(under):.1f} stops {side} the flash"
    limit = "" if under >= HARDLY else f" Dark enough would be {light(enough)}."
    return f"{_opened(now)} the room {said}. {LEVELS[judge(now).room_seen][2]}.{limit}"


def _opened(setup):
    if setup.camera.style == "held_open":
        return f"Held open for {figures(setup.camera.open_time, 3)} s,"
    return f"At {show('camera.shutter', setup.camera.shutter)}"


def _again(now):
    if still_open(now, AGAIN):
        return (
            "Every flash in an open frame adds a picture: here the splash 80 ms later, over the fruit. The still "
            "set gets "
            "twice the light, one stop more."
        )
    return "The second flash finds the shutter closed. It adds nothing."


def _beam(beam):
    bright = spot(beam)
    if bright > FAINTEST_SPOT:
        return (
            "The beam writes a red spot where it meets something, and a line in mist: "
            f"{-math.log2(bright):.1f} stops under white at its brightest. A darker room does not help: move the beam."
        )
    return "The beam crosses the frame, but the shutter is open too briefly for its spot to be seen."


def _readout(setup, now):
    held, quick = (change(now, "camera.style", style) for style in ("held_open", "mirror"))
    return (
        ("Light at the set", f"{light(now.room.lux)} ({likeness(now.room.lux)})"),
        ("Flash", f"{flash_light(now):.0f} lx·s"),
        ("Room in this frame", f"{figures(room_light(now))} lx·s"),
        (f"Held open {figures(held.camera.open_time, 3)} s", _under(held)),
        (f"Shutter {show('camera.shutter', quick.camera.shutter)}", _under(quick)),
        ("Dark enough held open", light(dark_enough(held))),
        ("Dark enough with that shutter", light(dark_enough(quick))),
        ("Still set without flash", _over(room_over_metered(now))),
    )


def _under(setup):
    under = ghost_stops(setup)
    if math.isinf(under):
        return "no room light"
    return f"{abs(under):.1f} stops {'under' if under >= 0 else 'over'}"


def _over(stops):
    return "black" if math.isinf(stops) else words.stops(stops)


def light(lux):
    """Say an illuminance [lx] with two digits."""
    return f"{figures(lux)} lx"


def likeness(lux):
    """The named room that is nearest."""
    if lux <= 0:
        return "no light"
    return min(ROOMS, key=lambda room: abs(math.log(room[1] / lux)))[0]


def still_words(over, spotted=False):
    """What a test frame without the flash shows, and how far the set is from a good exposure; `spotted`: by a beam."""
    if spotted:
        said = "The red spot is there too."
    elif over < -HARDLY - 0.5:
        said = "Black."
    elif over < -PLAIN:
        said = "Nearly black: just an outline."
    else:
        said = "The vase is plain to see." if over < 1 else "Bright, as in daylight."
    far = "no light at all" if math.isinf(over) else f"{abs(over):.1f} stops {'under' if over < 0 else 'over'}-exposed"
    return said, far


def _alt(now, other, beam, word):
    quick, held = (_under(change(now, "camera.style", style)) for style in ("mirror", "held_open"))
    extra = {"again": " A second flash fires 80 ms later.", "beam": " A beam crosses the frame."}.get(other, "")
    seen = "" if other == "again" else f"{described(now)} "
    line = beam is not None and spot(beam) > FAINTEST_SPOT
    small = ", ".join(still_words(room_over_metered(now), line)).lower().replace(".,", ",")
    return (
        f"{word.capitalize()}. {seen}{_opened(now)} in {light(now.room.lux)}.{extra} A small frame of the still set "
        f"without "
        f"the flash: {small}. Beside them a ladder in stops under the flash: this room with the shutter at "
        f"{show('camera.shutter', now.camera.shutter)} {quick}, held open for "
        f"{figures(now.camera.open_time, 3)} s {held}; plain to see down to 5, hardly seen from 7, gone from 10."
    )
