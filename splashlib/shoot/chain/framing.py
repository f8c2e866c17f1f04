"""What the camera sees of a drop: the frame over the water, where the body is when the light comes."""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.physics.light.lens import field_of_view, magnification
from splashlib.shoot.chain.body_motion import contact_speed
from splashlib.shoot.chain.events import body_height, events
from splashlib.shoot.setup.fields import change

SHOWN = ("over", "entering", "under")
"""Where a body is that the framed area holds."""


@dataclass(frozen=True, kw_only=True)
class Frame:
    """The framed area in the plane of the falling body [m]; heights over the water."""

    bottom: float
    top: float
    width: float
    magnification: float


@dataclass(frozen=True, kw_only=True)
class Seen:
    """Where the body of one drop is when half of a head's light is out.

    light [s]: when that is. where: "over" the water, "entering" it, "under" it; "above" the framed area or "below" it,
    "aside" of it; "merged" when a drop of liquid has become part of the pool; "" without light.
    height, speed [m, m/s]: of the body's lowest point, the speed downwards. after_contact [s]: negative before the
    water. in_frame: whether any of the body is in the framed area. moved [m]: how far it goes while the flash is
    bright. fallen [m]: how far since the beam was broken.
    lit: share of the frame that the light finds open. Without light everything is nan, and `in_frame` False.
    """

    light: float
    where: str
    height: float
    speed: float
    after_contact: float
    in_frame: bool
    moved: float
    fallen: float
    lit: float


def framed(setup):
    """Return the framed area.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    Frame

    Notes
    -----
    The field in the plane in which the body falls; the lens is aimed level at `frame_centre`. Glass and water
    are neglected: 60 mm of water bring an image 15 mm nearer, so things under water look 3 % larger.
    """
    camera = setup.camera
    scale = magnification(focal_length=camera.focal_length, distance=camera.distance)
    height = field_of_view(camera.sensor_height, magnification=scale)
    return Frame(
        bottom=camera.frame_centre - height / 2,
        top=camera.frame_centre + height / 2,
        width=field_of_view(camera.sensor_width, magnification=scale),
        magnification=scale,
    )


def lead(setup):
    """Time from the beam broken to the contact with the water, nominal drop [s]: what the lag may take."""
    return float(events(setup).contact[0])


def light_lag(setup):
    """Time from the beam broken to the first head's light with the delay at zero, nominal drop [s].

    nan when the body does not block the beam.
    """
    return float(events(change(setup, "trigger.delay", 0.0)).light[0])


def merged(setup, since_contact):
    """Whether a drop of liquid is part of the pool: once it would have sunk in by its own height; a body never is.

    Parameters
    ----------
    setup : Setup
    since_contact : float or array [s]

    Returns
    -------
    bool or array of bool
    """
    gone = np.asarray(since_contact, float) >= setup.drop.height / contact_speed(setup)
    return gone & setup.drop.liquid


def in_view(setup, frame, *, height, across, since_contact):
    """Whether any of the body is in the framed area; arrays by numpy's rules."""
    upright = (height < frame.top) & (height + setup.drop.height > frame.bottom)
    inside = np.abs(across) < (frame.width + setup.drop.breadth) / 2
    return upright & inside & ~merged(setup, since_contact)


def _where(setup, frame, *, height, across, since_contact):
    """Where one body is, in a word."""
    if not math.isfinite(height):
        return ""
    if merged(setup, since_contact):
        return "merged"
    if in_view(setup, frame, height=height, across=across, since_contact=since_contact):
        return "over" if height >= 0 else "entering" if height > -setup.drop.height else "under"
    if height >= frame.top:
        return "above"
    return "below" if height + setup.drop.height <= frame.bottom else "aside"


def sees(setup, draw=None, *, head=0):
    """Say where the body is when the light comes.

    Parameters
    ----------
    setup : Setup
    draw : Draw, optional
        One drop; without it the nominal one.
    head : int, number of the flash head

    Returns
    -------
    Seen
    """
    return seen_in(setup, events(setup, draw), head)


def seen_in(setup, when, head=0):
    """As `sees`, of one drop whose events are there already."""
    starts, light, fades = (float(each[0, head]) for each in (when.flash_starts, when.flash_half, when.flash_fades))
    step = 1e-6
    times = np.array([starts, light, fades, light - step, 0.0])
    at_start, height, at_fade, before, at_beam = body_height(setup, times[:, None], draw=when.draw)[:, 0]
    after, across = light - float(when.contact[0]), float(when.draw.across[0])
    where = _where(setup, framed(setup), height=float(height), across=across, since_contact=after)
    return Seen(
        light=light,
        where=where,
        height=float(height),
        speed=float(before - height) / step,
        after_contact=after,
        in_frame=where in SHOWN,
        moved=float(at_start - at_fade),
        fallen=float(at_beam - height),
        lit=float(when.lit[0, head]),
    )
