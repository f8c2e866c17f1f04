"""The picture of the lesson `beam`: what it draws and says equals the chain of events, drop by drop."""

import io
import math
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from splashlib.picture.beam.beam_picture import DROPS, BeamPicture, bodies_of, under_hand
from splashlib.picture.beam.beam_words import at_least
from splashlib.shoot import beam_bounds, best_beam_height, change, change_all, delay_for, framed, tea_house, with_body
from splashlib.shoot.decide.spread import aim, hand_too_high, spread
from tests.effort import cases

SCENE = tea_house()
BEAMS = st.integers(2, 86).map(lambda half: half / 200)
STYLES = st.sampled_from(["held_open", "mirror_up", "no_mirror", "mirror"])
WANTED = st.integers(0, 12).map(lambda half: half / 200)
BODIES = st.sampled_from(bodies_of(SCENE.drop))
SEEDS = st.integers(1, 20)
STATES = {"beam": BEAMS, "style": STYLES, "wanted": WANTED, "body": BODIES, "seed": SEEDS}


@pytest.fixture(scope="module")
def picture():
    return BeamPicture()


def at(beam=0.12, style="held_open", **more):
    return change_all(SCENE, {"beam.height": beam, "camera.style": style} | more)


def show(picture, setup, wanted=0.02, body="kumquat", seed=1):
    return picture.update(setup, wanted=wanted, body=body, seed=seed)


def thirty(setup, wanted=0.02, body="kumquat", seed=1):
    """The same drops, asked of the library."""
    setup = setup if body == setup.drop.name else with_body(setup, body)
    return spread(aim(setup, height=wanted).setup, DROPS, np.random.default_rng(seed))


@settings(deadline=None, max_examples=cases(12))
@given(**STATES)
def test_layers_give_the_pixels_of_a_full_redraw(picture, beam, style, wanted, body, seed):
    show(picture, at(beam, style), wanted, body, seed)
    shown = picture.pixels().copy()
    assert np.array_equal(shown, picture.redrawn())


@settings(deadline=None, max_examples=cases(60))
@given(**STATES)
def test_each_body_stands_where_the_chain_puts_it(picture, beam, style, wanted, body, seed):
    setup = at(beam, style)
    show(picture, setup, wanted, body, seed)
    high = change(setup, "beam.height", 0.43)
    for ghosts, tally, each in zip(picture.ghosts, picture.tallies, (high, setup), strict=True):
        drops = thirty(each, wanted, body, seed)
        boxes = [path.get_extents() for path in ghosts.bodies.get_paths()]
        assert [box.y0 for box in boxes] == pytest.approx(1e3 * drops.heights[drops.seen])
        middles = [(box.x0 + box.x1) / 2 for box in boxes]
        assert middles == pytest.approx(1e3 * drops.draw.across[drops.seen], abs=1e-9)
        tall = with_body(setup, body).drop.height
        assert [box.height for box in boxes] == pytest.approx([1e3 * tall] * len(boxes))
        counted = tally.bars.get_xy()[1:-1:2, 1]
        beyond = [int(re.sub(r"\D", "", text.get_text()) or 0) for text in tally.beyond]
        off = 1e3 * (drops.heights - wanted)
        assert beyond == [(off < -51).sum(), (off > 51).sum()], "what is beyond the scale is counted beside it"
        assert counted.sum() == DROPS - drops.missed - sum(beyond)


@settings(deadline=None, max_examples=cases(60))
@given(**STATES)
def test_words_tell_the_librarys_numbers(picture, beam, style, wanted, body, seed):
    setup = at(beam, style)
    told, said = show(picture, setup, wanted, body, seed), {}
    said = dict(told.readout)
    own = setup if body == "kumquat" else with_body(setup, body)
    drops, delay = thirty(setup, wanted, body, seed), delay_for(own, height=wanted)
    assert said["Delay for this beam"] == f"{1e3 * delay.value:.1f} ms"
    apart = f"{1e3 * drops.span:.1f} mm apart" if drops.seen.any() else "none in the frame"
    assert said["Thirty drops, your beam"] == apart
    assert said["Best height"] == at_least(best_beam_height(own, height=wanted))
    for reason, bound in beam_bounds(own, height=wanted).items():
        assert f"{reason} {at_least(max(bound, 0))}" in said["Beam at least, for"]
    assert said["More than 5.1 cm off"] == f"{(np.abs(drops.heights - wanted) > 0.051).sum()} of 30"
    assert said["Missed the beam"] == f"{drops.missed} of 30 (series {seed})"
    assert said["Best height"] in told.alt
    assert f"yours at {100 * beam:.1f} cm" in told.alt
    if drops.seen.any():
        assert f"{drops.seen.sum()} bodies in the frame, {1e3 * drops.span:.1f} mm apart" in told.alt


