"""The picture of the lesson `camera`: frames, fall, bars and words equal the library's numbers."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from splashlib.picture.camera.camera_picture import SPANS, CameraPicture
from splashlib.picture.camera.camera_words import NUMBERED, verdict
from splashlib.picture.kit.lettering import Lettering
from splashlib.picture.kit.shots import GROUNDS, QUICK
from splashlib.shoot import body_height, change, change_all, delay_for, framed, lead, sees, tea_house, timeline
from splashlib.shoot.decide.style_comparison import in_styles
from splashlib.shoot.setup.field_rows import STYLES
from tests.effort import cases

MIRROR = change(tea_house(), "camera.style", "mirror")
AIMS = st.sampled_from([None, "contact", "crown_peak", "jet_peak"])
BEAMS = st.integers(2, 80).map(lambda half: half / 200)
DELAYS = st.integers(0, 300).map(lambda half: half / 2000)


@pytest.fixture(scope="module")
def picture():
    return CameraPicture()


def at(beam=0.12, delay=0.0, style="mirror", **more):
    return change_all(MIRROR, {"beam.height": beam, "trigger.delay": delay, "camera.style": style, **more})


def orange(image):
    """Which pixels show the body."""
    red, green, blue = np.asarray(image)[:, :, :3].astype(int).transpose(2, 0, 1)
    return (red > 70) & (red > 2 * blue) & (red > 1.3 * green)


# ---- the photographs in the frames


def frames(picture, setup, aim=None):
    """The four photographs, by style."""
    picture.update(setup, aim=aim)
    picture.pixels()
    return dict(zip(STYLES, (image._array for image in picture.shots.images), strict=True))


@pytest.mark.parametrize("beam", [0.12, 0.125, 0.255])
@pytest.mark.parametrize("delay", [0.0, 0.002, 0.01])
def test_the_body_stands_in_each_frame_where_the_events_say(picture, beam, delay):
    frame, seen = framed(MIRROR), 0
    for style, image in frames(picture, at(beam, delay)).items():
        over, tall = sees(at(beam, delay, style)).height, MIRROR.drop.height
        if not 0.002 < over < frame.top - tall:
            continue
        rows, columns = np.nonzero(orange(image))
        per_metre, seen = image.shape[0] / (frame.top - frame.bottom), seen + 1
        # The lamp stands at the side: so the lit half is as high as the body, and half as broad at least.
        assert rows.min() == pytest.approx((frame.top - over - tall) * per_metre, abs=4)
        assert np.median(rows) == pytest.approx((frame.top - over - tall / 2) * per_metre, abs=3)
        assert tall * per_metre * 0.5 < np.ptp(columns) < tall * per_metre + 3
    assert seen or delay > 0


def test_the_empty_frame_shows_no_body(picture):
    """Low beam, mirror down: nothing of the body, whatever the delay; and the ways out show it."""
    for delay in (0.0, 0.03, 0.1):
        assert orange(frames(picture, at(0.09, delay))["mirror"]).sum() == 0
    assert orange(frames(picture, at(0.255))["mirror"]).sum() > 300
    assert orange(frames(picture, at(0.12))["mirror_up"]).sum() > 300
    assert orange(frames(picture, at(0.09, 0.03))["held_open"]).sum() > 300


def test_no_light_is_black_and_a_fast_shutter_leaves_a_dark_band_below(picture):
    missed = at(**{"drop.diameter": 0.0012, "room.lux": 0.0})
    assert frames(picture, missed)["mirror"].max() < 8
    for shutter in (1 / 400, 1 / 800):
        fast = at(0.255, **{"camera.shutter": shutter})
        dark = frames(picture, fast)["mirror"].max(axis=(1, 2)) < 8
        assert dark.mean() == pytest.approx(1 - sees(fast).lit, abs=0.02)
        assert dark[-1]
        assert not dark[0]


# ---- the whole picture


@settings(deadline=None, max_examples=cases(10))
@given(beam=BEAMS, delay=DELAYS, aim=AIMS)
def test_layers_give_the_pixels_of_a_full_redraw(picture, beam, delay, aim):
    picture.update(at(beam, delay), aim=aim)
    shown = picture.pixels().copy()
    assert np.array_equal(shown, picture.redrawn())


@settings(deadline=None, max_examples=cases(60))
@given(beam=BEAMS, delay=DELAYS, aim=AIMS, style=st.sampled_from(STYLES))
def test_artists_stand_where_the_library_says(picture, beam, delay, aim, style):
    setup = at(beam, delay, style)
    picture.update(setup, aim=aim)
    shots = in_styles(setup, aim=aim)
    stars = picture.bars.stars.get_data()
    assert stars[0] == pytest.approx([1e3 * shot.seen.light for shot in shots])
    for shot, links in zip(shots, _boxes(picture, shots), strict=True):
        assert links == pytest.approx([1e3 * edge for link in _drawn(shot) for edge in (link.start, link.end)])
    for shot, line in zip(shots, picture.bars.spreads.get_segments(), strict=True):
        half = next(event for event in timeline(shot.setup) if event.name == "flash_half")
        assert line[:, 0] == pytest.approx([1e3 * half.early, 1e3 * half.late])
    assert picture.bars.contact.get_xdata() == pytest.approx([1e3 * lead(setup)] * 2)
    when, heights = picture.fall.curve.get_data()
    assert heights == pytest.approx(100 * body_height(setup, when[:, None] / 1e3)[:, 0])
    assert picture.shots.rims[STYLES.index(style)].get_visible()
    assert sum(rim.get_visible() for rim in picture.shots.rims) == 1


def _drawn(shot):
    return sorted(shot.links, key=lambda each: each.name != "open")


def _boxes(picture, shots):
    """Left and right edges of the boxes of each row."""
    edges = [(path.vertices[:, 0].min(), path.vertices[:, 0].max()) for path in picture.bars.bars.get_paths()]
    for shot in shots:
        mine, edges = edges[: len(shot.links)], edges[len(shot.links) :]
        yield [edge for pair in mine for edge in pair]


@settings(deadline=None, max_examples=cases(60))
@given(beam=BEAMS, delay=DELAYS, aim=AIMS, style=st.sampled_from(STYLES))
def test_words_tell_the_librarys_numbers(picture, beam, delay, aim, style):
    setup = at(beam, delay, style)
    told, shots = picture.update(setup, aim=aim), in_styles(setup, aim=aim)
    said = dict(told.readout)
    assert said["From the beam to the water"] == f"{1e3 * lead(setup):.1f} ms"
    for shot, word in zip(shots, picture.shots.words, strict=True):
        assert f"{1e3 * shot.seen.light:.1f} ms" in said[NUMBERED[shot.style]]
        assert word.get_text()[2:].lower() in said[NUMBERED[shot.style]]
        assert f"{NUMBERED[shot.style]} {1e3 * shot.seen.light:.1f} ms" in told.alt
        assert verdict(shot, aim)[2] in told.alt
    best = delay_for(setup, event="contact")
    shown = said[f"Delay for the contact, {NUMBERED[style][2:].lower()}"]
    assert shown == (
        f"{1e3 * best.value:.1f} ms" if best.short_by == 0 else f"none, {1e3 * best.short_by:.1f} ms short"
    )
    assert told.line.startswith(NUMBERED[style])
    assert ("No delay repairs that" in told.line) <= (best.short_by > 0)
    assert told.tone == verdict(shots[STYLES.index(style)], aim)[0]


def test_the_demonstration(picture):
    """The empty frame; then the beam raised, the mirror up, the shutter held open, a later instant."""

    def row(setup, aim):
        picture.update(setup, aim=aim)
        return [word.get_text()[2:] for word in picture.shots.words]

    assert row(at(0.12), "contact") == ["GONE", "CAUGHT", "CAUGHT", "CAUGHT"]
    assert row(at(0.09), "contact") == ["GONE", "CAUGHT", "CAUGHT", "CAUGHT"]
    assert row(at(0.255), "contact") == ["CAUGHT"] * 4
    assert row(at(0.09), "jet_peak") == ["JET"] * 4
    assert row(at(0.12, 0.043), None) == ["GONE", "GONE", "GONE", "CAUGHT"]
    assert row(at(0.12), None) == ["GONE", "CAUGHT", "CAUGHT", "TOO EARLY"]
    assert row(at(0.12, **{"camera.shutter": 1 / 500}), "contact")[:3] == ["BAND"] * 3


def test_the_empty_frame_in_the_pixels_of_the_panel(picture):
    told = picture.update(at(0.09), aim="contact")
    image = np.asarray(Image.open(io.BytesIO(picture.frame(moving=False))).convert("RGB"))
    boxes = [[round(edge) for edge in axes.axes.bbox.extents] for axes in picture.shots.images]
    tall = image.shape[0]
    # Inside the rim, which lies over the edge of the frame.
    frames = [image[tall - top + 4 : tall - low - 4, left + 4 : right - 4] for left, low, right, top in boxes]
    assert [orange(frame).sum() > 100 for frame in frames] == [False, True, True, True]
    badge = image[tall - boxes[0][1] + 18, boxes[0][0] + 12]
    assert np.abs(badge - np.array([int(GROUNDS["bad"][i : i + 2], 16) for i in (1, 3, 5)])).max() < 4
    assert told.tone == "bad"
    assert "No delay repairs that" in told.line


@pytest.mark.parametrize("aim", [None, "contact", "crown_peak", "jet_peak"])
@pytest.mark.parametrize("beam", [0.01, 0.09, 0.12, 0.255, 0.30, 0.40, 0.44])
@pytest.mark.parametrize("delay", [0.0, 0.043, 0.15])
def test_no_word_leaves_the_picture_and_no_date_lies_on_another(picture, aim, beam, delay):
    picture.update(at(beam, delay), aim=aim)
    picture.pixels()
    renderer = picture.canvas.get_renderer()
    shown = [each for each in picture._moving if isinstance(each, Lettering) and each.get_visible() and each.get_text()]
    boxes = {each: each.get_window_extent(renderer) for each in shown}
    for each, box in boxes.items():
        assert box.x0 >= -1, each
        assert box.x1 <= picture.size[0] + 1, each
        assert box.y0 >= 0, each
        assert box.y1 <= picture.size[1], each
    for row, date in enumerate(picture.bars.dates):
        for inside in (picture.bars.waits[row], picture.bars.works[row]):
            if inside in boxes:
                assert not boxes[date].overlaps(boxes[inside])
    if picture.fall.beam_name in boxes:
        assert not boxes[picture.fall.beam_name].overlaps(boxes[picture.fall.frame_name])


def test_the_clock_has_two_steps_and_rests_in_between(picture):
    for beam, delay, span in ((0.12, 0.0, SPANS[0]), (0.12, 0.06, SPANS[0]), (0.12, 0.09, SPANS[1])):
        picture.update(at(beam, delay))
        assert picture.fall.scale[0] == span
    picture.update(at())
    picture.frame(moving=True)
    before = picture.static_draws
    for delay in (0.005, 0.02, 0.05):
        picture.update(at(delay=delay))
        picture.frame(moving=True)
    assert picture.static_draws == before


def test_photographs_are_coarser_while_a_handle_moves_and_as_fine_as_the_screen_at_rest(picture):
    def fineness():
        return picture.shots.images[0]._array.shape[0] / picture.shots.height

    picture.update(at())
    for kept in ({"moving": True}, {"moving": False}, {"moving": False, "scale": 2.0}, {"moving": True}):
        picture.frame(**kept)
        expected = QUICK if kept["moving"] else kept.get("scale", 1.0)
        assert fineness() == pytest.approx(expected, abs=0.01)


def test_any_function_with_the_call_of_a_photograph_fits_into_the_frames():
    calls = []

    def red(setup, *, size):
        calls.append((setup.camera.style, size))
        return np.full((size[1], size[0], 3), (255, 0, 0), np.uint8)

    picture = CameraPicture(shot=red)
    picture.update(at(), aim="contact")
    image = picture.pixels()
    assert [style for style, _ in calls] == list(STYLES)
    assert tuple(image[100, 380, :3]) == (255, 0, 0)


def test_inches(picture):
    picture.system = "imperial"
    try:
        told = picture.update(at(), aim=None)
    finally:
        picture.system = "metric"
    assert dict(told.readout)["Lowest beam for it, mirror down"] == "9.80 in"
    assert " cm" not in told.alt + told.line


def test_nothing_is_triggered_without_a_word_too_many(picture):
    told = picture.update(at(**{"drop.diameter": 0.0012}))
    assert told.tone == "bad"
    assert "Nothing is triggered" in told.line
    assert "nan" not in told.alt + told.line + str(told.readout)
    assert [word.get_text()[2:] for word in picture.shots.words] == ["NO FLASH"] * 4


@settings(deadline=None, max_examples=cases(40))
@given(
    beam=BEAMS,
    style=st.sampled_from(STYLES),
    lux=st.sampled_from([0.0, 1.0, 500.0]),
    iso=st.sampled_from([200.0, 12800.0]),
)
def test_the_same_light_gets_the_same_verdict_whichever_delay_was_chosen(beam, style, lux, iso):
    """The best delay for the contact, put in by hand, is judged as when the panel finds it."""
    setup = at(beam, 0.0, style, **{"room.lux": lux, "camera.iso": iso})
    number = STYLES.index(style)
    found = in_styles(setup, aim="contact")[number]
    by_hand = in_styles(change(setup, "trigger.delay", found.setup.trigger.delay), aim=None)[number]
    assert found.seen == by_hand.seen
    assert verdict(found, "contact") == verdict(by_hand, None)


def test_handles_that_do_nothing_rest(picture):
    idle = {
        (style, aim): tuple(name for name, _ in picture.update(at(style=style), aim=aim).idle)
        for style in ("mirror", "held_open")
        for aim in (None, "contact")
    }
    assert idle == {
        ("mirror", None): (),
        ("mirror", "contact"): ("trigger.delay",),
        ("held_open", None): ("camera.lag",),
        ("held_open", "contact"): ("trigger.delay", "camera.lag"),
    }
