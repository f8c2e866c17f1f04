"""The photograph as a picture: its call, empty and dark frames, shutters, the beam, chance and noise, words."""

import subprocess
import sys
import warnings
from dataclasses import replace

import numpy as np
import pytest

from splashlib.picture import described, photograph
from splashlib.picture.photo import tone
from splashlib.picture.photo.description import facts
from splashlib.picture.photo.photograph import exposed, overlaid, scene_of
from splashlib.shoot import body_height, change, change_all, draw_scatters, tea_house, with_body
from splashlib.shoot.chain.events import events
from tests.picture.photo.photo_kit import lit_at, plain, row

SIZE = (240, 160)


def orange(picture):
    """Where the fruit's colour is: much red, half as much green, hardly any blue."""
    red, green, blue = (picture[..., n].astype(int) for n in range(3))
    return (red > 60) & (red > 1.5 * green) & (green > blue)


def at_contact(setup, after):
    """The set-up with the light a time after contact [s]."""
    when = events(setup)
    shift = float(when.contact[0]) + after - float(when.light[0])
    return change(setup, "trigger.delay", setup.trigger.delay + shift)


def test_the_picture_is_an_array_of_bytes_of_the_size_that_was_asked_for():
    picture = photograph(tea_house())
    assert picture.dtype == np.uint8
    assert picture.shape == (427, 640, 3)
    assert photograph(tea_house(), size=(320, 200)).shape == (200, 320, 3)


@pytest.mark.parametrize("size", [(0, 10), (640,), (640.5, 400), "ab", None, (10**6, 10**6), (-640, 427)])
def test_an_impossible_size_gets_one_line(size):
    with pytest.raises(ValueError, match="it must be width and height in whole pixels") as caught:
        photograph(tea_house(), size=size)
    assert "\n" not in str(caught.value)


def test_without_chance_the_same_set_up_gives_the_same_picture():
    setup = at_contact(tea_house(), 0.03)
    assert (photograph(setup, size=SIZE) == photograph(setup, size=SIZE)).all()


def test_a_seed_gives_one_drop_and_another_seed_another():
    setup = at_contact(tea_house(), 0.03)
    one, same, other = (photograph(setup, rng=np.random.default_rng(s), size=SIZE) for s in (1, 1, 2))
    assert (one == same).all()
    assert (np.abs(one.astype(int) - other.astype(int)).max(-1) > 20).mean() > 0.02


def test_importing_the_photograph_brings_no_figures_along():
    code = "import sys, splashlib.picture; sys.exit(any(m.split('.')[0] in ('matplotlib', 'PIL') for m in sys.modules))"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def low_beam(style):
    """A beam 12 cm over the water."""
    return change(change(tea_house(), "beam.height", 0.12), "camera.style", style)


def test_with_a_low_beam_the_mirror_leaves_an_empty_frame():
    assert not orange(photograph(low_beam("mirror"))).any()


def test_with_the_mirror_up_the_body_is_where_the_events_say():
    setup = low_beam("mirror_up")
    there = orange(photograph(setup))
    height = body_height(setup, float(events(setup).light[0]))
    rows, columns = np.nonzero(there)
    size = (640, 427)
    middle = row(setup, height + setup.drop.diameter / 2, size)
    assert rows.min() == pytest.approx(row(setup, height + setup.drop.diameter, size), abs=3)
    assert np.median(rows) == pytest.approx(middle, abs=10)
    # Lit from the left: the right side lies in shadow.
    assert 320 - 52 - 3 < columns.min() < 320 - 52 + 5


@pytest.mark.parametrize("name", ["kumquat", "glass marble", "drop of milk"])
@pytest.mark.parametrize("after", [-0.003, 0.0005, 0.004, 0.012, 0.03, 0.07, 0.15, 0.4])
def test_every_instant_of_every_body_can_be_photographed(name, after):
    setup = at_contact(with_body(tea_house(), name), after)
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for position in ("front", "side", "behind"):
            light = exposed(scene_of(change(setup, "flashes.0.position", position)), SIZE)
            assert np.isfinite(light).all()
            assert (light >= -1e-4).all()


