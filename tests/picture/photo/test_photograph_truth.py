"""What the pixels of a photograph say equals what events, blur, exposure and lens say."""

import math
from dataclasses import replace

import numpy as np
import pytest

from splashlib.physics.light import blur, exposure, lens
from splashlib.picture import photograph
from splashlib.picture.photo import tone
from splashlib.picture.photo.lights import lights_of
from splashlib.picture.photo.objects.moving_body import BodyPicture
from splashlib.picture.photo.photograph import exposed, scene_of
from splashlib.picture.photo.raster.camera_geometry import View
from splashlib.shoot import body_height, change, draw_scatters, pulse_of
from splashlib.shoot.chain.events import events
from splashlib.shoot.decide.exposure_balance import flash_over_metered
from tests.picture.photo.photo_kit import crossings, light_of, lit_at, plain, row, scale

SIZE = (480, 320)


def random_setup(seed, **more):
    """A plain scene with another ball, lens, distance, framing and fall, and the light while it is over the water."""
    rng = np.random.default_rng(seed)
    distance = rng.uniform(0.4, 0.8)
    setup = plain(
        drop__diameter=rng.uniform(0.012, 0.035),
        drop__release_height=rng.uniform(0.4, 1.0),
        beam__height=0.28,
        camera__focal_length=rng.uniform(0.06, 0.105),
        camera__distance=distance,
        camera__focus_distance=distance,
        camera__frame_centre=rng.uniform(0.03, 0.05),
        camera__aperture=rng.choice([8.0, 11.0, 16.0]),
    )
    for path, value in more.items():
        setup = change(setup, path.replace("__", "."), value)
    return lit_at(setup, height=rng.uniform(0.015, 0.035))


def body_of(setup, number=0, size=SIZE):
    """The body's own picture in one light: cover, and the row of its first line."""
    scene = scene_of(setup)
    light = lights_of(setup, scene.when, scene.busy)[number]
    drawn = BodyPicture(scene, View.of(setup, size), light)
    return drawn, light


