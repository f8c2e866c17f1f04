"""Over any set-up that is possible: plain words in every panel, and verdict, words and photograph that agree."""

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, assume, given, settings
from hypothesis import strategies as st

from splashlib.picture.camera.camera_words import verdict as camera_verdict
from splashlib.picture.camera.curtain_picture import CurtainPicture
from splashlib.picture.fall.fall_picture import FallPicture
from splashlib.picture.kit.frame_words import verdict
from splashlib.picture.photo.frame import BodyPicture
from splashlib.picture.photo.photograph import described, exposed, photograph, scene_of
from splashlib.picture.stops.stops_picture import StopsPicture
from splashlib.shoot import (
    best_beam_height,
    change,
    change_all,
    delay_for,
    framed,
    instant_names,
    pulse_of,
    simulate,
    tea_house,
)
from splashlib.shoot.decide.exposure_balance import flash_light, room_light
from splashlib.shoot.decide.judgement import judge
from splashlib.shoot.decide.style_comparison import in_styles
from tests.effort import cases
from tests.picture.panels.every_panel import SYSTEMS, every_panel, not_plain, said
from tests.shoot.random_setups import setups

PLAIN = settings(
    deadline=None,
    derandomize=True,
    database=None,
    # Shrinking would draw these panels for minutes; the set-up that failed says enough.
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
SMALL = (192, 128)


@pytest.fixture(scope="module")
def panels():
    return every_panel()


def check_plain(panels, setup):
    for picture, variants in panels.items():
        for extras in variants:
            for system in SYSTEMS:
                assert not_plain(said(picture, setup, extras, system), setup) == [], (picture, extras)


@settings(PLAIN, max_examples=cases(15))
@given(setup=setups(wild=True))
def test_words_of_all_panels_are_plain_at_the_ends_of_what_is_possible(panels, setup):
    check_plain(panels, setup)


@settings(PLAIN, max_examples=cases(15))
@given(setup=setups(wild=False))
def test_words_of_all_panels_are_plain_within_the_sliders(panels, setup):
    check_plain(panels, setup)


def test_a_beam_that_is_not_broken_is_said_in_every_panel(panels):
    """A drop of milk of 4 mm and a beam of 10 mm: no time, no exposure and no shutter is blamed."""
    milk = replace(tea_house().drop, name="drop of milk", form="milk", diameter=0.004, length=0.004)
    setup = change(replace(tea_house(), drop=milk), "beam.width", 0.010)
    for picture, variants in panels.items():
        if isinstance(picture, FallPicture | CurtainPicture):
            continue
        without_aim = [extras for extras in variants if extras.get("aim") is None]
        told = [text for extras in without_aim for text in said(picture, setup, extras)[:2]]
        assert "not block enough of the beam" in " ".join(told), picture
        assert not re.search(r"shutter is closed|well exposed|caught\b", " ".join(told), re.I), picture


@pytest.mark.parametrize("heads", [1, 3])
@pytest.mark.parametrize("style", ["held_open", "no_mirror", "mirror_up", "mirror"])
def test_a_drop_that_the_beam_does_not_see_is_judged_drawn_and_told(style, heads):
    """No head finds the shutter open, since none is fired: nothing takes the first of them for granted."""
    milk = replace(tea_house().drop, name="drop of milk", form="milk", diameter=0.004, length=0.004)
    setup = replace(tea_house(), drop=milk, flashes=tea_house().flashes * heads)
    setup = change_all(setup, {"beam.width": 0.010, "camera.style": style})
    judged = judge(setup)
    assert (judged.shutter, judged.fault, judged.body, judged.shows_body) == ("no_flash", "no_flash", "", False)
    assert judged.flash == judged.ghost == -np.inf
    # Held open by hand the shutter was open before; by the beam it never opens.
    assert np.isfinite(judged.total) == (style == "held_open")
    assert photograph(setup, size=SMALL).max() < 10 + 50 * (style == "held_open")
    assert "no flash: the drop of milk missed the beam" in described(setup)
    assert {shot.judged.shutter for shot in in_styles(setup)} == {"no_flash"}
    many = simulate(setup, 30, np.random.default_rng(0))
    assert many.missed.all()
    assert not many.lit.any()
    with pytest.raises(ValueError, match="does not block enough of the beam"):
        best_beam_height(setup)


# ---- verdict, words and pixels

LIT = ("flashes.0.power", "flashes.0.distance", "camera.iso", "camera.aperture", "camera.shutter", "camera.style",
       "drop.release_height", "drop.surface", "camera.distance", "camera.frame_centre", "beam.height")  # fmt: skip


@st.composite
def shots(draw, lux):
    """A set-up with one head, and its light somewhere from before the frame to far under it."""
    setup = draw(setups(wild=False, paths=LIT, most_changes=4))
    setup = change(replace(setup, flashes=setup.flashes[:1]), "room.lux", draw(lux))
    offset = draw(st.floats(-0.05, 0.12) | st.floats(-0.01, 0.02))
    delay = delay_for(setup).value + offset
    assume(delay >= 0)
    return change_all(setup, {"trigger.delay": delay, "camera.focus_distance": setup.camera.distance})


def without_body(setup, patch):
    """The photograph of the same drop, its body left out."""
    with patch.context() as inner:
        for name in ("lay_over", "lay_under"):
            inner.setattr(BodyPicture, name, lambda *_: None)
        return photograph(setup, size=SMALL)


def margin(setup):
    """How far beside the frame a body may leave light all the same: its way in the light, and soft edges [m]."""
    frame = framed(setup)
    pixel = frame.width / SMALL[0]
    return 4 * pixel + 3 * judge(setup).seen.speed * pulse_of(setup.flashes[0]).t01


def clearly_in(setup, judged):
    """Whether the body stands in the frame, and in its open rows, by more than that."""
    frame, low = framed(setup), judged.seen.height
    inside = min(frame.top, low + setup.drop.height) - max(frame.bottom, low)
    large = setup.drop.height > 6 * frame.width / SMALL[0]
    return large and inside > min(margin(setup), 0.6 * setup.drop.height) and judged.shutter == "open"


def clearly_out(setup, judged):
    frame, seen, beside = framed(setup), judged.seen, margin(setup)
    if seen.where == "merged":
        return seen.after_contact > 3 * setup.drop.height / seen.speed if seen.speed else True
    return seen.height > frame.top + beside or seen.height + setup.drop.height < frame.bottom - beside


@settings(PLAIN, max_examples=cases(60))
@given(setup=shots(st.just(0.0)))
def test_the_body_is_on_the_photograph_when_the_words_say_so(setup):
    judged, name = judge(setup), setup.drop.name
    changed = np.abs(photograph(setup, size=SMALL).astype(int) - without_body(setup, pytest.MonkeyPatch())).max(-1)
    words, alt = verdict(judged)[1], described(setup)
    assert ("Caught" in words) == judged.shows_body
    assert (f"{name} under water" in alt or "above the water" in alt or "deep in the water" in alt) == judged.shows_body
    if judged.shows_body and clearly_in(setup, judged) and -3 < judged.total < 3:
        assert (changed > 20).sum() > 6
    if not judged.lit or (judged.seen.where and clearly_out(setup, judged)):
        assert (changed > 8).sum() == 0
        assert "Caught" not in words


@settings(PLAIN, max_examples=cases(40))
@given(setup=shots(st.sampled_from([0.0, 1.0, 20.0, 500.0])))
def test_the_photograph_is_as_bright_as_the_words_say(setup):
    judged = judge(setup)
    assume(judged.shutter in ("open", "shut"))
    light = exposed(scene_of(setup), SMALL)
    flash = exposed(scene_of(change(setup, "room.lux", 0.0)), SMALL).mean()
    room = light.mean() - flash
    assert np.isfinite(light).all()
    assert light.min() >= 0
    mean = photograph(setup, size=SMALL).mean()
    if judged.fault == "black":
        assert mean < 10
    if judged.shutter == "shut":
        assert flash == 0
    if judged.fault == "drowned" and judged.ghost < -2:
        assert room > flash
        assert "drowns the flash" in described(setup)
    if judged.lit and judged.ghost > 4:
        assert flash > room
        assert "drowns" not in described(setup) + verdict(judged)[1]


@settings(PLAIN, max_examples=cases(30))
@given(setup=shots(st.sampled_from([0.0, 1.0, 500.0])))
def test_panels_agree_about_one_frame(setup):
    judged = judge(setup)
    mine = next(shot for shot in in_styles(setup) if shot.style == setup.camera.style)
    assert (camera_verdict(mine, None)[1] == "CAUGHT") <= judged.shows_body
    told = StopsPicture().update(setup) if judged.fault in ("no_flash", "shut") else None
    assert told is None or told.tone == "bad"
    if verdict(judged)[0] == "good":
        assert camera_verdict(mine, None)[:2] == ("good", "CAUGHT")
        assert not re.search(r"too bright|too dark|burnt|drown|no flash|only \d", described(setup))


@settings(PLAIN, max_examples=cases(150))
@given(setup=setups(wild=True), after=st.floats(-0.2, 10.0), lag=st.floats(0, 5))
def test_remedies_never_raise(setup, after, lag):
    """Whatever is wanted of this drop: an answer, and remedies that change what can be changed."""
    if setup.camera.style != "held_open":
        setup = change(setup, "camera.lag", max(lag, setup.camera.sweep))
    fall = delay_for(setup).short_by
    wanted = [{"event": name} for name in instant_names(setup)] + [{"after_contact": max(after, 0.0)}]
    for each in wanted:
        for remedy in delay_for(setup, **each).remedies:
            if remedy.path not in ("event", "after_contact"):
                change(setup, remedy.path, remedy.value)
    assert fall >= 0


@settings(PLAIN, max_examples=cases(150))
@given(setup=setups(wild=True))
def test_light_is_never_negative_or_infinite(setup):
    judged = judge(setup)
    for light in (flash_light(setup), room_light(setup)):
        assert np.isfinite(light)
        assert light >= 0
    assert judged.total < np.inf
    assert not np.isnan([judged.flash, judged.room, judged.total, judged.ghost]).any()