@pytest.mark.parametrize("seed", range(40))
def test_odd_set_ups_give_a_picture_too(seed):
    """Set-ups far from the scene, and drawn drops: no warning, nothing but light."""
    rng = np.random.default_rng(seed)
    setup = with_body(tea_house(), rng.choice(["kumquat", "glass marble", "drop of milk"]))
    drawn = {
        "drop.release_height": rng.uniform(0.2, 1.5),
        "drop.surface": rng.choice(["rough", "wet", "smooth_dry"]),
        "camera.style": rng.choice(["mirror", "mirror_up", "no_mirror", "held_open"]),
        "camera.aperture": rng.choice([2.8, 8.0, 22.0]),
        "camera.focus_distance": rng.uniform(0.3, 0.9),
        "camera.distance": rng.uniform(0.2, 1.0),
        "camera.frame_centre": rng.uniform(-0.1, 0.15),
        "camera.shutter": rng.choice([1 / 30, 1 / 200, 1 / 1000]),
        "flashes.0.kind": rng.choice(["quenched", "voltage_controlled", "high_speed_sync"]),
        "flashes.0.power": rng.choice([1.0, 1 / 8, 1 / 128]),
        "flashes.0.position": rng.choice(["front", "side", "behind"]),
        "room.lux": rng.choice([0.0, 1.0, 300.0]),
        "vessel.width": rng.uniform(0.08, 0.4),
        "vessel.depth": rng.uniform(0.02, 0.3),
    }
    for path, value in drawn.items():
        setup = change(setup, path, value.item() if hasattr(value, "item") else value)
    setup = change(setup, "trigger.delay", rng.uniform(0.0, 0.2))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        light = exposed(scene_of(setup, rng), SIZE)
        assert np.isfinite(light).all()
        assert (light >= -1e-3).all()
        assert described(setup, rng=rng).startswith("Simulated photograph: ")


def test_no_light_no_picture():
    """The body misses the beam and the room is dark: the frame is black."""
    setup = change(plain(drop__sideways_scatter=0.2), "room.lux", 0.0)
    seed = next(n for n in range(100) if events(setup, draw_scatters(setup, 1, np.random.default_rng(n))).missed.all())
    assert exposed(scene_of(setup, np.random.default_rng(seed)), SIZE).max() == 0
    assert photograph(setup, rng=np.random.default_rng(seed), size=SIZE).mean() < 2
    assert "missed the beam" in described(setup, rng=np.random.default_rng(seed))


def test_a_flash_outside_the_open_time_leaves_the_still_set_in_the_rooms_light():
    setup = change(plain(room__lux=20.0), "camera.open_time", 0.55)
    late = change(setup, "trigger.delay", 2.0)
    picture = exposed(scene_of(late), SIZE)
    dark = exposed(scene_of(change(late, "room.lux", 0.0)), SIZE)
    assert dark.max() == 0
    assert picture.max() > 0
    assert "shutter was shut" in described(late)


def lit_rows(setup):
    """Which rows have any light."""
    return exposed(scene_of(setup), SIZE).max((0, 2)) > 1e-5


@pytest.mark.parametrize("shutter", [1 / 250, 1 / 400, 1 / 500, 1 / 1000, 1 / 2000])
def test_faster_than_sync_only_part_of_the_frame_is_lit(shutter):
    """Curtains that travel 3 ms: from 1/333 s on the frame is never open as a whole."""
    setup = change(plain(camera__style="mirror_up"), "camera.shutter", shutter)
    setup = change(setup, "flashes.0.route_lag", 0.0)
    lit = lit_rows(setup)
    # The flash fires as the first curtain arrives: by then the second one follows by the exposure time.
    told = min(shutter / setup.camera.curtain_travel, 1.0)
    assert lit.mean() == pytest.approx(told, abs=0.06)
    # The picture stands upside down on the sensor: what was uncovered first, and is covered first, is its lower edge.
    assert lit[0]
    assert lit[-1] == (told == 1)


