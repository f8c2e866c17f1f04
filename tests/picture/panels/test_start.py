"""The picture of `start` shows and says what the library computes."""

import numpy as np
import pytest

from splashlib.picture.kit.frame_words import verdict
from splashlib.picture.start.stage_bands import ROWS
from splashlib.picture.start.start_picture import FLOOR, SPAN, TOP, StartPicture
from splashlib.shoot import Flash, change, change_all, sees, splash, tea_house, with_body
from splashlib.shoot.chain.events import events
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ledger
from splashlib.shoot.decide.judgement import exposure, judge

SCENE = tea_house()
MIRROR = change(SCENE, "camera.style", "mirror")


@pytest.fixture(scope="module")
def picture():
    return StartPicture()


def test_the_dot_stands_where_the_light_finds_the_body(picture):
    setup = change_all(SCENE, {"camera.style": "mirror_up", "beam.height": 0.2, "trigger.delay": 0.02})
    picture.update(setup)
    (when,), (height,) = picture.fall.dot.get_data()
    seen = sees(setup)
    assert (when / 1e3, height / 1e2) == pytest.approx((seen.light, seen.height))
    assert picture.set_view.body.get_center()[1] == pytest.approx(100 * seen.height + 1.75)


def test_a_body_on_the_bottom_is_still_drawn(picture):
    picture.update(change(SCENE, "trigger.delay", 0.3))
    assert picture.set_view.body.get_visible()
    assert picture.set_view.body.get_center()[1] == pytest.approx(-18 + 1.75)


def test_the_ledger_adds_up(picture):
    picture.update(SCENE)
    shown = [float(text.get_text().replace("\N{MINUS SIGN}", "-")) for text in picture.ledger.words]
    assert shown[:-1] == pytest.approx([entry.stops for entry in ledger(SCENE)], abs=0.051)
    assert shown[-1] == pytest.approx(flash_over_metered(SCENE), abs=0.051)


@pytest.mark.parametrize("power", [1, 1 / 4, 1 / 64])
def test_the_streak_is_as_long_as_it_says(picture, power):
    setup = change(SCENE, "flashes.0.power", power)
    told = picture.update(setup)
    row = picture.streak.image.get_array()[picture.streak.image.get_array().shape[0] // 2]
    bright = np.flatnonzero(row > (0.1 * row.max() ** 2.2) ** (1 / 2.2))
    drawn = (bright[-1] - bright[0]) * 16 / row.size - 1.0
    stated = float(dict(told.readout)["Streak of a droplet"].split()[0])
    assert drawn == pytest.approx(stated, abs=0.25 + 0.15 * stated)


def test_moving_equals_a_full_redraw(picture):
    for setup in (SCENE, MIRROR, change(SCENE, "beam.height", 0.3)):
        picture.update(setup)
        assert np.array_equal(np.array(picture.pixels()), picture.redrawn())


@pytest.mark.parametrize("beam", [0.01, 0.05, 0.08, 0.10, 0.11, 0.115, 0.12, 0.14, 0.16, 0.18, 0.30])
def test_no_beam_runs_through_the_name_of_the_frame(picture, beam):
    picture.update(change(SCENE, "beam.height", beam))
    picture.pixels()
    renderer, view = picture.canvas.get_renderer(), picture.set_view
    words = view.frame_name.get_window_extent(renderer)
    for x, y in view.axes.transData.transform(view.lamp.get_xydata()):
        assert not words.y0 - 2 < y < words.y1 + 2, (x, words)


def test_verdicts_tell_the_cases_apart():
    lines = {
        "no kumquat": MIRROR,
        "over the top": change(SCENE, "beam.height", 0.3),
        "Caught. ": change(SCENE, "trigger.delay", 0.035),
        "after contact": change(SCENE, "trigger.delay", 0.046),
        "black": change_all(SCENE, {"camera.open_time": 0.1, "camera.open_before": 0.0}),
    }
    for words, setup in lines.items():
        assert words in verdict(judge(setup))[1], words
    said = {0: "well exposed", 1: "a little bright", -1: "a little dark", 1.8: "much too bright", -4: "much too dark"}
    for stops, words in {**said, 4: "burnt out", -9: "black"}.items():
        assert exposure(stops) == words


def test_a_second_head_and_inches_are_told(picture):
    two = change_all(SCENE, {"flashes.0.power": 1 / 32})
    two = type(two)(**{**two.__dict__, "flashes": (Flash(), Flash(name="fill"))})
    picture.update(two)
    assert picture.ledger.words[4].get_text() == "+1.0"
    picture.system = "imperial"
    told = picture.update(SCENE)
    picture.system = "metric"
    assert dict(told.readout)["Height of the body at the light"].endswith(" in")
    assert FLOOR < 0 < TOP


def test_the_stages_stand_on_the_time_axis(picture):
    for setup in (SCENE, with_body(SCENE, "glass marble"), with_body(SCENE, "drop of milk")):
        told = picture.update(setup)
        found = {stage.name: stage for stage in splash(setup)}
        contact = float(events(setup).contact[0])
        for row, bar, tick in zip(ROWS, picture.stages.bars, picture.stages.ticks, strict=True):
            names = [name for name in row if name in found]
            assert bar.get_visible() == bool(names)
            for name in names:
                stage = found[name]
                assert bar.get_x() / 1e3 == pytest.approx(contact + stage.early)
                assert (bar.get_x() + bar.get_width()) / 1e3 == pytest.approx(min(contact + stage.late, SPAN[1]))
                assert tick.get_xdata()[0] / 1e3 == pytest.approx(min(contact + stage.likely, SPAN[1]))
                assert f"{row[name]} {1e3 * (contact + stage.early):.0f} to" in told.alt
