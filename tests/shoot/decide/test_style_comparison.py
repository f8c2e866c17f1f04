"""One drop in four camera styles: every date is that of the one chain of events, every verdict what is seen."""

import math
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from splashlib.shoot import change, change_all, delay_for, framed, light_lag, sees, tea_house, timeline
from splashlib.shoot.chain.events import events
from splashlib.shoot.decide.style_comparison import CURTAINS, OUTCOMES, in_curtains, in_styles, links, outcome
from splashlib.shoot.setup.field_rows import STYLES
from tests.effort import cases
from tests.shoot.random_setups import setups

LOW = change_all(tea_house(), {"beam.height": 0.09, "camera.frame_centre": 0.01})  # clear of the frame


def by_style(setup, aim=None):
    return {shot.style: shot for shot in in_styles(setup, aim=aim)}


def possible_in_all_styles(setup):
    """Whether the records of all four styles are possible, also of those that are not in use."""
    try:
        return all(change(setup, "camera.style", style) for style in STYLES)
    except ValueError:
        return False


@settings(deadline=None, max_examples=cases(60))
@given(setup=setups())
def test_dates_are_those_of_the_chain(setup):
    assume(possible_in_all_styles(setup))
    assert [shot.style for shot in in_styles(setup)] == list(STYLES)
    for style, shot in by_style(setup).items():
        alone = change(setup, "camera.style", style)
        assert shot.setup == alone
        # What counts is the first head that finds the shutter open.
        lit = [head for head in range(len(alone.flashes)) if sees(alone, head=head).lit > 0]
        head = lit[0] if lit else 0
        assert str(shot.seen) == str(sees(alone, head=head))
        half = [event for event in timeline(alone) if event.name == "flash_half" and event.head == head]
        if not half:
            assert (shot.outcome, shot.links) == ("no_light", ())
            continue
        undelayed = change(alone, "trigger.delay", 0.0)
        assert shot.lag == pytest.approx(sees(undelayed, head=head).light, abs=1e-9)
        assert head or shot.lag == pytest.approx(light_lag(alone), abs=1e-9)
        assert shot.links[-2].end == pytest.approx(shot.seen.light, abs=1e-9)
        assert (shot.early, shot.late) == pytest.approx((half[0].early, half[0].late))
        assert shot.outcome in OUTCOMES


@settings(deadline=None, max_examples=cases(60))
@given(setup=setups())
def test_links_leave_no_gap_and_end_with_the_light(setup):
    found = links(setup)
    if not found:
        assert math.isnan(events(setup).light[0])
        return
    *chain, last = found
    assert last.name == "open"
    assert last.time == pytest.approx(setup.camera.exposure_time)
    assert chain[0].start == 0
    for before, after in pairwise(chain):
        assert after.start == pytest.approx(before.end, abs=1e-12)
    assert all(link.time >= -1e-12 for link in chain)
    assert chain[-1].end == events(setup).light[0]
    assert chain[1].time == pytest.approx(setup.trigger.delay, abs=1e-12)
    wanted = ["trigger", "delay", "camera", "curtain", "flash"]
    assert [link.name for link in chain] == (wanted[:2] + wanted[4:] if setup.camera.style == "held_open" else wanted)


@pytest.mark.parametrize("style", STYLES)
def test_each_link_takes_what_the_set_up_says(style):
    setup = change_all(LOW, {"camera.style": style, "trigger.delay": 0.02})
    took = {link.name: link.time for link in links(setup)}
    assert took["trigger"] == pytest.approx(setup.trigger.lag)
    assert took["delay"] == pytest.approx(0.02)
    assert took["open"] == pytest.approx(setup.camera.exposure_time)
    if style != "held_open":
        assert took["curtain"] == pytest.approx(setup.camera.curtain_travel)
        assert took["camera"] + took["curtain"] == pytest.approx(setup.camera.lag)


def test_a_low_beam_leaves_the_slow_mirror_without_the_body_and_no_delay_repairs_it():
    assert by_style(LOW, "contact")["mirror"].outcome == "late"
    for delay in (0.0, 0.02, 0.05, 0.1, 0.3):
        assert by_style(change(LOW, "trigger.delay", delay))["mirror"].outcome == "late"
    assert by_style(LOW, "contact")["mirror"].short_by == pytest.approx(
        delay_for(change(LOW, "camera.style", "mirror")).short_by
    )


def test_each_way_out_brings_the_body_or_the_jet_back():
    raised = change(tea_house(), "beam.height", 0.255)
    assert by_style(raised, "contact")["mirror"].outcome == "caught"
    assert by_style(LOW, "contact")["held_open"].outcome == "caught"
    assert by_style(tea_house(), "contact")["mirror_up"].outcome == "caught"
    assert by_style(LOW, "jet_peak")["mirror"].outcome == "caught"


