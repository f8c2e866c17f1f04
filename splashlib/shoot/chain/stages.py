"""What the water does after contact, for the body of a set-up: the stages of physics.water_entry, dated."""

import warnings
from functools import lru_cache

import numpy as np

from splashlib.physics import water_entry
from splashlib.physics.droplets import falls_through
from splashlib.physics.fall import fall_time
from splashlib.physics.water.jet import pinch_jet, spout
from splashlib.physics.water_entry import jet
from splashlib.shoot.chain.body_motion import impact_of

# What the water does over a body that slipped in without a splash: it happens when the crown does not.
AFTER_A_SLIP = ("film_closes", "spout_rises", "spout_peak")
# The column of a body's cavity: a dome may stop it, nothing else does.
COLUMN = ("jet_rises", "jet_peak")


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
    return _stages(impact_of(setup), setup.drop.form)


def back_through_beam(setup):
    """Return the stage "droplets_at_beam": the thrown drops fall back through the beam; empty where none can.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of physics.water_entry.Stage
        One stage or none; times after contact [s].
    """
    thrown = next((stage for stage in splash(setup) if stage.name == "droplets_highest"), None)
    times = falls_through(impact_of(setup), setup.beam.height) if thrown else None
    if times is None:
        return ()
    return (water_entry.Stage("droplets_at_beam", *times, chance=thrown.chance, source=thrown.source),)


COLUMNS = (("jet_peak", pinch_jet, "jet_at_beam"), ("spout_peak", spout, "spout_at_beam"))
"""Stage of a column at its highest, its course over a solid body, and the stage at which it has left the beam."""


def column_in_beam(setup):
    """Return the stages at which a column of water has fallen back through the beam; empty where none gets so high.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of physics.water_entry.Stage
        "jet_at_beam" over a cavity or crater, "spout_at_beam" over a body that slipped in; times after contact [s].

    Notes
    -----
    The head flies freely: it is back at the height b of the beam sqrt(2 (h - b)/g) after its peak h. The early
    and the likely time stand at the peak where only higher columns reach the beam. Drops off its tip come later.
    """
    body, found = impact_of(setup), []
    for stage in splash(setup):
        for peak, course_of, name in COLUMNS:
            if stage.name == peak:
                times = _back_at(setup.beam.height, jet(body) if setup.drop.liquid else course_of(body))
                found += [water_entry.Stage(name, *times, chance=stage.chance, source=stage.source)] if times else []
    return tuple(found)


def _back_at(height, course):
    """When the head of a column is back at a height, early, likely and late [s]; None where it never gets there."""
    if course.height.high < height:
        return None
    return tuple(
        float(peak + fall_time(max(top - height, 0.0))) for peak, top in zip(course.peak, course.height, strict=True)
    )


@lru_cache(maxsize=128)
def _stages(impact, form):
    # Under a slider a warning would be printed at every step; each stage's source says where its law holds.
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return tuple(_solid_stages(impact) if form == "solid" else _drop_stages(impact, form))


def _solid_stages(body):
    return water_entry.splash_stages(
        diameter=body.diameter,
        length=body.length,
        density=body.density,
        speed=body.speed,
        surface=body.surface,
        water_depth=body.water_depth,
        vessel_width=body.vessel_width,
    )


def _drop_stages(drop, liquid):
    return water_entry.drop_stages(diameter=drop.diameter, speed=drop.speed, film_depth=drop.film_depth, liquid=liquid)


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
    stages = splash(setup)
    chances = {stage.name: stage.chance for stage in stages}
    return {
        stage.name: np.where(_happens(stage, draw.luck, chances), contact + _paced(stage, draw.pace), np.nan)
        for stage in stages
    }


def _happens(stage, luck, chances):
    """Whether a stage comes. One luck for each fork: a crown closes or falls back, and a slip makes no crown.

    From 0 up the luck runs through domes without a column, domes with one, crowns that fall back, and slips.
    """
    if stage.name in AFTER_A_SLIP:
        return luck >= 1 - stage.chance
    crown, dome = chances.get("crown_peak", 0.0), chances.get("dome_closes", 0.0)
    if stage.name in COLUMN and "jet_rises" in chances:
        # Every crown without a dome goes with a column; the domes that stop one are the first of the luck.
        return (luck >= crown - stage.chance) & (luck < crown)
    if stage.name == "crown_falls":
        return (luck >= dome) & (luck < crown)
    if stage.name == "dome_closes" and "crown_falls" not in chances:
        # The other way is too rare to be listed; every crown goes this one.
        return luck < crown
    return luck < stage.chance


def _paced(stage, pace):
    """A stage's time after contact where `pace` says it lies in the band: -1 early, 0 likely, 1 late [s]."""
    room = np.where(pace < 0, stage.likely - stage.early, stage.late - stage.likely)
    return stage.likely + pace * room
