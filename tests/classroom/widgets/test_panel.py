"""The panel without a browser: what it holds, what it answers, and what it does when something is impossible."""

import io
import re
import threading
import time
from dataclasses import replace

import numpy as np
import pytest
from PIL import Image

from splashlib.classroom.widgets.panel import live
from splashlib.shoot import change, show, tea_house
from tests.browser.demo import Dot, demo


class Talk:
    """The browser's part: sends what the front end would send, keeps what the panel answers."""

    def __init__(self, panel):
        self.panel, self.answers, self.number = panel, [], 0
        panel._front.send = lambda state, buffers=None: self.answers.append((state, buffers))

    def say(self, **content):
        self.number += 1
        self.panel._received(None, {"view": "v", "number": self.number, "scale": 1} | content, [])
        return self.answers[-1]

    def move(self, name, value):
        return self.say(moved={name: self.panel._handles[name].at(value)})


@pytest.fixture
def panel():
    return demo()


@pytest.fixture
def talk(panel):
    return Talk(panel)


def pixels(data):
    return np.asarray(Image.open(io.BytesIO(data)).convert("RGB"))


def red_at(array):
    """Where the middle of the red dot is: column, row."""
    red = (array[:, :, 0] > 200) & (array[:, :, 1] < 80) & (array[:, :, 2] < 80)
    rows, columns = np.nonzero(red)
    return columns.mean(), rows.mean()


def test_a_move_is_followed_in_numbers_words_and_pixels(panel, talk):
    talk.move("trigger.delay", 0.15)
    state, (image,) = talk.move("drop.release_height", 0.8)
    assert panel.setup.drop.release_height == 0.8
    assert panel.values["trigger.delay"] == 0.15
    assert dict(state["readout"])["Release height"] == "80.0 cm"
    assert state["alt"] == "A dot at 80.0 cm and 150.0 ms."
    assert state["number"] == 2
    assert red_at(pixels(image)) == pytest.approx(panel._picture.place(), abs=0.8)


def test_jpeg_while_moving_and_png_at_rest(talk):
    assert talk.move("trigger.delay", 0.15)[1][0][:2] == b"\xff\xd8"
    assert talk.say(rest=True)[1][0][1:4] == b"PNG"


def test_extras_reach_the_picture_in_si(panel, talk):
    state, _ = talk.move("clock", 0.12)
    assert dict(state["readout"])["Clock"] == "120 ms"
    assert panel.values["clock"] == pytest.approx(0.12)


def test_what_is_not_moved_keeps_its_exact_value():
    panel = demo(setup=change(tea_house(), "drop.release_height", 0.4512))
    Talk(panel).move("trigger.delay", 0.1)
    assert panel.setup.drop.release_height == 0.4512
    assert panel._state()["controls"]["drop.release_height"][1] == "45.1 cm"


def test_a_slider_dragged_too_far_stops_where_it_is_possible_and_says_why(panel, talk):
    """The beam of the scene reaches up to 12.15 cm; sliders of the release height stand at every half centimetre."""
    talk.move("trigger.delay", 0.15)
    state, buffers = talk.move("drop.release_height", 0.05)
    assert panel.setup.drop.release_height == 0.125
    assert state["controls"]["drop.release_height"][1] == "12.5 cm"
    assert state["stopped"].startswith("Release height stops at 12.5 cm: the beam reaches up to ")
    assert state["stopped"].endswith("under the hand."), "a reader who drags knows no paths of settings"
    assert "\n" not in state["stopped"]
    assert (state["error"], state["alt"]) == ("", "A dot at 12.5 cm and 150.0 ms.")
    assert red_at(pixels(buffers[0])) == pytest.approx(panel._picture.place(), abs=0.8)
    state, buffers = talk.say(rest=True)
    assert state["stopped"]
    assert buffers
    state, _ = talk.move("drop.release_height", 0.03)
    assert panel.setup.drop.release_height == 0.125
    assert state["stopped"], "where no step is possible it stays, and says why"
    assert talk.move("drop.release_height", 0.5)[0]["stopped"] == ""


def test_a_slider_that_stops_keeps_the_exact_value_it_had():
    panel = demo(setup=change(tea_house(), "drop.release_height", 0.1217))
    Talk(panel).move("drop.release_height", 0.05)
    assert panel.setup.drop.release_height == 0.1217


def test_code_is_told_what_is_impossible(panel, talk):
    before = panel.image
    with pytest.raises(ValueError, match="must lie under the hand"):
        panel.set("drop.release_height", 0.05)
    assert (panel.setup.drop.release_height, panel.image, panel.error) == (0.45, before, "")


def test_two_moves_that_only_together_are_possible():
    """Sent together they are followed; one after the other the first stops on its way."""
    talk = Talk(demo(controls=("drop.release_height", "beam.height")))
    places = {name: talk.panel._handles[name].at(value) for name, value in LOW.items()}
    assert talk.say(moved=places)[0]["stopped"] == ""
    assert talk.panel.values == LOW