@pytest.mark.parametrize("aim", ["contact", "crown_peak", "jet_peak"])
def test_with_an_aim_each_style_gets_its_own_best_delay(aim):
    for style, shot in by_style(LOW, aim).items():
        best = delay_for(change(LOW, "camera.style", style), event=aim)
        assert shot.setup.trigger.delay == best.value
        assert shot.short_by == best.short_by


def test_a_stage_is_caught_within_its_band_and_missed_outside():
    crown = {event.name: event for event in timeline(LOW)}["crown_peak"]
    for delay, said in ((crown.early - 0.01, "early"), (crown.time, "caught"), (crown.late + 0.01, "late")):
        seen = sees(change(LOW, "trigger.delay", delay))
        assert outcome(seen, crown) == said


def test_without_an_aim_the_body_is_wanted_in_the_frame():
    top = framed(LOW).top
    for shot in in_styles(change(LOW, "trigger.delay", 0.01)):
        inside = -LOW.drop.height < shot.seen.height - framed(LOW).bottom and shot.seen.height < top
        assert (shot.outcome == "caught") == inside
    assert by_style(LOW)["held_open"].outcome == "early"


def test_shutter_and_light_are_told_apart():
    fast = change(LOW, "camera.shutter", 1 / 500)
    assert {shot.outcome for shot in in_styles(fast)[:3]} == {"band"}
    assert by_style(fast)["held_open"].outcome == "early"
    shut = change_all(LOW, {"camera.open_time": 0.3, "camera.open_before": 0.0})
    assert by_style(shut)["held_open"].outcome == "early"
    dark = change_all(shut, {"trigger.delay": 0.2})
    assert by_style(dark)["held_open"].outcome == "black"
    tiny = change_all(LOW, {"drop.diameter": 0.0012})
    assert {shot.outcome for shot in in_styles(tiny)} == {"no_light"}


def test_an_impossible_record_of_a_style_not_in_use_is_named_at_once():
    """A set-up that exists can be shown in every style."""
    assert tea_house().camera.style == "held_open"
    with pytest.raises(ValueError, match=r"1 ms.*electronic.*3 ms.*camera\.no_mirror\.lag"):
        change(tea_house(), "camera.no_mirror.lag", 0.001)


def test_the_spread_is_two_scatters():
    setup = change_all(
        LOW, {"camera.no_mirror.scatter": 0.0167, "trigger.scatter": 0.0, "flashes.0.route_scatter": 0.0}
    )
    assert by_style(setup)["no_mirror"].spread == pytest.approx(0.0167 / 2)
    assert by_style(setup)["mirror"].spread == pytest.approx(2 * setup.camera.mirror.scatter)
    assert by_style(setup)["held_open"].spread == 0


@settings(deadline=None, max_examples=cases(40))
@given(travel=st.floats(0.001, 0.01), readout=st.floats(0.01, 0.06), exposure=st.floats(0.0005, 0.1))
def test_curtains_cover_what_lies_behind_the_closing_edge(travel, readout, exposure):
    """The flash fires when the last row opens: by then the closing edge has come so far."""
    changes = {"camera.curtain_travel": travel, "camera.readout": readout, "camera.shutter": exposure}
    instant = {"flashes.0.route_lag": 0.0, "beam.height": 0.30}
    shots = dict(zip(CURTAINS, in_curtains(change_all(tea_house(), changes | instant)), strict=True))
    ways = {"mechanical": travel, "electronic": travel, "rolling": readout}
    half = links(shots["leaf"].setup)[-2].time
    for curtain, way in ways.items():
        covered = max(0.0, (way + half - exposure) / way)
        assert shots[curtain].seen.lit == pytest.approx(max(0.0, 1 - covered), abs=1e-6)
        assert shots[curtain].setup.camera.first_curtain == curtain
    assert shots["leaf"].seen.lit == 1.0


def test_behind_every_curtain_the_body_is_where_it_was_wanted():
    for shot in in_curtains(change(tea_house(), "beam.height", 0.25), height=0.01):
        assert shot.setup.camera.style == "mirror_up"
        assert shot.seen.height == pytest.approx(0.01, abs=1e-6)
    slow = change_all(tea_house(), {"camera.readout": 0.06, "beam.height": 0.25})
    rolling = in_curtains(slow)[CURTAINS.index("rolling")]
    assert rolling.setup.camera.lag == 0.06
