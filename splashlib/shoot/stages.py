"""What the water does after contact, for the body of a set-up: the stages of physics.water_entry, dated."""

from functools import lru_cache

import numpy as np

from splashlib.shoot.motion import contact_speed

try:
    from splashlib.physics import water_entry
except ImportError:
    water_entry = None


def splash(setup):
    """Return the stages that follow the contact of this set-up's body.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of physics.water_entry.Stage
        Times after contact [s]; a stage that does not happen is absent.
    """
    drop = setup.drop
    return _stages(drop.liquid, drop.diameter, drop.density, drop.surface, contact_speed(setup), setup.vessel.depth)


@lru_cache(maxsize=256)
def _stages(liquid, diameter, density, surface, speed, depth):
    if water_entry is None:
        return ()
    if liquid:
        return tuple(water_entry.drop_stages(diameter=diameter, speed=speed, film_depth=depth))
    return tuple(water_entry.splash_stages(diameter=diameter, density=density, speed=speed, surface=surface))


def stage_times(setup, draw, contact):
    """Date the stages of each drop.

    Parameters
    ----------
    setup : Setup
    draw : Draw
    contact : array
        When each body touches the water [s].

    Returns
    -------
    dict
        Name of the stage to times [s], nan for the drops in which it does not happen.
    """
    return {
        stage.name: np.where(draw.luck < stage.chance, contact + _paced(stage, draw.pace), np.nan)
        for stage in splash(setup)
    }


def _paced(stage, pace):
    """A stage's time after contact where `pace` says it lies in the band: -1 early, 0 likely, 1 late [s]."""
    room = np.where(pace < 0, stage.likely - stage.early, stage.late - stage.likely)
    return stage.likely + pace * room
