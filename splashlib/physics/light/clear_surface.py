"""Light on water and glass: what a clear surface mirrors, what it lets through, how bright a lamp looks in it."""

import numpy as np

from splashlib.physics.checks import between, plain, positive


def fresnel_reflectance(cosine, *, index):
    """Share of unpolarised light that a clear surface mirrors when the light comes from the thinner side.

    Parameters
    ----------
    cosine : number or array
        Cosine of the angle between ray and normal, 0 (grazing) to 1 (head-on).
    index : float
        Refractive index of the thicker side relative to the thinner one, above 1.

    Returns
    -------
    float or ndarray : share of the light, 0 to 1. The same pair of angles gives the same share from inside.

    Notes
    -----
    R = (r_s^2 + r_p^2)/2 with r_s = (c - n c')/(c + n c'), r_p = (n c - c')/(n c + c'), n sin(b') = sin(b).
    Exact for a clean, flat, lossless surface much larger than a wavelength; polarisation is averaged out.

    Sources
    -------
    M. Born, E. Wolf, "Principles of Optics", 7th ed. (1999), section 1.5.2, equations 20 and 21.
    """
    cosine = np.asarray(between("cosine", cosine, 0.0, 1.0))
    index = positive("index", index)
    if not index > 1:
        raise ValueError(f"index is {index:g}; it must be above 1: the light comes from the thinner side")
    inside = np.sqrt(1 - (1 - cosine**2) / index**2)
    across = (cosine - index * inside) / (cosine + index * inside)
    along = (index * cosine - inside) / (index * cosine + inside)
    return plain((across**2 + along**2) / 2)


def lamp_over_card(*, distance, size):
    """How much brighter the face of a round lamp is than the white card that it lights head-on.

    Parameters
    ----------
    distance : number or array
        Lamp to card [m].
    size : number or array
        Diameter of the lamp's even, diffuse face [m].

    Returns
    -------
    float or ndarray : ratio of luminances, never below 1.

    Notes
    -----
    A disc of luminance L and radius r lights a card on its axis at the distance d with
    E = pi L r^2/(r^2 + d^2); a perfectly white card then shows E/pi, so the ratio is 1 + (d/r)^2. Clear water
    shows images of the lamp's face: at twice the distance the card loses two stops, the image hardly any.
    Exact for an even disc that is square to the card; a lamp seen aslant or with a hot middle differs.

    Sources
    -------
    Integral of L cos^2 dA / r^2 over the disc; the same law as `exposure.size_loss`.
    """
    distance, size = positive("distance", distance, "m"), positive("size", size, "m")
    return plain(1 + (2 * distance / np.asarray(size)) ** 2)
