"""The drawn water against the physics: tip, rim, foot and floor, measured where the drawing puts its samples."""

from dataclasses import replace

import numpy as np
import pytest

from splashlib.physics import water_entry
from splashlib.picture.photo.lights import lights_of
from splashlib.picture.photo.photograph import described, photograph, scene_of
from splashlib.picture.photo.raster.camera_geometry import View
from splashlib.picture.photo.raster.optics import Lamp, unit
from splashlib.picture.photo.water.column import heads, jet_clouds, jet_course, jet_happens
from splashlib.picture.photo.water.crown_edge import Edge, rim_pieces
from splashlib.picture.photo.water.crown_sheet import crown_course, sheets
from splashlib.picture.photo.water.underwater import cavity_cloud, cavity_course
from splashlib.shoot import change, change_all, tea_house, with_body
from splashlib.shoot.chain.events import events
from tests.picture.photo.photo_kit import SHORT, light_of

SIZE = (640, 427)
LAMP = Lamp(unit((-0.9, 0.3, 0.2)), 0.3, 5.0)
CLOSE = 0.10
"""How far the drawing may be from the physics."""


def scene_at(setup, after):
    """The nominal drop of a set-up, lit so long after contact [s]."""
    setup = replace(setup, flashes=(replace(setup.flashes[0], **SHORT),))
    when = events(change(setup, "trigger.delay", 0.0))
    delay = float(when.contact[0] - when.light[0]) + after
    return scene_of(change(setup, "trigger.delay", delay))


def solid(**more):
    """A rough ball from a hand that is near enough for the beam under it."""
    known = {"drop.name": "white ball", "drop.surface": "rough", "drop.density": 2500.0, "vessel.rim": 0.0}
    frame = {
        "camera.focal_length": 0.1,
        "camera.distance": 0.6,
        "camera.focus_distance": 0.6,
        "camera.frame_centre": 0.0,
    }
    return change_all(tea_house(), {**known, **frame, "room.lux": 0.0, "beam.light": "infrared", **more})


def ball(diameter, fall, **more):
    """A ball of a diameter that falls so far."""
    low = {"drop.diameter": diameter, "drop.length": diameter, "drop.release_height": fall, "beam.height": 0.9 * fall}
    return solid(**low, **more)


def milk(diameter, fall, form="milk"):
    """A drop that falls so far, near the camera."""
    setup = with_body(tea_house(), "drop of milk")
    size = {"drop.diameter": diameter, "drop.length": diameter, "drop.release_height": fall, "drop.form": form}
    near = {"camera.distance": 0.3, "camera.focus_distance": 0.3, "camera.frame_centre": 0.005, "vessel.rim": 0.0}
    near["camera.focal_length"] = 0.1
    place = {"beam.height": 0.9 * fall, "beam.width": 0.001, "room.lux": 0.0, "beam.light": "infrared"}
    return change_all(setup, {**size, **near, **place})


