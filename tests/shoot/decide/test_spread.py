"""Thirty drops: where they are at the light equals the chain of events, drop by drop."""

import numpy as np
import pytest

from splashlib.shoot import body_height, change_all, delay_for, draw_scatters, framed, lead, sees, tea_house, with_body
from splashlib.shoot.chain.events import events
from splashlib.shoot.decide.spread import aim, hand_too_high, spread

SCENE = tea_house()


def at(beam, **more):
    return change_all(SCENE, {"beam.height": beam} | more)


def rng(seed=1):
    return np.random.default_rng(seed)


@pytest.mark.parametrize("style", ["held_open", "mirror_up", "mirror", "no_mirror"])
@pytest.mark.parametrize("beam", [0.12, 0.3])
def test_aim_is_the_delay_of_the_solver(style, beam):
    found = aim(at(beam, **{"camera.style": style, "trigger.delay": 0.05}), height=0.02)
    wanted = delay_for(at(beam, **{"camera.style": style}), height=0.02)
    assert found.setup.trigger.delay == pytest.approx(wanted.value, abs=0.5001e-4)
    assert found.short_by == wanted.short_by
    assert found.lag + wanted.value - found.short_by == pytest.approx(found.lead)
    if not found.short_by:
        # A twentieth of a millisecond at 3 m/s is 0.15 mm.
        assert sees(found.setup).height == pytest.approx(0.02, abs=0.00016)


def test_lead_does_not_depend_on_the_rig():
    leads = [aim(at(0.12, **{"camera.style": style}), height=0.0).lead for style in ("mirror", "held_open")]
    assert leads == pytest.approx([lead(at(0.12))] * 2)


def test_a_body_that_blocks_too_little_has_no_lead():
    found = aim(change_all(with_body(SCENE, "drop of milk"), {"beam.width": 0.02}), height=0.02)
    assert found.short_by == np.inf
    assert np.isnan([found.lead, found.lag]).all()
    drops = spread(found.setup, 10, rng())
    assert drops.missed == 10
    assert np.isnan(drops.span)
    assert not drops.seen.any()


def test_every_drop_is_where_the_chain_puts_it():
    setup = aim(at(0.3), height=0.02).setup
    drops = spread(setup, 30, rng(4))
    draw = draw_scatters(setup, 30, rng(4))
    for number in range(30):
        one = draw.take(number)
        light = float(events(setup, one).light[0])
        assert drops.heights[number] == pytest.approx(float(body_height(setup, light, draw=one)[0]))
        assert drops.seen[number] == sees(setup, one).in_frame
    assert drops.span == pytest.approx(drops.heights.max() - drops.heights.min())


def test_the_same_seed_drops_the_same_bodies_whatever_the_beam():
    low, high = (spread(aim(at(beam), height=0.02).setup, 30, rng(7)) for beam in (0.12, 0.43))
    assert np.array_equal(low.draw.release, high.draw.release)
    assert np.array_equal(low.draw.across, high.draw.across)
    assert low.span < 0.15 * high.span


def test_without_scatter_all_thirty_are_one():
    none = {f"drop.{name}": 0.0 for name in ("release_scatter", "sideways_scatter")}
    none |= {"trigger.scatter": 0.0, "flashes.0.route_scatter": 0.0}
    drops = spread(aim(at(0.43, **none), height=0.02).setup, 30, rng())
    assert drops.span == pytest.approx(0, abs=1e-12)
    assert drops.seen.all()


def test_a_dark_frame_shows_nobody():
    """Held open for so short a time that the light comes after it."""
    setup = change_all(aim(at(0.12), height=0.02).setup, {"camera.open_time": 0.1, "camera.open_before": 0.1})
    drops = spread(setup, 30, rng())
    assert not drops.seen.any()
    assert drops.missed == 0


@pytest.mark.parametrize(("beam", "late_ms", "way_mm"), [(0.43, 3.6, 10.7), (0.12, 0.17, 0.5)])
def test_the_hand_3_mm_too_high_of_the_course(beam, late_ms, way_mm):
    """In the air, a little over the water: the chain with its air and its lags against the numbers of the fall."""
    setup = aim(at(beam), height=0.001).setup
    early = lead(at(beam)) - lead(at(beam, **{"drop.release_height": 0.453}))
    assert 1e3 * early == pytest.approx(late_ms, rel=0.03)
    in_air = 1e3 * early * 2.96
    assert in_air == pytest.approx(way_mm, rel=0.03)
    assert 1e3 * hand_too_high(aim(at(beam), height=0.02).setup, 0.003) == pytest.approx(way_mm, rel=0.2)
    assert hand_too_high(setup, 0.0) == 0


@pytest.mark.parametrize("centre", [0.09, -0.02])
def test_a_body_is_seen_as_long_as_any_of_it_is_in_the_frame(centre):
    """Two boxes, body and frame, overlap or not; some bodies lie across the sides, some across the end."""
    scatter = {"drop.release_scatter": 0.02, "drop.sideways_scatter": 0.05, "trigger.scatter": 0.008}
    framing = {"camera.frame_centre": centre, "camera.distance": 0.825, "beam.width": 0.001}
    setup = aim(at(0.3, **scatter, **framing), height=0.02).setup
    drops, frame, body = spread(setup, 400, rng(2)), framed(setup), setup.drop
    there = ~np.isnan(drops.heights)
    low, high = drops.heights, drops.heights + body.height
    left, right = drops.draw.across - body.breadth / 2, drops.draw.across + body.breadth / 2
    up = np.minimum(high, frame.top) - np.maximum(low, frame.bottom)
    wide = np.minimum(right, frame.width / 2) - np.maximum(left, -frame.width / 2)
    assert np.array_equal(drops.seen, there & (up > 0) & (wide > 0))
    cut = {"side": (wide > 0) & (wide < body.breadth - 1e-9), "end": (up > 0) & (up < body.height - 1e-9)}
    assert all((drops.seen & part).sum() > 5 for part in cut.values())
    assert (there & ~drops.seen).sum() > 5