@pytest.mark.parametrize("seed", range(24))
def test_the_body_is_where_the_events_have_it(seed):
    setup = random_setup(seed)
    height = body_height(setup, float(events(setup).light[0]))
    ball = setup.drop.diameter * scale(setup, SIZE[0])
    top, bottom = row(setup, height + setup.drop.diameter, SIZE), row(setup, height, SIZE)
    # Against the frame that is taken while the ball is still above it; only pixels are compared.
    empty = light_of(photograph(change(setup, "trigger.delay", 0.0), size=SIZE))
    there = np.abs(light_of(photograph(setup, size=SIZE)) - empty)
    upright, across = there[:, SIZE[0] // 2 - 1], there[round((top + bottom) / 2)]
    assert span(upright) == pytest.approx((top, bottom), abs=1)
    assert span(across) == pytest.approx((SIZE[0] / 2 - ball / 2, SIZE[0] / 2 + ball / 2), abs=1)


def span(line):
    """Where a line of differences begins and ends: cells of at least an eighth of what the ball's edge shows there."""
    seen = np.flatnonzero(line > 0.004)
    first, last = (line[seen[0] : seen[0] + 4].max() / 8, line[seen[-1] - 3 : seen[-1] + 1].max() / 8)
    return np.flatnonzero(line > max(first, 0.004))[0], np.flatnonzero(line > max(last, 0.004))[-1] + 1


@pytest.mark.parametrize("seed", range(6))
def test_the_body_is_where_its_own_draw_has_it(seed):
    setup = random_setup(seed, drop__sideways_scatter=0.006, drop__release_scatter=0.004)
    empty = change(setup, "trigger.delay", 0.0)
    there, away = (exposed(scene_of(each, np.random.default_rng(seed)), SIZE).mean(0) for each in (setup, empty))
    draw = draw_scatters(setup, 1, np.random.default_rng(seed))
    nearer = setup.camera.distance / (setup.camera.distance - float(draw.toward[0]))
    height = float(body_height(setup, events(setup, draw).light, draw=draw)[0])
    centre = setup.camera.frame_centre + (height + setup.drop.diameter / 2 - setup.camera.frame_centre) * nearer
    first, last = span(np.abs(there - away)[round(row(setup, centre, SIZE))])
    middle = SIZE[0] / 2 + float(draw.across[0]) * nearer * scale(setup, SIZE[0])
    assert abs(float(draw.across[0])) * scale(setup, SIZE[0]) > 1
    assert (first + last) / 2 == pytest.approx(middle, abs=1)
    assert last - first == pytest.approx(setup.drop.diameter * nearer * scale(setup, SIZE[0]), abs=2)


@pytest.mark.parametrize("hang", ["upright", "lying"])
def test_an_oval_body_is_as_long_as_it_is(hang):
    setup = lit_at(plain(drop__diameter=0.02, drop__length=0.03, drop__hang=hang, beam__height=0.28), height=0.02)
    empty = light_of(photograph(change(setup, "trigger.delay", 0.0), size=SIZE))
    there = np.abs(light_of(photograph(setup, size=SIZE)) - empty)
    tall, wide = (span(there.max(axis)) for axis in (1, 0))
    expected = (0.03, 0.02) if hang == "upright" else (0.02, 0.03)
    assert tall[1] - tall[0] == pytest.approx(expected[0] * scale(setup, SIZE[0]), abs=2)
    assert wide[1] - wide[0] == pytest.approx(expected[1] * scale(setup, SIZE[0]), abs=2)


# A picture element is the mean over its cell; the ball's own cells are half as tall.
WITHIN = np.add.outer(np.linspace(-0.45, 0.45, 10), np.linspace(-0.2, 0.2, 5)).ravel()

PULSES = [("quenched", 1.0), ("quenched", 1 / 4), ("voltage_controlled", 1 / 8), ("high_speed_sync", 1.0)]


@pytest.mark.parametrize(("kind", "power"), PULSES)
@pytest.mark.parametrize("seed", range(5))
def test_the_streak_has_the_profile_of_the_pulse(kind, power, seed):
    setup = random_setup(seed)
    head = replace(setup.flashes[0], kind=kind, power=power, full_t05=0.0012, rise=60e-6, tail=17e-6)
    setup = lit_at(replace(setup, flashes=(head,)), height=0.03)
    drawn, _light = body_of(setup)
    when = events(setup)
    start = float(when.flash_starts[0, 0])
    at_start = body_height(setup, start)
    half = float(when.light[0])
    speed = (at_start - body_height(setup, half)) / (half - start)
    # The middle column: the ball is a bar of its own diameter there, and moves down.
    rows = drawn.first + np.arange(len(drawn.picture)) + 0.5
    cover = drawn.picture[:, drawn.picture.shape[1] // 2, 3]
    middle = row(setup, at_start + setup.drop.diameter / 2, SIZE)
    places = (rows[:, None] + WITHIN - middle) / scale(setup, SIZE[0])
    told = blur.bar_profile(places.ravel(), speed=speed, light=pulse_of(head), size=setup.drop.diameter)
    told = told.reshape(places.shape).mean(1)
    assert np.abs(cover - told).max() < 0.03
    assert cover.sum() == pytest.approx(told.sum(), rel=0.02)


@pytest.mark.parametrize("seed", range(6))
def test_the_streak_in_the_picture_is_as_long_as_the_blur(seed):
    """Even light of a known length: the ball is drawn out by speed times duration."""
    setup = random_setup(seed, drop__diameter=0.012)
    head = replace(setup.flashes[0], kind="high_speed_sync", power=1.0)
    setup = lit_at(replace(setup, flashes=(head,)), height=0.03)
    pulse = pulse_of(head)
    when = events(setup)
    light, start = float(when.light[0]), float(when.flash_starts[0, 0])
    speed = (body_height(setup, start) - body_height(setup, light)) / (light - start)
    streak = blur.streak_length(speed=speed, light=pulse)
    image = exposed(scene_of(setup), SIZE).mean(0)
    away = exposed(scene_of(change(setup, "trigger.delay", 0.0)), SIZE).mean(0)
    line = (image - away)[:, SIZE[0] // 2]
    # Ways in and out are straight ramps of the shorter of ball and streak: half height marks the middle of each.
    top, bottom = crossings(line, line.max() / 2)[[0, -1]]
    length = max(streak, setup.drop.diameter)
    assert bottom - top == pytest.approx(length * scale(setup, SIZE[0]), rel=0.06, abs=2)


def shown(setup):
    """Light of the middle of a ball, from the finished picture."""
    picture = light_of(photograph(setup, size=SIZE))
    height = body_height(setup, float(events(setup).light[0])) + setup.drop.diameter / 2
    r = round(row(setup, height, SIZE))
    return picture[r - 4 : r + 4, SIZE[0] // 2 - 4 : SIZE[0] // 2 + 4].mean()


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("flashes.0.power", 1 / 512),
        ("camera.iso", 100.0),
        ("camera.aperture", 16.0),
        ("flashes.0.guide_number", 42.0),
        ("flashes.0.diffuser_loss", 1.3),
    ],
)
def test_brightness_follows_the_stops(path, value):
    """Each change of exposure shows in the picture as the stops that exposure counts."""
    setup = lit_at(plain(camera__aperture=11.0), height=0.02)
    other = lit_at(change(setup, path, value), height=0.02)
    stops = flash_over_metered(other) - flash_over_metered(setup)
    assert abs(stops) > 0.4
    assert math.log2(shown(other) / shown(setup)) == pytest.approx(stops, abs=0.05)


@pytest.mark.parametrize("seed", range(8))
def test_a_white_card_is_as_bright_as_the_light_on_it(seed):
    """A matt white ball, where it faces the lamp, gives back 86 % of the light, and little gloss on top."""
    setup = random_setup(seed)
    light = exposure.flash_lux_seconds(
        60.0, distance=0.6, power=setup.flashes[0].power, size=setup.flashes[0].size, diffuser_loss=0.0
    )
    size = lens.magnification(focal_length=setup.camera.focal_length, distance=setup.camera.distance)
    stops = exposure.stops_over_metered(light, aperture=setup.camera.aperture, iso=setup.camera.iso, magnification=size)
    brightest = exposed(scene_of(setup), SIZE).mean(0)
    assert np.quantile(brightest[brightest > brightest.max() / 4], 0.9) == pytest.approx(0.90 * 2**stops, rel=0.08)


def test_the_shoulder_begins_where_it_should():
    """Up to the knee the picture is proportional to the light; above, it flattens, and ends in white."""
    light = np.linspace(0, 6, 4000, dtype=np.float32)
    back = tone.decode(tone.develop(light.copy()))
    low = light < tone.KNEE
    # Half a step of 255 is what rounding takes.
    assert np.abs(back[low] - light[low]).max() < 0.006
    assert (np.diff(back) >= 0).all()
    assert back[-1] == 1
    one = back[np.searchsorted(light, 1.0)]
    assert tone.KNEE < one < 0.9


@pytest.mark.parametrize("seed", range(8))
def test_the_ghost_is_the_share_of_time_that_the_body_covers(seed):
    """Room light over a short open shutter: the body's cover at each row is the time that it spends there."""
    setup = random_setup(seed, camera__style="mirror_up", room__lux=300.0)
    setup = change(change(setup, "camera.mirror_up.lag", 0.03), "camera.mirror_up.first_curtain", "leaf")
    setup = lit_at(setup, height=0.02)
    drawn, light = body_of(setup, number=-1)
    when = events(setup)
    opens, closes = float(when.shutter_open[0]), float(when.shutter_closes[0])
    times = np.linspace(opens, closes, 4001)
    low = row(setup, body_height(setup, times), SIZE)
    high = low - setup.drop.diameter * scale(setup, SIZE[0])
    rows = drawn.first + np.arange(len(drawn.picture)) + 0.5
    told = ((high[:, None] < rows) & (rows < low[:, None])).mean(0)
    cover = drawn.picture[:, drawn.picture.shape[1] // 2, 3]
    assert np.abs(cover - told).max() < 0.04
    assert light.shares.sum() == pytest.approx(1, abs=1e-6)


@pytest.mark.parametrize("seed", range(4))
def test_the_ghost_in_the_picture_has_the_room_exposure(seed):
    setup = random_setup(seed, camera__style="mirror_up", room__lux=300.0)
    setup = change(change(setup, "camera.mirror_up.lag", 0.03), "camera.mirror_up.first_curtain", "leaf")
    setup = lit_at(setup, height=0.02)
    lit = exposed(scene_of(setup), SIZE)
    dark = exposed(scene_of(change(setup, "room.lux", 0.0)), SIZE)
    room = lit - dark
    drawn, _ = body_of(setup, number=-1)
    size = lens.magnification(focal_length=setup.camera.focal_length, distance=setup.camera.distance)
    stops = exposure.stops_over_metered(
        exposure.room_lux_seconds(300.0, shutter=setup.camera.shutter),
        aperture=setup.camera.aperture,
        iso=setup.camera.iso,
        magnification=size,
    )
    brightest = int(drawn.picture[:, drawn.picture.shape[1] // 2, 3].argmax())
    r = drawn.first + brightest
    cover = drawn.picture[brightest, drawn.picture.shape[1] // 2, 3]
    # The ball gives back 0.86 of an even light, more on top and less below; the set shows through what is not covered.
    assert 0.3 * cover * 2**stops < room[:, r, SIZE[0] // 2].max() < 1.05 * cover * 2**stops
    assert room[0, r, SIZE[0] // 2] > room[2, r, SIZE[0] // 2]  # lamps of a room are warm


def test_a_darker_room_leaves_a_fainter_ghost():
    setup = lit_at(plain(camera__style="mirror_up", beam__height=0.25), height=0.02)
    ghosts = []
    for lux in (0.0, 5.0, 50.0, 500.0):
        image = exposed(scene_of(change(setup, "room.lux", lux)), SIZE)
        ghosts.append(float(image.sum()))
    steps = np.diff(ghosts)
    assert steps[0] > 0
    assert steps[1] == pytest.approx(9 * steps[0], rel=0.1)
    assert steps[2] == pytest.approx(90 * steps[0], rel=0.1)


@pytest.mark.parametrize("seed", range(8))
def test_two_heads_draw_every_edge_twice(seed):
    rng = np.random.default_rng(seed)
    setup = random_setup(seed)
    apart = rng.uniform(0.0005, 0.0015)
    second = replace(setup.flashes[0], route="radio", route_lag=setup.flashes[0].route_lag + apart)
    setup = lit_at(replace(setup, flashes=(*setup.flashes, second)), height=0.03)
    one, two = (without_set(each) for each in (replace(setup, flashes=setup.flashes[:1]), setup))
    rows = np.arange(SIZE[1]) + 0.5
    later = two - one
    offset = (rows * later).sum() / later.sum() - (rows * one).sum() / one.sum()
    heights = [body_height(setup, float(t)) for t in events(setup).flash_half[0]]
    assert offset == pytest.approx((heights[0] - heights[1]) * scale(setup, SIZE[0]), abs=1)
    speed = math.sqrt(2 * 9.81 * (setup.drop.release_height - heights[0]))
    assert offset == pytest.approx(speed * apart * scale(setup, SIZE[0]), rel=0.05, abs=0.5)
    # Between the two lower edges only the second head has drawn: a step, and then the ground.
    first, then = (row(setup, height, SIZE) for height in heights)
    between = two[round(first) + 1 : round(then) - 1]
    if len(between):
        assert (between > 0.01).all()
        assert np.abs(two[round(then) + 2 : round(then) + 6]).max() < 0.01


def without_set(setup):
    """Light of the ball alone along the middle column: less the frame that is taken while it is still above."""
    images = [exposed(scene_of(each), SIZE).mean(0) for each in (setup, change(setup, "trigger.delay", 0.0))]
    return (images[0] - images[1])[:, SIZE[0] // 2]


def test_the_second_head_shines_from_the_other_side():
    setup = plain()
    side = replace(setup.flashes[0], position="side")
    one = lit_at(replace(setup, flashes=(side,)), height=0.02)
    two = lit_at(replace(setup, flashes=(side, side)), height=0.02)
    left_one, right_one = np.split(exposed(scene_of(one), SIZE).mean(0), 2, axis=1)
    left_two, right_two = np.split(exposed(scene_of(two), SIZE).mean(0), 2, axis=1)
    assert left_one.sum() > 1.5 * right_one.sum()
    assert left_two.sum() == pytest.approx(right_two.sum(), rel=0.02)
    assert left_two.sum() == pytest.approx(left_one.sum() + right_one.sum(), rel=0.02)


def edge_of_disc(places, diameter):
    """Light beyond a straight edge whose points are spread to even discs: the share of a disc on its near side."""
    u = np.clip(2 * places / diameter, -1, 1)
    return 0.5 - (u * np.sqrt(1 - u**2) + np.arcsin(u)) / np.pi


@pytest.mark.parametrize("seed", range(12))
def test_out_of_focus_the_edge_is_spread_by_the_lens_disc(seed):
    rng = np.random.default_rng(100 + seed)
    setup = random_setup(seed, drop__diameter=0.03)
    focus = setup.camera.distance * rng.choice([rng.uniform(0.85, 0.95), rng.uniform(1.06, 1.2)])
    setup = change(change(setup, "camera.focus_distance", focus), "camera.aperture", rng.choice([2.8, 4.0, 5.6]))
    drawn, _ = body_of(setup)
    on_sensor = lens.blur_disc(
        setup.camera.distance,
        focus_distance=focus,
        focal_length=setup.camera.focal_length,
        aperture=setup.camera.aperture,
    )
    disc = on_sensor / setup.camera.sensor_width * SIZE[0]
    radius = setup.drop.diameter / 2 * scale(setup, SIZE[0])
    assert 0.5 < disc < radius
    cover = drawn.picture[len(drawn.picture) // 2, :, 3]
    places = drawn.left + np.arange(len(cover)) + 0.5 - SIZE[0] / 2
    right = places > 0
    # The ball's own cells, and those that the disc is drawn on, are a picture element wide each.
    cells = np.add.outer(np.linspace(-0.45, 0.45, 10), np.linspace(-0.45, 0.45, 10)).ravel()
    told = edge_of_disc(places[right][:, None] + cells - radius, disc).mean(1)
    # The ball's edge is curved, not straight: a few per cent where the disc is large against the ball.
    assert np.abs(cover[right] - told).max() < 0.04 + 0.06 * disc / radius
    # From 10 to 90 % an even disc takes 0.687 of its diameter.
    ten, ninety = (np.interp(level, cover[right][::-1], places[right][::-1]) for level in (0.1, 0.9))
    if disc > 4:
        assert ten - ninety == pytest.approx(0.687 * disc, rel=0.08)


def test_the_waterline_is_where_height_zero_is():
    """The brightest line of the still set is the water's edge at the front glass, half a vase before the fall."""
    setup = change(plain(vessel__rim=0.05), "camera.frame_centre", 0.03)
    image = exposed(scene_of(setup), SIZE).mean(0)
    column = image[:, SIZE[0] // 3]
    near = setup.camera.distance / (setup.camera.distance - setup.vessel.width / 2)
    told = row(setup, 0.03 * (1 - near), SIZE)
    lower = slice(int(row(setup, 0.02, SIZE)), SIZE[1])
    assert lower.start + column[lower].argmax() + 0.5 == pytest.approx(told, abs=1.5)
