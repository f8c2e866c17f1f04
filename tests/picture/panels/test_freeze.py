"""The picture of the lesson `freeze`: what it shows and says equals the library's numbers."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from splashlib.physics.light.blur import bar_profile
from splashlib.physics.pulse import KINDS
from splashlib.picture.freeze.freeze_picture import AT_ONCE, FreezePicture
from splashlib.picture.freeze.freeze_words import LIGHTS, grade, size, verdict
from splashlib.picture.freeze.pixel_streak import droplet, enlarged
from splashlib.picture.kit import phrases as words
from splashlib.picture.photo.photograph import photograph
from splashlib.shoot import change, change_all, contact_speed, pulse_of, streak_in, tea_house
from splashlib.shoot.decide.flash_duration import MARKS, durations, heads_apart, in_four_lights, unseen_from
from tests.effort import cases

SCENE = tea_house()
STATES = {"kind": st.sampled_from(KINDS), "power": st.sampled_from(MARKS), "height": st.integers(14, 100)}


@pytest.fixture(scope="module")
def picture():
    return FreezePicture()


def at(kind="quenched", power=1 / 32, height=45, distance=0.55):
    return change_all(SCENE, {"flashes.0.kind": kind, "flashes.0.power": power, "camera.distance": distance,
                              "drop.release_height": height / 100})  # fmt: skip


@settings(deadline=None, max_examples=cases(6))
@given(**STATES)
def test_layers_give_the_pixels_of_a_full_redraw(picture, kind, power, height):
    picture.update(at(kind, power, height))
    shown = picture.pixels().copy()
    assert np.array_equal(shown, picture.redrawn())


@settings(deadline=None, max_examples=cases(40))
@given(**STATES, width=st.floats(0.1, 1), apart=st.floats(0, 0.002))
def test_words_tell_the_librarys_numbers(picture, kind, power, height, width, apart):
    setup = at(kind, power, height)
    told = picture.update(setup, print_width=width, apart=apart)
    said, pulse, streak = dict(told.readout), pulse_of(setup.flashes[0]), streak_in(setup, print_width=width)
    assert said["Duration t0.1"] == words.part_of_second(pulse.t01)
    assert said["Duration t0.5"] == words.part_of_second(pulse.t05)
    assert said["Speed of the droplet"] == f"{contact_speed(setup):.2f} m/s"
    assert said["Streak on the set"] == size(contact_speed(setup) * pulse.t01, "mm")
    assert said["Streak in pixels"] == f"{streak.pixels:.0f} px"
    assert said[f"On a print {100 * width:.1f} cm wide"] == size(streak.on_print, "mm")
    assert said["Too small to see from"] == size(unseen_from(streak.on_print), "m")
    gap = heads_apart(in_four_lights(setup, apart=apart)[3])
    assert said["Two heads draw the body apart by"] == size(gap, "mm")
    assert told.tone == grade(streak.on_object)[0]
    assert all(name in told.alt for name in LIGHTS)
    assert f"{streak.pixels:.0f} pixels" in told.alt
    assert told.line in told.alt


@pytest.mark.parametrize(
    ("kind", "power", "said"),
    [
        ("quenched", 1 / 256, "Droplets are points"),
        ("quenched", 1 / 32, "From 1/128 +1/3 down they are points."),
        ("quenched", 1.0, "Droplets are streaks"),
        (
            "voltage_controlled",
            1 / 32,
            "No power of this unit makes them points; its shortest flash is 1/230 s, at 1/1.",
        ),
        ("high_speed_sync", 1 / 256, "freezes nothing: a droplet is smeared over 18 mm at any power"),
    ],
)
def test_the_verdict(picture, kind, power, said):
    assert said in picture.update(at(kind, power)).line


def test_a_second_head_that_fires_along_draws_nothing_twice():
    two = in_four_lights(at(power=1 / 256), apart=0.0)[3]
    assert verdict(two, moved=0.0001, apart=heads_apart(two))[1] == "POINTS"
    late = in_four_lights(at(power=1 / 256), apart=0.001)[3]
    assert verdict(late, moved=0.0001, apart=heads_apart(late))[1] == "DOUBLE"


def test_edges_nearer_than_the_smear_is_long_are_no_double():
    two = in_four_lights(at(power=1.0), apart=0.0005)[3]
    smear = streak_in(two).on_object
    assert smear > heads_apart(two) > 0.001
    assert verdict(two, moved=smear, apart=heads_apart(two))[1] == "STREAKS"


@settings(deadline=None, max_examples=cases(30))
@given(kind=st.sampled_from(KINDS), power=st.sampled_from(MARKS), size=st.floats(5, 80))
def test_a_droplet_in_pixels_keeps_all_of_its_light(kind, power, size):
    """Summed over a wide window it is the droplet's area, however long the streak."""
    pulse = pulse_of(at(kind, power).flashes[0])
    speed = 20 * size / max(pulse.duration(0.001), 1e-5)
    light = droplet((int(30 * size) + 80, 90), start=size, middle=45, size=size, speed=speed, pulse=pulse)
    rows = np.arange(90) + 0.5 - 45
    inside = np.abs(rows) < size / 2
    area = (2 * np.sqrt((size / 2) ** 2 - rows[inside] ** 2)).sum()
    assert light.min() >= -1e-12
    assert light.max() <= 1 + 1e-12
    assert light.sum() == pytest.approx(area, rel=0.02)


def test_the_middle_row_is_the_profile_of_a_bar():
    pulse = pulse_of(SCENE.flashes[0])
    light = droplet((108, 72), start=30, middle=36.5, size=37, speed=1.1e5, pulse=pulse)
    places = np.arange(108) + 0.5 - 30
    assert light[36] == pytest.approx(bar_profile(places, speed=1.1e5, light=pulse, size=37.0))


