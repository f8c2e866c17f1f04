"""The parts of the photograph: light that is kept, shapes that are those of the physics, looks of clear water."""

import numpy as np
import pytest

from splashlib.physics import droplets, water_entry
from splashlib.picture.photo import tone
from splashlib.picture.photo.frame import LightFrame
from splashlib.picture.photo.lights import Light, lights_of
from splashlib.picture.photo.objects.body_sprite import Body, sprite
from splashlib.picture.photo.objects.moving_body import BodyPicture
from splashlib.picture.photo.photograph import exposed, scene_of
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.raster.ball_sprites import ball_of
from splashlib.picture.photo.raster.camera_geometry import View
from splashlib.picture.photo.raster.defocus import defocused, disc, slightly_defocused
from splashlib.picture.photo.raster.layers import COARSE, coarsely
from splashlib.picture.photo.raster.moving_balls import Balls, blobs
from splashlib.picture.photo.raster.splatting import Splat, Window, window_around
from splashlib.picture.photo.scene import NOMINAL, Scene
from splashlib.picture.photo.water.column import jet_clouds, jet_course
from splashlib.picture.photo.water.crown_sheet import crown_course, sheets
from splashlib.picture.photo.water.droplet_clouds import flying
from splashlib.picture.photo.water.underwater import cavity_cloud, cavity_course
from splashlib.shoot import change, change_all, draw_scatters, tea_house, with_body
from splashlib.shoot.chain.events import events
from tests.picture.photo.photo_kit import row, scale

SIZE = (480, 320)
LAMP = optics.Lamp(optics.unit(optics.PLACES["side"]), 0.36, 8.0)


def at_contact(setup, after):
    when = events(setup)
    shift = float(when.contact[0]) + after - float(when.light[0])
    return change(setup, "trigger.delay", setup.trigger.delay + shift)


def parts(setup):
    """Scene, view and first light of a set-up."""
    scene = scene_of(setup)
    return scene, View.of(setup, SIZE), lights_of(setup, scene.when, scene.busy)[0]


def test_splatting_keeps_all_light_that_falls_into_the_window():
    rng = np.random.default_rng(1)
    x, y = (rng.uniform(5, 35, 5000).astype(np.float32) for _ in range(2))
    weight = rng.uniform(0, 1, 5000).astype(np.float32)
    made = Splat(x, y, window_around(x, y, (50, 50))).add(weight)
    assert made.sum() == pytest.approx(weight.sum(), rel=1e-5)
    some = Splat(x, y, Window(10, 10, 15, 15)).add(weight)
    inside = (x > 9.5) & (x < 25.5) & (y > 9.5) & (y < 25.5)
    assert some.sum() < weight[inside].sum()
    assert some.sum() > weight[inside].sum() * 0.85


def test_a_splat_lies_where_it_belongs():
    """The middle of light is kept to a thousandth of a cell, wherever the place lies in its cell."""
    window = Window(3, 4, 20, 20)
    for x, y in ((10.5, 12.5), (10.9, 12.1), (11.49, 13.51)):
        made = Splat(np.array([x], np.float32), np.array([y], np.float32), window).add(np.ones(1, np.float32))
        rows, columns = np.indices(made.shape)
        assert (made * (columns + 3.5)).sum() == pytest.approx(x, abs=1e-3)
        assert (made * (rows + 4.5)).sum() == pytest.approx(y, abs=1e-3)


def still_light(count=1):
    return Light(np.zeros(count), np.full(count, 1 / count), 1.0, LAMP, (1, 1, 1), None)


