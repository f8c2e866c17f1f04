"""What is sharp: blur off the plane of focus, depth of field, diffraction; for the lens that `lens` describes."""

import math
from typing import NamedTuple

import numpy as np

from splashlib.physics.checks import not_negative, plain, positive
from splashlib.physics.constants import GREEN_WAVELENGTH


class Depth(NamedTuple):
    """Depth of field [m]: nearest and farthest distance from the lens that is sharp, and what lies between."""

    near: float
    far: float
    total: float


def circle_of_confusion(*, width, height):
    """Largest blur disc on the sensor that still counts as sharp.

    Parameters
    ----------
    width, height : float or array
        Size of the sensor [m].

    Returns
    -------
    float or ndarray
        Diameter on the sensor [m].

    Notes
    -----
    Diagonal / 1500: 0.0288 mm for 36 x 24 mm. A convention for a print looked at from its own diagonal's
    distance; who looks closer, or crops, needs less in proportion.

    Sources
    -------
    Convention: one fifteen-hundredth of the diagonal is about 2.3 minutes of arc seen from there.
    """
    return plain(np.hypot(positive("width", width, "m"), positive("height", height, "m")) / 1500)


def blur_disc(distance, *, focus_distance, focal_length, aperture):
    """Diameter of the disc that a point off the plane of focus draws on the sensor.

    Parameters
    ----------
    distance : float or array
        From lens to the point [m], above 0.
    focus_distance : float or array
        From lens to the plane of focus [m], more than the focal length.
    focal_length : float or array
        Focal length [m].
    aperture : float or array
        f-number [-].

    Returns
    -------
    float or ndarray
        Diameter on the sensor [m].

    Notes
    -----
    (f/N) m |s - d| / s, with m = f/(d - f). Exact for a thin lens; a lens whose two pupils differ by a
    factor of p changes it by (1 + m)/(1 + m/p). Evenly bright; lens errors and diffraction come on top.

    Sources
    -------
    Similar triangles behind the lens: the cone from the opening f/N to the image, cut by the sensor.
    """
    f, d = focused(focal_length, focus_distance, "focus_distance")
    s = positive("distance", distance, "m")
    return plain(f / positive("aperture", aperture) * f / (d - f) * abs(s - d) / s)


def depth_of_field(*, focus_distance, focal_length, aperture, circle):
    """Nearest and farthest distance that is sharp.

    Parameters
    ----------
    focus_distance : float or array
        From lens to the plane of focus [m], more than the focal length.
    focal_length : float or array
        Focal length [m].
    aperture : float or array
        f-number [-].
    circle : float or array
        Largest blur disc that counts as sharp [m], see `circle_of_confusion`.

    Returns
    -------
    Depth
        Near, far and total [m]; far and total are infinite beyond the hyperfocal distance.

    Notes
    -----
    near, far = d f^2 / (f^2 +- N c (d - f)). Diffraction is left out: past the `best_aperture` stopping down
    deepens what is equally soft.

    Sources
    -------
    `blur_disc` = c, solved for the distance on either side.
    """
    f, d = focused(focal_length, focus_distance, "focus_distance")
    spread = positive("aperture", aperture) * positive("circle", circle, "m") * (d - f)
    near = d * f**2 / (f**2 + spread)
    with np.errstate(divide="ignore"):  # at the hyperfocal distance the far end is at infinity
        far = np.where(f**2 > spread, d * f**2 / np.maximum(f**2 - spread, 0.0), math.inf)
    return Depth(plain(near), plain(far), plain(far - near))


def close_up_depth(*, magnification, aperture, circle):
    """Total depth of field of a close-up, from its magnification alone.

    Parameters
    ----------
    magnification : float or array
        Size on the sensor over size of the subject [-].
    aperture : float or array
        f-number [-].
    circle : float or array
        Largest blur disc that counts as sharp [m].

    Returns
    -------
    float or ndarray
        Depth from the near to the far end [m], half of it on either side.

    Notes
    -----
    2 N c (1 + m) / m^2. It leaves out (N c / (f m))^2 of the whole: for m > 0.1 with f = 100 mm at f/11
    under 0.1 %. Whatever the focal length: a longer lens does not make a close-up shallower, it only stands
    further off.

    Sources
    -------
    `depth_of_field` for N c much smaller than f m.
    """
    m = positive("magnification", magnification)
    return plain(2 * positive("aperture", aperture) * positive("circle", circle, "m") * (1 + m) / m**2)


def airy_diameter(*, aperture, magnification=0.0, wavelength=GREEN_WAVELENGTH):
    """Diameter of the disc that diffraction makes of a point.

    Parameters
    ----------
    aperture : float or array
        f-number [-].
    magnification : float or array
        Size on the sensor over size of the subject [-].
    wavelength : float or array
        Wavelength of the light [m].

    Returns
    -------
    float or ndarray
        Diameter of the first dark ring on the sensor [m].

    Notes
    -----
    2.44 lambda N (1 + m), for a round opening. It holds 84 % of the light, its inner half 59 %.

    Sources
    -------
    G. B. Airy, Trans. Camb. Phil. Soc. 5 (1835) 283; first zero of J1 at 1.2197 pi.
    """
    n = positive("aperture", aperture) * (1 + not_negative("magnification", magnification))
    return plain(2.44 * positive("wavelength", wavelength, "m") * n)


def combined_disc(*diameters):
    """Diameter of the blur that several blurs make together.

    Parameters
    ----------
    *diameters : float or array
        Diameters of the single blurs [m]: off focus, diffraction, a streak.

    Returns
    -------
    float or ndarray
        Diameter [m].

    Notes
    -----
    Root of the sum of squares. Exact for spreads (variances); for diameters of discs a rough rule, good to
    10 or 20 %.

    Sources
    -------
    Variances of convolved distributions add.
    """
    total = 0.0
    for diameter in diameters:
        total = total + not_negative("diameter", diameter, "m") ** 2
    return plain(np.sqrt(total))


def best_aperture(depth, *, magnification, wavelength=GREEN_WAVELENGTH):
    """f-number that makes the ends of a depth sharpest: wider blurs by focus, narrower by diffraction.

    Parameters
    ----------
    depth : float or array
        From the nearest to the farthest thing to be sharp [m], with the focus in the middle.
    magnification : float or array
        Size on the sensor over size of the subject [-].
    wavelength : float or array
        Wavelength of the light [m].

    Returns
    -------
    float or ndarray
        f-number [-]: a third of a stop either way changes nothing that can be seen.

    Notes
    -----
    N = m/(1 + m) sqrt(depth / (4.88 lambda)), where the disc of defocus at the ends, depth m^2 / (2 N (1 +
    m)), equals the Airy disc. Discs are added by squares: that of `combined_disc` is smallest there.

    Sources
    -------
    `close_up_depth` and `airy_diameter`; setting the derivative to zero.
    """
    m = positive("magnification", magnification)
    spread = positive("depth", depth, "m") / (4.88 * positive("wavelength", wavelength, "m"))
    return plain(m / (1 + m) * np.sqrt(spread))


def focused(focal_length, distance, name, *, infinite=False):
    """Focal length and distance, refused when the lens cannot form an image on any sensor."""
    f = positive("focal_length", focal_length, "m")
    d = positive(name, distance, "m", infinite=infinite)
    if np.any(d <= f):
        raise ValueError(f"{name} is {np.min(d):g} m; it must be above the focal length, {np.max(f):g} m")
    return f, d
