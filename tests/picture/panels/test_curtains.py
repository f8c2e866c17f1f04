"""The picture of first curtains: frames, slits and words equal the library's numbers."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.picture.camera.curtain_picture import NAMES, SPANS, CurtainPicture
from splashlib.shoot import change_all, field, open_rows, tea_house
from splashlib.shoot.decide.style_comparison import CURTAINS, in_curtains
from tests.effort import cases

SHUTTERS = st.sampled_from([value for _, value in field("camera.shutter").marks])
READOUTS = st.integers(3, 60).map(lambda ms: ms / 1000)


@pytest.fixture(scope="module")
def picture():
    return CurtainPicture()


def at(shutter=1 / 200, readout=0.02):
    return change_all(
        tea_house(),
        {
            "camera.style": "mirror_up",
            "beam.height": 0.25,
            "camera.shutter": shutter,
            "camera.readout": readout,
        },
    )


@settings(deadline=None, max_examples=cases(8))
@given(shutter=SHUTTERS, readout=READOUTS)
def test_layers_give_the_pixels_of_a_full_redraw(picture, shutter, readout):
    picture.update(at(shutter, readout))
    shown = picture.pixels().copy()
    assert np.array_equal(shown, picture.redrawn())


@settings(deadline=None, max_examples=cases(60))
@given(shutter=SHUTTERS, readout=READOUTS)
def test_slits_and_words_tell_the_librarys_numbers(picture, shutter, readout):
    setup = at(shutter, readout)
    told = picture.update(setup)
    said = dict(told.readout)
    for number, (curtain, shot) in enumerate(zip(CURTAINS, in_curtains(setup, height=0.01), strict=True)):
        chart, camera = picture.charts[number], shot.setup.camera
        corners = chart.open.get_xy()[:4]
        assert corners[:, 0] == pytest.approx([0, 1e3 * camera.sweep, 1e3 * (camera.sweep + shutter), 1e3 * shutter])
        (light, _), rows = chart.lit.get_data()
        assert rows == pytest.approx([float(row) for row in open_rows(shot.setup, light / 1e3)])
        assert rows[1] - rows[0] == pytest.approx(shot.seen.lit)
        assert said[NAMES[curtain]] == f"{100 * shot.seen.lit:.0f} % lit"
        assert picture.shots.words[number].get_text()[2:] == ("ALL OF IT" if shot.seen.lit >= 0.995 else "BAND")
    assert (told.tone == "good") == all(shot.seen.lit >= 0.995 for shot in in_curtains(setup, height=0.01))


def test_the_dark_part_of_a_frame_is_dark_in_the_pixels(picture):
    picture.update(at(1 / 500))
    picture.pixels()
    for image, shot in zip(picture.shots.images, in_curtains(at(1 / 500), height=0.01), strict=True):
        dark = (image._array.max(axis=(1, 2)) < 8).mean()
        assert dark == pytest.approx(1 - shot.seen.lit, abs=0.025)


def test_what_each_curtain_does_at_the_usual_speeds(picture):
    def row(shutter):
        picture.update(at(shutter))
        return [word.get_text()[2:] for word in picture.shots.words]

    assert row(1 / 200) == ["ALL OF IT", "ALL OF IT", "BAND", "ALL OF IT"]
    assert row(1 / 500) == ["BAND", "BAND", "BAND", "ALL OF IT"]
    assert row(1 / 40) == ["ALL OF IT"] * 4


def test_the_clock_has_steps(picture):
    for shutter, span in ((1 / 200, SPANS[1]), (1 / 30, SPANS[2]), (1.0, SPANS[4])):
        picture.update(at(shutter))
        assert {chart.span for chart in picture.charts} == {span}


@pytest.mark.parametrize("shutter", [1 / 1000, 1 / 200, 1 / 60, 1 / 15, 1.0])
def test_no_word_leaves_the_picture(picture, shutter):
    picture.update(at(shutter))
    picture.pixels()
    renderer = picture.canvas.get_renderer()
    words = [*picture.shots.words, *picture.shots.lines, *(chart.word for chart in picture.charts)]
    for chart in picture.charts:
        low, high = chart.axes.get_xlim()
        words += [label for label in chart.axes.get_xticklabels() if low <= label.get_position()[0] <= high]
        words += chart.axes.get_yticklabels()
    for each in words:
        if each.get_visible() and each.get_text():
            box = each.get_window_extent(renderer)
            assert box.x0 >= 0, each
            assert box.x1 <= picture.size[0], each
            assert box.y0 >= 0, each