@pytest.mark.parametrize("liquid", ["water", "milk"])
@pytest.mark.parametrize("blur", [0.0, 2.0, 9.0])
@pytest.mark.parametrize("radius", [0.3, 1.2, 4.0, 15.0])
def test_a_drop_gives_the_light_of_its_own_picture(liquid, radius, blur):
    """Sharp or not, small or large: mean radiance of a ball times its area, and its area as cover."""
    balls = Balls(np.array([[50.0]]), np.array([[60.0]]), np.array([radius]), np.array([blur]), np.ones((1, 1)))
    (made,) = blobs(balls, still_light(), np.zeros(1), LAMP, liquid)
    light, cover = ball_of(liquid, LAMP, 400)
    area = (2 * radius) ** 2
    assert made[2].sum() == pytest.approx(light.mean() * area, rel=0.12)
    assert made[3].sum() == pytest.approx(cover.mean() * area, rel=0.08)
    assert (made[0] * made[3]).sum() / made[3].sum() == pytest.approx(50, abs=0.05 + 0.02 * radius)
    spread = np.sqrt(((made[0] - 50) ** 2 * made[3]).sum() / made[3].sum())
    # A disc of diameter D has D/4 as root mean square along one axis; those of ball and lens add by squares.
    assert spread == pytest.approx(np.hypot(radius / 2, blur / 4), rel=0.12, abs=0.16)


def test_a_moving_drop_is_drawn_out_along_its_way():
    light = Light(np.linspace(0, 1, 48), np.full(48, 1 / 48), 1.0, LAMP, (1, 1, 1), None)
    column, row = np.array([[50.0], [50.0]]), np.array([[20.0], [60.0]])
    balls = Balls(column, row, np.array([2.0]), np.array([0.0]), np.ones((2, 1)))
    (made,) = blobs(balls, light, np.array([0.0, 1.0]), LAMP, "milk")
    assert made[3].sum() == pytest.approx(np.pi * 4, rel=0.05)
    image = Splat(*(a.astype(np.float32) for a in made[:2]), Window(40, 10, 20, 60)).add(made[3].astype(np.float32))
    profile = image.sum(1)[12:48]
    assert profile.mean() == pytest.approx(np.pi * 4 / 40, rel=0.03)
    assert profile.std() < 0.08 * profile.mean()
    assert made[1].min() == pytest.approx(18, abs=1.5)
    assert made[1].max() == pytest.approx(62, abs=1.5)


@pytest.mark.parametrize("after", [0.010, 0.02, 0.035, 0.05])
def test_the_crown_stands_as_high_as_the_physics_says(after):
    scene, view, light = parts(at_contact(tea_house(), after))
    knots = np.array([light.times[0], light.times[-1]])
    halves = sheets(scene, view, crown_course(scene, knots), light, light.lamp, "water")
    height = water_entry.rim_height(scene.impact, after)
    tops, sides = [], []
    for half in halves:
        seen = half.light > 1e-5
        columns = np.flatnonzero(seen.any(0))
        tops.append(half.window.top + seen.argmax(0)[columns])
        sides += [half.window.left + columns[0], half.window.left + columns[-1] + 1]
    # The rim is uneven: its mean is that of the model, threads and waves stand out by a fifth or so.
    told = row(scene.setup, height, SIZE)
    assert np.median(np.concatenate(tops)) == pytest.approx(told, abs=0.12 * height * scale(scene.setup, SIZE[0]) + 2)
    assert np.concatenate(tops).min() > row(scene.setup, 1.6 * height, SIZE) - 4
    radius = water_entry.crown_outline(scene.impact, after)[1].max()
    wide = max(sides) - min(sides)
    assert wide == pytest.approx(2 * radius * scale(scene.setup, SIZE[0]), rel=0.2)


def test_the_cavity_ends_at_the_body():
    scene, view, light = parts(change(at_contact(tea_house(), 0.03), "camera.frame_centre", -0.03))
    knots = np.array([light.times[0], light.times[-1]])
    cloud = cavity_cloud(scene, view, cavity_course(scene, knots), light, light.lamp)
    middle = float(scene.heights([scene.contact + 0.03])[0]) + scene.setup.drop.diameter / 2
    # The near half of its lower edge lies half a body before the plane of fall.
    told = view.place(0.0, middle, -scene.setup.drop.diameter / 2)[1]
    assert cloud[1].max() == pytest.approx(told, abs=2)
    widest = cloud[0].max() - cloud[0].min()
    assert widest > scene.setup.drop.diameter * scale(scene.setup, SIZE[0])


