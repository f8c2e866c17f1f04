"""The judgement of a frame: what is on it, how bright it is, and what spoils it most."""

import math
from dataclasses import replace

import pytest

from splashlib.physics.light.exposure import metered_lux_seconds
from splashlib.shoot import change, change_all, delay_for, framed, tea_house, with_body
from splashlib.shoot.decide.judgement import BURNT, judge

SCENE = tea_house()


def at(height=0.01, base=SCENE, **changes):
    """A set-up whose light finds the body at a height [m]; settings by path, dots written as double underscores."""
    setup = change_all(base, {path.replace("__", "."): value for path, value in changes.items()})
    return change(setup, "trigger.delay", delay_for(setup, height=height).value)


CASES = {
    "": at(),
    "drowned": at(room__lux=500.0),
    "white": at(camera__iso=25600.0),
    "burnt": at(camera__iso=6400.0),
    "bright": at(camera__iso=2500.0),
    "dark": at(camera__aperture=22.0),
    "black": at(camera__aperture=128.0, camera__iso=50.0, room__lux=0.0),
    "shut": change_all(SCENE, {"camera.open_time": 0.1, "camera.open_before": 0.0}),
    "no_flash": change_all(with_body(SCENE, "drop of milk"), {"drop.diameter": 0.004, "beam.width": 0.010}),
    "band": change_all(at(beam__height=0.25, camera__style="mirror_up"), {"camera.shutter": 1 / 500}),
    "covered": change_all(at(beam__height=0.25, camera__style="mirror_up"), {"camera.shutter": 1 / 1000}),
}


@pytest.mark.parametrize("fault", CASES)
def test_each_fault_is_found(fault):
    assert judge(CASES[fault]).fault == fault


def test_the_light_adds_up():
    """By hand: the flash's and the room's lux seconds, over what the meter asks for."""
    setup = at(room__lux=10.0)
    found, camera = judge(setup), setup.camera
    needed = metered_lux_seconds(aperture=camera.aperture, iso=camera.iso, magnification=framed(setup).magnification)
    room = 10.0 * camera.open_time
    flash = needed * 2**found.flash
    assert found.room == pytest.approx(math.log2(room / needed))
    assert found.total == pytest.approx(math.log2((room + flash) / needed))
    assert found.ghost == pytest.approx(found.flash - found.room)


def test_a_head_that_finds_the_shutter_shut_gives_nothing():
    late = replace(SCENE.flashes[0], name="late", route_lag=0.9, guide_number=200.0)
    setup = change_all(replace(at(), flashes=(*SCENE.flashes, late)), {"camera.open_time": 0.9})
    assert judge(setup).flash == pytest.approx(judge(at()).flash)
    assert judge(change(setup, "camera.open_time", 3.0)).flash > BURNT


@pytest.mark.parametrize(
    ("height", "where"), [(0.01, "over"), (-0.01, "entering"), (-0.036, "under"), (-0.14, "below"), (0.13, "above")]
)
def test_where_the_body_is(height, where):
    assert judge(at(height)).seen.where == where


def test_a_drop_of_milk_is_gone_once_it_has_sunk_in():
    """5 mm at 2.9 m/s: 1.7 ms after contact there is no drop any more, only its crater."""
    milk = with_body(SCENE, "drop of milk")
    contact = delay_for(milk).value
    for after, where in ((0.001, "entering"), (0.0025, "merged")):
        found = judge(change(milk, "trigger.delay", contact + after))
        assert found.seen.where == where
        assert found.shows_body == (where == "entering")


@pytest.mark.parametrize(
    ("lux", "level"),
    [(0.0, "none"), (0.02, "gone"), (0.2, "hardly"), (0.6, "trace"), (10.0, "plain"), (500.0, "drowned")],
)
def test_how_much_of_the_room_is_seen(lux, level):
    assert judge(at(room__lux=lux)).room_seen == level
