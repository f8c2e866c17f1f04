"""Delay and beam height turned round: what is found is put back and must hold."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from splashlib.shoot import (
    Flash,
    beam_bounds,
    best_beam_height,
    body_height,
    change,
    change_all,
    delay_for,
    framed,
    instant_names,
    late_lag,
    lead,
    light_lag,
    sees,
    tea_house,
    timeline,
    two_scatters,
    with_body,
)
from splashlib.shoot.chain.events import events
from tests.effort import cases
from tests.shoot.random_setups import setups

SLOW = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow, HealthCheck.filter_too_much]}
STYLES = ("mirror", "mirror_up", "no_mirror", "held_open")


def in_style(style, **changes):
    return change_all(change(tea_house(), "camera.style", style), changes)


def with_delay(setup, delay):
    return change(setup, "trigger.delay", delay)


def with_late_lags(setup):
    """The same rig with every lag late by two scatters, each on its own."""
    late = two_scatters(setup)
    changes = {"trigger.lag": setup.trigger.lag + late["trigger"]}
    if setup.camera.style != "held_open":
        changes["camera.lag"] = setup.camera.lag + late["camera"]
    for k, head in enumerate(setup.flashes):
        changes[f"flashes.{k}.route_lag"] = head.route_lag + late["route"][k]
    return change_all(setup, changes)


# --- the delay


@given(setup=setups(wild=False), data=st.data())
@settings(max_examples=cases(80), **SLOW)
def test_with_the_delay_found_the_light_is_on_the_instant(setup, data):
    name = data.draw(st.sampled_from(instant_names(setup)))
    found = delay_for(setup, event=name)
    assert 0 <= found.early <= found.value <= found.late
    if math.isinf(found.short_by):
        assert events(setup).missed[0]
        return
    dated = {event.name: event.time for event in timeline(setup)}
    when = events(with_delay(setup, min(found.value, 10.0)))
    assume(found.value <= 10)
    assert when.light[0] - dated[name] == pytest.approx(found.short_by, abs=2e-9)


def test_an_instant_later_than_a_trigger_can_wait_is_told_without_a_remedy():
    found = delay_for(tea_house(), after_contact=10.0)
    assert found.value > 10
    assert found.short_by == 0
    assert found.remedies == ()


@given(setup=setups(wild=False), share=st.floats(0.001, 1))
@settings(max_examples=cases(60), **SLOW)
def test_with_the_delay_for_a_height_the_body_is_there(setup, share):
    height = share * setup.beam.bottom
    found = delay_for(setup, height=height)
    assume(found.short_by == 0)
    light = events(with_delay(setup, found.value)).light[0]
    assert body_height(setup, float(light)) == pytest.approx(height, abs=1e-6)


@pytest.mark.parametrize("body", ["kumquat", "glass marble", "drop of milk"])
def test_heights_under_water_are_met_too(body):
    setup = with_body(tea_house(), body)
    for height in (-0.002, -0.009):
        found = delay_for(setup, height=height)
        light = events(with_delay(setup, found.value)).light[0]
        assert body_height(setup, float(light)) == pytest.approx(height, abs=1e-5)


def test_the_delay_for_a_time_after_contact():
    setup = tea_house()
    base = delay_for(setup).value
    assert base == pytest.approx(lead(setup) - light_lag(setup))
    assert delay_for(setup, after_contact=0.01).value == pytest.approx(base + 0.01)
    assert delay_for(setup, after_contact=-0.01).value == pytest.approx(base - 0.01)
    assert delay_for(setup, height=0.0).value == pytest.approx(base)
    assert delay_for(setup, event="contact") == delay_for(setup)


def test_the_delay_that_is_set_plays_no_part():
    setup = in_style("mirror")
    assert delay_for(with_delay(setup, 0.08)) == delay_for(setup)
    assert best_beam_height(with_delay(setup, 0.08)) == best_beam_height(setup)


def test_out_of_reach_is_an_answer():
    found = delay_for(in_style("mirror"))
    assert found.value == 0
    assert found.short_by == pytest.approx(0.057, abs=0.0005)
    assert found.remedies


def test_the_remedies_for_a_mirror_and_a_low_beam():
    setup = in_style("mirror")
    remedies = {remedy.path: remedy for remedy in delay_for(setup).remedies}
    assert list(remedies) == ["beam.height", "camera.style", "event"] or len(delay_for(setup).remedies) == 4
    paths = [(remedy.path, remedy.value) for remedy in delay_for(setup).remedies]
    assert ("camera.style", "mirror_up") in paths
    assert ("camera.style", "held_open") in paths
    assert ("event", "jet_rises") in paths
    # With 100 ms of lag and a fall of 45 cm the beam must be at about 25 cm.
    assert remedies["beam.height"].value == pytest.approx(0.25, abs=0.002)
    assert "24.9 cm" in remedies["beam.height"].text


def test_a_mirror_that_is_still_too_slow_when_up_is_not_offered():
    slow = change(in_style("mirror"), "camera.mirror_up.lag", 0.045)
    assert ("camera.style", "mirror_up") not in [(r.path, r.value) for r in delay_for(slow).remedies]


@given(setup=setups(wild=False), after=st.sampled_from([-0.02, 0.0, 0.004, 0.03]))
@settings(max_examples=cases(100), **SLOW)
def test_every_remedy_works_when_it_is_tried(setup, after):
    fall = lead(setup) - float(events(setup).released[0])
    assume(after > -fall)
    found = delay_for(setup, after_contact=after)
    for remedy in found.remedies:
        assert "\n" not in remedy.text
        if remedy.path == "event":
            assert delay_for(setup, event=remedy.value).short_by == 0
        elif remedy.path == "after_contact":
            assert delay_for(setup, after_contact=remedy.value).short_by == 0
        else:
            changed = change(setup, remedy.path, remedy.value)
            again = delay_for(changed, after_contact=after)
            assert again.short_by == 0
            assert events(with_delay(changed, again.value)).lit[0, 0] == pytest.approx(1.0)


def test_no_remedy_where_none_is_needed():
    assert delay_for(tea_house()).remedies == ()
    assert delay_for(in_style("mirror"), event="jet_rises").remedies == ()


def test_a_shutter_that_closes_too_soon_is_mended():
    setup = change_all(tea_house(), {"camera.open_time": 0.7, "camera.open_before": 0.5})
    found = delay_for(setup)
    assert found.short_by == 0
    (remedy,) = found.remedies
    assert remedy.path == "camera.open_time"
    assert remedy.value == pytest.approx(0.9)


def test_a_shutter_faster_than_sync_is_mended():
    setup = in_style("mirror_up", **{"camera.shutter": 1 / 500, "beam.height": 0.2})
    (remedy,) = delay_for(setup).remedies
    assert (remedy.path, remedy.value) == ("camera.shutter", 1 / 200)


def test_a_body_too_thin_for_the_beam_is_told_so():
    setup = change(with_body(tea_house(), "drop of milk"), "drop.diameter", 0.001)
    found = delay_for(setup)
    assert found.value == 0
    assert math.isinf(found.short_by)
    (remedy,) = found.remedies
    assert remedy.path == "beam.blocked_share"
    assert remedy.value <= 0.001 / 0.003
    with pytest.raises(ValueError, match="does not block"):
        best_beam_height(setup)


@pytest.mark.parametrize(
    ("wanted", "said"),
    [
        ({"event": "crown"}, "one of contact, body_under, crown_peak"),
        ({"event": "shutter_open"}, "one of contact"),
        ({"event": 3}, "one of contact"),
        ({"height": 0.46}, "0.45 m"),
        ({"height": -0.2}, "between -0.18 and 0.45 m"),
        ({"height": math.nan}, "height"),
        ({"height": "0.1"}, "a number"),
        ({"height": True}, "a number"),
        ({"after_contact": math.inf}, "after_contact"),
        ({"after_contact": -0.4}, "after_contact"),
        ({"after_contact": np.array([0.1])}, "a number"),
        ({"event": "contact", "height": 0.1}, "one of them"),
    ],
)
def test_an_instant_that_the_drop_does_not_have_gets_one_line(wanted, said):
    for ask in (delay_for, best_beam_height, beam_bounds):
        with pytest.raises(ValueError, match=said) as caught:
            ask(tea_house(), **wanted)
        assert "\n" not in str(caught.value)


def test_a_light_body_never_gets_so_deep():
    setup = change(tea_house(), "drop.density", 300.0)
    with pytest.raises(ValueError, match="stays above"):
        delay_for(setup, height=-0.17)


# --- the beam


@pytest.mark.parametrize("style", STYLES)
def test_the_best_beam_is_the_lowest_that_keeps_all_bounds(style):
    setup = in_style(style)
    best = best_beam_height(setup)
    bounds = beam_bounds(setup)
    assert best == max(bounds.values())
    assert bounds["rim"] == pytest.approx(0.0015)
    assert beam_bounds(change(setup, "vessel.rim", 0.03))["rim"] == pytest.approx(0.0315)
    assert bounds["frame"] == pytest.approx(framed(setup).top + 0.0015)


def keeps_all(setup, height, **wanted):
    """Rim, frame and lag, each looked at for itself with the beam at a height."""
    lower_edge = height - setup.beam.width / 2
    clears = lower_edge >= setup.vessel.rim - 1e-9 and lower_edge >= framed(setup).top - 1e-9
    try:
        late = with_late_lags(change(setup, "beam.height", height))
    except ValueError:
        return False
    return clears and delay_for(late, **wanted).short_by == 0


@given(setup=setups(wild=False), after=st.sampled_from([0.0, 0.0, 0.01, 0.1]))
@settings(max_examples=cases(150), **SLOW)
def test_a_millimetre_lower_breaks_a_bound(setup, after):
    wanted = {"after_contact": after}
    try:
        best = best_beam_height(setup, **wanted)
    except ValueError as error:
        # The highest beam there can be does not keep them either.
        highest = setup.drop.release_height - setup.beam.width / 2
        assert "no beam height will do" in str(error)  # noqa: PT017
        assert not keeps_all(setup, highest - 1e-9, **wanted)
        return
    assert keeps_all(setup, best, **wanted)
    assert not keeps_all(setup, best - 0.001, **wanted)


def test_a_slow_mirror_needs_its_beam_at_a_quarter_of_a_metre():
    setup = in_style("mirror")
    best = best_beam_height(setup)
    assert best == pytest.approx(0.255, abs=0.001)
    assert late_lag(setup) == pytest.approx(light_lag(setup) + 0.003 + 0.0002 + 0.00002)
    # A later instant asks for less, and then the frame decides.
    assert best_beam_height(setup, event="jet_rises") == beam_bounds(setup)["frame"]


def test_a_low_beam_repeats_better_than_a_high_one():
    setup = tea_house()
    spread = []
    for height in (best_beam_height(setup), 0.25, 0.43):
        contact = next(event for event in timeline(change(setup, "beam.height", height)) if event.name == "contact")
        spread.append(contact.late - contact.time)
    assert spread == sorted(spread)
    assert spread[2] > 10 * spread[0]


def test_no_beam_for_a_lag_longer_than_the_fall():
    setup = in_style("mirror", **{"camera.mirror.lag": 0.4})
    with pytest.raises(ValueError, match="longer than from the release"):
        best_beam_height(setup)
    assert math.isnan(beam_bounds(setup)["lag"])


def test_no_beam_under_a_hand_inside_the_frame():
    setup = change_all(tea_house(), {"drop.release_height": 0.07, "beam.height": 0.05})
    with pytest.raises(ValueError, match=r"for the frame it must be at 11\.[67] cm"):
        best_beam_height(setup)


# --- what is seen


def test_what_the_four_styles_see_of_the_same_drop():
    seen = {style: sees(in_style(style, **{"camera.mirror_up.lag": 0.04})) for style in STYLES}
    assert not seen["mirror"].in_frame
    assert seen["mirror"].after_contact == pytest.approx(0.057, abs=0.001)
    assert seen["mirror_up"].in_frame
    assert seen["mirror_up"].height == pytest.approx(0.0089, abs=0.001)
    assert not seen["held_open"].in_frame
    caught = sees(with_delay(tea_house(), delay_for(tea_house()).value))
    assert caught.in_frame
    assert caught.height == pytest.approx(0, abs=1e-9)
    assert caught.speed == pytest.approx(2.963, abs=0.001)
    assert caught.fallen == pytest.approx(0.12)


def test_how_far_the_body_moves_while_the_flash_is_bright():
    setup = with_delay(tea_house(), 0.035)
    seen, when = sees(setup), events(setup)
    bright = float(when.flash_fades[0, 0] - when.flash_starts[0, 0])
    assert seen.moved == pytest.approx(seen.speed * bright, rel=1e-3)
    full = sees(change(setup, "flashes.0.power", 1.0))
    assert full.moved > 10 * seen.moved


def test_nothing_is_seen_of_a_drop_that_misses_the_beam():
    setup = tea_house()
    draw = dataclasses.replace(events(setup).draw, toward=np.array([0.05]))
    seen = sees(setup, draw)
    assert math.isnan(seen.light)
    assert math.isnan(seen.height)
    assert not seen.in_frame
    assert seen.lit == 0


def test_a_body_far_to_the_side_is_out_of_the_frame():
    setup = with_delay(tea_house(), delay_for(tea_house()).value)
    draw = events(setup).draw
    for across, inside in ((0.125, True), (0.126, False)):
        assert sees(setup, dataclasses.replace(draw, across=np.array([across]))).in_frame is inside


def test_the_frame_is_the_sensor_over_the_magnification():
    frame = framed(tea_house())
    assert frame.magnification == pytest.approx(150 / 900)
    assert frame.top - frame.bottom == pytest.approx(0.144)
    assert frame.width == pytest.approx(0.216)
    assert (frame.top + frame.bottom) / 2 == pytest.approx(0.043)


def test_the_first_head_is_the_one_that_counts():
    setup = dataclasses.replace(tea_house(), flashes=(Flash(), Flash(route="radio", route_lag=0.002)))
    assert light_lag(setup) == light_lag(tea_house())
