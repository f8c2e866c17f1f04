"""What a light meter says: exposure values, lux, and the light that an exposure needs.

An f-number, exposure time or ISO speed that is a mark counts as the exact value it stands for
(`stops.exact`).
"""

import numpy as np

from splashlib.physics.checks import finite, not_negative, plain
from splashlib.physics.constants import METER_CONSTANT
from splashlib.physics.stops import exact, stops_of


def ev(*, aperture, shutter):
    """Exposure value of an f-number and an exposure time.

    Parameters
    ----------
    aperture : float or array
        f-number [-].
    shutter : float or array
        Exposure time [s].

    Returns
    -------
    float or ndarray
        EV [-]: a step of 1 is a stop, more is for brighter scenes.

    Notes
    -----
    EV = log2(N^2 / t), exact; marks count as what they stand for, so f/11 at 1/125 s is EV 14.

    Sources
    -------
    ISO 2720:1974; ISO 517 and 516 for the marks.
    """
    n = exact(aperture, kind="aperture")
    return plain(np.log2(n**2 / exact(shutter, kind="shutter")))


def lux_for_ev(ev, *, iso=100):
    """Illuminance that an incident-light meter answers with an exposure value.

    Parameters
    ----------
    ev : float or array
        Exposure value [-].
    iso : float or array
        ISO speed [-].

    Returns
    -------
    float or ndarray
        Illuminance on the subject [lx].

    Notes
    -----
    E = (C/S) 2^EV with C = 250 lx s: 2.5 lx x 2^EV at ISO 100. Meters differ: C from 240 to 400 is allowed,
    0.7 stop; for a flat receptor facing the lamp.

    Sources
    -------
    ISO 2720:1974, incident light.
    """
    return plain(METER_CONSTANT / exact(iso, kind="iso") * np.exp2(finite("ev", ev)))


def ev_for_lux(lux, *, iso=100):
    """Exposure value for an illuminance: the inverse of `lux_for_ev`.

    Parameters
    ----------
    lux : float or array
        Illuminance on the subject [lx]; 0 gives minus infinity.
    iso : float or array
        ISO speed [-].

    Returns
    -------
    float or ndarray
        Exposure value [-].

    Notes
    -----
    EV = log2(E S / C); 10 lx is EV 2.00 at ISO 100, 500 lx (an office) 7.64.

    Sources
    -------
    ISO 2720:1974, incident light.
    """
    return stops_of(not_negative("lux", lux, "lx") * exact(iso, kind="iso") / METER_CONSTANT)


def metered_lux_seconds(*, aperture, iso, magnification=0.0):
    """Light on the subject that gives a middling exposure.

    Parameters
    ----------
    aperture : float or array
        f-number as marked on the lens [-].
    iso : float or array
        ISO speed [-].
    magnification : float or array
        Size on the sensor over size of the subject [-]; 0 far away.

    Returns
    -------
    float or ndarray
        Illuminance times time [lx s].

    Notes
    -----
    H = C N^2 (1 + m)^2 / S, with C = 250 lx s. N (1 + m) is exact for a lens that is alike from both sides;
    with a pupil magnification p it is N (1 + m/p). Lenses that focus inside themselves do part of it
    already. Light lost in the glass of the lens (0.1-0.3 stop) is in C.

    Sources
    -------
    ISO 2720:1974; the close-up factor from the thin lens: the image distance is f (1 + m).
    """
    n = exact(aperture, kind="aperture") * (1 + not_negative("magnification", magnification))
    return plain(METER_CONSTANT * n**2 / exact(iso, kind="iso"))


def stops_over_metered(lux_seconds, *, aperture, iso, magnification=0.0):
    """Stops by which light on the subject is above a middling exposure.

    Parameters
    ----------
    lux_seconds : float or array
        Illuminance times time on the subject [lx s], of the flash, of the room, or their sum; 0 gives minus
        infinity.
    aperture, iso, magnification : float or array
        As for `metered_lux_seconds` [-].

    Returns
    -------
    float or ndarray
        Stops [-]: 0 as metered, positive brighter, negative darker.

    Notes
    -----
    log2(H / H_metered); for something that reflects evenly. Water and glass show mirror images of the lamp,
    which do not follow it.

    Sources
    -------
    Definition of the stop, and `metered_lux_seconds`.
    """
    needed = metered_lux_seconds(aperture=aperture, iso=iso, magnification=magnification)
    return stops_of(not_negative("lux_seconds", lux_seconds, "lx s") / needed)