LOW = {"drop.release_height": 0.1, "beam.height": 0.05}


def test_a_handle_that_changes_nothing_rests_and_says_why(panel, talk):
    told = panel._picture.update
    panel._picture.update = lambda setup, **extras: replace(
        told(setup, **extras), idle=(("camera.style", "no camera here"), ("beam.height", "not in this panel"))
    )
    assert talk.move("trigger.delay", 0.1)[0]["idle"] == {"camera.style": "no camera here"}


def test_a_value_error_of_the_picture_is_its_line(panel, talk):
    state, buffers = talk.move("mood", "impossible")
    assert (state["error"], state["trace"], buffers) == ("Mood is impossible; it must be calm.", "", None)
    assert panel.told.alt == "A dot at 45.0 cm and 0.0 ms."


def test_a_bug_is_one_line_and_a_folded_traceback(talk):
    state, buffers = talk.move("mood", "broken")
    assert state["error"] == "This went wrong: RuntimeError: a bug in the picture."
    assert "Traceback" in state["trace"]
    assert "demo.py" in state["trace"]
    assert buffers is None
    assert talk.move("mood", "calm")[0]["trace"] == ""


def test_a_picture_that_cannot_be_drawn_says_so(panel, talk):
    panel._picture.frame = lambda **_: 1 / 0
    state, buffers = talk.move("trigger.delay", 0.1)
    assert "could not be drawn: ZeroDivisionError" in state["error"]
    assert buffers is None


def test_a_model_out_of_its_range_gives_a_note_and_a_picture(talk):
    state, buffers = talk.move("mood", "far")
    assert state["notes"] == ["the model ends at 1 m"]
    assert buffers
    assert talk.move("mood", "calm")[0]["notes"] == []


def test_reset_goes_back_to_the_start(panel, talk):
    talk.move("drop.release_height", 0.05)
    talk.move("clock", 0.1)
    state, _ = talk.say(reset=True, rest=True)
    assert panel.setup == tea_house()
    assert panel.values["clock"] == 0.04
    assert state["error"] == ""


def test_units_change_words_and_nothing_else(panel, talk):
    state, _ = talk.say(system="imperial", rest=True)
    assert state["controls"]["drop.release_height"][1] == "17.72 in"
    assert state["texts"]["drop.release_height"][-1] == "59.06 in"
    assert dict(state["readout"])["Release height"] == "17.72 in"
    assert panel.setup == tea_house()
    assert talk.say(system="metric", rest=True)[0]["controls"]["drop.release_height"][1] == "45.0 cm"


def test_the_first_word_of_a_view_brings_no_picture_that_it_has(panel, talk):
    assert talk.say(hello=True, rest=True, have=panel._image_number)[1] is None
    assert talk.say(hello=True, rest=True, have=None)[1]
    assert talk.say(hello=True, rest=True, have=panel._image_number, scale=2)[1]


@pytest.mark.parametrize(("scale", "width"), [(2, 1800), (1, 900), (99, 1800), (None, 900)])
def test_a_finer_screen_gets_a_finer_picture_at_rest(talk, scale, width):
    assert pixels(talk.say(rest=True, scale=scale)[1][0]).shape[1] == width


def test_a_picture_that_knows_no_scale_is_asked_for_none():
    class Plain(Dot):
        def frame(self, *, moving):
            return super().frame(moving=moving)

    panel = live(Plain(), controls=("trigger.delay",), setup=tea_house())
    assert pixels(Talk(panel).say(rest=True, scale=2)[1][0]).shape[1] == 900


def test_set_tells_every_view(panel, talk):
    panel.set("drop.release_height", 1.2)
    state, buffers = talk.answers[-1]
    assert (state["view"], state["rest"], state["tone"]) == ("", True, "warning")
    assert state["controls"]["drop.release_height"][1] == "120.0 cm"
    assert red_at(pixels(buffers[0]))[1] == pytest.approx(panel._picture.place()[1], abs=0.8)


@pytest.mark.parametrize(
    ("path", "value", "line"),
    [
        ("drop.release_height", -1, "must be a number from"),
        ("drop.nothing", 1, "there is no setting"),
        ("mood", "grim", "must be one of 'calm'"),
        ("mood", "impossible", "it must be calm"),
    ],
)
def test_set_refuses_in_one_line_and_changes_nothing(panel, talk, path, value, line):
    before = panel.values
    with pytest.raises(ValueError, match=line):
        panel.set(path, value)
    assert panel.values == before
    assert panel.error == ""
    state, _ = talk.say(rest=True)
    assert state["error"] == ""
    assert state["alt"] == "A dot at 45.0 cm and 0.0 ms."


def test_listeners_hear_of_a_new_state_at_rest_and_only_then(panel, talk):
    heard = []
    panel.on_change(lambda it: heard.append(it.setup.trigger.delay))
    talk.say(rest=True)
    heard.clear()
    talk.move("trigger.delay", 0.1)
    assert heard == []
    talk.say(rest=True)
    talk.say(rest=True)
    assert heard == [0.1]


