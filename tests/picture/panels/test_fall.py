"""The picture of the lesson `fall`: what it shows and says equals the library's numbers."""

import io
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from splashlib.physics.fall import fall_time
from splashlib.picture.fall.fall_picture import FallPicture
from splashlib.picture.fall.strobe import PERIOD
from splashlib.shoot import arrival, change_all, tea_house
from splashlib.shoot.chain.arrival import fallers, way
from tests.effort import cases

BODIES = fallers(tea_house().drop)
NAMES = st.sampled_from(sorted(BODIES))
HEIGHTS = st.integers(10, 300).map(lambda half: half / 200)
ORANGE = np.array([0xD5, 0x5E, 0x00])


@pytest.fixture(scope="module")
def picture():
    return FallPicture(BODIES)


def at(height, scatter=0.003):
    low = {"beam.height": 0.01, "drop.release_height": height, "drop.release_scatter": scatter}
    return change_all(tea_house(), low)


def texts(picture):
    return [artist for artist in picture._moving if hasattr(artist, "get_text")]


@settings(deadline=None, max_examples=cases(8))
@given(height=HEIGHTS, body=NAMES)
def test_layers_give_the_pixels_of_a_full_redraw(picture, height, body):
    picture.update(at(height), body=body)
    shown = picture.pixels().copy()
    assert np.array_equal(shown, picture.redrawn())


@settings(deadline=None, max_examples=cases(60))
@given(height=HEIGHTS, body=NAMES)
def test_artists_stand_where_the_library_says(picture, height, body):
    picture.update(at(height), body=body)
    now, strobe = arrival(BODIES[body], height), picture.strobe
    when, middle = strobe.dots.get_data()
    half = BODIES[body].diameter / 2
    assert len(when) == int(now.time / PERIOD) + 1
    assert when == pytest.approx(20 * np.arange(len(when)))
    assert middle == pytest.approx(100 * (way(BODIES[body], when / 1e3, height)[0] + half))
    assert strobe.shots.get_ydata() == pytest.approx(middle)
    assert strobe.contact.get_xdata() == pytest.approx([1e3 * now.time])
    assert picture.speeds.dot.get_data() == (pytest.approx([100 * height]), pytest.approx([now.speed]))
    for name, column in picture.touchdown.columns.items():
        behind = arrival(BODIES[name], height).behind
        assert column.disc.center[1] == pytest.approx(1e3 * (behind + BODIES[name].diameter / 2))


@settings(deadline=None, max_examples=cases(60))
@given(height=HEIGHTS, body=NAMES)
def test_words_tell_the_librarys_numbers(picture, height, body):
    told = picture.update(at(height), body=body)
    now, said = arrival(BODIES[body], height), dict(told.readout)
    assert said["Time to the water"] == f"{1e3 * now.time:.1f} ms"
    assert said["Without air"] == f"{1e3 * fall_time(height):.1f} ms"
    assert said["Late because of the air"] == f"{1e3 * (now.time - fall_time(height)):.1f} ms"
    assert said["Speed at the water"] == f"{now.speed:.2f} m/s"
    assert said["Streak in 1/10 000 s"] == f"{now.speed / 10:.2f} mm"
    later = arrival(BODIES[body], height + 0.01).time - now.time
    assert said["Hand 1 cm too high"] == f"{1e3 * later:.1f} ms later"
    assert f"{100 * height:.1f} cm" in told.alt
    assert all(name in told.alt for name in BODIES)
    assert f"{1e3 * now.behind:.1f} mm" in told.alt


@settings(deadline=None, max_examples=cases(60))
@given(height=HEIGHTS, body=NAMES, scatter=st.sampled_from([0.0, 0.001, 0.003, 0.01]))
def test_the_verdict_measures_the_air_by_the_hand(picture, height, body, scatter):
    told = picture.update(at(height, scatter), body=body)
    small = arrival(BODIES[body], height).behind <= max(scatter, 0.001)
    assert told.tone == ("good" if small else "warning")
    assert ("will do" in told.line) == small


@pytest.mark.parametrize("height", [0.05, 0.2, 0.45, 0.6, 0.605, 1.0, 1.5])
@pytest.mark.parametrize("body", BODIES)
def test_no_word_leaves_the_picture(picture, height, body):
    picture.update(at(height), body=body)
    picture.pixels()
    for text in texts(picture):
        box, room = text.get_window_extent(picture.canvas.get_renderer()), text.axes.bbox
        assert room.x0 - 1 <= box.x0, text
        assert box.x1 <= room.x1 + 1, text
        assert room.y0 - 1 <= box.y0, text
        assert box.y1 <= room.y1 + 1, text


def test_the_ball_hangs_in_the_air_in_pixels(picture):
    """Close up from 1 m: orange where the ball is, dark where it would be without air."""
    picture.update(at(1.0), body="table-tennis ball")
    image = np.asarray(Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB")).astype(int)
    column = picture.touchdown.columns["table-tennis ball"]
    behind = 1e3 * arrival(BODIES["table-tennis ball"], 1.0).behind

    def pixel(height):
        x, y = column.disc.axes.transData.transform((column.place + 6, height))
        return image[image.shape[0] - 1 - round(y), round(x)]

    assert np.abs(pixel(behind + 4) - ORANGE).max() < 12
    assert np.abs(pixel(behind + 36) - ORANGE).max() < 12
    assert pixel(behind - 4).max() < 60


def test_the_scale_has_two_steps(picture):
    tops = []
    for height in (0.10, 0.60, 0.605, 1.50):
        picture.update(at(height), body="kumquat")
        tops.append(picture.strobe.strip.get_ylim()[1])
    assert tops[0] == tops[1] < tops[2] == tops[3]


def test_one_fall_is_drawn_without_redrawing_what_rests(picture):
    picture.update(at(0.30), body="kumquat")
    picture.frame(moving=True)
    before = picture.static_draws
    for height in (0.31, 0.45, 0.60):
        picture.update(at(height), body="drop of milk")
        picture.frame(moving=True)
    assert picture.static_draws == before


def test_inches(picture):
    picture.system = "imperial"
    try:
        told = picture.update(at(0.45), body="kumquat")
    finally:
        picture.system = "metric"
    assert dict(told.readout)["Speed at the water"] == "9.7 ft/s"
    assert "17.72 in" in told.alt
    assert "mm" not in told.alt + told.line


def test_ones_own_body_stands_first():
    assert list(fallers(tea_house().drop)) == ["kumquat", "glass marble", "drop of milk", "table-tennis ball"]
    plum = replace(tea_house().drop, name="plum", diameter=0.05, length=0.05)
    assert list(fallers(plum)) == ["plum", "glass marble", "drop of milk", "table-tennis ball"]
    assert fallers(plum)["plum"] == plum
    larger = replace(tea_house().drop, diameter=0.04, length=0.05)
    assert fallers(larger)["kumquat"] == larger
    assert len(fallers(larger)) == 4
    ball = replace(tea_house().drop, name="glass marble", diameter=0.02, length=0.02)
    assert list(fallers(ball)) == ["glass marble", "kumquat", "drop of milk", "table-tennis ball"]


def test_a_wide_body_of_ones_own_fits():
    melon = replace(tea_house().drop, name="a small melon from the market", diameter=0.11, length=0.11)
    picture = FallPicture(fallers(melon))
    picture.update(at(1.5), body=melon.name)
    edges = picture.touchdown.axes.get_xlim()
    column = picture.touchdown.columns[melon.name]
    assert edges[0] < column.place - 55 < column.place + 55 < edges[1]