def test_the_jet_reaches_its_height():
    setup = change(at_contact(tea_house(), 0.13), "camera.distance", 0.8)
    scene, view, light = parts(setup)
    knots = np.array([light.times[0], light.times[-1]])
    clouds = jet_clouds(scene, view, jet_course(scene, knots), light, light.lamp, "water")
    height = float(water_entry.jet_height(scene.impact, 0.13))
    assert height > 0.02
    assert min(cloud[1].min() for cloud in clouds) == pytest.approx(row(setup, height, SIZE), abs=2)


def test_what_is_not_in_the_air_gives_no_light():
    """A ball that is there for half of a light gives half of its own light, and that where it is."""
    light = Light(np.linspace(0, 1, 48), np.full(48, 1 / 48), 1.0, LAMP, (1, 1, 1), None)
    knots = np.linspace(0, 1, 11)
    column, row = np.linspace(20, 60, 11)[:, None], np.full((11, 1), 30.0)
    there = (knots < 0.45)[:, None].astype(float)
    balls = Balls(column, row, np.array([2.0]), np.array([0.0]), there)
    (made,) = blobs(balls, light, knots, LAMP, "milk")
    assert made[3].sum() == pytest.approx(0.45 * np.pi * 4, rel=0.08)
    assert made[0][made[3] > 0].max() < 20 + 0.5 * 40 + 3


def test_coarse_cells_keep_light_and_place():
    """Soft balls in cells twice as wide: the same light in the same place, spread as a disc of 4.6 would."""
    columns, rows = np.array([[41.3, 80.2]]), np.array([[33.7, 50.1]])
    size = (120, 90)
    balls = Balls(columns / 2, rows / 2, np.array([2.0, 3.0]), np.zeros(2), np.ones((1, 2)))
    layer = coarsely(blobs(balls, still_light(), np.zeros(1), LAMP, "milk"), still_light(), size)
    assert layer.cover.sum() == pytest.approx(np.pi * (4**2 + 6**2), rel=0.08)
    for column, line, radius in zip(columns[0], rows[0], (4, 6), strict=True):
        near = np.zeros(size[::-1])
        near[layer.window.slices] = layer.cover
        down, across = np.indices(near.shape) + 0.5
        near[np.hypot(across - column, down - line) > 20] = 0
        assert (near * across).sum() / near.sum() == pytest.approx(column, abs=0.2)
        assert (near * down).sum() / near.sum() == pytest.approx(line, abs=0.2)
        spread = (near * (across - column) ** 2).sum() / near.sum()
        assert spread == pytest.approx(radius**2 / 4 + COARSE**2 / 16, rel=0.15)


def test_a_splash_spread_too_thin_to_be_seen_is_no_mistake():
    """A long and dim light: not one of the droplets makes a step of grey, and nothing is left to lay."""
    setup = change(change(tea_house(), "flashes.0.kind", "voltage_controlled"), "flashes.0.power", 1 / 256)
    dim = change(change(setup, "flashes.0.distance", 2.0), "camera.iso", 50)
    assert coarsely([], still_light(), SIZE) is None
    for after in (0.0, 0.035):
        assert np.isfinite(exposed(scene_of(at_contact(dim, after)), SIZE)).all()


def test_droplets_are_where_their_flight_has_them():
    scene, _, light = parts(at_contact(tea_house(), 0.04))
    knots = np.array([light.times[0], light.times[-1]])
    x, y, z, radius, aloft = flying(scene, knots)
    assert (aloft == 1).all()
    told = droplets.places(scene.chance.thrown, float(knots[0] - scene.contact))
    there = np.isfinite(told[2])
    assert there.sum() > 20
    assert len(radius) >= there.sum()
    assert np.isin(np.round(told[2][there], 6), np.round(y[0], 6)).mean() > 0.99
    assert np.isin(np.round(told[0][there], 6), np.round(x[0], 6)).mean() > 0.99
    assert np.isfinite(z).all()
    sizes = np.sort(2000 * radius)
    assert sizes[-1] > 8 * sizes[0]  # droplets of many sizes


