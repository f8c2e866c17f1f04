"""What a photograph shows, as facts and in words."""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.physics import droplets, water_entry
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.frame_words import stops_off
from splashlib.picture.photo.water.column import jet_happens
from splashlib.shoot import pulse_of
from splashlib.shoot.decide.judgement import HARDLY, MUCH, STILL_SEEN, Judgement, judge
from splashlib.shoot.setup.figures import fixed

MM, MS = 1000.0, 1000.0
SOFT = 1.5
"""Blur of the body's plane, in circles of confusion, from which a picture is called out of focus."""

FLAT = 0.0005
"""What rises no higher over the water than this is not said [m]."""


@dataclass(frozen=True)
class Facts:
    """What the photograph of one drop shows.

    judged : the frame. crown, jet : heights over the water [m]. spray : way of a usual droplet in the same light [m].
    """

    judged: Judgement
    crown: float
    jet: float
    spray: float

    @property
    def name(self):
        """What falls."""
        return words.name_of(self.judged.setup.drop)


def facts(scene):
    """What the photograph of a drop shows.

    Parameters
    ----------
    scene : Scene

    Returns
    -------
    Facts
    """
    judged = judge(scene.setup, scene.draw, behind=scene.behind)
    light = judged.seen.light
    clock = float(scene.water_time(light)) if math.isfinite(light) else 0.0
    return Facts(
        judged=judged,
        crown=_crown(scene, clock),
        jet=_jet(scene, clock),
        spray=_droplet_speed(scene, clock) * pulse_of(scene.setup.flashes[0]).t01,
    )


def _crown(scene, clock):
    if clock <= 0 or not scene.splashes:
        return 0.0
    return float(water_entry.rim_height(scene.impact, clock, dome=scene.domed))


def _jet(scene, clock):
    if not jet_happens(scene):
        return 0.0
    return float(water_entry.jet_height(scene.impact, max(clock, 0.0), slipped=scene.slipped))


def _droplet_speed(scene, clock):
    """Middle speed of the droplets in the air [m/s], 0 where there are none."""
    if clock <= 0 or not scene.splashes or not len(scene.chance.thrown.diameter):
        return 0.0
    speed = np.hypot(*droplets.speeds(scene.chance.thrown, clock))
    flying = np.isfinite(droplets.places(scene.chance.thrown, clock)[2])
    return float(np.median(speed[flying])) if flying.any() else 0.0


def in_words(seen):
    """Say the facts of a photograph in words, as its alternative text.

    Parameters
    ----------
    seen : Facts

    Returns
    -------
    str
    """
    parts = [_dark(seen)] if _dark(seen) else [_body(seen), *_water(seen), *_faults(seen)]
    return "Simulated photograph: " + "; ".join(part for part in parts if part) + "."


def _dark(seen):
    """Why there is nothing but black, or the still set in the room's light."""
    judged = seen.judged
    room = ", only the still set in the light of the room" if judged.room > STILL_SEEN else ", black"
    if judged.fault == "no_flash":
        return f"no flash: the {seen.name} missed the beam{room}"
    if judged.fault == "shut":
        return f"no flash light: the shutter was shut when the flash fired{room}"
    if judged.fault == "black":
        far = f"the light is {fixed(-judged.total)} stops under a good exposure"
        return f"black: {far if math.isfinite(judged.total) else 'there is no light'}"
    if judged.fault == "white":
        return f"nothing but white: {stops_off(judged.total)} too bright"
    return ""


def _body(seen):
    judged = seen.judged
    if judged.fault == "drowned":
        there = f", the {seen.name} no more than a veil in it" if judged.seen.in_frame else f", no {seen.name}"
        return f"the still set in the light of the room, which drowns the flash{there}"
    if judged.covered:
        return f"no {seen.name}: it is behind the curtain"
    if not judged.seen.in_frame:
        return _missing(seen)
    height = judged.seen.height
    sharp = "sharp" if judged.smear <= judged.sharp else f"drawn out by {_mm(judged.smear)}"
    if judged.seen.where == "over":
        return f"{seen.name} {_mm(height)} above the water, {sharp}"
    if judged.seen.where == "entering":
        return f"{seen.name} {_mm(-height)} deep in the water, {sharp}"
    return f"{seen.name} under water, its lowest point {_mm(-height)} deep, {sharp}"


def _missing(seen):
    after = seen.judged.seen.after_contact
    if after < 0:
        return f"no {seen.name}: the light came {_ms(-after)} before it reached the water, it is out of frame"
    if seen.judged.seen.where == "above":
        return f"no {seen.name}: it is still over the top of the frame, {_ms(after)} after it reached the water"
    return f"no {seen.name}: it went into the water {_ms(after)} before the light"


def _water(seen):
    judged = seen.judged
    if judged.fault == "drowned":
        return
    after = judged.seen.after_contact
    if after <= 0:
        yield "still water"
        return
    if not judged.seen.in_frame and seen.spray > judged.sharp:
        yield f"its droplets drawn out by {_mm(seen.spray)}"
    if seen.crown > FLAT:
        yield f"a crown {_mm(seen.crown)} high"
    if seen.jet > FLAT:
        yield f"a jet {_mm(seen.jet)} high"
    if max(seen.crown, seen.jet) <= FLAT:
        yield "the water coming to rest" if after > 0.02 else "the first moment of the splash"


def _faults(seen):
    judged = seen.judged
    if judged.apart > judged.sharp:
        yield f"every edge double, {_mm(judged.apart)} apart"
    if judged.disc > SOFT:
        yield "out of focus"
    if judged.seen.lit < 0.98:
        yield f"only {100 * judged.seen.lit:.0f} % of the frame lit"
    if judged.exposure == "burnt out":
        yield f"burnt out, {stops_off(judged.total)} too bright"
    elif abs(judged.total) > MUCH:
        yield f"{stops_off(judged.total)} too {'bright' if judged.total > 0 else 'dark'}"
    if 0 <= judged.ghost < HARDLY:
        yield "a ghost from the room's light"


def _mm(value):
    value *= MM
    return f"{fixed(value, 2 if value < 0.0995 else 1 if value < 9.95 else 0)} mm"


def _ms(value):
    value *= MS
    return f"{fixed(value, 1 if value < 9.95 else 0)} ms"