@settings(deadline=None, max_examples=cases(80))
@given(**STATES)
def test_the_verdict_follows_the_bounds(picture, beam, style, wanted, body, seed):
    setup = at(beam, style)
    told = show(picture, setup, wanted, body, seed)
    own = setup if body == "kumquat" else with_body(setup, body)
    bounds, late = beam_bounds(own, height=wanted), delay_for(own, height=wanted).short_by
    drops = thirty(setup, wanted, body, seed)
    if drops.seen.any() and beam > wanted:
        assert ("Too late" in told.line) == (late > 0)
    if late > 0:
        assert told.tone == "bad"
    elif beam > wanted and beam < max(bounds.values()):
        assert told.tone in ("warning", "bad")
        assert "Too low" in told.line
    if told.tone == "good":
        assert beam >= max(bounds.values()) - 1e-9
        assert drops.missed < 3


def test_large_numbers_above_the_frames(picture):
    show(picture, at())
    spans = [1e3 * thirty(at(beam)).span for beam in (0.43, 0.12)]
    assert [text.get_text() for text in picture.numbers] == [f"{spans[0]:.0f} mm", f"{spans[1]:.1f} mm"]
    assert [text.get_text() for text in picture.names] == ["43.0 cm", "12.0 cm"]
    assert spans[0] > 10 * spans[1]


def test_lead_against_lag_is_drawn_to_scale(picture):
    show(picture, at(0.12, "mirror"))
    found, row = aim(at(0.12, "mirror"), height=0.02), picture.wait.rows[1]
    assert row.lag.get_width() == pytest.approx(1e3 * found.lag)
    assert row.delay.get_width() == 0
    assert row.light.get_xdata() == pytest.approx([1e3 * found.lag] * 2)
    assert row.wanted.get_xdata() == pytest.approx([1e3 * found.lead])
    assert f"{1e3 * found.short_by:.1f} ms too late" in row.words.get_text()
    other, row = aim(at(0.43, "mirror"), height=0.02), picture.wait.rows[0]
    assert row.delay.get_x() == pytest.approx(1e3 * other.lag)
    assert row.delay.get_width() == pytest.approx(1e3 * other.setup.trigger.delay)
    assert 1e3 * (other.lag + other.setup.trigger.delay) == pytest.approx(1e3 * other.lead, abs=0.06)


@pytest.mark.parametrize("style", ["held_open", "mirror"])
def test_columns_and_best_height_are_drawn_to_scale(picture, style):
    show(picture, at(0.12, style))
    bounds = beam_bounds(at(0.12, style), height=0.02)
    scene = picture.set_view
    for bar, reason in zip(scene.bars, ("rim", "frame", "lag"), strict=True):
        assert bar.get_y() == 0
        assert bar.get_height() == pytest.approx(100 * bounds[reason])
    assert scene.best.get_ydata() == pytest.approx([100 * max(bounds.values())] * 2)
    assert scene.best_name.get_text() == f"◆ best {at_least(max(bounds.values()))}"
    assert scene.view.beam.get_ydata() == pytest.approx([12, 12])
    assert scene.other.get_ydata() == pytest.approx([43, 43])