@pytest.mark.parametrize("seed", range(5))
def test_the_waters_clock_keeps_the_stages_of_its_own_drop(seed):
    """A splash that comes early or late shows at its own stage what the likely one shows at that stage."""
    setup = tea_house()
    scene = Scene(setup, draw_scatters(setup, 1, np.random.default_rng(seed)), 5)
    assert scene.draw.pace[0] != 0
    usual = events(setup)
    for name in ("crown_peak", "cavity_seals"):
        if scene.happens(name):
            likely = float(usual.stages[name][0] - usual.contact[0])
            assert float(scene.water_time(scene.when.stages[name][0])) == pytest.approx(likely, rel=1e-6)
    assert float(scene.water_time(scene.contact)) == pytest.approx(0, abs=1e-9)


def test_a_drop_of_milk_is_gone_once_it_has_met_the_pool_but_a_fruit_is_not():
    for name, stays in (("drop of milk", False), ("kumquat", True)):
        scene, view, light = parts(at_contact(with_body(tea_house(), name), 0.012))
        assert (BodyPicture(scene, view, light).picture is not None) is stays


def test_what_chance_shapes_is_kept_for_a_drop():
    scene = Scene(tea_house(), draw_scatters(tea_house(), 1, np.random.default_rng(0)), NOMINAL)
    assert scene.chance is Scene(tea_house(), scene.draw, NOMINAL).chance
    assert (np.diff(np.sort(scene.chance.angles % (2 * np.pi))) >= 0).all()


@pytest.mark.parametrize("diameter", [3.5, 6.3, 11.0, 20.0])
def test_a_disc_of_defocus_is_even_round_and_keeps_the_light(diameter):
    kernel = disc(diameter)
    assert kernel.sum() == pytest.approx(1, rel=1e-5)
    assert np.allclose(kernel, kernel.T)
    assert np.allclose(kernel, kernel[::-1])
    places = np.arange(len(kernel)) - len(kernel) // 2
    variance = (kernel.sum(0) * places**2).sum()
    assert variance == pytest.approx(diameter**2 / 16 + 1 / 12, rel=0.05)


def test_both_ways_of_defocus_agree():
    layer = np.zeros((21, 21, 2), np.float32)
    layer[9:12, 10] = [1.0, 0.5]
    for diameter in (1.5, 2.5, 3.5, 4.7):
        exact, margin = defocused(layer, diameter)
        quick, border = slightly_defocused(layer, diameter)
        cut = exact[margin - border : len(exact) - margin + border, margin - border : exact.shape[1] - margin + border]
        assert quick.sum() == pytest.approx(exact.sum(), rel=1e-4)
        assert np.abs(cut - quick).max() < 0.16


def ray_by_ray(x, y, lamp):
    """One ray through a ball of water, by the law of refraction in its plane: slow, for comparison."""
    offset = np.hypot(x, y)
    inside = np.arcsin(offset / 1.333)
    turn = 2 * (np.arcsin(offset) - inside)
    away = np.array([x, y]) / max(offset, 1e-9)
    direction = np.array([*(-np.sin(turn) * away), np.cos(turn)])
    return float(direction @ np.asarray(lamp.direction))


def test_a_ball_of_water_shows_the_lamp_where_the_rays_go():
    """Where the traced picture is bright in the middle band, a ray bent by hand meets the lamp, and the other way."""
    lamp = optics.Lamp(optics.unit((-0.5, 0.42, 0.76)), 0.36, 8.0)
    picture = optics.ball(lamp, 1.333, 60)
    hits = misses = 0
    for i in range(60):
        for j in range(60):
            x, y = (j + 0.5) / 30 - 1, 1 - (i + 0.5) / 30
            if np.hypot(x, y) > 0.9:
                continue
            cosine = ray_by_ray(x, y, lamp)
            if cosine > np.cos(0.36) + 0.02:
                hits += 1
                assert picture[i, j] > 4
            elif cosine < np.cos(0.36) - 0.02:
                misses += 1
                assert picture[i, j] < 2
    assert hits > 20
    assert misses > 500


