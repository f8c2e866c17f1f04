"""A number typed beside a slider: taken exactly, or refused in one line with nothing changed."""

import pytest

from splashlib.classroom.widgets.controls import Control, Span, handle
from splashlib.classroom.widgets.typed import typed_value
from tests.browser.demo import demo
from tests.classroom.widgets.test_panel import Talk

HEIGHT, POWER = handle(Span("drop.release_height", 10, 80, 0.5)), handle("flashes.0.power")


@pytest.mark.parametrize(
    ("slider", "text", "value"),
    [
        (HEIGHT, "55,5", 0.555),
        (HEIGHT, "55.5", 0.555),
        (HEIGHT, " 55.5 cm ", 0.555),
        (HEIGHT, "555 mm", 0.555),
        (HEIGHT, "0.3 m", 0.3),
        (HEIGHT, "45.3", 0.453),
        (POWER, "1/32", 1 / 32),
        (POWER, "0.25", 0.25),
        (handle("trigger.delay"), "0,035 s", 0.035),
        (handle("camera.shutter"), "1/200", 1 / 200),
        (handle("camera.shutter"), "1/200 s", 1 / 200),
        (handle("camera.aperture"), "f/8", 8.0),
    ],
)
def test_it_is_what_was_typed(slider, text, value):
    assert typed_value(slider, text, "metric") == pytest.approx(value, rel=1e-12)


def test_a_stop_is_met_exactly_and_what_lies_between_stays():
    assert typed_value(HEIGHT, "45.5", "metric") in HEIGHT.values
    assert typed_value(HEIGHT, "45.3", "metric") not in HEIGHT.values
    assert typed_value(POWER, "1/32", "metric") in POWER.values


def test_inches_are_read_where_inches_are_shown():
    assert typed_value(HEIGHT, "20", "imperial") == pytest.approx(20 * 0.0254)
    assert typed_value(HEIGHT, "50 cm", "imperial") == pytest.approx(0.5)


def test_every_word_of_every_slider_can_be_typed_back():
    for slider in (HEIGHT, POWER, handle("camera.shutter"), handle("camera.aperture"), handle("room.lux")):
        for system in ("metric", "imperial"):
            for value, text in zip(slider.values, slider.texts(system), strict=True):
                assert slider.say(typed_value(slider, text, system), system) == text, (slider.name, value)


@pytest.mark.parametrize(
    ("slider", "text", "said"),
    [
        (HEIGHT, "high", 'Release height is "high": I expected one number'),
        (HEIGHT, "90", "Release height is 90; in this panel it must be from 10.0 cm to 80.0 cm"),
        (HEIGHT, "-5", "in this panel it must be from"),
        (HEIGHT, "5 ms", "ms is time; write it in cm"),
        (HEIGHT, "9" * 500, "characters long"),
        (POWER, "0", "in this panel it must be from 1/256 to 1/1"),
        (handle(Control("seed", "which thirty drops", "", 1, 20, 1, 1)), "2.5", "whole number from 1 to 20"),
    ],
)
def test_what_cannot_be_is_one_line(slider, text, said):
    with pytest.raises(ValueError, match="is ") as refused:
        typed_value(slider, text, "metric")
    assert said in str(refused.value)
    assert "\n" not in str(refused.value)


def test_the_panel_takes_it_or_stays_and_says_why():
    panel = demo()
    talk = Talk(panel)
    state, (image,) = talk.say(typed={"drop.release_height": "55,3"}, rest=True)
    assert panel.setup.drop.release_height == pytest.approx(0.553)
    assert state["controls"]["drop.release_height"][1] == "55.3 cm"
    assert (state["stopped"], image[1:4]) == ("", b"PNG")
    for text, said in {"2 cm": "must be from", "12.1": "beam reaches up to", "x": "I expected one number"}.items():
        state, _ = talk.say(typed={"drop.release_height": text}, rest=True)
        assert said in state["stopped"]
        assert state["error"] == ""
        assert panel.setup.drop.release_height == pytest.approx(0.553), "nothing is lost"
    state, _ = talk.say(typed={"mood": "calm"})
    assert "there is no slider" in state["error"]