def test_a_rolling_readout_shows_a_band():
    setup = change(plain(camera__style="no_mirror"), "camera.no_mirror.first_curtain", "rolling")
    setup = change(change(setup, "camera.shutter", 1 / 250), "flashes.0.route_lag", 0.0)
    lit = lit_rows(setup)
    assert lit.mean() == pytest.approx(0.004 / setup.camera.readout, abs=0.03)
    assert np.abs(np.diff(lit.astype(int))).sum() <= 2


def test_high_speed_sync_lights_the_whole_frame():
    setup = change(plain(camera__style="mirror_up"), "camera.shutter", 1 / 1000)
    head = replace(setup.flashes[0], kind="high_speed_sync", route_lag=0.0, power=1.0)
    early = change(replace(setup, flashes=(head,)), "camera.curtain_travel", 0.003)
    picture = exposed(scene_of(early), SIZE)
    assert (picture.max((0, 2)) > 0).mean() > 0.3


def test_a_leaf_shutter_knows_no_sync_speed():
    setup = change(plain(camera__style="mirror_up"), "camera.mirror_up.first_curtain", "leaf")
    setup = change(change(setup, "camera.shutter", 1 / 2000), "flashes.0.route_lag", 0.0)
    assert lit_rows(setup).all()


def with_beam_in_frame(**more):
    """A held-open frame with the beam 5 cm over the water in it."""
    setup = plain(beam__height=0.05, beam__light="visible", **more)
    return lit_at(setup, height=0.01)


def test_a_visible_beam_writes_red_into_an_open_frame():
    setup = with_beam_in_frame()
    seen = exposed(scene_of(setup), (480, 320))
    hidden = exposed(scene_of(change(setup, "beam.light", "infrared")), (480, 320))
    red = seen - hidden
    assert red[0].max() > 0.01
    assert red[0].sum() > 10 * red[2].sum()
    # It stands at the beam's height, brightest at the near end of the body.
    r, c = np.unravel_index(red[0].argmax(), red[0].shape)
    assert r + 0.5 == pytest.approx(row(setup, 0.05, (480, 320)), abs=1)
    body = setup.drop.breadth / 2 * 480 / 0.162
    assert c == pytest.approx(240 - body, abs=4)


def test_a_beam_above_the_frame_writes_nothing():
    setup = change(tea_house(), "beam.height", 0.12)
    seen, hidden = (exposed(scene_of(change(setup, "beam.light", light)), SIZE) for light in ("visible", "infrared"))
    assert np.abs(seen - hidden).max() < 1e-6


def test_the_camera_is_mirrored_in_the_glass_only_when_it_is_lit():
    """Front light: a pale ring round the middle of the frame, below the rim."""
    rings = {}
    for position in ("front", "side"):
        setup = change(change(tea_house(), "vessel.rim", 0.10), "flashes.0.position", position)
        image = exposed(scene_of(setup), (480, 320)).mean(0)
        ring = image[130:190, 240 + np.arange(38, 60)].mean()
        rings[position] = ring / image[130:190, 240 + np.arange(90, 110)].mean()
    assert rings["front"] > 1.5 * rings["side"]


def test_noise_grows_with_iso_as_the_sensor_has_it():
    setup = lit_at(plain(), height=0.02)
    for iso in (100.0, 1600.0):
        light = np.full((3, 200, 200), 0.18, np.float32)
        tone.add_noise(light, iso=iso, rng=np.random.default_rng(5))
        gain, dark = tone.noise_of(iso)
        assert light.std() == pytest.approx(np.sqrt(gain * 0.18 + dark**2), rel=0.02)
        assert light.mean() == pytest.approx(0.18, rel=0.01)
    grain = [
        photograph(change(setup, "camera.iso", iso), rng=np.random.default_rng(1), size=SIZE)[:30].std()
        for iso in (100.0, 3200.0)
    ]
    assert grain[1] > grain[0]