def test_each_skin_of_water_mirrors_two_per_cent_of_the_lamp_head_on():
    """A lamp behind the camera is seen in the middle of the ball: its radiance times the share head-on."""
    lamp = optics.Lamp((0.0, 0.0, -1.0), 0.3, 8.0)
    picture = optics.ball(lamp, 1.333, 61)
    # The near and the far skin both throw it straight back.
    assert picture[30, 30] == pytest.approx(2 * 0.0204 * 8.0, rel=0.1)
    assert float(optics.schlick(np.float32(1.0))) == pytest.approx(0.02, abs=0.001)


@pytest.mark.parametrize("look", ["fruit", "glass", "water", "milk", "white"])
def test_a_sprite_covers_the_body_and_no_more(look):
    made = sprite(Body(look, 20.0, 12.0), (0.25, 0.0), LAMP)
    cover = made[..., 3]
    assert cover.sum() / 2 == pytest.approx(np.pi * 20 * 12, rel=0.01)
    assert (made[..., :3][cover == 0] == 0).all()
    columns = np.arange(made.shape[1]) + 0.5 - made.shape[1] / 2
    assert (cover.sum(0) * columns).sum() / cover.sum() == pytest.approx(0.25, abs=0.02)


def test_noise_counts_photons():
    """Four stops more of ISO: four times the noise of a middle grey; the dark follows the ISO itself."""
    (low, dark_low), (high, dark_high) = tone.noise_of(100.0), tone.noise_of(1600.0)
    assert np.sqrt(high / low) == pytest.approx(4)
    assert dark_high / dark_low == pytest.approx(16)


def test_clear_water_does_not_follow_the_distance_of_the_lamp():
    """At twice the distance a fruit loses nearly two stops; the lamp's face, which is what water shows, none."""
    fruit = at_contact(tea_house(), -0.004)
    faces, skins = [], []
    for distance in (0.4, 0.8):
        setup = change(fruit, "flashes.0.distance", distance)
        light = parts(setup)[2]
        faces.append(light.lamp.radiance * light.strength)
        skins.append(exposed(scene_of(setup), SIZE)[0])
    lit = skins[0] > np.quantile(skins[0], 0.97)
    assert np.median(skins[1][lit] / skins[0][lit]) == pytest.approx((0.4**2 + 0.3**2) / (0.8**2 + 0.3**2), abs=0.05)
    assert faces[1] == pytest.approx(faces[0], rel=0.001)


def test_a_drop_of_water_shows_the_lamp_as_bright_from_afar():
    """The glint on the skin towards the lamp gets smaller, not darker."""
    direction = optics.unit(optics.PLACES["front"])
    near, far = (optics.Lamp(direction, angle, 8.0) for angle in (0.36, 0.18))
    glints = [optics.ball(lamp, 1.333, 200)[55:100, 55:100] for lamp in (near, far)]
    assert glints[1].max() == pytest.approx(glints[0].max(), rel=0.15)
    halves = [(glint > 0.6 * glint.max()).sum() for glint in glints]
    assert halves[1] == pytest.approx(halves[0] / 4, rel=0.2)


def test_a_reflection_fades_with_the_distance_from_the_thing_itself():
    """Ripples break it up: strongest where it touches the thing, at the waterline, and weaker row by row from there."""
    scene, view, light = parts(
        at_contact(change_all(tea_house(), {"camera.distance": 0.55, "camera.frame_centre": 0.03}), -0.005)
    )
    frame = LightFrame(scene, view, light)
    waterline, front = frame.surface.waterline, frame.surface.front
    frame.image[:, :waterline] += 1.0
    before = frame.image.copy()
    frame._reflect()
    added = (frame.image - before)[:, waterline:front, view.size[0] // 2]
    share = added / frame.surface.mirrored[waterline:front]
    assert np.array_equal((frame.image - before)[:, :waterline], np.zeros_like(before[:, :waterline]))
    assert share.shape[1] > 8
    assert (np.diff(share, axis=1) < 0).all()
    assert (share[:, 0] < 1).all()
    assert (share[:, -1] < 0.6 * share[:, 0]).all()
