"""The lens: how large, how much of the scene, how deep is sharp, and where diffraction takes over.

One thin lens, alike from both sides, with all distances from its principal plane. A real close-up lens
shortens its focal length as it focuses near and has two principal planes some centimetres apart: trust
distances to 10 %, and magnification to the last per cent only when it is read from a photographed ruler. An
f-number here is the plain number given (marks are off by up to 5 %, which matters for nothing here).
"""

import math

import numpy as np

from splashlib.physics.checks import plain, positive
from splashlib.physics.light.sharpness import (
    Depth,
    airy_diameter,
    best_aperture,
    blur_disc,
    circle_of_confusion,
    close_up_depth,
    combined_disc,
    depth_of_field,
    focused,
)

__all__ = [
    "Depth",
    "airy_diameter",
    "angle_of_view",
    "best_aperture",
    "blur_disc",
    "circle_of_confusion",
    "close_up_depth",
    "combined_disc",
    "depth_of_field",
    "field_of_view",
    "magnification",
    "pixels_per_metre",
    "working_distance",
]


def magnification(*, focal_length, distance):
    """Magnification of a lens that is focused at a distance.

    Parameters
    ----------
    focal_length : float or array
        Focal length [m].
    distance : float or array
        From lens to subject [m], more than the focal length.

    Returns
    -------
    float or ndarray
        Size on the sensor over size of the subject [-].

    Notes
    -----
    m = f / (d - f).

    Sources
    -------
    1/d + 1/v = 1/f and m = v/d.
    """
    f, d = focused(focal_length, distance, "distance")
    return plain(f / (d - f))


def working_distance(*, focal_length, magnification):
    """Distance from lens to subject for a magnification: the inverse of `magnification`.

    Parameters
    ----------
    focal_length : float or array
        Focal length [m].
    magnification : float or array
        Size on the sensor over size of the subject [-].

    Returns
    -------
    float or ndarray
        From lens to subject [m]; the free space before the front of the lens is 5 to 15 cm less.

    Notes
    -----
    d = f (1 + 1/m). From the subject to the sensor it is f (2 + m + 1/m).

    Sources
    -------
    `magnification` solved for the distance.
    """
    return plain(positive("focal_length", focal_length, "m") * (1 + 1 / positive("magnification", magnification)))


def field_of_view(sensor, *, magnification):
    """Width (or height) of the scene that fills the frame in the plane of focus.

    Parameters
    ----------
    sensor : float or array
        Width (or height) of the sensor [m].
    magnification : float or array
        Size on the sensor over size of the subject [-].

    Returns
    -------
    float or ndarray
        Width (or height) of the field [m].

    Notes
    -----
    sensor / m.

    Sources
    -------
    Definition of the magnification.
    """
    return plain(positive("sensor", sensor, "m") / positive("magnification", magnification))


def angle_of_view(sensor, *, focal_length, distance=math.inf):
    """Angle that fills the width (or height) of the frame.

    Parameters
    ----------
    sensor : float or array
        Width (or height) of the sensor [m].
    focal_length : float or array
        Focal length [m].
    distance : float or array
        Distance in focus [m]; a lens focused near sees less.

    Returns
    -------
    float or ndarray
        Angle [rad].

    Notes
    -----
    2 arctan(sensor / 2v) with the image distance v = f d / (d - f); v = f far away.

    Sources
    -------
    Thin lens; rays through its middle.
    """
    f, d = focused(focal_length, distance, "distance", infinite=True)
    image = f / (1 - f / d)
    return plain(2 * np.arctan(positive("sensor", sensor, "m") / (2 * image)))


def pixels_per_metre(*, pixels, sensor, magnification):
    """Pixels that a metre in the plane of focus covers.

    Parameters
    ----------
    pixels : float or array
        Pixels across the width of the sensor [-].
    sensor : float or array
        Width of the sensor [m].
    magnification : float or array
        Size on the sensor over size of the subject [-].

    Returns
    -------
    float or ndarray
        Pixels per metre [1/m]; divide by 1000 for pixels per millimetre.

    Notes
    -----
    m x pixels / sensor.

    Sources
    -------
    Definition of the magnification.
    """
    return plain(
        positive("pixels", pixels) * positive("magnification", magnification) / positive("sensor", sensor, "m")
    )
