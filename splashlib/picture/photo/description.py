"""What a photograph shows, as facts and in words."""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.physics import droplets, water_entry
from splashlib.physics.light.lens import blur_disc, circle_of_confusion
from splashlib.picture.photo.water.column import jet_happens
from splashlib.shoot.chain.events import body_height
from splashlib.shoot.chain.framing import framed
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops, room_over_metered
from splashlib.shoot.setup.pulses import pulse_of

MM, MS = 1000.0, 1000.0
FAINT = 7.0
"""Stops under the flash from which the room's light leaves no ghost that is seen."""

SOFT = 1.5
"""Blur of the body's plane, in circles of confusion, from which a picture is called out of focus."""

SEEN = -8.0
"""Stops over metered below which even a white thing is lost in black."""


@dataclass(frozen=True)
class Facts:
    """What the photograph of one drop shows [m, s].

    name : what falls. light : when half of the first head's light is out, nan without light. lit : share of the
    frame that it finds open. height : of the body's lowest point then. after_contact : negative before the water.
    body : "over", "entering", "under" or "" when it is not in the frame.
    streak : way of the body while the light is above a tenth of its peak, and
    streak_limit : the longest that still looks sharp. apart : way of the body between the lights
    of the first and the last head. disc : blur of the body's plane on the sensor, in circles of confusion.
    crown, jet : heights over the water. spray : way of a usual droplet in the same light.
    stops, room : flash and room over metered. ghost : stops of the room under the flash.
    """

    name: str
    light: float
    lit: float
    height: float
    after_contact: float
    body: str
    streak: float
    streak_limit: float
    apart: float
    disc: float
    crown: float
    jet: float
    spray: float
    stops: float
    ghost: float
    room: float


def facts(scene):
    """What the photograph of a drop shows.

    Parameters
    ----------
    scene : Scene

    Returns
    -------
    Facts
    """
    setup, when = scene.setup, scene.when
    light = float(when.flash_half[0, 0])
    height, speed = _motion(scene, light)
    camera, head = setup.camera, setup.flashes[0]
    circle = circle_of_confusion(width=camera.sensor_width, height=camera.sensor_height)
    disc = blur_disc(
        camera.distance + scene.behind,
        focus_distance=camera.focus_distance,
        focal_length=camera.focal_length,
        aperture=camera.aperture,
    )
    lasts = when.flash_half[0]
    clock = float(scene.water_time(light)) if math.isfinite(light) else 0.0
    return Facts(
        name=setup.drop.name,
        light=light,
        lit=float(when.lit[0, 0]) if math.isfinite(light) else 0.0,
        height=height,
        after_contact=light - scene.contact,
        body=_where(scene, light, height),
        streak=speed * pulse_of(head).t01,
        streak_limit=circle / framed(setup).magnification,
        apart=speed * float(lasts.max() - lasts.min()),
        disc=disc / circle,
        crown=_crown(scene, clock),
        jet=float(water_entry.jet_height(scene.impact, max(clock, 0.0))) if jet_happens(scene) else 0.0,
        spray=_droplet_speed(scene, clock) * pulse_of(head).t01,
        stops=flash_over_metered(setup),
        ghost=ghost_stops(setup) if setup.room.lux > 0 else math.inf,
        room=room_over_metered(setup) if setup.room.lux > 0 else -math.inf,
    )


def _motion(scene, light):
    """Height of the body's lowest point at the light [m], and its speed [m/s]."""
    if not math.isfinite(light):
        return math.nan, 0.0
    step = 5e-6
    before, at, after = body_height(scene.setup, light + step * np.array([-1.0, 0.0, 1.0]), draw=scene.draw)
    return float(at), abs(float(before - after)) / (2 * step)


def _where(scene, light, height):
    """Where the body is: over the water, entering it, under it, or not in the frame."""
    setup = scene.setup
    frame, drop = framed(setup), setup.drop
    if drop.liquid and scene.merged(light):
        return ""
    in_frame = height < frame.top and height + drop.height > frame.bottom
    if not in_frame or not abs(scene.across) < (frame.width + drop.breadth) / 2:
        return ""
    if height >= 0:
        return "over"
    return "entering" if height > -drop.height else "under"


def _crown(scene, clock):
    if clock <= 0 or not scene.happens("crown_peak"):
        return 0.0
    return float(water_entry.rim_height(scene.impact, clock))


def _droplet_speed(scene, clock):
    """Middle speed of the droplets in the air [m/s], 0 where there are none."""
    if clock <= 0 or not scene.happens("crown_peak") or not len(scene.chance.thrown.diameter):
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
    room = ", only the still set in the light of the room" if seen.room > SEEN + 3 else ", black"
    if not math.isfinite(seen.light):
        return f"no flash: the {seen.name} missed the beam{room}"
    if seen.lit == 0:
        return f"no flash light: the shutter was shut when the flash fired{room}"
    if seen.stops < SEEN:
        return f"black: the flash is {-seen.stops:.0f} stops under a good exposure"
    return ""


def _body(seen):
    if not seen.body:
        return _missing(seen)
    sharp = "sharp" if seen.streak <= seen.streak_limit else f"drawn out by {_mm(seen.streak)}"
    if seen.body == "over":
        return f"{seen.name} {_mm(seen.height)} above the water, {sharp}"
    if seen.body == "entering":
        return f"{seen.name} {_mm(-seen.height)} deep in the water, {sharp}"
    return f"{seen.name} under water, its lowest point {_mm(-seen.height)} deep, {sharp}"


def _missing(seen):
    if seen.after_contact < 0:
        return (
            f"no {seen.name}: the light came {_ms(-seen.after_contact)} before it reached the water, it is out of frame"
        )
    return f"no {seen.name}: it went into the water {_ms(seen.after_contact)} before the light"


def _water(seen):
    if seen.after_contact <= 0:
        yield "still water"
        return
    if not seen.body and seen.spray > seen.streak_limit:
        yield f"its droplets drawn out by {_mm(seen.spray)}"
    if seen.crown > 0.0005:
        yield f"a crown {_mm(seen.crown)} high"
    if seen.jet > 0.0005:
        yield f"a jet {_mm(seen.jet)} high"
    if max(seen.crown, seen.jet) <= 0.0005:
        yield "the water coming to rest" if seen.after_contact > 0.02 else "the first moment of the splash"


def _faults(seen):
    if seen.apart > seen.streak_limit:
        yield f"every edge double, {_mm(seen.apart)} apart"
    if seen.disc > SOFT:
        yield "out of focus"
    if seen.lit < 0.98:
        yield f"only {100 * seen.lit:.0f} % of the frame lit"
    if seen.stops > 1.5 or seen.stops < -1.5:
        yield f"{abs(seen.stops):.1f} stops too {'bright' if seen.stops > 0 else 'dark'}"
    if seen.ghost < FAINT:
        yield "a ghost from the room's light" if seen.ghost > 0 else "the room's light drowns the flash"


def _mm(value):
    value *= MM
    return f"{value:.{2 if value < 0.0995 else 1 if value < 9.95 else 0}f} mm"


def _ms(value):
    value *= MS
    return f"{value:.1f} ms" if value < 9.95 else f"{value:.0f} ms"
