"""Streaks: how far a thing moves while the flash is lit, on the thing, on the sensor and on a print.

``light`` is a pulse (see `pulse`) or a plain duration in seconds, which counts as even light. ``speed`` is
the part of the speed across the line of sight. It is taken as constant: gravity adds 0.01 m/s in 1 ms.
"""

from dataclasses import dataclass

from splashlib.physics.checks import between, not_negative, plain, positive
from splashlib.physics.constants import EYE_RESOLUTION, READING_DISTANCE
from splashlib.physics.pulse import Pulse, train


@dataclass(frozen=True)
class Streak:
    """Length of one streak on the thing, on the sensor, on the print [m], and in pixels [-]."""

    on_object: float
    on_sensor: float
    pixels: float
    on_print: float


def streak_length(*, speed, light, fraction=0.1):
    """Way that a thing goes while the light is above a fraction of its peak.

    Parameters
    ----------
    speed : float or array
        Speed across the line of sight [m/s], 0 or more.
    light : Pulse or float
        The pulse, or a duration [s].
    fraction : float
        Fraction of the peak [-]; 0.1 is what a streak shows, 0.5 what many tables of durations quote.

    Returns
    -------
    float or ndarray
        Length on the thing itself [m].

    Notes
    -----
    speed x duration(fraction). Where the eye sees the end of a streak depends on the ground it lies on:
    `point_profile` has the whole of it.

    Sources
    -------
    Definition; ISO 2827 for t0.1 and t0.5.
    """
    duration = light.duration(fraction) if isinstance(light, Pulse) else positive("light", light, "s")
    return plain(not_negative("speed", speed, "m/s") * duration)


def streak(*, speed, light, magnification, pixel_pitch, enlargement=1.0, fraction=0.1):
    """A streak on the thing, on the sensor, in pixels, and on a print.

    Parameters
    ----------
    speed, light, fraction
        As for `streak_length`.
    magnification : float or array
        Size on the sensor over size of the thing [-].
    pixel_pitch : float
        From pixel to pixel on the sensor [m].
    enlargement : float
        Width of the print over width of the sensor [-].

    Returns
    -------
    Streak

    Notes
    -----
    m v t on the sensor: 3 m/s for 1/20000 s at m = 0.25 are 37.5 um. Defocus, diffraction and the pixels' own
    blur are not in it.

    Sources
    -------
    Geometry.
    """
    length = streak_length(speed=speed, light=light, fraction=fraction)
    on_sensor = length * positive("magnification", magnification)
    pixels = on_sensor / positive("pixel_pitch", pixel_pitch, "m")
    return Streak(length, on_sensor, pixels, on_sensor * positive("enlargement", enlargement))


def point_profile(place, *, speed, light):
    """Brightness along the streak of a point.

    Parameters
    ----------
    place : float or array
        Places along the way [m]; 0 is where the point was as the light began, positive the way it goes.
    speed : float
        Speed across the line of sight [m/s], above 0.
    light : Pulse or float
        The pulse, or a duration [s].

    Returns
    -------
    float or ndarray
        Share of the light per metre of the way [1/m]; its integral is 1.

    Notes
    -----
    At x the point was at the time x/v: the profile is the pulse itself, laid along the way, bright at its
    start and fading towards where the point was going.

    Sources
    -------
    Change of variable from time to place.
    """
    speed, pulse = positive("speed", speed, "m/s"), _pulse(light)
    return plain(pulse.intensity(_place(place) / speed) / (speed * pulse.lit_time))


def bar_profile(place, *, speed, light, size):
    """Brightness along the streak of a bar that lies along its way, such as the middle line of a droplet.

    Parameters
    ----------
    place : float or array
        Places along the way [m]; 0 is where the bar's middle was as the light began.
    speed : float
        Speed across the line of sight [m/s], above 0.
    light : Pulse or float
        The pulse, or a duration [s].
    size : float
        Length of the bar along the way [m], above 0.

    Returns
    -------
    float or ndarray
        Brightness relative to the bar at rest [-], 0 to 1.

    Notes
    -----
    A place is lit while the bar covers it, from (x - size/2)/v to (x + size/2)/v: the share of the light
    that falls in between. 1 in the middle of a bar much longer than its streak, which then has soft edges
    only; a bar much shorter is drawn out and dark. A whole droplet is a bundle of such bars.

    Sources
    -------
    `point_profile` summed over the bar.
    """
    speed, pulse = positive("speed", speed, "m/s"), _pulse(light)
    place, half = _place(place), positive("size", size, "m") / 2
    return plain(pulse.energy_within((place + half) / speed) - pulse.energy_within((place - half) / speed))


def allowed_duration(*, blur, speed, magnification=1.0):
    """Longest light for which a streak stays within a limit.

    Parameters
    ----------
    blur : float or array
        Longest streak allowed on the sensor (on the thing itself with a magnification of 1) [m].
    speed : float or array
        Speed across the line of sight [m/s], above 0.
    magnification : float or array
        Size on the sensor over size of the thing [-].

    Returns
    -------
    float or ndarray
        Duration [s]; hold t0.1 against it.

    Notes
    -----
    t = blur / (m v). 0.1 mm at 36.6 m/s, the edge of a disc of 0.22 m at 53 turns a second, is 2.73 us.

    Sources
    -------
    Geometry; A. M. Worthington, "A Study of Splashes" (1908), the disc by which he timed his spark.
    """
    across = positive("speed", speed, "m/s") * positive("magnification", magnification)
    return plain(positive("blur", blur, "m") / across)


def smallest_seen(*, distance=READING_DISTANCE):
    """Smallest detail that an eye separates on a print: a streak shorter than this looks sharp.

    Parameters
    ----------
    distance : float or array
        From the eye to the print [m]; 0.25 for a print in the hand.

    Returns
    -------
    float or ndarray
        Size [m].

    Notes
    -----
    One minute of arc: 0.0727 mm at 0.25 m. Good eyes in good light separate half of that.

    Sources
    -------
    `constants.EYE_RESOLUTION`.
    """
    return plain(positive("distance", distance, "m") * EYE_RESOLUTION)


def _pulse(light):
    """A plain duration becomes even light of that length."""
    return light if isinstance(light, Pulse) else train(positive("light", light, "s"), 1, duty=1.0)


def _place(place):
    return between("place", place, -float("inf"), float("inf"), "m")
