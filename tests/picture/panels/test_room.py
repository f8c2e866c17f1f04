"""The picture of the lesson `room`: photographs, ladder and words equal the library's numbers."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.picture.photo.frames_by_light import light_on, spot, still_open, taken
from splashlib.picture.photo.photograph import photograph
from splashlib.picture.photo.tone import decode
from splashlib.picture.room.room_ladder import CLEAR, LINE, clear_of_line
from splashlib.picture.room.room_picture import RoomPicture, caught
from splashlib.picture.room.room_words import told, verdict
from splashlib.shoot import change, change_all, dark_enough, framed, ghosts, sees, tea_house
from splashlib.shoot.decide.exposure_balance import flash_light, ghost_stops, room_light, room_over_metered
from splashlib.shoot.decide.room_light import ROOMS
from splashlib.shoot.setup.field_rows import STYLES
from splashlib.shoot.setup.figures import figures
from tests.effort import cases

SCENE = tea_house()
SIZE = (285, 190)
LUX = st.sampled_from([0.05, 0.1, 0.5, 1.0, 2.0, 5.0, 20.0, 50.0, 150.0, 500.0])
OTHER = st.sampled_from([None, "indicator", "telephone", "modelling", "beam", "again"])
SHUTTERS = st.sampled_from([1 / 500, 1 / 250, 1 / 200, 1 / 60, 1 / 30])


@pytest.fixture(scope="module")
def picture():
    return RoomPicture()


def at(lux=1.0, style="held_open", **more):
    return change_all(SCENE, {"room.lux": lux, "camera.style": style, **more})


# ---- the photograph in its parts


@pytest.mark.parametrize("style", ["held_open", "mirror_up", "no_mirror"])
@pytest.mark.parametrize("lux", [0.0, 1.0, 20.0, 200.0])
@pytest.mark.parametrize("shutter", [1 / 200, 1 / 30, 1 / 500])
def test_the_parts_add_up_to_the_photograph(style, lux, shutter):
    setup = caught(at(lux, style, **{"camera.shutter": shutter}))
    whole, parts = photograph(setup, size=SIZE).astype(int), taken(setup, size=SIZE).astype(int)
    assert np.abs(whole - parts).mean() < 0.5
    assert np.quantile(np.abs(whole - parts), 0.99) <= 6


@pytest.mark.parametrize(("lux", "factor"), [(0.1, 2.0), (5.0, 5.0), (100.0, 2.0)])
def test_the_room_s_share_grows_with_its_light(lux, factor):
    setup = caught(at(0.0, "held_open"))
    dark = light_on(setup, SIZE)
    once = light_on(change(setup, "room.lux", lux), SIZE, flash=False)
    more = light_on(change(setup, "room.lux", lux * factor), SIZE, flash=False)
    assert np.allclose(more, factor * once, rtol=1e-4, atol=1e-9)
    # Without the flash nothing falls: the still set is what the room adds where nothing moves, at the lower edge.
    both = light_on(change(setup, "room.lux", lux), SIZE)
    assert (both - dark)[:, -4:, :20] == pytest.approx(once[:, -4:, :20], rel=0.01, abs=1e-6)


def test_the_ghost_fades_stop_by_stop():
    """What the room adds on the fruit halves with each halving of its light; at ten stops it is under one grey."""
    fruit = np.s_[:, 60:100, 125:160]
    dark = light_on(caught(at(0.0)), SIZE)[fruit]
    added = [float((light_on(caught(at(lux)), SIZE)[fruit] - dark).mean()) for lux in (80.0, 40.0, 20.0, 10.0)]
    assert np.array(added[:-1]) / np.array(added[1:]) == pytest.approx(2, rel=0.03)
    gone = change(at(), "room.lux", dark_enough(at(), 10))
    assert np.abs(taken(caught(gone), size=SIZE).astype(int) - taken(caught(at(0.0)), size=SIZE).astype(int)).max() <= 3
    plain = change(at(), "room.lux", dark_enough(at(), 5))
    assert np.abs(taken(caught(plain), size=SIZE).astype(int) - taken(caught(at(0.0)), size=SIZE).astype(int)).max() > 8


def test_iso_parts_nothing():
    low, high = (light_on(caught(at(20.0, **{"camera.iso": iso})), SIZE) for iso in (100.0, 400.0))
    assert high == pytest.approx(4 * low, rel=0.01, abs=1e-6)


def test_a_second_flash_draws_over_the_first():
    """Where nothing is but the resting set, twice the light; over the water, a splash that was not there."""
    setup = caught(at(0.0))
    once, twice = light_on(setup, SIZE), light_on(setup, SIZE, again=0.08)
    assert twice[:, -6:, :15] == pytest.approx(2 * once[:, -6:, :15], rel=0.02, abs=1e-6)
    assert np.abs(twice - 2 * once)[:, 60:140].max() > 0.1
    quick = caught(at(0.0, "mirror_up"))
    assert np.array_equal(light_on(quick, SIZE, again=0.08), light_on(quick, SIZE))
    assert still_open(setup, 0.08)
    assert not still_open(quick, 0.08)
    assert still_open(caught(at(0.0, "mirror_up", **{"camera.shutter": 0.1})), 0.08)


def test_a_beam_in_the_frame_is_a_red_line_at_its_height():
    setup = caught(at(0.1))
    low = change(setup, "beam.height", 0.06)
    line = light_on(setup, SIZE, flash=False, beam=low) - light_on(setup, SIZE, flash=False)
    frame = framed(setup)
    row = int(np.argmax(line[0].sum(axis=1)))
    assert row == pytest.approx((frame.top - 0.06) / (frame.top - frame.bottom) * SIZE[1], abs=1.5)
    assert line[0].max() > 5 * line[1].max()
    assert spot(low) > 100 * spot(change(low, "camera.style", "mirror_up")) > 0
    assert spot(setup) == 0
    # Before the drop there is no spot on the body, only the line.
    assert spot(low) > 2 * line[0].max()


# ---- the whole picture


@settings(deadline=None, max_examples=cases(10))
@given(lux=LUX, style=st.sampled_from(STYLES), other=OTHER)
def test_layers_give_the_pixels_of_a_full_redraw(picture, lux, style, other):
    picture.update(at(lux, style), other=other)
    shown = picture.pixels().copy()
    assert np.array_equal(shown, picture.redrawn())


@settings(deadline=None, max_examples=cases(40))
@given(lux=LUX, power=st.sampled_from([1.0, 1 / 32, 1 / 256]), shutter=SHUTTERS, time=st.sampled_from([1.0, 2.0, 10.0]))
def test_words_of_the_ladder_keep_apart(picture, lux, power, shutter, time):
    picture.update(at(lux, **{"camera.shutter": shutter, "camera.open_time": time, "flashes.0.power": power}))
    ladder, drawn = picture.ladder, picture.figure.canvas.get_renderer()
    line = ladder.axes.transData.transform((0, 0))[1]
    words = [each for each in (*ladder.lux, *ladder.names[0], *ladder.names[1]) if each.get_visible()]
    boxes = [each.get_window_extent(drawn) for each in words]
    for word, box in zip(words, boxes, strict=True):
        assert not box.y0 + 2 < line < box.y1 - 2, word.get_text()
        assert box.x1 <= ladder.axes.bbox.x1 + 1, word.get_text()
    for first, box in zip(words, boxes, strict=True):
        for second, other in zip(words, boxes, strict=True):
            wide = min(box.x1, other.x1) - max(box.x0, other.x0)
            tall = min(box.y1, other.y1) - max(box.y0, other.y0)
            assert first is second or wide < 2 or tall < 5, (first.get_text(), second.get_text())


@given(st.floats(-20, 4))
def test_words_beside_the_rungs_keep_off_the_line_and_in_order(top):
    levels = [top - math.log2(500 / bright) for _, bright in ROOMS]
    places = clear_of_line(levels)
    assert min(abs(place) for place in places) >= CLEAR
    assert all(above - below >= LINE - 1e-9 for above, below in pairwise(places))
    assert max(abs(place - level) for place, level in zip(places, levels, strict=True)) <= CLEAR


@settings(deadline=None, max_examples=cases(60))
@given(lux=LUX, style=st.sampled_from(STYLES), shutter=SHUTTERS, time=st.sampled_from([1.0, 2.0, 5.0]))
def test_artists_stand_where_the_library_says(picture, lux, style, shutter, time):
    setup = at(lux, style, **{"camera.shutter": shutter, "camera.open_time": time})
    picture.update(setup)
    levels, ladder = ghosts(setup), picture.ladder
    for dot, name in zip(ladder.dots, ("mirror", "held_open"), strict=True):
        low, high = ladder.axes.get_ylim()
        if low + 0.5 < -levels[name] < high - 0.5:
            assert dot.get_ydata() == pytest.approx([-levels[name]])
    assert ladder.ring.get_ydata() == ladder.dots[1 if style == "held_open" else 0].get_ydata()
    for names, name in zip(ladder.names, ("mirror", "held_open"), strict=True):
        for words, (_, bright) in zip(names, ROOMS, strict=True):
            level = -ghost_stops(change_all(setup, {"camera.style": name, "room.lux": bright}))
            if words.get_visible():
                assert any(rung[:, 1] == pytest.approx(level) for rung in ladder.rungs.get_segments())
            # Words may stand a little off their rung, to keep off the flash's line.
            assert words.get_position()[1] == pytest.approx(level, abs=1e-9 if abs(level) > 2 else CLEAR)
    assert len(ladder.rungs.get_segments()) == sum(words.get_visible() for names in ladder.names for words in names)


@settings(deadline=None, max_examples=cases(60))
@given(lux=LUX, style=st.sampled_from(STYLES), shutter=SHUTTERS, other=OTHER)
def test_words_tell_the_librarys_numbers(picture, lux, style, shutter, other):
    setup = at(lux, style, **{"camera.shutter": shutter})
    told = picture.update(setup, other=other)
    said, now = dict(told.readout), picture._now[0]
    assert said["Flash"] == f"{flash_light(setup):.0f} lx·s"
    assert float(said["Room in this frame"].split()[0]) == pytest.approx(room_light(now), rel=0.06)
    level = ghosts(now)["held_open"]
    assert said["Held open 2 s"] == f"{abs(level):.1f} stops {'under' if level >= 0 else 'over'}"
    assert said["Held open 2 s"] in told.alt
    assert float(said["Still set without flash"].split()[0].replace("−", "-")) == pytest.approx(
        room_over_metered(now), abs=0.051
    )
    assert float(said["Dark enough held open"].split()[0]) == pytest.approx(dark_enough(at(lux, "held_open")), rel=0.06)
    tone, word = verdict(setup, now, other, picture._now[1])
    assert picture.word.get_text()[2:] == word
    assert told.tone == tone
    assert word.lower() in told.alt.lower()
    if other in ("indicator", "telephone", "modelling"):
        assert now.room.lux > lux
    if other is None and sees(now).lit > 0.995:
        assert f"{abs(ghost_stops(now)):.1f} stops" in told.line
        assert (tone == "bad") == (ghost_stops(now) < 5)
        assert (tone == "good") == (ghost_stops(now) >= 7)


def test_the_frame_of_the_picture_is_the_photograph(picture):
    picture.update(at(20.0))
    picture.pixels()
    assert np.array_equal(picture.main._array, taken(caught(at(20.0)), size=(498, 332)))
    assert np.array_equal(picture.small._array, taken(caught(at(20.0)), size=(192, 128), flash=False))
    # Less light in the room, less in the small frame, stop by stop (the curve of the screen taken off).
    bright = decode(picture.small._array).mean()
    picture.update(at(10.0))
    picture.pixels()
    assert decode(picture.small._array).mean() == pytest.approx(bright / 2, rel=0.1)


def test_while_a_handle_moves_the_photograph_is_small(picture):
    picture.update(at(20.0))
    assert picture.frame(moving=True)[:3] == b"\xff\xd8\xff"
    assert picture.main._array.shape[1] <= 320
    assert picture.frame(moving=False)[:4] == b"\x89PNG"
    assert picture.main._array.shape[1] == 498


@pytest.mark.parametrize(("lux", "said"), [(10.0, "dark enough before"), (500.0, "darken it")])
def test_a_dark_band_in_a_bright_room_asks_for_a_darker_one(lux, said):
    setup = at(lux, "mirror_up", **{"camera.shutter": 1 / 500, "flashes.0.power": 1 / 128})
    assert said in told(setup, caught(setup)).line


def test_a_little_light_is_never_said_with_a_power_of_ten():
    assert [figures(value) for value in (4.88e-5, 0.5, 12.4, 440.3)] == ["0.000049", "0.5", "12", "440"]


@pytest.mark.parametrize(
    ("changes", "expected", "said"),
    [
        ({"camera.iso": 12800.0}, ("bad", "BURNT OUT"), "burnt out"),
        ({"flashes.0.power": 1.0}, ("bad", "BURNT OUT"), "burnt out"),
        ({"camera.iso": 2500.0}, ("warning", "TOO BRIGHT"), "much too bright, by 1.7 stops"),
        ({"camera.iso": 50.0, "flashes.0.power": 1 / 256}, ("warning", "TOO DARK"), "much too dark"),
        ({"drop.diameter": 0.0014}, ("bad", "NO FLASH"), "does not block enough of the beam"),
    ],
)
def test_no_spoilt_frame_is_clean(changes, expected, said):
    """In next to no light the room is gone; that makes a frame neither clean nor good when the flash spoils it."""
    setup = at(0.05, **changes)
    found = told(setup, caught(setup))
    assert verdict(setup, caught(setup)) == expected
    assert said in found.line
    assert found.tone == expected[0]
    assert found.alt.startswith(expected[1].capitalize())


def test_verdicts():
    cases = {
        (0.02, "held_open"): ("good", "CLEAN"),
        (0.2, "held_open"): ("good", "CLEAN ENOUGH"),
        (0.6, "held_open"): ("warning", "A TRACE OF ROOM"),
        (10.0, "held_open"): ("bad", "ROOM PLAIN TO SEE"),
        (500.0, "held_open"): ("bad", "FLASH DROWNED"),
        (5.0, "mirror"): ("good", "CLEAN"),
    }
    for (lux, style), expected in cases.items():
        setup = at(lux, style)
        assert verdict(setup, caught(setup)) == expected
    strip = at(0.1, "mirror_up", **{"camera.shutter": 1 / 1000, "flashes.0.power": 1.0})
    assert verdict(strip, caught(strip)) == ("bad", "NEARLY ALL DARK")
    assert "too fast" in told(strip, caught(strip)).line
    late = change_all(SCENE, {"camera.open_time": 0.5})
    assert verdict(late, caught(late))[1] == "SHUTTER CLOSED"
    assert math.isinf(ghost_stops(at(0.0)))
