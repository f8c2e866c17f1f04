"""The set-up itself: frozen, complete, and impossible combinations refused in one line."""

import dataclasses

import pytest

from splashlib.shoot import BODIES, Beam, Camera, Drop, Flash, Release, Setup, change, tea_house, with_body


def test_the_scene_is_hashable_and_frozen():
    assert hash(tea_house()) == hash(tea_house())
    with pytest.raises(dataclasses.FrozenInstanceError):
        tea_house().drop.diameter = 1.0


def test_everything_is_passed_by_keyword():
    with pytest.raises(TypeError):
        Drop("kumquat")
    with pytest.raises(TypeError):
        Setup(Drop())


def test_a_body_without_a_length_is_round():
    assert Drop(diameter=0.016).round
    assert Drop(diameter=0.016).length == 0.016


def test_how_an_oval_body_stands():
    upright = Drop(diameter=0.03, length=0.05)
    lying = dataclasses.replace(upright, hang="lying")
    assert (upright.height, upright.breadth) == (0.05, 0.03)
    assert (lying.height, lying.breadth) == (0.03, 0.05)


def test_the_camera_reads_the_record_of_its_style():
    styles = {"mirror": (0.1, "normal"), "no_mirror": (0.05, "uniform"), "held_open": (0.0, "normal")}
    for style, (lag, shape) in styles.items():
        camera = Camera(style=style)
        assert (camera.lag, camera.scatter_shape) == (lag, shape)
    assert Camera(style="held_open").exposure_time == 2.0
    assert Camera(style="mirror").exposure_time == 1 / 200


@pytest.mark.parametrize("curtain", ["mechanical", "electronic", "rolling", "leaf"])
def test_each_curtain_has_its_sweep(curtain):
    camera = Camera(held_open=Release(first_curtain=curtain))
    assert camera.sweep == {"rolling": 0.02, "leaf": 0.0}.get(curtain, 0.003)


@pytest.mark.parametrize("name", BODIES)
def test_the_bodies_of_the_scene_fit_under_the_same_hand(name):
    setup = with_body(change(tea_house(), "drop.release_height", 0.6), name)
    assert setup.drop.name == name
    assert setup.drop.round
    assert setup.drop.release_height == 0.6
    with pytest.raises(ValueError, match="kumquat, glass marble, drop of milk"):
        with_body(setup, "melon")


IMPOSSIBLE = {
    "beam over the hand": ({"beam": Beam(height=0.5)}, "under the hand"),
    "beam that reaches the hand": ({"beam": Beam(height=0.449)}, "under the hand"),
    "beam in the water": ({"beam": Beam(height=0.001)}, "at least 0.15 cm"),
    "body wider than the vessel": ({"drop": Drop(diameter=0.13)}, "narrower than the vessel"),
    "lying body longer than the vessel": (
        {"drop": Drop(diameter=0.03, length=0.14, hang="lying")},
        "narrower than the vessel",
    ),
    "length under the diameter": ({"drop": Drop(diameter=0.04, length=0.03)}, "at least the diameter"),
    "drop of milk like a plum": ({"drop": Drop(form="milk")}, "10 mm or less"),
    "camera nearer than its focal length": ({"camera": Camera(distance=0.09)}, "farther away"),
    "focus nearer than the focal length": ({"camera": Camera(focus_distance=0.1)}, "farther away"),
    "lag of an open shutter": ({"camera": Camera(held_open=Release(lag=0.01))}, "must be 0"),
    "lag shorter than the curtain": (
        {"camera": Camera(style="mirror", mirror=Release(lag=0.001))},
        "3 ms to cross the frame",
    ),
    "no flash": ({"flashes": ()}, "one flash head or more"),
    "rise longer than the flash": ({"flashes": (Flash(rise=0.003),)}, "flash head 0 .*rise"),
    "afterglow longer than the flash": ({"flashes": (Flash(), Flash(tail=0.002))}, "flash head 1 .*tail"),
    "text for a part": ({"drop": "kumquat"}, "must be a Drop"),
    "text for a head": ({"flashes": ("key",)}, "must be a Flash"),
    "number for a release": (None, "must be a Release"),
}


@pytest.mark.parametrize("case", IMPOSSIBLE)
def test_the_impossible_gets_one_line(case):
    parts, said = IMPOSSIBLE[case]
    with pytest.raises(ValueError, match=said) as caught:
        Setup(**parts) if parts is not None else Camera(mirror=0.1)
    assert "\n" not in str(caught.value)


def test_an_upright_body_taller_than_the_vessel_is_wide_is_possible():
    assert Setup(drop=Drop(diameter=0.03, length=0.14)).drop.length == 0.14


def test_parts_check_themselves():
    with pytest.raises(ValueError, match="release height"):
        Drop(release_height=-0.3)
    with pytest.raises(ValueError, match="shutter"):
        Camera(shutter=0)