def some(count, seed):
    """Random set-ups, balls and drops by turns, with an instant each as a share of what lasts [0 to 1]."""
    rng = np.random.default_rng(seed)
    for number in range(count):
        if number % 2:
            yield (
                milk(rng.uniform(0.003, 0.007), rng.uniform(0.2, 1.0), ("milk", "water")[number // 2 % 2]),
                rng.random(),
            )
        else:
            surface = ("rough", "wet", "rough", "smooth_dry")[number // 2 % 4]
            setup = ball(rng.uniform(0.010, 0.040), rng.uniform(0.1, 1.0), **{"drop.surface": surface})
            yield setup, rng.random()


def drawn(setup, after):
    """Scene, view, its light, and the times of the shapes."""
    scene = scene_at(setup, after)
    view = View.of(scene.setup, SIZE)
    light = next(each for each in lights_of(scene.setup, scene.when, scene.busy) if each.lamp)
    middle = float(light.at_middle(light.times))
    return scene, view, light, np.array([middle]), middle - scene.contact


def height_of(view, row):
    """Height over the water [m] of a row in the plane of fall."""
    return view.centre - (row - view.size[1] / 2) / view.scale


def likely(setup, name):
    """When a stage is likely, after contact [s]; None where it does not happen in the nominal drop."""
    when = events(setup)
    date = when.stages.get(name, np.array([np.nan]))[0] - when.contact[0]
    return float(date) if np.isfinite(date) else None


# ---- crown


def crowns():
    for setup, share in some(24, 5):
        falls = likely(setup, "crown_falls") or likely(setup, "dome_closes")
        if falls:
            yield setup, (0.15 + 0.6 * share) * falls


def test_the_drawn_rim_is_as_high_as_the_physics_says():
    """Its mean: the threads that stand on it are higher."""
    found = 0
    for setup, after in crowns():
        scene, view, light, knots, since = drawn(setup, after)
        course = crown_course(scene, knots)
        if not course.there.any():
            continue
        rows = np.concatenate([pieces.row for pieces in rim_pieces(Edge(scene, view, course, light))])
        # Behind and in front of the axis are seen higher and lower, alike.
        mean = height_of(view, float(rows.mean()))
        expected = water_entry.rim_height(scene.impact, since, dome=scene.domed)
        assert mean == pytest.approx(expected, rel=CLOSE, abs=1.5 / view.scale)
        found += 1
    assert found >= 14


def test_the_drawn_crown_stands_on_its_crater():
    """Half its width a third up the wall, where the flare of the foot has gone, and the mouth under it."""
    found = 0
    for setup, after in crowns():
        scene, view, light, knots, since = drawn(setup, after)
        course = crown_course(scene, knots)
        height, radius, _ = water_entry.crown_outline(scene.impact, since, dome=scene.domed)
        if not course.there.any() or height[-1] * view.scale < 30 or scene.domed:
            continue
        level = height[-1] / 3
        layer = next(each for each in sheets(scene, view, course, light, LAMP, "water") if each)
        line = layer.light[round(float(view.row(level))) - layer.window.top]
        inside = np.flatnonzero(line > 0)
        half = (inside[-1] - inside[0] + 1) / 2 / view.scale
        assert half == pytest.approx(float(np.interp(level, height, radius)), rel=CLOSE, abs=1.5 / view.scale)
        if not scene.setup.drop.liquid and scene.happens("cavity_seals"):
            mouth = cavity_course(scene, knots)
            if mouth.there.any() and mouth.values[0, -1, 1] > 0:
                assert mouth.values[0, -1, 1] == pytest.approx(float(radius[0]), rel=CLOSE)
        found += 1
    assert found >= 8


def test_the_foot_of_a_crown_flares_into_the_surface():
    scene, _, _, knots, since = drawn(milk(0.006, 0.4), 0.018)
    wall = crown_course(scene, knots).values[0]
    foot = float(water_entry.crown_outline(scene.impact, since)[1][0])
    assert wall[0, 1] == pytest.approx(1.2 * foot, rel=0.02)
    third = int(np.searchsorted(wall[:, 0], wall[-1, 0] / 3))
    assert wall[third, 1] < 1.08 * foot
    # It meets the water aslant, not at an edge: near the surface it goes out nearly as fast as up.
    assert wall[0, 3] / wall[0, 2] < -0.7


# ---- under the surface


def test_the_drawn_floor_is_as_deep_as_the_physics_says():
    found = 0
    for setup, share in some(48, 8):
        if setup.drop.form == "milk":
            continue
        until = likely(setup, "jet_starts") or likely(setup, "cavity_seals") or 0.02
        scene, view, light, knots, since = drawn(setup, (0.2 + 0.6 * share) * until)
        course = cavity_course(scene, knots)
        cloud = cavity_cloud(scene, view, course, light, LAMP) if course.there.any() else None
        if cloud is None:
            continue
        if scene.setup.drop.liquid:
            expected = float(water_entry.crater_outline(scene.impact, since)[1].max())
        else:
            expected = -float(scene.heights(knots)[0]) - scene.setup.drop.height / 2
        if expected * view.scale < 20 or view.row(-expected) > view.size[1] - 10:
            continue
        lowest = -height_of(view, float(cloud[1].max()))
        assert lowest == pytest.approx(expected, rel=CLOSE, abs=1.5 / view.scale)
        found += 1
    assert found >= 8


def test_a_cavity_without_room_to_seal_is_drawn_all_the_same():
    setup = ball(0.030, 1.0, **{"vessel.depth": 0.02})
    scene, _, _, knots, _ = drawn(setup, 0.012)
    assert scene.splashes
    assert not scene.happens("cavity_seals")
    assert cavity_course(scene, knots).there.all()
    # Long after: nothing of it is carried along with the body.
    seal = water_entry.cavity_seal(scene.impact)
    late = cavity_course(scene, knots + 2 * seal.time)
    deep = late.values[0, :, 0] < -1.05 * seal.depth
    assert not late.there.any() or (late.values[0, deep, 1] == 0).all()


# ---- column


def columns():
    for setup, share in some(32, 13):
        for rises, peak in (("jet_rises", "jet_peak"), ("jet_starts", "jet_peak"), ("spout_rises", "spout_peak")):
            start, end = likely(setup, rises), likely(setup, peak)
            if start and end:
                yield setup, start + (0.1 + 1.0 * share) * (end - start)


def test_the_drawn_tip_is_as_high_as_the_physics_says():
    found = 0
    for setup, after in columns():
        scene, view, light, knots, since = drawn(setup, after)
        expected = water_entry.jet_height(scene.impact, since, slipped=scene.slipped)
        if expected * view.scale < 25 or view.row(expected) < 5:
            continue
        clouds = jet_clouds(scene, view, jet_course(scene, knots), light, LAMP, "water")
        top = min(float(cloud[1].min()) for cloud in clouds)
        assert height_of(view, top) == pytest.approx(expected, rel=CLOSE, abs=2 / view.scale)
        found += 1
    assert found >= 8


def test_the_column_of_a_slipped_body_is_its_spout():
    setup = ball(0.016, 0.6, **{"drop.surface": "smooth_dry", "drop.name": "glass marble"})
    after = (likely(setup, "spout_rises") + likely(setup, "spout_peak")) / 2
    scene, _, _, knots, since = drawn(setup, after)
    assert scene.slipped
    assert jet_happens(scene)
    spout = water_entry.jet_height(scene.impact, since, slipped=True)
    pinch = water_entry.jet_height(scene.impact, since, slipped=False)
    top = float(jet_course(scene, knots).values[0, -1, 0])
    assert top == pytest.approx(spout, rel=1e-5)
    assert top != pytest.approx(pinch, rel=0.2)
    assert f"a jet {1000 * spout:.0f} mm high" in described(scene.setup)
    assert not crown_course(scene, knots).there.any()
    assert not cavity_course(scene, knots).there.any()


@pytest.mark.parametrize(("after", "height"), [(0.068, 0.046), (0.100, 0.098)])
def test_the_jet_of_a_small_rough_ball_is_where_the_plates_have_it(after, height):
    """A. M. Worthington (1908): a rough sphere of 15 mm from 15 cm, tip of the column within a fifth."""
    scene, _, _, knots, _ = drawn(ball(0.015, 0.15), after)
    assert float(jet_course(scene, knots).values[0, -1, 0]) == pytest.approx(height, rel=0.2)


def test_a_body_s_column_thickens_from_below_and_sheds_drops():
    setup = ball(0.015, 0.15)
    radii = []
    for after in (0.068, 0.100):
        scene, _, _, knots, _ = drawn(setup, after)
        height, radius = jet_course(scene, knots).values[0].T
        assert (np.diff(radius) < 0).all()
        radii.append(np.interp([0.2 * height[-1], 0.5 * height[-1]], height, radius))
        drops = heads(scene, knots)
        assert (drops[1][:, drops[3] > 0] > height[-1]).all()
        assert (drops[3] > 0).sum() >= 3
    assert (radii[1] > 1.5 * radii[0]).all()


def test_a_column_of_milk_in_the_pixels():
    """White on black: how far up the axis it reaches, and that a stout column keeps its head."""
    setup = milk(0.006, 0.4)
    after = 0.6 * likely(setup, "jet_starts") + 0.4 * likely(setup, "jet_peak")
    scene, view, _, knots, since = drawn(setup, after)
    picture = light_of(photograph(scene.setup, size=SIZE))
    axis = picture[:, SIZE[0] // 2 - 1 : SIZE[0] // 2 + 1].mean(1)
    water = round(float(view.row(0.0)))
    dark = np.flatnonzero(axis[: water - 10][::-1] < 0.25 * axis[water - 12])
    top = (dark[0] + 10) / view.scale
    assert top == pytest.approx(water_entry.jet_height(scene.impact, since), rel=CLOSE)
    assert heads(scene, knots) is None