def test_pixels_are_squares():
    large = enlarged(np.eye(4), 3)
    assert large.shape == (12, 12, 3)
    assert large[1, 10].max() == 255  # the first row lies lowest
    assert large[10, 10].max() < 20


@settings(deadline=None, max_examples=cases(40))
@given(**STATES)
def test_charts_stand_where_the_library_says(picture, kind, power, height):
    setup = at(kind, power, height)
    picture.update(setup)
    pulse, head = pulse_of(setup.flashes[0]), setup.flashes[0]
    for bar, fraction in zip(picture.pulse.bars, (0.5, 0.1), strict=True):
        (start, end), level = np.asarray(bar.get_xdata()) * picture.pulse.span, bar.get_ydata()
        assert list(level) == [fraction, fraction]
        assert end - start == pytest.approx(pulse.duration(fraction))
        # The light passes the level at both ends of the bar.
        assert pulse.intensity(start + 1e-9) >= fraction - 1e-3
        assert pulse.intensity(end + 1e-9) <= fraction + 1e-3
    assert pulse.t01 <= picture.pulse.span
    chart = picture.durations
    assert chart.dot.get_data() == (pytest.approx([-np.log2(power)]), pytest.approx([1e6 * pulse.t01]))
    for name, line in chart.lines.items():
        assert line.get_ydata() == pytest.approx(1e6 * np.asarray(durations(head, name)))
    assert picture.pixel.word.get_text().startswith(f"streak {streak_in(setup).pixels:.0f} px")


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("power", [1.0, 1 / 32, 1 / 256])
def test_no_word_leaves_the_picture(picture, kind, power):
    picture.update(at(kind, power, distance=0.4), print_width=1.0)
    picture.pixels()
    wide, tall = picture.size
    renderer = picture.canvas.get_renderer()
    for text in [artist for artist in picture._moving if hasattr(artist, "get_text") and artist.get_text()]:
        box = text.get_window_extent(renderer)
        assert box.x0 >= -1, text
        assert box.x1 <= wide + 1, text
        assert box.y0 >= -1, text
        assert box.y1 <= tall + 1, text


def test_at_rest_all_four_photographs_are_those_of_the_library(picture):
    setup = at(power=1 / 128, height=50)
    picture.update(setup)
    image = np.asarray(Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB"))
    shots = picture.lights
    for pixels, each in zip(shots.images, in_four_lights(setup, apart=0.001), strict=True):
        left, low, right, top = (round(edge) for edge in pixels.axes.bbox.extents)
        expected = photograph(each, size=(right - left, top - low))
        shown = image[picture.size[1] - top : picture.size[1] - low, left:right]
        inner = (slice(6, -6), slice(6, -6))  # the rim of the chosen frame lies over its edge
        assert np.array_equal(shown[inner], expected[inner])


def test_full_power_smears_what_a_low_power_shows(picture):
    """In pixels: the photograph at full power has far weaker edges than the one at 1/128."""
    four = in_four_lights(at(power=1 / 128), apart=0.001)
    sharp = [np.abs(np.diff(photograph(each, size=(240, 160)).astype(float), axis=0)).mean() for each in four]
    assert sharp[1] > 1.3 * sharp[0]
    assert sharp[1] > 1.3 * sharp[2]


def test_while_a_handle_moves_few_photographs_are_made():
    made = []
    picture = FreezePicture()
    picture.lights.shot = lambda setup, size: made.append(setup) or photograph(setup, size=size)
    picture.update(SCENE)
    picture.frame(moving=False)
    assert len(made) == 4
    for height in (0.46, 0.47, 0.48):
        made.clear()
        picture.update(change(SCENE, "drop.release_height", height))
        picture.frame(moving=True)
        assert 1 <= len(made) <= AT_ONCE
    made.clear()
    picture.frame(moving=False)
    assert len(made) == 4
    made.clear()
    picture.update(change(SCENE, "drop.release_height", 0.48), print_width=0.5)
    picture.frame(moving=True)
    assert made == []


def test_dragging_draws_what_rests_once(picture):
    picture.update(SCENE)
    picture.frame(moving=True)
    before = picture.static_draws
    for power in MARKS[:20:3]:
        picture.update(at(power=power))
        picture.frame(moving=True)
    assert picture.static_draws == before


def test_inches(picture):
    picture.system = "imperial"
    try:
        told = picture.update(SCENE)
    finally:
        picture.system = "metric"
    assert dict(told.readout)["Speed of the droplet"] == "9.7 ft/s"
    assert " mm" not in told.line


def test_the_width_of_the_print_and_the_distance_count(picture):
    """A streak of a quarter of a millimetre: seen on a large print from near, lost on a postcard from far away."""
    power = next(power for power in MARKS if 2.1e-4 < streak_in(at(power=power)).on_object < 3e-4)
    large = picture.update(at(power=power, distance=0.4), print_width=1.0)
    # 0.3 mm over 0.44 m of frame are 0.07 mm on a postcard: as much as an eye separates at 25 cm.
    small = picture.update(at(power=power, distance=2.0), print_width=0.1)
    assert large.line.startswith("Droplets are nearly points")
    assert "on a print 100 cm wide, which is seen from nearer than" in large.line
    assert small.line.startswith("Droplets are points")
    assert "on a print 10 cm wide: too small to be seen there." in small.line
    assert (large.tone, small.tone) == ("warning", "good")
    assert picture.lights.words[1].get_text() == "✓ POINTS"
