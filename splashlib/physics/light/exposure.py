"""How much light: the flash's light on the subject by its guide number, and the room's; the meter's part too.

Light on the subject is counted in lux seconds, for the flash and for the room alike, so that the two
compare. An f-number, exposure time or ISO speed that is a mark counts as the exact value it stands for
(`stops.exact`).
"""

import numpy as np

from splashlib.physics.checks import finite, not_negative, plain, positive
from splashlib.physics.constants import METER_CONSTANT
from splashlib.physics.light.metering import ev, ev_for_lux, lux_for_ev, metered_lux_seconds, stops_over_metered
from splashlib.physics.stops import exact, stops_of

__all__ = [
    "ev",
    "ev_for_lux",
    "flash_lux_seconds",
    "guide_aperture",
    "guide_distance",
    "lamp_lux",
    "lux_for_ev",
    "metered_lux_seconds",
    "room_lux_allowed",
    "room_lux_seconds",
    "room_under_flash",
    "size_loss",
    "stops_over_metered",
]


def guide_aperture(guide_number, *, distance, power=1.0, iso=100, magnification=0.0):
    """f-number at which a flash of a guide number gives a middling exposure.

    Parameters
    ----------
    guide_number : float or array
        Guide number at full power and ISO 100 [m].
    distance : float or array
        From lamp to subject [m].
    power : float or array
        Power fraction [-].
    iso : float or array
        ISO speed [-].
    magnification : float or array
        Size on the sensor over size of the subject [-].

    Returns
    -------
    float or ndarray
        f-number to set [-], exact; `stops.nearest_mark` finds the mark.

    Notes
    -----
    N (1 + m) d = GN sqrt(S/100) sqrt(power). Inverse square from a small lamp, straight at the subject; a
    large diffuser gives less up close (`size_loss`). Guide numbers are stated for a reflector setting and
    are often half a stop to a stop too good.

    Sources
    -------
    ISO 1230:2007, guide numbers.
    """
    reach = _reach(guide_number, power, iso, magnification)
    return plain(reach / positive("distance", distance, "m"))


def guide_distance(guide_number, *, aperture, power=1.0, iso=100, magnification=0.0):
    """Distance at which a flash of a guide number gives a middling exposure.

    Parameters
    ----------
    guide_number : float or array
        Guide number at full power and ISO 100 [m].
    aperture : float or array
        f-number as marked on the lens [-].
    power, iso, magnification : float or array
        As for `guide_aperture` [-].

    Returns
    -------
    float or ndarray
        From lamp to subject [m].

    Notes
    -----
    N (1 + m) d = GN sqrt(S/100) sqrt(power), with the limits given at `guide_aperture`.

    Sources
    -------
    ISO 1230:2007, guide numbers.
    """
    return plain(_reach(guide_number, power, iso, magnification) / exact(aperture, kind="aperture"))


def size_loss(*, distance, size):
    """Stops that a round diffuser gives less than inverse square says.

    Parameters
    ----------
    distance : float or array
        From the middle of the diffuser to the subject [m].
    size : float or array
        Diameter of the diffuser [m]; 0 for a small lamp.

    Returns
    -------
    float or ndarray
        Stops [-], 0 or more.

    Notes
    -----
    A disc of even brightness lights its axis with E = pi L R^2 / (d^2 + R^2), inverse square with pi L R^2
    / d^2: the loss is log2(1 + (R/d)^2). 0.64 stop at 40 cm from a 60 cm diffuser, 0.03 at 2 m. On the
    axis, facing the disc, evenly lit; a hot middle loses less. A square one counts as the round one of
    equal area, within 0.05 stop.

    Sources
    -------
    Integral of L cos^2 / r^2 over the disc.
    """
    radius = not_negative("size", size, "m") / 2
    return stops_of(1 + (radius / positive("distance", distance, "m")) ** 2)


def pane_loss(index=1.49):
    """Stops that a clean clear sheet, seen straight on, takes.

    Parameters
    ----------
    index : float or array
        Refractive index of the sheet [-]: clear acrylic 1.49, window glass 1.52.

    Returns
    -------
    float or ndarray
        Stops [-]: 0.11 for acrylic, 0.13 for glass.

    Notes
    -----
    Each of the two faces throws back r = ((n - 1)/(n + 1))^2; with what runs to and fro between them (1 - r)/(1 + r)
    = 2n/(n^2 + 1) gets through. What the sheet swallows is left out: under 0.02 stop for clear sheets of some mm.
    Drops on it cost sharpness before they cost light; slanting light loses more, twice as much at 55 degrees.

    Sources
    -------
    A. Fresnel's equations at normal incidence (M. Born, E. Wolf, Principles of Optics, section 1.5).
    """
    n = positive("index", index)
    return plain(np.log2((n**2 + 1) / (2 * n)))


