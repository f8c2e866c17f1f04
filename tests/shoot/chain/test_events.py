"""The one chain of events: what happens when, over one drop, over many, in every camera style."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from splashlib.physics.fall import fall_speed, fall_time
from splashlib.shoot import (
    Flash,
    Setup,
    body_height,
    body_terminal_speed,
    breaks_beam,
    change,
    change_all,
    draw_scatters,
    instant_names,
    nominal_draw,
    open_rows,
    pulse_of,
    simulate,
    splash,
    tea_house,
    timeline,
    two_scatters,
    with_body,
)
from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.timeline import LABELS, OF_THE_FLASH
from tests.effort import cases
from tests.shoot.random_setups import setups
from tests.shoot.slow_chain import one_drop

STYLES = ("mirror", "mirror_up", "no_mirror", "held_open")
CHAIN_TIMES = [name for name in LABELS if name not in OF_THE_FLASH]
SLOW = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow, HealthCheck.filter_too_much]}


def in_style(style, **changes):
    return change_all(change(tea_house(), "camera.style", style), changes)


def two_heads(**second):
    setup = tea_house()
    return dataclasses.replace(setup, flashes=(Flash(), Flash(name="rim", **second)))


# --- against the same chain written out slowly


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", ["kumquat", "glass marble", "drop of milk"])
def test_the_chain_is_the_same_written_out_step_by_step(style, body):
    setup = with_body(
        dataclasses.replace(two_heads(route="radio", route_lag=0.001), camera=in_style(style).camera), body
    )
    setup = change_all(
        setup,
        {"beam.height": 0.2, "trigger.delay": 0.012, "trigger.scatter": 0.0004, "drop.sideways_scatter": 0.006},
    )
    draw = draw_scatters(setup, 6, np.random.default_rng(3))
    when = events(setup, draw)
    for i in range(len(draw)):
        slow = one_drop(setup, draw, i)
        assert when.missed[i] == slow.pop("missed")
        for name, time in slow.items():
            name, _, head = name.partition(".")
            mine = getattr(when, name)[i] if not head else getattr(when, name)[i, int(head)]
            assert mine == pytest.approx(time, abs=2e-7), name


# --- the findings that the course rests on


@pytest.mark.parametrize(("beam", "shift"), [(0.43, 0.0036), (0.12, 0.00017)])
def test_a_release_that_is_3_mm_high_moves_contact_little_with_a_low_beam(beam, shift):
    setup = change(tea_house(), "beam.height", beam)
    draw = dataclasses.replace(nominal_draw(setup, 2), release=np.array([0.0, 0.003]))
    contact = events(setup, draw).contact
    assert contact[0] - contact[1] == pytest.approx(shift, rel=0.02)


def test_with_a_low_beam_and_the_mirror_down_the_light_comes_far_too_late():
    when = events(in_style("mirror"))
    assert when.light[0] - when.contact[0] == pytest.approx(0.057, abs=0.001)


# --- order and kind of the events


@given(setup=setups(wild=False))
@settings(max_examples=cases(150), **SLOW)
def test_events_come_in_their_order(setup):
    when = events(setup)
    assert when.released[0] <= 0 < when.contact[0]
    if when.missed[0]:
        assert math.isnan(when.beam_broken[0])
        assert np.isnan(when.flash_half).all()
        assert (when.lit == 0).all()
        return
    assert when.beam_broken[0] == 0 <= when.trigger_answers[0]
    assert when.curtain_starts[0] <= when.shutter_open[0] < when.shutter_closes[0]
    fires = when.trigger_answers if setup.camera.style == "held_open" else when.shutter_open
    assert (when.flash_starts >= fires[:, None]).all()
    for name in ("flash_peak", "flash_half", "flash_fades"):
        assert (getattr(when, name) > when.flash_starts - 1e-15).all()
    assert (when.flash_fades >= when.flash_peak).all()
    assert ((when.lit >= 0) & (when.lit <= 1)).all()


@pytest.mark.parametrize("style", STYLES)
def test_only_a_mirror_that_must_rise_has_a_mirror_event(style):
    names = {event.name for event in timeline(in_style(style))}
    assert ("mirror_up" in names) == (style == "mirror")
    assert set(LABELS) - names <= {"mirror_up"}


def test_held_open_the_signal_fires_the_flash_and_the_shutter_was_open_before_the_release():
    when = events(in_style("held_open", **{"trigger.delay": 0.02}))
    assert when.flash_starts[0, 0] == pytest.approx(0.0005 + 0.02 + 50e-6)
    assert when.shutter_open[0] == pytest.approx(when.released[0] - 0.5)
    assert when.shutter_closes[0] == pytest.approx(when.released[0] - 0.5 + 2.0)


def test_each_head_comes_by_its_own_route():
    setup = two_heads(route="radio", route_lag=0.00055)
    when = events(setup)
    assert when.flash_half[0, 1] - when.flash_half[0, 0] == pytest.approx(0.0005)
    heads = [(event.head, event.label) for event in timeline(setup) if event.name == "flash_half"]
    assert heads == [(0, "half of the light is out (key)"), (1, "half of the light is out (rim)")]


def test_the_light_is_the_half_energy_instant_of_the_pulse():
    setup = tea_house()
    when = events(setup)
    pulse = pulse_of(setup.flashes[0])
    assert pulse.energy_within(when.light[0] - when.flash_starts[0, 0]) == pytest.approx(0.5)
    peak, fades = (getattr(when, name)[0, 0] - when.flash_starts[0, 0] for name in ("flash_peak", "flash_fades"))
    assert pulse.intensity(peak) == pytest.approx(1.0)
    assert pulse.intensity(fades) == pytest.approx(0.1)


# --- the beam


def test_the_share_of_the_beam_decides_how_far_the_body_must_come():
    setup = tea_house()
    for share in (0.1, 0.5, 1.0):
        at, missed = breaks_beam(change(setup, "beam.blocked_share", share))
        assert at == pytest.approx(0.1215 - share * 0.003)
        assert not missed


def test_off_centre_the_body_must_come_lower_and_beside_it_misses():
    setup = tea_house()
    toward = np.array([0.0, 0.010, 0.01749, 0.0176, -0.02])
    at, missed = breaks_beam(setup, toward)
    assert missed.tolist() == [False, False, True, True, True]
    # 10 mm off the middle of a 35 mm sphere the edge is 17.5 - sqrt(17.5^2 - 10^2) = 3.14 mm higher.
    assert at[0] - at[1] == pytest.approx(0.00314, abs=1e-5)
    draw = dataclasses.replace(nominal_draw(setup, 5), toward=toward)
    when = events(setup, draw)
    assert when.missed.tolist() == missed.tolist()
    assert np.isnan(when.light[missed]).all()
    assert np.isfinite(when.contact).all()
    assert when.contact[1] < when.contact[0]


def test_an_upright_body_is_met_sooner_by_its_curve_than_a_flat_one():
    upright = change_all(tea_house(), {"drop.length": 0.05})
    lying = change_all(tea_house(), {"drop.length": 0.05, "drop.hang": "lying"})
    late = [breaks_beam(each, 0.01)[0] for each in (lying, upright)]
    assert late[0] > late[1]


def test_a_drop_thinner_than_the_share_never_fires():
    setup = change_all(with_body(tea_house(), "drop of milk"), {"drop.diameter": 0.0014, "beam.blocked_share": 0.5})
    assert events(setup).missed.all()
    names = {event.name for event in timeline(setup)}
    assert {"released", "contact"} <= names
    assert not names & {"beam_broken", "trigger_answers", *OF_THE_FLASH}


def test_the_scatter_sideways_makes_misses_as_often_as_it_must():
    setup = change_all(with_body(tea_house(), "drop of milk"), {"drop.sideways_scatter": 0.002})
    missed = simulate(setup, 40_000, np.random.default_rng(5)).missed
    # Missed beyond the offset at which the chord is the needed 1.5 mm: sqrt(2.5^2 - 0.75^2) = 2.385 mm.
    chance = math.erfc(2.385 / 2 / math.sqrt(2))
    assert missed.mean() == pytest.approx(chance, abs=4 * math.sqrt(chance / 40_000))


# --- the shutter and its curtains


@pytest.mark.parametrize(
    ("shutter", "curtain", "lit"),
    [
        (1 / 200, "mechanical", 1.0),
        (1 / 500, "mechanical", 2 / 3),
        (1 / 1000, "electronic", 1 / 3),
        (1 / 200, "rolling", 1 / 4),
        (1 / 30, "rolling", 1.0),
        (1 / 2000, "leaf", 1.0),
    ],
)
def test_the_flash_finds_as_much_of_the_frame_open_as_curtain_and_shutter_leave(shutter, curtain, lit):
    setup = in_style("no_mirror", **{"camera.shutter": shutter, "camera.first_curtain": curtain})
    # The flash comes 0.1 ms after the frame is fully open; the closing curtain has gone on by then.
    sweep = setup.camera.sweep
    gone = 0.000102 / sweep if lit < 1 else 0.0
    assert events(setup).lit[0, 0] == pytest.approx(lit - gone, abs=0.001)


def test_light_after_the_shutter_has_closed_is_lost():
    late = change(tea_house(), "trigger.delay", 1.3)
    assert events(late).lit[0, 0] == 0
    assert events(change(late, "camera.open_time", 3.0)).lit[0, 0] == 1
    slow = dataclasses.replace(in_style("mirror_up"), flashes=(Flash(route="radio", route_lag=0.006),))
    assert events(slow).lit[0, 0] == pytest.approx(0.0, abs=1e-12)


def test_rows_open_and_close_one_after_the_other():
    setup = in_style("mirror_up", **{"camera.shutter": 1 / 1000})
    first, last = open_rows(setup, np.array([-0.001, 0.0, 0.0015, 0.003, 0.0045]))
    assert last == pytest.approx([0, 0, 0.5, 1, 1])
    assert first == pytest.approx([0, 0, 0.5 / 3, 2 / 3, 1])


# --- chance


def test_the_nominal_draw_is_the_middle_of_many():
    setup = in_style("mirror_up", **{"drop.sideways_scatter": 0.0})
    many, one = simulate(setup, 20_000, np.random.default_rng(1)), events(setup)
    for name in ("released", "trigger_answers", "shutter_open", "contact"):
        spread = np.std(getattr(many, name))
        assert np.median(getattr(many, name)) == pytest.approx(getattr(one, name)[0], abs=0.1 * spread + 1e-9)


def test_a_viewfinder_frame_is_an_even_scatter_and_the_others_are_bell_shaped():
    central = {"drop.sideways_scatter": 0.0}
    uniform = simulate(in_style("no_mirror", **central), 20_000, np.random.default_rng(2))
    lag = uniform.shutter_open - uniform.trigger_answers
    assert lag.min() >= 0.050 - 0.0167 / 2
    assert lag.max() <= 0.050 + 0.0167 / 2
    assert np.std(lag) == pytest.approx(0.0167 / math.sqrt(12), rel=0.02)
    bell = simulate(in_style("mirror", **central), 20_000, np.random.default_rng(2))
    lag = bell.shutter_open - bell.trigger_answers
    assert np.std(lag) == pytest.approx(0.0015, rel=0.02)
    assert np.mean(np.abs(lag - 0.100) < 0.0015) == pytest.approx(0.683, abs=0.015)


def test_no_scatter_opens_the_frame_before_its_curtain_can_have_crossed_it():
    setup = in_style("mirror_up", **{"camera.lag": 0.004, "camera.lag_scatter": 0.002, "trigger.scatter": 0.002})
    many = simulate(setup, 5_000, np.random.default_rng(2))
    lag = (many.shutter_open - many.trigger_answers)[~many.missed]
    assert lag.min() == pytest.approx(setup.camera.sweep)
    assert np.nanmin(many.trigger_answers) == 0


def test_the_same_seed_drops_the_same_bodies_in_every_style():
    drops = [draw_scatters(in_style(style), 50, np.random.default_rng(9)) for style in STYLES]
    for draw in drops[1:]:
        for name in ("release", "across", "toward", "trigger", "pace", "luck"):
            assert (getattr(draw, name) == getattr(drops[0], name)).all()


def test_one_drop_of_a_draw_is_dated_as_among_the_others():
    setup = in_style("no_mirror")
    draw = draw_scatters(setup, 7, np.random.default_rng(4))
    all_of_them, one = events(setup, draw), events(setup, draw.take(3))
    for name in LABELS:
        np.testing.assert_array_equal(getattr(one, name)[0], getattr(all_of_them, name)[3])
    assert {name: times[0] for name, times in one.stages.items()} == pytest.approx(
        {name: times[3] for name, times in all_of_them.stages.items()}, nan_ok=True
    )


def test_arrays_have_the_length_of_the_draw():
    when = simulate(two_heads(), 11, np.random.default_rng(0))
    assert len(when) == 11
    for name in CHAIN_TIMES:
        assert getattr(when, name).shape == (11,)
    for name in (*OF_THE_FLASH, "lit"):
        assert getattr(when, name).shape == (11, 2)
    assert all(times.shape == (11,) for times in when.stages.values())


@pytest.mark.parametrize("n", [0, -1, 2.5, True, "10", None])
def test_what_is_no_number_of_drops_gets_one_line(n):
    with pytest.raises(ValueError, match="whole number"):
        simulate(tea_house(), n, np.random.default_rng(0))


def test_chance_needs_its_own_generator():
    with pytest.raises(ValueError, match=r"numpy\.random\.Generator"):
        simulate(tea_house(), 3, 42)


# --- the timeline


@given(setup=setups(wild=False))
@settings(max_examples=cases(60), **SLOW)
def test_the_timeline_is_the_nominal_drop_in_order_with_its_bands(setup):
    when, dated = events(setup), timeline(setup)
    assert [event.time for event in dated] == sorted(event.time for event in dated)
    for event in dated:
        assert event.early <= event.time <= event.late
        assert 0 < event.chance <= 1
        if event.name in LABELS:
            times = getattr(when, event.name)[0]
            assert event.time == pytest.approx(times if event.head is None else times[event.head], abs=1e-12)


@pytest.mark.parametrize("style", STYLES)
def test_the_band_holds_nineteen_drops_of_twenty(style):
    setup = in_style(style, **{"drop.sideways_scatter": 0.002})
    many = simulate(setup, 20_000, np.random.default_rng(8))
    for event in timeline(setup):
        if event.name in ("contact", "released", "trigger_answers", "shutter_open", "flash_half"):
            times = getattr(many, event.name)
            inside = (times >= event.early) & (times <= event.late)
            assert 0.93 < inside.mean() <= 1, event.name


def test_two_scatters_are_all_of_an_even_one():
    assert two_scatters(in_style("no_mirror"))["camera"] == pytest.approx(0.0167 / 2)
    assert two_scatters(in_style("mirror"))["camera"] == pytest.approx(0.003)


def test_stages_follow_contact_and_their_bands_are_added():
    setup = tea_house()
    dated = {event.name: event for event in timeline(setup)}
    for stage in splash(setup):
        event, contact = dated[stage.name], dated["contact"]
        assert event.time == pytest.approx(contact.time + stage.likely)
        late = math.hypot(contact.late - contact.time, stage.late - stage.likely)
        assert event.late - event.time == pytest.approx(late)
        assert event.source == stage.source
    assert {"crown_peak", "cavity_seals", "jet_rises"} < set(instant_names(setup))


def test_many_splashes_fill_the_band_and_come_as_often_as_they_should():
    setup = tea_house()
    many = simulate(setup, 20_000, np.random.default_rng(6))
    for stage in splash(setup):
        after = many.stages[stage.name] - many.contact
        came = np.isfinite(after)
        assert came.mean() == pytest.approx(stage.chance, abs=0.015), stage.name
        assert stage.early - 1e-12 <= after[came].min() < stage.likely < after[came].max() <= stage.late + 1e-12
    crown_falls, dome = (np.isfinite(many.stages[name]) for name in ("crown_falls", "dome_closes"))
    assert not (crown_falls & dome).any()


@pytest.mark.parametrize("height", [0.2, 0.45, 0.6, 0.8, 1.0, 1.5])
@pytest.mark.parametrize("body", ["kumquat", "glass marble", "drop of milk"])
@pytest.mark.parametrize("surface", ["rough", "wet", "smooth_dry"])
def test_every_crown_closes_or_falls_back_and_none_does_both(body, height, surface):
    changes = {"drop.release_height": height} | ({"drop.surface": surface} if body != "drop of milk" else {})
    many = simulate(change_all(with_body(tea_house(), body), changes), 2000, np.random.default_rng(2))
    none = np.full(2000, np.nan)
    crown, falls, dome = (
        np.isfinite(many.stages.get(name, none)) for name in ("crown_peak", "crown_falls", "dome_closes")
    )
    assert np.array_equal(crown, falls ^ dome)
    assert not (falls & dome).any()
    assert crown.any() == ("crown_peak" in many.stages)


@pytest.mark.parametrize("height", [0.2, 0.45, 0.8, 1.2, 1.5])
@pytest.mark.parametrize("body", ["kumquat", "glass marble"])
@pytest.mark.parametrize("surface", ["rough", "wet"])
def test_a_crown_that_no_dome_closes_goes_with_a_column(body, height, surface):
    setup = change_all(with_body(tea_house(), body), {"drop.release_height": height, "drop.surface": surface})
    many = simulate(setup, 4000, np.random.default_rng(3))
    none = np.full(4000, np.nan)
    crown, dome, rises, top = (
        np.isfinite(many.stages.get(name, none)) for name in ("crown_peak", "dome_closes", "jet_rises", "jet_peak")
    )
    assert np.array_equal(rises, top)
    assert rises[crown & ~dome].all()
    assert not rises[~crown].any()
    chances = {stage.name: stage.chance for stage in splash(setup)}
    assert rises.mean() == pytest.approx(chances.get("jet_rises", 0.0), abs=0.03)


def test_drops_come_back_through_a_low_beam_only():
    names = [[e.name for e in timeline(change(tea_house(), "beam.height", h))] for h in (0.12, 0.44)]
    assert "droplets_at_beam" in names[0]
    assert names[0].index("droplets_at_beam") > names[0].index("contact")
    high = change_all(tea_house(), {"drop.release_height": 3.0, "beam.height": 2.9})
    assert "droplets_at_beam" not in {e.name for e in timeline(high)}


# --- the way of the body


@given(setup=setups(wild=False), share=st.floats(0, 1))
@settings(max_examples=cases(60), **SLOW)
def test_the_way_of_the_body_meets_the_events(setup, share):
    when = events(setup)
    assert body_height(setup, float(when.released[0]) - 0.1) == setup.drop.release_height
    assert body_height(setup, float(when.contact[0])) == pytest.approx(0.0, abs=1e-9)
    if not when.missed[0]:
        assert body_height(setup, 0.0) == pytest.approx(float(breaks_beam(setup)[0]), abs=1e-9)
    time = float(when.released[0] + share * (when.contact[0] - when.released[0]))
    left = setup.drop.release_height - body_height(setup, time)
    vt = body_terminal_speed(setup.drop)
    assert fall_time(max(left, 0.0), terminal_speed=vt) == pytest.approx(time - when.released[0], abs=1e-8)


@pytest.mark.parametrize("body", ["kumquat", "glass marble", "drop of milk"])
def test_the_way_has_no_jump_and_stays_in_the_vessel(body):
    setup = with_body(tea_house(), body)
    times = np.linspace(-0.3, 1.0, 26_001)
    heights = body_height(setup, times)
    vt = body_terminal_speed(setup.drop)
    fastest = fall_speed(setup.drop.release_height, terminal_speed=vt)
    # The floor of a drop's crater comes back faster than the drop came, at the very end.
    assert np.abs(np.diff(heights)).max() <= fastest * 5e-5 * (3 if setup.drop.liquid else 1.01)
    assert heights.min() >= -setup.vessel.depth
    assert heights.max() == setup.drop.release_height


def test_the_ways_of_many_drops_at_many_times():
    setup = tea_house()
    draw = draw_scatters(setup, 4, np.random.default_rng(0))
    times = np.array([-0.1, 0.0, 0.03, math.nan])
    heights = body_height(setup, times[:, None], draw=draw)
    assert heights.shape == (4, 4)
    assert np.isnan(heights[3]).all()
    alone = [body_height(setup, times[:3, None], draw=draw.take(i))[:, 0] for i in range(4)]
    np.testing.assert_allclose(heights[:3], np.array(alone).T, rtol=0, atol=1e-15)


def test_a_set_up_must_have_at_least_one_head():
    with pytest.raises(ValueError, match="flash head"):
        Setup(flashes=())
