"""Hold-off and vessel: the advice is the chain of events and the physics, said in words."""

import pytest

from splashlib.physics import water_entry
from splashlib.shoot import (
    BODIES,
    change,
    change_all,
    hold_off_advice,
    impact_of,
    tea_house,
    timeline,
    vessel_advice,
    with_body,
)


def test_the_hold_off_outlasts_the_open_shutter():
    setup = tea_house()
    found = hold_off_advice(setup)
    closes = next(event for event in timeline(setup) if event.name == "shutter_closes")
    assert found.shutter == closes.late == found.needed
    assert found.enough
    assert not hold_off_advice(change(setup, "trigger.hold_off", 1.0)).enough
    assert "set 1.3 s" in hold_off_advice(change(setup, "trigger.hold_off", 1.0)).lines[-1]


def test_the_hold_off_outlasts_the_drops_that_come_back():
    setup = change(tea_house(), "camera.style", "mirror")
    found = hold_off_advice(setup)
    back = next(event for event in timeline(setup) if event.name == "droplets_at_beam")
    assert found.shutter == 0
    assert found.needed == found.droplets == back.late
    assert hold_off_advice(change(setup, "beam.height", 0.3)).needed <= found.needed


def test_a_smooth_dry_marble_throws_nothing_through_the_beam():
    setup = change(with_body(tea_house(), "glass marble"), "camera.style", "mirror")
    assert hold_off_advice(setup).needed == 0
    assert vessel_advice(setup).wet == (0, 0, 0)


def test_the_vessel_rises_overflows_and_is_narrow():
    setup = tea_house()
    found = vessel_advice(setup)
    assert found.level_rise == tuple(water_entry.vessel_effects(impact_of(setup)).level_rise)
    assert found.overflows == "no"
    brim = vessel_advice(change(setup, "vessel.rim", 0.002))
    assert brim.overflows == "yes"
    assert any("overflows" in line for line in brim.lines)
    assert vessel_advice(change(setup, "vessel.rim", brim.rim_needed + 1e-6)).overflows == "no"
    assert any("walls are near" in line for line in found.lines)
    wide = change(setup, "vessel.width", found.width_needed + 0.01)
    assert not any("walls" in line for line in vessel_advice(wide).lines)


def test_a_shallow_vessel_has_its_bottom_in_the_way():
    shallow = change_all(tea_house(), {"vessel.depth": 0.05, "drop.density": 3000.0})
    assert vessel_advice(shallow).bottom_before_seal
    assert not vessel_advice(change(tea_house(), "vessel.depth", 1.0)).bottom_before_seal


@pytest.mark.parametrize("name", BODIES)
def test_advice_is_in_whole_short_lines(name):
    setup = with_body(tea_house(), name)
    for line in (*hold_off_advice(setup).lines, *vessel_advice(setup).lines):
        assert line.endswith(".")
        assert len(line) < 160
        assert "nan" not in line
        assert "inf" not in line.split()


def test_the_impact_is_that_of_the_body_as_it_hangs():
    upright = impact_of(change(tea_house(), "drop.length", 0.05))
    lying = impact_of(change_all(tea_house(), {"drop.length": 0.05, "drop.hang": "lying"}))
    assert (upright.diameter, upright.length) == pytest.approx((0.035, 0.05))
    assert (lying.diameter, lying.length) == pytest.approx(((0.035 * 0.05) ** 0.5, 0.035))
    assert impact_of(tea_house()).vessel_width == 0.12
    milk = impact_of(with_body(tea_house(), "drop of milk"))
    assert milk.film_depth == 0.18
