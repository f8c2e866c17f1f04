"""Controls of a panel: every setting's positions, their words, and what they mean in SI."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.classroom.widgets.controls import Control, Pick, Steps, Toggle, handle
from splashlib.shoot import FIELDS, change, show, tea_house, value_at

DRAGGED = [row.path for row in FIELDS if row.kind != "text"]
TEXTS = [row.path for row in FIELDS if row.kind == "text"]


@pytest.mark.parametrize("path", DRAGGED)
def test_every_setting_makes_a_control(path):
    made = handle(path)
    value = value_at(tea_house(), path)
    texts = made.texts("metric")
    assert len(texts) == len(made.values) >= 2
    assert all(texts)
    assert texts[made.at(made.values[0])] == texts[0]
    assert made.say(value, "metric") == show(path, value)


@pytest.mark.parametrize("path", TEXTS)
def test_a_text_is_nothing_to_drag(path):
    with pytest.raises(ValueError, match="only numbers, marks and choices can be dragged"):
        handle(path)


@settings(deadline=None, max_examples=60)
@given(path=st.sampled_from(DRAGGED), share=st.floats(0, 1))
def test_position_and_value_belong_together(path, share):
    made = handle(path)
    at = round(share * (len(made.values) - 1))
    assert made.at(made.value(at)) == at


def test_values_are_clean_decimals_in_si():
    made = handle("drop.release_height")
    assert made.value(made.at(0.451)) in (0.45, 0.455)
    assert 0.455 in made.values
    assert change(tea_house(), "drop.release_height", made.values[-1]).drop.release_height == 1.5


def test_right_is_more():
    for path in ("flashes.0.power", "camera.aperture", "camera.shutter", "trigger.delay"):
        values = handle(path).values
        assert list(values) == sorted(values)


def test_a_value_between_the_marks_finds_the_nearest_in_stops():
    made = handle("flashes.0.power")
    assert made.say(made.value(made.at(1 / 31)), "metric") == "1/32"


def test_lengths_are_said_in_inches_on_request():
    made = handle("drop.release_height")
    at = made.at(0.45)
    assert made.texts("metric")[at] == "45.0 cm"
    assert made.texts("imperial")[at] == "17.72 in"
    assert handle("trigger.delay").texts("imperial")[2] == handle("trigger.delay").texts("metric")[2]


def test_an_extra_is_given_in_its_unit_and_meant_in_si():
    made = handle(Control("clock", "time after contact", "ms", -5, 200, 0.5, 40))
    assert made.start == 0.04
    assert made.label == "Time after contact"
    assert made.texts("metric")[0] == "−5.0 ms"
    assert made.value(10) == 0.0


def test_few_choices_stand_side_by_side_and_many_fold_out():
    assert handle(Pick("a", "A", ("x", "y"))).kind == "radio"
    assert handle(Pick("a", "A", tuple("vwxyz"))).kind == "select"
    assert handle("camera.style").kind == "radio"


def test_a_choice_may_show_other_words_than_its_value():
    made = handle(Pick("n", "How many", (("one drop", 1), ("thirty drops", 30)), 30))
    assert (made.start, made.at(30), made.texts("metric")) == (30, 1, ["one drop", "thirty drops"])


def test_a_box_to_tick():
    made = handle(Toggle("noise", "Show the noise", True))
    assert (made.kind, made.start, made.value(0), made.value(1)) == ("check", True, False, True)


def test_a_setting_in_steps_of_its_own():
    made = handle(Steps("room.lux", (0.1, 0.3, 1, 1.5, 10, 500)))
    assert made.texts("metric") == ["0.1 lx", "0.3 lx", "1 lx", "1.5 lx", "10 lx", "500 lx"]
    assert made.value(made.at(1.4)) == 1.5
    shutter = handle(Steps("camera.shutter", (1 / 500, 1 / 200, 1 / 30)))
    assert shutter.texts("metric") == ["1/500 s", "1/200 s", "1/30 s"]


MISTAKES = {
    "steps of a choice": (Steps("camera.style", ("mirror",)), "cannot be dragged in steps"),
    "steps that fall": (Steps("room.lux", (2, 1)), "the steps must rise"),
    "an impossible step": (Steps("room.lux", (-1, 1)), "is -1 lx"),
    "no setting": ("drop.hieght", "there is no setting"),
    "no control": (3, "is no control"),
    "start outside": (Control("c", "C", "ms", 0, 10, 1, 11), "starts at 11; it must be 0 to 10"),
    "no step": (Control("c", "C", "ms", 0, 10, 0, 1), "make no slider"),
    "turned round": (Control("c", "C", "ms", 10, 0, 1, 1), "make no slider"),
    "too fine": (Control("c", "C", "ms", 0, 10, 0.0001, 1), "a slider must have 4000 or fewer"),
    "no choices": (Pick("p", "P", ()), "has no choices"),
    "unknown start": (Pick("p", "P", ("a",), "b"), "starts at 'b'"),
}


@pytest.mark.parametrize("name", MISTAKES)
def test_mistakes_get_one_line(name):
    control, line = MISTAKES[name]
    with pytest.raises(ValueError, match=line) as caught:
        handle(control)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize("at", [-1, 10_000, 1.5, True, None, "0"])
def test_positions_that_are_none_are_refused(at):
    with pytest.raises(ValueError, match="has no position"):
        handle("drop.release_height").value(at)