def flash_lux_seconds(guide_number, *, distance, power=1.0, size=0.0, diffuser_loss=0.0):
    """Light of one flash on the subject.

    Parameters
    ----------
    guide_number : float or array
        Guide number at full power and ISO 100 [m].
    distance : float or array
        From lamp (or the front of its diffuser) to subject [m].
    power : float or array
        Power fraction [-], above 0.
    size : float or array
        Diameter of the diffuser [m]; 0 for a bare lamp.
    diffuser_loss : float or array
        Light lost in the diffuser [stops]; 1 to 2 in life.

    Returns
    -------
    float or ndarray
        Illuminance times time [lx s]. Lights of several heads add.

    Notes
    -----
    H = I power 2^-loss / (d^2 + R^2) with I = (C/100) GN^2 = 2.5 GN^2 cd s on the axis of the lamp (ISO
    100) and R = size/2: `size_loss`. Light that comes back from walls is neglected: up to a stop in a small
    white room.

    Sources
    -------
    N d = GN and N^2 = H S / C together; ISO 1230:2007, ISO 2720:1974.
    """
    intensity = METER_CONSTANT / 100 * positive("guide_number", guide_number, "m") ** 2
    passed = positive("power", power) * np.exp2(-finite("diffuser_loss", diffuser_loss, "stops"))
    radius = not_negative("size", size, "m") / 2
    return plain(intensity * passed / (positive("distance", distance, "m") ** 2 + radius**2))


def room_lux_seconds(lux, *, shutter):
    """Light of the room on the subject while the shutter is open.

    Parameters
    ----------
    lux : float or array
        Illuminance on the subject [lx], 0 or more. An office 500, a home in the evening 50-150, dim 10,
        dark 0.1-1.
    shutter : float or array
        Exposure time [s].

    Returns
    -------
    float or ndarray
        Illuminance times time [lx s].

    Notes
    -----
    H = E t, for steady light.

    Sources
    -------
    Definition; the office from EN 12464-1, the others class values.
    """
    return plain(not_negative("lux", lux, "lx") * exact(shutter, kind="shutter"))


def lamp_lux(intensity, *, distance):
    """Illuminance that a small lamp gives on what faces it.

    Parameters
    ----------
    intensity : float or array
        Luminous intensity towards the subject [cd], 0 or more. A candle about 1; an indicator lamp 0.001-0.1; the
        screen of a telephone its luminance times its area, 400 cd/m2 x 0.009 m2 = 4.
    distance : float or array
        From lamp to subject [m].

    Returns
    -------
    float or ndarray
        Illuminance [lx].

    Notes
    -----
    E = I / d^2. For a lamp that is small against its distance (a disc as wide as half the distance: 6 % too much),
    and without what comes back from walls.

    Sources
    -------
    Definition of the candela; 1 lx is 1 cd from 1 m away.
    """
    return plain(not_negative("intensity", intensity, "cd") / positive("distance", distance, "m") ** 2)


def room_under_flash(*, room, flash):
    """Stops by which the room's light lies under the flash's.

    Parameters
    ----------
    room, flash : float or array
        Illuminance times time of the room (0 or more) and of the flash (above 0) [lx s].

    Returns
    -------
    float or ndarray
        Stops [-]; infinite in full darkness, negative when the room gives more than the flash.

    Notes
    -----
    log2(flash / room). Aperture and ISO act on both alike, so neither can part them; the exposure time, the
    power and the distance can. Of a white thing that moves on black the ghost is plain to see five stops
    under the flash (3 % of the light), hardly at seven (0.8 %), gone at ten (0.1 %).

    Sources
    -------
    Definition of the stop.
    """
    return plain(-stops_of(not_negative("room", room, "lx s") / positive("flash", flash, "lx s")))


def room_lux_allowed(*, flash, shutter, stops):
    """Illuminance of the room that lies a number of stops under the flash: how dark is dark enough.

    Parameters
    ----------
    flash : float or array
        Illuminance times time of the flash on the subject [lx s].
    shutter : float or array
        Exposure time [s].
    stops : float or array
        Wanted stops under the flash [-].

    Returns
    -------
    float or ndarray
        Illuminance on the subject [lx].

    Notes
    -----
    E = H / (t 2^stops), the inverse of `room_under_flash`.

    Sources
    -------
    Definition of the stop.
    """
    t = exact(shutter, kind="shutter")
    return plain(positive("flash", flash, "lx s") / (t * np.exp2(finite("stops", stops))))


def _reach(guide_number, power, iso, magnification):
    """Guide number at this power and ISO, less the close-up factor [m]."""
    strength = np.sqrt(exact(iso, kind="iso") / 100 * positive("power", power))
    close_up = 1 + not_negative("magnification", magnification)
    return positive("guide_number", guide_number, "m") * strength / close_up
