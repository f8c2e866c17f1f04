"""The numbers that the lesson `splash` states: stages and their delays, hold-off, wet zone, level."""

from splashlib.classroom.prose.numbers import Numbers, band
from splashlib.classroom.prose.scene_numbers import SCENE_NUMBERS
from splashlib.shoot import change_all, delay_for, hold_off_advice, splash, tea_house, vessel_advice, with_body

FRUIT = tea_house()
MARBLE = change_all(with_body(FRUIT, "glass marble"), {"drop.surface": "rough"})
MILK = with_body(FRUIT, "drop of milk")
HIGH = change_all(FRUIT, {"drop.release_height": 0.80})
NARROW = change_all(FRUIT, {"vessel.width": 0.08})


def _stage(name, setup=FRUIT):
    """One stage of a splash."""
    return next(stage for stage in splash(setup) if stage.name == name)


def _times(name, stage):
    """Names for the times of a stage of the kumquat after contact, and for the delay that brings it."""
    return {
        **band(name, lambda: _stage(stage)),
        f"{name}.delay": lambda: delay_for(FRUIT, event=stage).value,
    }


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        **_times("seal", "cavity_seals"),
        **_times("jet", "jet_peak"),
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
        "shutter_closes": lambda: hold_off_advice(FRUIT).shutter,
    },
    count={
        "crown.in_100": lambda: 100 * _stage("crown_peak").chance,
    },
    length={
        **band("wet", lambda: vessel_advice(FRUIT).wet, "likely", "late"),
        **band("rise", lambda: vessel_advice(FRUIT).level_rise, "likely", "late"),
        "vase": lambda: FRUIT.vessel.width,
        "narrow.rise": lambda: vessel_advice(NARROW).level_rise[1],
        "wide_enough": lambda: vessel_advice(FRUIT).width_needed,
        "high.wet": lambda: vessel_advice(HIGH).wet[1],
    },
)