def image(picture):
    return np.asarray(Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB")).astype(int)


def pixel(picture, pixels, place, across, height):
    """The colour at a place of a frame [mm]."""
    x, y = picture.ghosts[place].axes.transData.transform((across, height))
    return pixels[pixels.shape[0] - 1 - round(y), round(x)]


def orange(colour):
    return colour[0] > 120 and colour[0] > 2 * colour[2]


def test_the_low_beam_repeats_in_pixels(picture):
    """Over the body's middle: one solid disc on the right, and above it nothing; on the left it goes on."""
    show(picture, at())
    pixels = image(picture)
    assert all(orange(pixel(picture, pixels, 1, 0, height)) for height in (26, 38, 50))
    for height in (62, 66, 70):
        assert pixel(picture, pixels, 1, 0, height).max() < 40
        assert pixel(picture, pixels, 0, 0, height)[0] > 50


def test_too_late_is_an_empty_frame_in_pixels(picture):
    show(picture, at(0.12, "mirror"))
    pixels, frame = image(picture), framed(SCENE)
    assert picture.ghosts[1].empty.get_text() == "empty: too late"
    assert picture.numbers[1].get_text() == "none"
    assert not picture.ghosts[1].bodies.get_paths()
    heights = np.linspace(1e3 * frame.bottom + 3, 1e3 * frame.top - 3, 40)
    assert not any(orange(pixel(picture, pixels, 1, across, height)) for height in heights for across in (-40, 0, 40))
    assert orange(pixel(picture, pixels, 0, 0, 38))


def test_a_beam_in_the_frame_shows_in_it(picture):
    beam = np.array([0xCC, 0x33, 0x77])
    show(picture, at(0.05))
    assert np.abs(pixel(picture, image(picture), 1, 60, 50) - beam).max() < 12
    show(picture, at(0.09))
    assert pixel(picture, image(picture), 1, 60, 83).max() < 40


def test_missed_drops_are_told(picture):
    told = show(picture, at(), body="drop of milk")
    missed = thirty(at(), body="drop of milk").missed
    assert missed > 5
    assert told.tone == "warning"
    assert f"{missed} of 30 miss the beam" in told.line
    assert picture.ghosts[1].note.get_text() == f"{missed} of 30 missed the beam"


def test_no_light_at_all(picture):
    told = show(picture, at(0.12, **{"beam.width": 0.02}), body="drop of milk")
    assert told.tone == "bad"
    assert "Nothing is triggered" in told.line
    assert picture.ghosts[1].empty.get_text() == "no light"
    assert picture.numbers[1].get_text() == "none"


def test_a_closed_shutter_is_not_called_too_late(picture):
    told = show(picture, at(0.12, **{"camera.open_time": 0.1, "camera.open_before": 0.1}))
    assert "shutter is closed" in told.line
    assert picture.ghosts[1].empty.get_text() == "black: shutter closed"


def test_a_frame_aimed_elsewhere(picture):
    told = show(picture, at(0.35, **{"camera.frame_centre": 0.25}))
    assert "outside the frame" in told.line
    assert picture.ghosts[1].empty.get_text() == "outside the frame"


def test_the_cameras_own_scatter_is_named(picture):
    told = show(picture, at(0.175, "no_mirror"))
    assert told.tone == "warning"
    assert "its lag scatters by 16.7 ms, and no beam cures that" in told.line


def test_when_no_height_will_do(picture):
    hand = {"drop.release_height": 0.06, "camera.mirror.lag": 0.3}
    told = show(picture, at(0.03, "mirror", **hand), wanted=0.01)
    assert dict(told.readout)["Best height"] == "none"
    assert "none will do" in dict(told.readout)["Beam at least, for"]
    assert "No beam under this hand" in told.line
    assert picture.set_view.best_name.get_text() == "no good height"
    assert not picture.set_view.best.get_visible()


def test_bounds_in_words_are_enough_when_set():
    """Rounded up, never down: 3.15 cm must not be told as 3.1."""
    for value in (0.0315, 0.0855, 0.1326501, 0.09):
        said = float(at_least(value).split()[0]) / 100
        assert value <= said + 1e-9
        assert said - value < 0.001


@pytest.mark.parametrize("style", ["held_open", "mirror", "mirror_up", "no_mirror"])
@pytest.mark.parametrize("beam", [0.01, 0.05, 0.12, 0.27, 0.43])
def test_no_word_leaves_the_picture(picture, beam, style):
    show(picture, at(beam, style))
    picture.pixels()
    width, height = picture.size
    said = [text for axes in picture.figure.axes for text in axes.texts] + [*picture.figure.texts, *picture.numbers]
    said += [text for text in picture._moving if hasattr(text, "get_text")]
    for text in filter(lambda text: text.get_text() and text.get_visible(), said):
        box = text.get_window_extent(picture.canvas.get_renderer())
        assert -1 <= box.x0 <= box.x1 <= width + 1, text
        assert -1 <= box.y0 <= box.y1 <= height + 1, text


@pytest.mark.parametrize("beam", [0.38, 0.40, 0.41, 0.42, 0.43])
def test_close_under_the_other_beam_the_two_names_stay_apart(picture, beam):
    show(picture, at(beam))
    picture.pixels()
    renderer, names = picture.canvas.get_renderer(), (picture.set_view.name, picture.set_view.other_name)
    mine, other = (name.get_window_extent(renderer) for name in names)
    assert not mine.overlaps(other)


@pytest.mark.parametrize("beam", [0.06, 0.09, 0.11, 0.12, 0.15, 0.20])
def test_neither_beam_nor_its_name_covers_the_name_of_the_frame(picture, beam):
    show(picture, at(beam))
    picture.pixels()
    renderer, shown = picture.canvas.get_renderer(), picture.set_view
    words, name = (text.get_window_extent(renderer) for text in (shown.view.frame_name, shown.name))
    assert not words.overlaps(name)
    line = shown.view.axes.transData.transform(shown.view.beam.get_xydata())[0][1]
    assert not words.y0 - 2 < line < words.y1 + 2


def test_dragging_the_beam_redraws_nothing_that_rests(picture):
    show(picture, at(0.10))
    picture.frame(moving=True)
    before = picture.static_draws
    for beam in (0.105, 0.2, 0.4):
        for style in ("held_open", "mirror"):
            show(picture, at(beam, style))
            picture.frame(moving=True)
    assert picture.static_draws == before


def test_another_vase_or_hand_is_laid_out_anew(picture):
    show(picture, at())
    wide = at(0.12, **{"vessel.width": 0.3, "vessel.rim": 0.06, "drop.release_height": 1.2})
    show(picture, wide)
    assert np.array_equal(picture.pixels().copy(), picture.redrawn())
    assert picture.set_view.other.get_ydata() == pytest.approx([118, 118])
    assert picture.set_view.bars[0].get_height() == pytest.approx(6.15)
    assert picture.set_view.view.half_width == 15
    show(picture, at())
    fresh = BeamPicture()
    show(fresh, at())
    assert np.array_equal(picture.pixels(), fresh.pixels())


def test_photographs_can_take_the_place_of_plain_bodies():
    asked = []

    def overlay(setup, draw, size):
        asked.append((setup.beam.height, len(draw), size))
        return np.full((size[1], size[0], 3), 200, np.uint8)

    picture = BeamPicture(overlay=overlay)
    show(picture, at())
    picture.frame(moving=True)
    assert not asked
    picture.frame(moving=False)
    assert [each[:2] for each in asked] == [(0.43, 30), (0.12, 30)]
    assert all(ghosts.label.get_visible() and not ghosts.bodies.get_visible() for ghosts in picture.ghosts)
    pixels = np.array(picture.pixels())[:, :, :3]
    assert tuple(pixel(picture, pixels, 1, 0, 40)) == (200, 200, 200)


def test_inches(picture):
    picture.system = "imperial"
    try:
        told = show(picture, at())
        numbers = [text.get_text() for text in picture.numbers]
    finally:
        picture.system = "metric"
    assert " in lower" in dict(told.readout)["The same, beam under the hand"]
    assert "mm" not in told.alt + told.line
    assert numbers[1] == f"{thirty(at()).span / 0.0254:.3f} in"


def test_the_beam_under_a_low_hand_stays_over_the_water():
    low = change_all(SCENE, {"beam.height": 0.002, "drop.release_height": 0.015})
    assert under_hand(low) == pytest.approx(low.beam.width / 2)
    assert under_hand(SCENE) == pytest.approx(0.43)
    assert not math.isnan(under_hand(low))


def test_ones_own_body_stands_first():
    assert bodies_of(SCENE.drop) == ("kumquat", "glass marble", "drop of milk")
    assert bodies_of(change(SCENE, "drop.name", "plum").drop) == ("plum", "kumquat", "glass marble", "drop of milk")


@pytest.mark.parametrize(("over", "tone"), [(0.0, "good"), (0.045, "good"), (0.055, "warning"), (0.09, "warning")])
def test_a_beam_up_to_five_centimetres_over_the_best_is_good_enough(picture, over, tone):
    """The shutter is held open, so that no camera scatters. Five centimetres cost a fraction of a millimetre."""
    best = best_beam_height(at(), height=0.02)
    told = show(picture, at(best + over))
    assert told.tone == tone
    assert ("and repeat better" in told.line) is (tone == "warning")
    moved = [hand_too_high(aim(at(best + more), height=0.02).setup, 0.003) for more in (0.0, 0.05)]
    assert moved[1] - moved[0] < 0.001
