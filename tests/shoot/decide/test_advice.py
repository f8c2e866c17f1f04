"""Hold-off and vessel: the advice is the chain of events and the physics, said in words."""

import pytest
from hypothesis import given, settings

from splashlib.physics import water_entry
from splashlib.shoot import (
    BODIES,
    change,
    change_all,
    hold_off_advice,
    impact_of,
    lead,
    tea_house,
    timeline,
    vessel_advice,
    with_body,
)
from splashlib.shoot.setup.field_rows import STYLES
from tests.effort import cases
from tests.shoot.random_setups import setups


def test_the_hold_off_outlasts_the_open_shutter():
    setup = tea_house()
    found = hold_off_advice(setup)
    closes = next(event for event in timeline(setup) if event.name == "shutter_closes")
    assert found.shutter == closes.late == found.needed
    assert found.enough
    assert not hold_off_advice(change(setup, "trigger.hold_off", 1.0)).enough
    assert "set 1.3 s" in hold_off_advice(change(setup, "trigger.hold_off", 1.0)).lines[-1]


def late(setup, name):
    return next((event.late for event in timeline(setup) if event.name == name), 0.0)


def back_by_small_steps(top, since, beam):
    """When a head that stood still at `top` at the time `since` is back at the beam, in steps of 10 us."""
    height, speed, time = top, 0.0, since
    while height > beam:
        speed += 9.81 * 1e-5
        height -= speed * 1e-5
        time += 1e-5
    return time


@pytest.mark.parametrize("style", STYLES)
def test_the_hold_off_outlasts_drops_jet_and_shutter_in_every_style(style):
    setup = change(tea_house(), "camera.style", style)
    found, course = hold_off_advice(setup), water_entry.jet(impact_of(setup))
    assert found.droplets == late(setup, "droplets_at_beam") > 0
    assert found.shutter == late(setup, "shutter_closes") > 0
    # The highest column that the band holds, by Newton's law in small steps; the contact scatters far less.
    contact = next(event.time for event in timeline(setup) if event.name == "contact")
    tallest = contact + back_by_small_steps(course.height.late, course.peak.late, setup.beam.height)
    assert found.jet == pytest.approx(tallest, abs=0.002)
    assert found.jet > found.droplets
    assert found.needed == max(found.droplets, found.jet, found.shutter)
    assert found.decides == ("shutter" if style == "held_open" else "jet")
    assert ("the jet decides" in found.lines[-1]) == (style != "held_open")
    assert ("the open shutter decides" in found.lines[-1]) == (style == "held_open")
    assert any("A tall jet stands in the beam at 12" in line for line in found.lines)


def test_a_column_in_the_beam_is_in_the_timeline_and_its_head_is_there():
    setup = tea_house()
    back = next(event for event in timeline(setup) if event.name == "jet_at_beam")
    contact = next(event.time for event in timeline(setup) if event.name == "contact")
    assert back.early <= back.time <= back.late
    assert water_entry.jet_height(impact_of(setup), back.time - contact) == pytest.approx(setup.beam.height, abs=0.002)


@settings(max_examples=cases(40), deadline=None)
@given(setup=setups(wild=False))
def test_nothing_is_said_to_be_below_the_beam_while_a_column_stands_in_it(setup):
    found = hold_off_advice(setup)
    assert found.needed == max(found.droplets, found.jet, found.shutter)
    said = " ".join(found.lines)
    assert "hardly reach" not in said
    assert ("Neither" in said) == (found.droplets == found.jet == 0)
    assert found.enough == (setup.trigger.hold_off >= found.needed)


def test_the_higher_the_beam_the_sooner_the_column_has_left_it():
    beams = [change(tea_house(), "beam.height", height) for height in (0.05, 0.12, 0.3)]
    # Counted from the contact: a higher beam is broken sooner, and its clock runs longer.
    times = [hold_off_advice(setup).jet - lead(setup) for setup in beams]
    assert times == sorted(times, reverse=True)
    low = change_all(with_body(tea_house(), "drop of milk"), {"beam.height": 0.12})
    assert hold_off_advice(low).jet == 0


def test_a_smooth_dry_marble_throws_no_drops_through_the_beam():
    setup = change(with_body(tea_house(), "glass marble"), "camera.style", "mirror")
    assert hold_off_advice(setup).droplets == 0
    assert vessel_advice(setup).wet == (0, 0, 0)


def test_the_vessel_rises_overflows_and_is_narrow():
    setup = tea_house()
    found = vessel_advice(setup)
    assert found.level_rise == tuple(water_entry.vessel_effects(impact_of(setup)).level_rise)
    # Filled to the brim: what the fruit and its cavity push up runs over, into the tray.
    assert found.overflows == "yes"
    assert found.spilled == pytest.approx(found.level_rise[1] * 0.12**2)
    assert any("The tray takes what runs over, about 0.2 l: fill up to the brim again" in line for line in found.lines)
    bare = vessel_advice(change(setup, "vessel.tray", "none"))
    assert any("it overflows: stand it in a tray, or give it a rim of 2.1 cm" in line for line in bare.lines)
    deep = vessel_advice(change(setup, "vessel.rim", bare.rim_needed + 1e-6))
    assert (deep.overflows, deep.spilled) == ("no", 0)
    assert any("seen through splashed glass. Fill to the brim" in line for line in deep.lines)
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
