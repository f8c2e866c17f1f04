"""The picture of the lesson `stops`: bars, arches, words and pixels against the library."""

import io
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from splashlib.physics.stops import POWERS, stops_between
from splashlib.picture.kit.dry_words import spray_warning
from splashlib.picture.photo.photograph import photograph
from splashlib.picture.stops.power_dial import counted
from splashlib.picture.stops.stops_picture import StopsPicture, coarse, enlarged, grainy, grey_noise, merged
from splashlib.picture.stops.stops_words import owed
from splashlib.shoot import account, change, change_all, delay_for, tea_house, with_body
from splashlib.shoot.decide.exposure_account import Payment, alike
from splashlib.shoot.decide.exposure_balance import flash_light, flash_over_metered, ghost_stops, room_over_metered
from splashlib.shoot.setup.figures import fixed
from tests.effort import cases

SCENE = change(tea_house(), "trigger.delay", delay_for(tea_house(), height=0.01).value)


@pytest.fixture(scope="module")
def picture():
    return StopsPicture()


def lit(**changes):
    names = {"power": "flashes.0.power", "distance": "flashes.0.distance", "iso": "camera.iso", "lux": "room.lux"}
    return change_all(SCENE, {names[name]: value for name, value in changes.items()})


@settings(deadline=None, max_examples=cases(40))
@given(mark=st.sampled_from(POWERS), distance=st.floats(0.15, 2), iso=st.sampled_from([100, 800, 12800]))
def test_bars_are_the_account(picture, mark, distance, iso):
    setup = lit(power=mark.exact, distance=distance, iso=iso)
    picture.update(setup, heads=2)
    setup, start = alike(setup, 2), 0.0
    for bar, line in zip(picture.lines.bars, account(setup), strict=False):
        low, high = sorted((start, start + line.stops))
        assert bar.get_x() == pytest.approx(min(max(low, -9), 9))
        assert bar.get_x() + bar.get_width() == pytest.approx(max(min(high, 9), -9))
        start += line.stops
    room = picture.lines.bars[-1]
    assert room.get_x() + room.get_width() == pytest.approx(min(max(room_over_metered(setup), -9), 9))
    assert picture.lines.limit.get_xdata()[0] == pytest.approx(flash_over_metered(setup) - 7)


@pytest.mark.parametrize("mark", POWERS)
def test_arches_are_steps_and_marks_are_one_more(picture, mark):
    picture.update(lit(power=mark.exact))
    steps = -stops_between(1, mark.exact, kind="power")
    drawn = [arch for arch in picture.dial.arches if np.ptp(arch.get_xdata()) > 0]
    assert len(drawn) == math.ceil(steps)
    assert sum(np.ptp(arch.get_xdata()) for arch in drawn) == pytest.approx(float(steps))
    assert picture.dial.knob.get_xdata()[0] == pytest.approx(float(steps))
    numbered = [word.get_text() for word in picture.dial.counted if word.get_text()]
    assert len(numbered) == int(steps) + 1
    assert [word.get_text() for word in picture.dial.numbers if word.get_text()] == [
        str(step + 1) for step in range(int(steps))
    ]


def test_steps_in_words():
    from fractions import Fraction

    assert counted(3) == "3 steps"
    assert counted(1, "stop") == "1 stop"
    assert counted(Fraction(7, 3)) == "2 1/3 steps"
    assert counted(Fraction(2, 3), "stop") == "2/3 stop"
    assert counted(0) == "0 steps"


@settings(deadline=None, max_examples=cases(60))
@given(
    mark=st.sampled_from(POWERS),
    distance=st.floats(0.15, 2),
    iso=st.sampled_from([100, 800, 12800]),
    heads=st.sampled_from([1, 2, 4]),
    lux=st.sampled_from([0.0, 0.2, 1.0, 50.0]),
)
def test_words_tell_the_librarys_numbers(picture, mark, distance, iso, heads, lux):
    told = picture.update(lit(power=mark.exact, distance=distance, iso=iso, lux=lux), heads=heads)
    setup, said = alike(lit(power=mark.exact, distance=distance, iso=iso, lux=lux), heads), dict(told.readout)
    frame, ghost = flash_over_metered(setup), ghost_stops(setup)
    assert said["The frame"] == f"{fixed(frame, 1, sign=True)} stops".replace("-", "−")
    under = "dark" if lux == 0 else f"{fixed(ghost, 1)} stops".replace("-", "−")
    assert said["The room under the flash"] == under
    assert said["From full power"] == counted(-stops_between(1, mark.exact, kind="power"))
    assert f"Noise in a middle grey is {said['Noise in a middle grey']}" in told.alt
    assert said["The frame"] in told.alt
    assert f"ISO {iso}" in told.alt
    # A lamp that stands in the spray is warned of, however good the light.
    good = abs(frame) <= 0.5 and ghost >= 7 and spray_warning(setup) is None
    assert (told.tone == "good") == good
    assert ("handle alone" in told.line) == (abs(frame) > 0.5)
    assert ("gets in" in told.line) == (abs(frame) <= 0.5 and 0 <= ghost < 7)
    assert ("drowns the flash" in told.line) == (abs(frame) <= 0.5 and ghost < 0)


