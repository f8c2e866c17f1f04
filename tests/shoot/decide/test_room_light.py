"""How dark is dark enough: forgotten lamps, levels of the styles, the light that is allowed, cameras in time."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.light.exposure import lamp_lux
from splashlib.shoot import change, change_all, dark_enough, ghosts, sees, tea_house
from splashlib.shoot.decide.exposure_balance import flash_light, ghost_stops
from splashlib.shoot.decide.room_light import ROOMS, in_time, stray_lux, with_stray
from splashlib.shoot.setup.field_rows import STYLES
from tests.effort import cases

SCENE = tea_house()


def test_a_candle_one_metre_away():
    assert lamp_lux(1, distance=1) == 1
    assert lamp_lux(1, distance=2) == pytest.approx(0.25)
    # A lamp as wide as half its distance, summed ring by ring: L = I / area, E = pi L R^2 / (d^2 + R^2).
    radius, distance, rings = 0.25, 1.0, 4000
    total = 0.0
    for ring in range(rings):
        r = (ring + 0.5) * radius / rings
        total += 2 * r * (radius / rings) / radius**2 * distance**2 / (distance**2 + r**2) ** 2
    assert lamp_lux(1, distance=distance) / total == pytest.approx(1.06, abs=0.005)
    with pytest.raises(ValueError, match="distance is 0 m"):
        lamp_lux(1, distance=0)
    with pytest.raises(ValueError, match="intensity is -1 cd"):
        lamp_lux(-1, distance=1)


def test_forgotten_lamps_add_to_the_room():
    assert stray_lux(SCENE, "indicator") == pytest.approx(0.25)
    assert stray_lux(SCENE, "telephone") == pytest.approx(3.6)
    assert stray_lux(SCENE, "modelling") == pytest.approx(720 / 2)
    far = change_all(SCENE, {"flashes.0.distance": 2.0, "flashes.0.diffuser_loss": 2.0})
    assert stray_lux(far, "modelling") == pytest.approx(stray_lux(SCENE, "modelling") / 8)
    assert with_stray(SCENE, "telephone").room.lux == pytest.approx(3.8)
    with pytest.raises(ValueError, match="lamp is 'moon'; it must be one of indicator"):
        stray_lux(SCENE, "moon")


def test_only_the_time_that_the_shutter_is_open_parts_the_styles():
    levels = ghosts(SCENE)
    assert tuple(levels) == STYLES
    assert levels["mirror"] == levels["mirror_up"] == levels["no_mirror"]
    # 2 s are 400 times 1/200 s; on the dial, whose marks are rounded, 26 thirds of a stop.
    assert levels["mirror"] - levels["held_open"] == pytest.approx(math.log2(400), abs=0.05)
    assert levels["mirror"] - levels["held_open"] == pytest.approx(26 / 3)
    assert ghosts(change(SCENE, "room.lux", 0.0))["held_open"] == math.inf
    other = change_all(SCENE, {"camera.iso": 1600, "camera.aperture": 4.0})
    assert ghosts(other) == pytest.approx(levels)


@settings(deadline=None, max_examples=cases(50))
@given(stops=st.floats(0, 15), time=st.floats(0.5, 10), style=st.sampled_from(STYLES))
def test_a_room_with_the_light_that_is_allowed_lies_so_many_stops_under(stops, time, style):
    setup = change_all(SCENE, {"camera.style": style, "camera.open_time": time})
    lux = dark_enough(setup, stops)
    # Marks of the dial are rounded by up to 2.5 % or so.
    assert lux * setup.camera.exposure_time * 2**stops == pytest.approx(flash_light(setup), rel=0.06)
    assert ghost_stops(change(setup, "room.lux", lux)) == pytest.approx(stops)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("beam", [0.05, 0.12, 0.3])
def test_in_time_every_style_shows_the_body(style, beam):
    setup = in_time(change_all(SCENE, {"camera.style": style, "beam.height": beam}))
    assert sees(setup).height == pytest.approx(0.012, abs=1e-6)
    assert setup.beam.height >= beam


def test_a_camera_that_cannot_be_in_time_gets_the_highest_beam_and_no_delay():
    low = change_all(SCENE, {"camera.style": "mirror", "beam.height": 0.02, "drop.release_height": 0.04})
    best = in_time(low)
    assert best.trigger.delay == 0
    assert best.beam.top == pytest.approx(0.04, abs=2e-6)
    assert sees(best).height < 0.012


def test_the_rooms_are_in_order():
    lux = [value for _, value in ROOMS]
    assert lux == sorted(lux, reverse=True)
