"""Is the flash short enough: how far a droplet moves in its light, from which power on it is a point, and one
splash in four lights.
"""

import math
from dataclasses import replace
from functools import lru_cache

from splashlib.physics.light.blur import allowed_duration, smallest_seen, streak
from splashlib.physics.pulse import head_pulse
from splashlib.shoot.chain.body_motion import contact_speed
from splashlib.shoot.chain.framing import framed, sees
from splashlib.shoot.chain.instants import find_instant
from splashlib.shoot.chain.stages import splash
from splashlib.shoot.decide.delays import delay_to
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from splashlib.shoot.setup.fields import change_all, field
from splashlib.shoot.setup.parts import Room
from splashlib.shoot.setup.pulses import pulse_of
from splashlib.shoot.setup.table import ROUTES, SECTIONS

DROPLET = 0.001
"""The droplet that is looked at [m]."""
POINT = 0.2
"""A droplet that moves by this share of its size still looks round [-]; a convention of the course."""
EARLY = 0.25
"""The splash is photographed after this share of the time to the peak of its crown [-]: fast, and well formed."""
WITHOUT_CROWN = 0.012
"""Time after contact that stands for it where no crown is thrown [s]."""
CROP, MIDDLE = 1.6, 0.012
"""The photographs show the middle of the frame, so much enlarged [-], about this height over the water [m]."""
OVER = 0.6
"""The photographs are exposed by so much more than metered [stops], since clear water is dark."""
ROUNDING = 1e-9
"""Stops that are no difference but that of the last digits."""
NEAREST_LOOK = 0.25
"""Nobody looks at a print from nearer than this [m]: the near point that optics is built for."""
MARKS = tuple(value for _, value in SECTIONS["flashes"]["power"].marks)
"""The power fractions that the dial of a flash has, from full power down [-]."""


def streak_in(setup, *, print_width=None):
    """The streak of a droplet as fast as the body at the water, in the light of the first head.

    Parameters
    ----------
    setup : Setup
    print_width : float, optional
        Width of a print of the whole frame [m]; without it the print is as large as the sensor.

    Returns
    -------
    physics.blur.Streak

    Notes
    -----
    v t0.1. The droplets of a crown are slower, usually by half, at the top of their flight by far; what is shot
    out in the first millisecond is faster.
    """
    camera = setup.camera
    return streak(
        speed=contact_speed(setup),
        light=pulse_of(setup.flashes[0]),
        magnification=framed(setup).magnification,
        pixel_pitch=camera.sensor_width / camera.pixels_wide,
        enlargement=(print_width or camera.sensor_width) / camera.sensor_width,
    )


def longest_light(setup):
    """Longest flash duration t0.1 in which droplets of `DROPLET` are points, at the speed of the body [s]."""
    return allowed_duration(blur=POINT * DROPLET, speed=contact_speed(setup))


def power_for_points(setup):
    """Highest marked power of the first head at which droplets are points, or None where no mark does it."""
    head, longest = setup.flashes[0], longest_light(setup)
    times = zip(MARKS, durations(head, head.kind), strict=True)
    return max((power for power, time in times if time <= longest), default=None)


def shortest_power(setup):
    """Marked power of the first head with the shortest t0.1; of several that are as short the highest."""
    head = setup.flashes[0]
    times = zip(MARKS, durations(head, head.kind), strict=True)
    return min(times, key=lambda pair: (round(pair[1], 9), -pair[0]))[0]


def unseen_from(length):
    """Distance from which a streak on a print is too small to be seen [m].

    Parameters
    ----------
    length : float
        Of the streak on the print [m].

    Returns
    -------
    float

    Notes
    -----
    One minute of arc, as `physics.blur.smallest_seen`.
    """
    return length / smallest_seen(distance=1.0)


def usual_distance(setup, print_width):
    """Distance from which a print of the whole frame is usually looked at [m].

    Parameters
    ----------
    setup : Setup
    print_width : float [m]

    Returns
    -------
    float

    Notes
    -----
    Its diagonal, so that it is seen as one picture; no nearer than eyes like to look, 25 cm. A rule of the trade.
    """
    shape = setup.camera.sensor_height / setup.camera.sensor_width
    return max(print_width * math.hypot(1.0, shape), NEAREST_LOOK)


def seen_on_print(setup, streak, print_width):
    """Whether a streak [m on a print of this width] is long enough to be seen from the usual distance."""
    return unseen_from(streak) > usual_distance(setup, print_width)


