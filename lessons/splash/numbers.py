"""The numbers that the lesson `splash` states: stages and their delays, hold-off, wet zone, level."""

from splashlib.classroom.prose.numbers import Numbers, band
from splashlib.classroom.prose.scene_numbers import SCENE_NUMBERS
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_speed
from splashlib.physics.water.threshold import ORDINARY
from splashlib.physics.water_entry import critical_speed, crown_height, jet
from splashlib.shoot import (
    change_all,
    delay_for,
    framed,
    hold_off_advice,
    impact_of,
    splash,
    tea_house,
    timeline,
    vessel_advice,
    with_body,
)

FRUIT = tea_house()
MARBLE = change_all(with_body(FRUIT, "glass marble"), {"drop.surface": "rough"})
WET_MARBLE = change_all(MARBLE, {"drop.surface": "wet"})
MILK = with_body(FRUIT, "drop of milk")
SLICK = change_all(MARBLE, {"drop.surface": "smooth_dry", "drop.release_height": 0.90})
HIGH = change_all(FRUIT, {"drop.release_height": 0.80})
NARROW = change_all(FRUIT, {"vessel.width": 0.08})


def _stage(name, setup=FRUIT):
    """One stage of a splash."""
    return next(stage for stage in splash(setup) if stage.name == name)


def whole_ms(name):
    """Likely time of a stage of the scene's splash in whole milliseconds, as the clock stands and a learner types."""
    return round(1000 * _stage(name).likely)


def _event(name):
    """One dated event of the scene."""
    return next(event for event in timeline(FRUIT) if event.name == name)


def _half_splash():
    """Speed at which half of the clean, smooth, dry bodies begin to splash [m/s]."""
    return ORDINARY * critical_speed(impact_of(FRUIT).liquid)


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        **band("seal", lambda: _stage("cavity_seals")),
        "seal.delay": lambda: delay_for(FRUIT, event="cavity_seals").value,
        "jet.early": lambda: _stage("jet_peak").early,
        "jet.late": lambda: _stage("jet_peak").late,
        "jet.delay": lambda: delay_for(FRUIT, event="jet_peak").value,
        "crown.early": lambda: _stage("crown_peak").early,
        "crown.late": lambda: _stage("crown_peak").late,
        "crown.delay": lambda: delay_for(FRUIT, event="crown_peak").value,
        # The clock of the panel stands on whole milliseconds.
        "crown.delay_on_clock": lambda: delay_for(FRUIT, after_contact=round(_stage("crown_peak").likely, 3)).value,
        **band("crown_delay", lambda: delay_for(FRUIT, event="crown_peak"), "early", "late"),
        "marble.crown": lambda: _stage("crown_peak", MARBLE).likely,
        "marble.seal": lambda: _stage("cavity_seals", MARBLE).likely,
        "milk.crown": lambda: _stage("crown_peak", MILK).likely,
        "high.seal": lambda: _stage("cavity_seals", HIGH).likely,
        "on_the_bottom": lambda: _stage("meets_bottom").likely,
        "last_drops": lambda: hold_off_advice(FRUIT).droplets,
        "jet_in_beam": lambda: _event("jet_at_beam").time,
        "jet_in_beam.late": lambda: hold_off_advice(FRUIT).jet,
        "shutter_closes": lambda: hold_off_advice(FRUIT).shutter,
    },
    speed={
        "from_90_cm": lambda: fall_speed(0.90),
        "half_splash.speed": _half_splash,
    },
    count={
        "spilled": lambda: 1000 * vessel_advice(FRUIT).spilled,  # litres
        "crown.in_100": lambda: 100 * _stage("crown_peak").chance,
        "slick_marble.in_100": lambda: 100 * _stage("crown_peak", SLICK).chance,
        "wet_marble.in_100": lambda: 100 * _stage("crown_peak", WET_MARBLE).chance,
    },
    length={
        "half_splash.height": lambda: _half_splash() ** 2 / (2 * GRAVITY),
        **band("wet", lambda: vessel_advice(FRUIT).wet, "likely", "late"),
        **band("rise", lambda: vessel_advice(FRUIT).level_rise, "likely", "late"),
        "vase": lambda: FRUIT.vessel.width,
        "narrow.rise": lambda: vessel_advice(NARROW).level_rise[1],
        "wide_enough": lambda: vessel_advice(FRUIT).width_needed,
        "on_table.late": lambda: vessel_advice(FRUIT).on_table[2],
        "frame.top": lambda: framed(FRUIT).top,
        "crown.height": lambda: crown_height(impact_of(FRUIT)).likely,
        "jet.height": lambda: jet(impact_of(FRUIT)).height.likely,
        "high.wet": lambda: vessel_advice(HIGH).wet[1],
    },
)
