"""How the body moves in one set-up: through the air, through the beam, under the water.

Heights are those of its lowest point over the resting water [m]; the arithmetic of the fall is in physics.
"""

import warnings
from functools import lru_cache

import numpy as np

from splashlib.physics import water_entry
from splashlib.physics.fall import distance_fallen, fall_speed, fall_time, terminal_speed, water_drop_terminal_speed
from splashlib.physics.water.crater import crater


def body_terminal_speed(drop):
    """Terminal speed of the falling body in air.

    Parameters
    ----------
    drop : Drop

    Returns
    -------
    float
        Speed [m/s].

    Notes
    -----
    An ellipsoid has two thirds of its upright axis as volume per frontal area, a sphere two thirds of its
    diameter: so an oval body falls like the sphere as tall as it stands. What is left out, its other drag
    coefficient, is some 20 %, a tenth of a millisecond over half a metre.
    """
    return _terminal(drop.liquid, drop.height, drop.density)


@lru_cache(maxsize=128)
def _terminal(liquid, height, density):
    with warnings.catch_warnings():
        # The warning is about speeds near the terminal one; no body gets near it over a table.
        warnings.simplefilter("ignore")
        if liquid:
            return float(water_drop_terminal_speed(height))
        return float(terminal_speed(diameter=height, density=density))


def breaks_beam(setup, toward=0.0):
    """Where the lowest point of the body is when the stated share of the beam is blocked, and whether it is.

    Parameters
    ----------
    setup : Setup
    toward : float or array
        How far off the beam's axis the body falls, square to the beam [m].

    Returns
    -------
    tuple
        Height of the lowest point at that moment [m], True where the body misses the beam.

    Notes
    -----
    The beam runs level and the body is an ellipse seen along it, so at a distance s from its middle the body
    begins b (1 - sqrt(1 - (s/a)^2)) above its lowest point and its chord is 2 b sqrt(1 - (s/a)^2) long, with
    half axes a and b. The beam is missed where the body is not there at all, or where the chord is shorter
    than the share of the beam that must be blocked. The curve of the edge across the beam's own width is
    neglected: w^2/8R, 0.03 mm for a 3 mm beam and a 35 mm body.
    """
    a, b = setup.drop.diameter / 2, setup.drop.height / 2
    needed = setup.beam.blocked_share * setup.beam.width
    inside = np.sqrt(np.clip(1 - (np.asarray(toward, float) / a) ** 2, 0, None))
    missed = (inside == 0) | (2 * b * inside < needed)
    return setup.beam.top - needed - np.where(missed, 0.0, b * (1 - inside)), missed


def time_falling(setup, release_height, to_height):
    """Time from the release until the lowest point reaches a height, never less than nothing [s]."""
    drop = np.maximum(np.asarray(release_height, float) - to_height, 0.0)
    return np.asarray(fall_time(drop, terminal_speed=body_terminal_speed(setup.drop)))


@lru_cache(maxsize=128)
def _contact_speed(drop):
    return float(fall_speed(drop.release_height, terminal_speed=body_terminal_speed(drop)))


def contact_speed(setup):
    """Speed of the body at the water, nominal drop [m/s]."""
    return _contact_speed(setup.drop)


def impact_of(setup):
    """Describe the meeting of the body and the water as physics.water_entry wants it.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    physics.water_entry.Solid or Drop
        A solid body over the water of the vessel, or a drop over a layer of its own liquid as deep.
    """
    return _impact(setup.drop, setup.vessel)


@lru_cache(maxsize=128)
def _impact(drop, vessel):
    if drop.liquid:
        return water_entry.drop_impact(
            diameter=drop.diameter, speed=_contact_speed(drop), film_depth=vessel.depth, liquid=drop.form
        )
    return water_entry.solid_impact(
        # As broad from below as it is: an oval body that lies shows more than one that stands.
        diameter=water_entry.frontal_diameter(diameter=drop.diameter, length=drop.breadth),
        length=drop.height,
        density=drop.density,
        speed=_contact_speed(drop),
        surface=drop.surface,
        water_depth=vessel.depth,
        vessel_width=vessel.width,
    )


def height_in_air(setup, release_height, since_release):
    """Height of the lowest point a time after the release, as if there were no water [m]; before it: held."""
    since = np.maximum(np.asarray(since_release, float), 0.0)
    return release_height - distance_fallen(since, terminal_speed=body_terminal_speed(setup.drop))


def depth_in_water(setup, since_contact):
    """How deep the body is under the resting surface.

    Parameters
    ----------
    setup : Setup
    since_contact : float or array
        Time after contact [s].

    Returns
    -------
    float or ndarray
        Depth of the lowest point [m], 0 before contact; of a liquid drop, which is then spread over its crater,
        the depth of the crater's floor.
    """
    since = np.maximum(np.asarray(since_contact, float), 0.0)
    impact = impact_of(setup)
    if not setup.drop.liquid:
        return np.asarray(water_entry.body_depth(impact, since))
    track = crater(impact)
    times, floor = np.append(0.0, track.time), np.append(0.0, track.radius + track.middle)
    return np.clip(np.interp(since, times, floor, right=0.0), 0.0, setup.vessel.depth)