def durations(head, kind):
    """t0.1 of a head of another kind with the same class values, at every mark of the dial.

    Parameters
    ----------
    head : Flash
    kind : str

    Returns
    -------
    tuple of float
        One for each of `MARKS` [s].
    """
    return _durations(kind, head.full_t05, head.rise, head.tail)


@lru_cache(maxsize=64)
def _durations(kind, full_t05, rise, tail):
    return tuple(head_pulse(kind, power=power, full_t05=full_t05, rise=rise, tail=tail).t01 for power in MARKS)


def splash_moment(setup):
    """The time after contact at which the splash is photographed here [s]."""
    peaks = [stage.likely for stage in splash(setup) if stage.name == "crown_peak"]
    return EARLY * peaks[0] if peaks else WITHOUT_CROWN


def in_four_lights(setup, *, apart):
    """One splash in four lights: full power, the power in use, high-speed sync, two heads on different routes.

    Parameters
    ----------
    setup : Setup
        Only its first head is used.
    apart : float
        How much later the second head of the last light fires [s].

    Returns
    -------
    tuple of Setup
        Shutter held open in a dark room, in focus, cropped to the splash; each light at the same instant and of the
        same strength: the guide numbers are made up for that. They differ in nothing but the light in time.
    """
    key = setup.flashes[0]
    late = replace(key, name="second", route="radio", route_lag=key.route_lag + apart, route_scatter=ROUTES["radio"][1])
    heads = (
        (replace(key, power=1.0),),
        (key,),
        (replace(key, kind="high_speed_sync", power=1.0),),
        (key, late),
    )
    camera = _close(setup.camera)
    dark = replace(setup, camera=camera, room=Room(lux=0.0))
    instant = find_instant(dark, after_contact=splash_moment(setup))
    return tuple(_timed(_bright(replace(dark, flashes=each)), instant) for each in heads)


def _close(camera):
    """The camera as the photographs want it: open in the dark, in focus, and cropped."""
    return replace(
        camera,
        style="held_open",
        focus_distance=camera.distance,
        frame_centre=MIDDLE,
        sensor_width=_within("camera.sensor_width", camera.sensor_width / CROP),
        sensor_height=_within("camera.sensor_height", camera.sensor_height / CROP),
        pixels_wide=round(_within("camera.pixels_wide", camera.pixels_wide / CROP)),
    )


def _bright(setup):
    """The set-up with its guide numbers changed alike, so that the flash exposes well."""
    factor = 2 ** ((OVER - flash_over_metered(setup)) / 2)
    heads = (replace(head, guide_number=_within("flashes.0.guide_number", head.guide_number * factor))
             for head in setup.flashes)  # fmt: skip
    setup = replace(setup, flashes=tuple(heads))
    # What no unit can give is made up by the camera.
    left = OVER - flash_over_metered(setup)
    if abs(left) < ROUNDING:
        return setup
    iso = setup.camera.iso * 2**left
    return replace(setup, camera=replace(setup.camera, iso=_within("camera.iso", iso)))


def _within(path, value):
    """A value, or the end of what is possible that is nearest to it."""
    least, most = field(path).limits
    return min(max(value, least), most)


def _timed(setup, instant):
    return replace(setup, trigger=replace(setup.trigger, delay=delay_to(setup, instant).value))


def on_route(setup, route):
    """Return the set-up with its first head on another route, and its light at the same instant.

    Parameters
    ----------
    setup : Setup
    route : str
        "cable", "optical" or "radio".

    Returns
    -------
    Setup
        As it is, if the head is on that route; its own measured lag is kept then. Otherwise with the class values of
        the route, and with a delay that is shorter by what the lag grows (no shorter than nothing).
    """
    head = setup.flashes[0]
    if route == head.route:
        return setup
    lag, scatter = ROUTES[route]
    changes = {"flashes.0.route": route, "flashes.0.route_lag": lag, "flashes.0.route_scatter": scatter}
    delay = max(setup.trigger.delay - (lag - head.route_lag), 0.0)
    return change_all(setup, changes | {"trigger.delay": round(delay, 7)})


def heads_apart(setup):
    """How far apart two heads draw the body: its way between the light of the first and that of the last [m]."""
    first, *others = (head.route_lag + pulse_of(head).half_energy for head in setup.flashes)
    return sees(setup).speed * max((abs(other - first) for other in others), default=0.0)


def stops_below_full(setup):
    """Stops of light that the power of the first head costs [-]."""
    return -math.log2(setup.flashes[0].power)