def test_what_pays_is_named_with_its_number(picture):
    picture = StopsPicture()  # one in which no handle was moved before: the last one is named first
    told = picture.update(lit(power=1 / 128))
    assert told.line == (
        "1.9 stops are missing. One handle alone would do: four heads, ISO 3200, f/5.6 or the lamp at 44 cm."
    )
    told = picture.update(lit(power=1 / 128, iso=3200))
    assert told.line == (
        "Bright enough, but the room gets in. It lies 5.2 stops under the flash; a ghost is hardly seen from 7 on."
    )
    picture.system = "imperial"
    try:
        told = picture.update(lit(power=1 / 128))
    finally:
        picture.system = "metric"
    assert "the lamp at 17.5 in" in told.line
    assert "cm" not in told.line + told.alt


def test_the_handle_that_was_moved_last_is_named_first(picture):
    picture.update(lit(power=1 / 128))
    for moved, first in (({"iso": 400}, "ISO "), ({"iso": 400, "distance": 0.5}, "the lamp at ")):
        told = picture.update(lit(power=1 / 128, **moved))
        assert told.line.split("would do: ")[1].startswith(first)


def test_payments_are_what_a_handle_can_be():
    """Whole centimetres on the slider, heads that can be picked, half stops of diffuser that there are."""
    pays = [
        Payment("distance", 0.1749, 0.0),
        Payment("diffuser", 0.13, 0.0),
        Payment("heads", 3, 0.0),
        Payment("aperture", 6.3, 1.0),
        Payment("iso", 640.0, 1.0),
    ]
    assert owed(pays) == "the lamp at 17 cm, no diffuser, four heads, f/6.3 or ISO 640"
    assert owed(pays, "iso").startswith("ISO 640, the lamp")
    assert owed([Payment("diffuser", 1.1, 0.0)]) == "a diffuser of 1 stop"
    assert owed([Payment("diffuser", 2.4, 0.0)]) == "a diffuser of 2.5 stops"
    strange = [Payment("distance", 41.65, 0.0), Payment("diffuser", 6.2, 0.0), Payment("heads", 7, 0.0)]
    assert owed(strange) == ""


def test_without_a_flash_nothing_is_well_exposed(picture):
    """A drop of milk does not block a beam of 10 mm: no light, and no word of a good exposure."""
    milk = change_all(with_body(lit(), "drop of milk"), {"drop.diameter": 0.004, "beam.width": 0.010})
    told = picture.update(milk)
    assert told.tone == "bad"
    assert "does not block enough of the beam" in told.line
    assert "well exposed" not in told.alt + told.line


def test_where_nothing_can_pay_no_handle_and_no_crowd_of_heads_is_named(picture):
    dark = {"flashes.0.distance": 2.0, "flashes.0.diffuser_loss": 3.0, "camera.aperture": 32.0, "camera.iso": 50.0}
    bright = {"flashes.0.distance": 0.15, "flashes.0.diffuser_loss": 0.0, "camera.aperture": 2.8, "camera.iso": 12800.0}
    for setup, heads in ((change_all(lit(power=1 / 256), dark), 1), (change_all(lit(power=1.0), bright), 4)):
        told = picture.update(setup, heads=heads)
        assert told.line.endswith("No handle alone can mend it: move several.")
        assert "heads" not in told.line


def linear(setup, **kwargs):
    from splashlib.picture.photo import tone

    return tone.decode(photograph(setup, size=(320, 213), **kwargs))


def test_a_stop_is_a_factor_of_two_in_pixels():
    dark, bright = linear(lit(power=1 / 64, lux=0.0)), linear(lit(power=1 / 32, lux=0.0))
    seen = (dark > 0.02) & (bright < 0.5)
    assert seen.sum() > 1000
    assert np.median(bright[seen] / dark[seen]) == pytest.approx(2, rel=0.03)


