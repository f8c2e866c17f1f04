"""The pictures of the lesson `splash`: what they show and say equals the library's numbers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics import droplets
from splashlib.picture.splash.splash_picture import DROP_SPANS, SMALL, SOLID_SPANS, SplashPicture
from splashlib.picture.splash.splash_words import stage_at
from splashlib.picture.splash.stage_chart import NAMES, ROWS, most_likely
from splashlib.picture.splash.wet_zone_picture import WetZonePicture
from splashlib.shoot import (
    BODIES,
    change_all,
    delay_for,
    hold_off_advice,
    impact_of,
    instant_names,
    sees,
    splash,
    tea_house,
    vessel_advice,
    with_body,
)
from splashlib.shoot.decide.splash_camera import body_names, in_hand, on_the_clock
from tests.effort import cases

SURFACES = st.sampled_from(["rough", "wet", "smooth_dry"])
NAMED = st.sampled_from(sorted(BODIES))
HEIGHTS = st.integers(30, 200).map(lambda half: half / 200)
CLOCKS = st.integers(-40, 800).map(lambda half: half / 2000)


def grey(setup, *, size):
    """In place of the photograph, where it plays no part."""
    return np.full((size[1], size[0], 3), 40, np.uint8)


@pytest.fixture(scope="module")
def picture():
    return SplashPicture(shot=grey)


@pytest.fixture(scope="module")
def reach():
    return WetZonePicture()


def at(body="kumquat", surface="wet", height=0.45, **changes):
    setup = with_body(tea_house(), body)
    solid = {} if setup.drop.liquid else {"drop.surface": surface}
    return change_all(setup, {"drop.release_height": height} | solid | changes)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("shield", ["none", "sheet"])
def test_what_stands_far_out_is_named_within_the_picture(reach, system, shield):
    reach.system = system
    far = {"flashes.0.distance": 1.2, "flashes.0.shield": shield, "camera.shield": shield}
    reach.update(change_all(tea_house(), far | {"drop.release_height": 0.8}))
    reach.system = "metric"
    for thing in (reach.gear.heads[0], reach.gear.camera):
        box = thing.name.get_window_extent(reach.canvas.get_renderer())
        assert thing.name.get_text().endswith("wet!" if shield == "none" else "sheet")
        assert 0 <= box.x0 < box.x1 <= reach.size[0], thing.name.get_text()


def test_drawn_drops_fly_past_the_water_down_to_the_table(reach):
    reach.update(tea_house())
    # Solid to the right, then dashed: likely and fastest, as far as the library throws them, at every height.
    for arc, which in ((reach.arcs[1], 1), (reach.arcs[3], 2)):
        out, up = arc.get_data()
        down = slice(int(np.argmax(up)), None)
        for height in (0.05, 0.0, -0.06, -0.12, -0.18):
            drawn = np.interp(-100 * height, -up[down], out[down])
            assert drawn == pytest.approx(100 * droplets.reach(impact_of(tea_house()), height=height)[which], abs=0.2)


@settings(deadline=None, max_examples=cases(8))
@given(body=NAMED, surface=SURFACES, height=HEIGHTS, clock=CLOCKS)
def test_layers_give_the_pixels_of_a_full_redraw(picture, body, surface, height, clock):
    picture.update(at(body, surface, height), clock=clock)
    assert np.array_equal(picture.pixels().copy(), picture.redrawn())


@settings(deadline=None, max_examples=cases(40))
@given(body=NAMED, surface=SURFACES, height=HEIGHTS, clock=CLOCKS)
def test_bands_hand_and_delay_are_the_librarys(picture, body, surface, height, clock):
    setup = at(body, surface, height)
    told = picture.update(setup, clock=clock)
    stages, chart = most_likely(splash(setup)), picture.chart
    end = chart.span[1]
    assert chart.hand.get_xdata()[0] == pytest.approx(1e3 * clock)
    for stage, bar, tick, name in zip(stages, chart.bars, chart.ticks, chart.names, strict=False):
        assert bar.get_x() == pytest.approx(1e3 * min(stage.early, end))
        assert bar.get_x() + bar.get_width() == pytest.approx(1e3 * min(stage.late, end))
        assert tick.get_xdata()[0] == pytest.approx(1e3 * min(stage.likely, end))
        assert name.get_text().removeprefix("▸ ") == NAMES[stage.name]
        assert name.get_text().startswith("▸") == (stage.early <= clock <= stage.late)
        assert NAMES[stage.name] in told.alt
    assert [bar.get_visible() for bar in chart.bars] == [row < len(stages) for row in range(ROWS)]
    delay = delay_for(setup, after_contact=clock)
    assert picture.delay.get_text() == ("out of reach" if delay.short_by else f"{1e3 * delay.value:.1f} ms")
    assert dict(told.readout)["Delay to set"] == picture.delay.get_text()
    assert (told.tone == "bad") == (delay.short_by > 0)


@pytest.mark.parametrize("style", ["mirror", "mirror_up", "no_mirror", "held_open"])
def test_a_slow_camera_is_told_that_it_is_out_of_reach(picture, style):
    setup = at(**{"camera.style": style})
    for clock in (0.0, 0.05, 0.3):
        told, delay = picture.update(setup, clock=clock), delay_for(setup, after_contact=clock)
        assert ("Out of reach" in told.line) == (delay.short_by > 0)
        if delay.short_by:
            assert f"{1e3 * delay.short_by:.0f} ms late" in told.line


def test_every_stage_has_a_name():
    found = set()
    for body in BODIES:
        for surface in ("rough", "wet", "smooth_dry"):
            for height in (0.1, 0.2, 0.45, 0.8, 1.5, 1.9):
                found |= set(instant_names(at(body, surface, height, **{"beam.height": 0.05}))) - {"contact"}
    assert found <= set(NAMES)
    assert {"crown_peak", "dome_closes", "jet_starts", "film_closes"} <= found


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize("clock", [-0.02, 0.0, 0.008, 0.05, 0.115, 0.2, 0.4])
def test_no_word_leaves_the_picture_or_meets_the_photograph(picture, body, clock):
    for surface, height in (("wet", 0.45), ("rough", 1.0), ("smooth_dry", 0.2)):
        for style in ("held_open", "mirror"):
            setup = at(body, surface, height, **{"camera.style": style})
            picture.update(setup, clock=clock)
            picture.pixels()
            renderer = picture.canvas.get_renderer()
            for text in (picture.clock, picture.now, picture.delay, picture.next, *picture.chart.names):
                box = text.get_window_extent(renderer)
                if text.get_visible() and text.get_text():
                    assert box.x0 >= 394, text.get_text()
                    assert box.x1 <= picture.size[0], text.get_text()


def test_the_photograph_is_small_while_a_handle_moves():
    sizes = []

    def noted(setup, *, size):
        sizes.append(size)
        return grey(setup, size=size)

    picture = SplashPicture(shot=noted)
    picture.update(at(), clock=0.05)
    assert picture.frame(moving=True)[:2] == b"\xff\xd8"
    assert picture.frame(moving=False)[:4] == b"\x89PNG"
    picture.frame(moving=False)
    assert sizes == [(round(384 * SMALL), round(584 * SMALL)), (384, 584)]
    assert max(sizes[0]) <= 320


def test_the_crown_stands_in_the_pixels_and_nothing_before_it():
    """The real photograph: bright water over the surface at 50 ms, none just before the contact."""
    picture = SplashPicture()

    def left_over_the_water(clock):
        picture.update(at(), clock=clock)
        picture.frame(moving=True)
        array = picture.photo._array.astype(int).sum(axis=2)
        line = round(array.shape[0] * (1 - 2.7 / (6.8 * 584 / 384)))
        return array[line - 45 : line - 12, 30:85]

    still = left_over_the_water(-0.02)
    changed = [(left_over_the_water(clock) - still > 60).sum() for clock in (-0.01, 0.0, 0.05)]
    # The fruit still throws its light on the rim.
    assert changed[2] > 200
    assert changed[2] > 5 * max(changed[:2])


def test_the_frame_holds_crown_cavity_and_jet():
    from splashlib.physics import water_entry
    from splashlib.shoot import framed, impact_of

    for body in BODIES:
        setup = at(body)
        frame, impact = framed(on_the_clock(setup, 0.05, shape=584 / 384)), impact_of(setup)
        assert frame.top > water_entry.crown_height(impact).likely
        assert frame.top > float(np.max(water_entry.jet_height(impact, np.linspace(0, 0.6, 300))))
        assert frame.bottom < -2 * setup.drop.diameter


def test_the_axis_changes_only_when_the_clock_leaves_it(picture):
    for clock, span in ((0.1, DROP_SPANS[0]), (0.16, DROP_SPANS[0]), (0.2, DROP_SPANS[1])):
        picture.update(at("drop of milk"), clock=clock)
        assert picture.chart.span == span
    picture.update(at(), clock=0.4)
    assert picture.chart.span == SOLID_SPANS[0]
    picture.pixels()
    before = picture.static_draws
    for clock in (0.0, 0.1, 0.3):
        picture.update(at(surface="rough"), clock=clock)
        picture.frame(moving=True)
    assert picture.static_draws == before


def test_the_stage_that_one_is_after():
    stages = splash(at())
    assert stage_at(stages, 0.05).name == "crown_peak"
    assert stage_at(stages, 0.073).name == "cavity_seals"
    assert stage_at(stages, 0.32).name == "jet_peak"
    assert stage_at(stages, 0.005) is None


def test_ones_own_body_can_be_picked():
    plum = change_all(tea_house(), {"drop.name": "plum", "drop.diameter": 0.05})
    assert body_names(plum) == ("plum", *BODIES)
    assert in_hand(plum, "plum") is plum
    rough = change_all(plum, {"drop.surface": "rough"})
    assert in_hand(rough, "glass marble").drop.surface == "rough"
    assert in_hand(rough, "drop of milk").drop.form == "milk"
    assert body_names(tea_house()) == tuple(BODIES)


# --- the wet zone and the hold-off


@settings(deadline=None, max_examples=cases(25))
@given(body=NAMED, surface=SURFACES, height=HEIGHTS, width=st.sampled_from([0.07, 0.12, 0.2]))
def test_zones_water_and_bars_are_the_advice(reach, body, surface, height, width):
    setup = at(body, surface, height, **{"vessel.width": width})
    told = reach.update(setup)
    hold, vessel = hold_off_advice(setup), vessel_advice(setup)
    assert reach.zones[1].get_width() == pytest.approx(200 * vessel.on_table[1])
    assert reach.zones[0].get_width() == pytest.approx(200 * vessel.on_table[2])
    assert reach.risen.get_height() == pytest.approx(100 * vessel.level_rise[1])
    for bar, time in zip(reach.bars, (hold.droplets, hold.jet, hold.shutter, setup.trigger.hold_off), strict=True):
        assert bar.get_width() == pytest.approx(min(time, 4.0))
    assert reach.needed.get_xdata()[0] == pytest.approx(hold.needed)
    assert (told.tone == "bad") == (not hold.enough)
    assert all(line in told.alt for line in hold.lines)
    assert np.array_equal(reach.pixels().copy(), reach.redrawn())


def test_too_short_a_hold_off_turns_the_bar_red(reach):
    reach.update(at())
    green = reach.bars[3].get_facecolor()
    told = reach.update(at(**{"trigger.hold_off": 0.3}))
    assert reach.bars[3].get_facecolor() != green
    assert "the shutter is open until 1.3 s" in told.line
    told = reach.update(at(**{"trigger.hold_off": 0.3, "camera.style": "mirror"}))
    assert "a tall jet stands in the beam until" in told.line


def test_inches(reach, picture):
    reach.system = "imperial"
    told = reach.update(at())
    reach.system = "metric"
    picture.system = "imperial"
    clock = picture.update(at(), clock=0.0505)
    picture.system = "metric"
    assert dict(clock.readout)["Clock"] == "50.5 ms after contact"
    assert dict(clock.readout)["Water rises"].endswith(" in")
    assert dict(told.readout)["Thrown drops, likely"] == f"{vessel_advice(at()).wet[1] / 0.0254:.0f} in"


@pytest.mark.parametrize("before", [0.0, 0.5, 5.0])
@pytest.mark.parametrize("clock", [-0.02, 0.4])
def test_the_camera_of_the_clock_is_open_whatever_ones_own_camera_does(before, clock):
    """Also for somebody who opens the shutter as long before the drop as the table allows, at a fall of a metre."""
    own = change_all(tea_house(), {"camera.open_before": before, "camera.open_time": 5.5, "drop.release_height": 1.0})
    assert sees(on_the_clock(own, clock, shape=1.5)).lit == 1


def test_the_surface_of_a_drop_rests():
    picture = SplashPicture(shot=lambda setup, size: np.zeros((size[1], size[0], 3), np.uint8))
    for body, idle in (("drop of milk", ["drop.surface"]), ("kumquat", [])):
        assert [name for name, _ in picture.update(tea_house(), clock=0.05, body=body).idle] == idle


def test_a_body_that_slips_in_is_said_to_raise_no_crown(picture):
    """A smooth dry marble from 20 cm, 2 m/s: it slips in below some 7 m/s."""
    slips = picture.update(at("glass marble", "smooth_dry", 0.2), clock=0.01)
    assert "smooth and dry, the glass marble slips into the water" in slips.line
    assert "rown" not in picture.update(at("glass marble", "wet", 0.45), clock=0.01).line


def test_without_light_no_delay_is_infinite(picture):
    milk = change_all(at("drop of milk"), {"drop.diameter": 0.004, "beam.width": 0.010})
    told = picture.update(milk, clock=0.02)
    assert told.line == "The drop of milk does not block enough of the beam. Nothing is triggered."
    assert told.tone == "bad"
    assert picture.next.get_text() == "Nothing breaks the beam: there is no light."