def test_the_lag_follows_the_style():
    talk = Talk(demo(controls=("camera.style", "camera.lag")))
    talk.move("camera.style", "mirror")
    camera = tea_house().camera
    assert talk.panel.values["camera.lag"] == camera.mirror.lag != camera.mirror_up.lag
    state, _ = talk.move("camera.style", "mirror_up")
    assert state["controls"]["camera.lag"][1] == show("camera.lag", camera.mirror_up.lag)
    talk.move("camera.lag", 0.06)
    assert talk.panel.setup.camera.mirror_up.lag == 0.06
    assert talk.panel.setup.camera.mirror == camera.mirror


def test_a_set_up_file_with_a_mistake_is_a_line_and_the_scene():
    def broken():
        raise ValueError("my_setup.toml, line 3: there is no key x")

    panel = demo(setup=broken)
    assert panel.setup == tea_house()
    line = "my_setup.toml, line 3: there is no key x. Until that is mended, this panel starts from the scene."
    assert panel._state()["trouble"] == panel.trouble == line
    assert panel._state()["notes"] == []
    bundle = panel._repr_mimebundle_()[0]
    assert f"! {line}" in bundle["text/html"]
    assert line in bundle["text/plain"]


def test_left_out_the_set_up_is_the_learners_own(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    (tmp_path / "my_setup.toml").write_text("[drop]\nrelease_height_cm = 61\n")
    assert live(Dot(), controls=("trigger.delay",)).setup.drop.release_height == 0.61


def test_an_impossible_start_shows_its_line_instead_of_failing():
    from splashlib.classroom.widgets.controls import Pick

    panel = demo(controls=(Pick("mood", "Mood", ("impossible", "calm")),))
    assert panel.error == "mood is impossible; it must be calm"
    state, buffers = Talk(panel).move("mood", "calm")
    assert state["error"] == ""
    assert buffers


def test_a_control_may_stand_there_once():
    with pytest.raises(ValueError, match="named twice"):
        demo(controls=("trigger.delay", "trigger.delay"))


def test_unknown_units_are_refused():
    with pytest.raises(ValueError, match="system is 'furlong'; it must be metric or imperial"):
        demo(system="furlong")


class Unhurried(Dot):
    """Takes its time between moving and drawing, so that another thread could come between."""

    def update(self, setup, **extras):
        told = super().update(setup, **extras)
        time.sleep(0.002)
        return told

    def frame(self, *, moving, scale=1.0):
        time.sleep(0.002)
        return super().frame(moving=moving, scale=scale)


def test_threads_do_not_mix_up_a_picture():
    """Two threads drag two controls; every answer's picture shows the state that its words tell."""
    panel = live(Unhurried(), controls=("drop.release_height", "trigger.delay"), setup=tea_house())
    panel.set("trigger.delay", 0.02)
    talk = Talk(panel)

    def drag(name, values):
        for value in values:
            talk.move(name, value)

    drags = (("drop.release_height", np.linspace(0.3, 1.4, 20)), ("trigger.delay", np.linspace(0.02, 0.28, 20)))
    threads = [threading.Thread(target=drag, args=each) for each in drags]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert len(talk.answers) == 40
    plain = Dot()
    for state, (image,) in talk.answers:
        height, delay = map(float, re.findall(r"[\d.]+(?= )", state["alt"].removeprefix("A dot at ")))
        plain.dot.set_data([delay], [height])
        assert red_at(pixels(image)) == pytest.approx(plain.place(), abs=1), state["alt"]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        ("hello", "must be an object"),
        (None, "must be an object"),
        ({"moved": {"no.such": 1}}, 'no control "no.such"'),
        ({"moved": [1]}, "moved is [1]"),
        ({"moved": {"trigger.delay": 10**9}}, "has no position"),
        ({"moved": {"trigger.delay": "a"}}, "has no position"),
        ({"moved": {"trigger.delay": None}}, "has no position"),
        ({"scale": "large"}, "scale is"),
        ({"scale": float("nan")}, "scale is"),
        ({"scale": {}, "moved": {"trigger.delay": [1]}}, "has no position"),
        ({"system": ["inches"]}, "metric or imperial"),
        ({"system": 3, "reset": True}, "metric or imperial"),
    ],
)
def test_a_message_that_cannot_be_read_is_answered(panel, talk, content, said):
    talk.move("trigger.delay", 0.15)
    setup, image = panel.setup, panel.image
    message = content if not isinstance(content, dict) else {"view": "v", "number": 7} | content
    panel._received(None, message, [])
    state, buffers = talk.answers[-1]
    assert said in state["error"]
    assert buffers is None
    assert (state["view"], state["number"]) == (("v", 7) if isinstance(content, dict) else (None, None))
    assert (panel.setup, panel.image, panel.error) == (setup, image, "")
    assert talk.move("trigger.delay", 0.1)[0]["error"] == "", "the next one is followed as ever"