def test_four_heads_are_drawn_as_two_that_are_twice_as_strong():
    four = alike(lit(power=1 / 128), 4)
    assert len(merged(four).flashes) == 2
    assert flash_light(merged(four)) == pytest.approx(flash_light(four))
    off = photograph(merged(four), size=(320, 213)).astype(int) - photograph(four, size=(320, 213))
    assert np.abs(off).max() <= 1
    assert merged(SCENE) is SCENE


@settings(deadline=None, max_examples=cases(40))
@given(distance=st.floats(0.15, 2))
def test_a_coarse_distance_gives_the_exact_light(distance):
    setup = lit(distance=distance)
    assert flash_light(coarse(setup)) == pytest.approx(flash_light(setup))
    assert abs(math.log2(coarse(setup).flashes[0].distance / distance)) <= 1 / 6 + 1e-9


def test_noise_is_there_at_rest_only_and_as_large_as_said(picture):
    setup = lit(power=1 / 128, iso=12800, lux=0.0)
    clean = linear(setup)
    from splashlib.picture.photo import tone

    noisy = tone.decode(grainy(setup, (320, 213)))
    grey = (np.abs(clean - 0.18) < 0.02) & (clean > 0)
    assert grey.sum() > 300
    spread = (noisy[grey] - clean[grey]).std() / 0.18
    assert spread == pytest.approx(grey_noise(12800), rel=0.15)
    assert np.array_equal(grainy(setup, (320, 213)), grainy(setup, (320, 213)))
    picture.update(setup)
    picture.frame(moving=True)
    moving = picture.photo._array
    assert np.array_equal(moving, photograph(coarse(setup), size=moving.shape[1::-1]))
    picture.frame(moving=False)
    assert np.array_equal(picture.photo._array, grainy(setup, picture.photo._array.shape[1::-1]))


def test_two_stops_of_iso_double_the_noise():
    for iso in (100, 200, 800):
        assert grey_noise(4 * iso) / grey_noise(iso) == pytest.approx(2, rel=0.03)


def test_the_detail_is_a_part_of_the_photograph():
    shot = np.random.default_rng(3).integers(0, 255, (300, 450, 3), dtype=np.uint8)
    small = enlarged(shot)
    cut = small[::3, ::3]
    for row, column in np.ndindex(3, 3):
        assert np.array_equal(small[row::3, column::3], cut)
    places = [
        (row, column)
        for row, column in np.ndindex(300 - cut.shape[0], 450 - cut.shape[1])
        if np.array_equal(shot[row, column : column + 4], cut[0, :4])
    ]
    assert len(places) == 1
    row, column = places[0]
    assert np.array_equal(shot[row : row + cut.shape[0], column : column + cut.shape[1]], cut)


def test_one_change_does_not_redraw_what_rests(picture):
    picture.update(SCENE)
    picture.frame(moving=True)
    before = picture.static_draws
    for power in (1.0, 0.25, 1 / 256):
        picture.update(lit(power=power, iso=1600), heads=4)
        picture.frame(moving=True)
    assert picture.static_draws == before


@pytest.mark.parametrize("power", [1.0, 1 / 2, 2 ** (-7 / 3), 1 / 256])
@pytest.mark.parametrize(("iso", "distance", "heads"), [(50, 2.0, 1), (12800, 0.15, 4), (200, 1.234, 2)])
def test_no_word_leaves_the_picture(picture, power, iso, distance, heads):
    picture.update(lit(power=power, iso=iso, distance=distance), heads=heads)
    picture.pixels()
    renderer, room = picture.canvas.get_renderer(), picture.figure.bbox
    edge = picture.photo.axes.bbox.x1
    for text in (
        *picture.lines.names,
        *picture.lines.words,
        picture.dial.large,
        picture.dial.small,
        picture.dial.marks,
    ):
        box = text.get_window_extent(renderer)
        assert room.x0 <= box.x0, text
        assert box.x1 <= room.x1, text
    for text in picture.lines.words:
        assert text.get_window_extent(renderer).x0 > picture.lines.axes.bbox.x1, text
    for text in picture.lines.names:
        assert text.get_window_extent(renderer).x0 > edge, text
    word = picture.word.get_window_extent(renderer)
    assert word.x1 < edge


def test_at_rest_the_photograph_is_shown_element_by_element(picture):
    told = picture.update(SCENE)
    image = np.asarray(Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB"))
    assert image.shape == (640, 1000, 3)
    assert told.tone == "good"
    left, low, _, high = (round(edge) for edge in picture.photo.axes.bbox.extents)
    corner = image[640 - high : 640 - low, left : left + 100]
    assert np.array_equal(corner, picture.photo._array[:, :100])