def test_noise_is_not_the_same_in_two_pictures():
    one, two = np.full((3, 90, 90), 0.2, np.float32), np.full((3, 90, 90), 0.2, np.float32)
    tone.add_noise(one, iso=800, rng=np.random.default_rng(1))
    tone.add_noise(two, iso=800, rng=np.random.default_rng(2))
    assert abs(np.corrcoef(one.ravel(), two.ravel())[0, 1]) < 0.03


@pytest.mark.parametrize(
    ("after", "words"),
    [
        (-0.02, "above the water"),
        (0.009, "deep in the water"),
        (0.03, "went into the water 30 ms before the light"),
        (0.03, "a crown 46 mm high"),
        (0.15, "a jet"),
        (0.8, "the water coming to rest"),
    ],
)
def test_the_words_say_what_is_seen(after, words):
    assert words in described(at_contact(tea_house(), after))


def test_the_words_name_faults():
    setup = at_contact(tea_house(), -0.005)
    assert "every edge double" in described(
        replace(setup, flashes=(setup.flashes[0], replace(setup.flashes[0], route_lag=0.001)))
    )
    assert "out of focus" in described(change(change(setup, "camera.focus_distance", 0.7), "camera.aperture", 4.0))
    assert "too bright" in described(change(setup, "camera.iso", 3200.0))
    assert "too dark" in described(change(setup, "camera.aperture", 22.0))
    assert "ghost" in described(change(setup, "room.lux", 3.0))
    assert "sharp" in described(change(change(setup, "flashes.0.power", 1 / 256), "flashes.0.rise", 2e-6))
    assert "drawn out by" in described(change(change(setup, "flashes.0.power", 1.0), "camera.iso", 50.0))


def test_the_facts_are_those_of_the_events():
    setup = at_contact(tea_house(), -0.01)
    seen = facts(scene_of(setup))
    assert seen.judged.seen.height == pytest.approx(body_height(setup, float(events(setup).light[0])))
    assert seen.judged.seen.after_contact == pytest.approx(-0.01)
    assert seen.judged.body == "over"


def test_many_drops_lie_over_each_other():
    """Thirty drops in one picture: each is where its own draw has it."""
    setup = lit_at(plain(drop__diameter=0.008, drop__sideways_scatter=0.015, beam__height=0.2), height=0.03)
    draw = draw_scatters(setup, 30, np.random.default_rng(4))
    picture = overlaid(setup, draw, size=(480, 320))
    assert picture.shape == (320, 480, 3)
    lit = ~events(setup, draw).missed
    columns = 240 + draw.across[lit] * 480 / 0.162
    bright = picture.max((0, 2)) > 90
    assert lit.sum() > 5
    for column in columns[(columns > 5) & (columns < 475)]:
        assert bright[round(column) - 2 : round(column) + 3].any()
    assert not bright[:20].any()


@pytest.mark.parametrize(("circles", "soft"), [(1.4, False), (1.6, True)])
def test_out_of_focus_begins_at_one_and_a_half_circles_of_confusion(circles, soft):
    """Focus behind the body, by the thin lens: disc = f²/N · |1/s − 1/d| for distances far over f."""
    setup = at_contact(tea_house(), -0.005)
    camera = setup.camera
    focus, f = camera.distance * 1.06, camera.focal_length
    circle = np.hypot(camera.sensor_width, camera.sensor_height) / 1500
    disc_at_f_1 = f * f / (focus - f) * (focus - camera.distance) / camera.distance
    blurred = change_all(setup, {"camera.focus_distance": focus, "camera.aperture": disc_at_f_1 / circle / circles})
    assert facts(scene_of(blurred)).judged.disc == pytest.approx(circles, rel=0.02)
    assert ("out of focus" in described(blurred)) is soft
