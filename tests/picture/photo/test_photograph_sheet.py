"""The traced sheet: where a ray meets the wall, found here step by step along it, and what a lasting light leaves."""

import numpy as np
import pytest

from splashlib.picture.photo.lights import Light
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.raster.camera_geometry import View
from splashlib.picture.photo.water.sheet_tracing import Uneven, Wall
from splashlib.picture.photo.water.walls import AROUND, Course, evenly, with_slopes
from splashlib.shoot import change, tea_house

SIZE = (480, 320)
LAMP = optics.Lamp(optics.unit(optics.PLACES["side"]), 0.36, 8.0)
SMOOTH = Uneven(np.ones(AROUND, np.float32), np.zeros(AROUND, np.float32), rough=0.0)
TALL, FOOT, RIM = 0.05, 0.028, 0.040


def light(lasts=0.0, opening=None):
    times = np.linspace(0, lasts, 48)
    return Light(times, np.full(48, 1 / 48), 1.0, LAMP, (1, 1, 1), opening)


def cone(*heights, foot=FOOT, rim=RIM, lasts=1.0):
    """A cone that is as high as `heights` say at even times."""
    along = np.linspace(0, 1, 24)
    shapes = [with_slopes(evenly(np.stack([h * along, foot + (rim - foot) * along], -1))) for h in heights]
    return Course(np.linspace(0, lasts, len(heights)), np.array(shapes, np.float32), np.ones(len(heights), np.float32))


def met(view, column, row, place, side):
    """Walk along the ray of an element: depth and height where it meets the cone's far (1) or near (-1) side.

    In steps of 0.05 mm, and the step in which it meets the cone again in steps of a thousandth of that.
    """
    depth = np.linspace(-0.08, 0.08, 3201) + place[1]
    inside = np.flatnonzero(_inside(view, column, row, place, depth)[0])
    if not len(inside):
        return None
    edge = inside[-1 if side > 0 else 0]
    depth = np.linspace(depth[edge] - 5e-5, depth[edge] + 5e-5, 2001)
    within, height = _inside(view, column, row, place, depth)
    found = np.flatnonzero(within)[-1 if side > 0 else 0]
    return depth[found] - place[1], height[found]


def _inside(view, column, row, place, depth):
    """Whether the ray is within the cone at each depth, and its height there."""
    right, behind = place
    away = 1 + depth / view.distance
    x = (column - view.size[0] / 2) / view.scale * away - right
    y = view.eye + ((view.size[1] / 2 - row) / view.scale - view.eye + view.centre) * away
    return np.hypot(x, depth - behind) < FOOT + (RIM - FOOT) * y / TALL, y


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("place", [(0.0, 0.0), (0.012, -0.02)])
def test_every_ray_meets_the_wall_where_walking_along_it_does(side, place):
    view = View.of(tea_house(), SIZE)
    seen = Wall(cone(TALL), light(), view, place).seen(-side, SMOOTH)
    lines, columns = np.divmod(seen.cells, seen.window.width)
    rng = np.random.default_rng(3)
    tried = 0
    for number in rng.choice(len(seen.cells), 150, replace=False):
        column, line = seen.window.left + columns[number] + 0.5, seen.window.top + lines[number] + 0.5
        told = met(view, column, line, place, side)
        if told is None or not 0.05 < told[1] / TALL < 0.95:
            continue
        depth, height = told
        radius = FOOT + (RIM - FOOT) * height / TALL
        if abs(depth) < 0.25 * radius:
            continue  # at the outline a ray only grazes the wall
        tried += 1
        assert seen.along[number] == pytest.approx(height / TALL, abs=0.02)
        lean = (RIM - FOOT) / TALL
        assert seen.normal[2][number] == pytest.approx(depth / radius / np.hypot(1, lean), abs=0.02)
        assert seen.normal[1][number] == pytest.approx(-lean / np.hypot(1, lean), abs=0.01)
    assert tried > 60


@pytest.mark.parametrize("side", [1, -1])
def test_the_wall_fills_its_outline_and_nothing_else(side):
    """Every element whose ray meets it sees it, and no other, but for those at its very edge."""
    view = View.of(tea_house(), SIZE)
    seen = Wall(cone(TALL), light(), view, (0.0, 0.0)).seen(-side, SMOOTH)
    cover = np.zeros(SIZE[::-1])
    cover[seen.window.slices] = seen.painted(seen.area > 0)
    wrong, tried = 0, 0
    for line in range(3, SIZE[1], 9):
        for column in range(3, SIZE[0], 9):
            told = met(view, column + 0.5, line + 0.5, (0.0, 0.0), side)
            tried += told is not None
            wrong += cover[line, column] != (told is not None and 0 <= told[1] <= TALL)
    assert tried > 300
    assert wrong < 0.03 * tried


def test_a_ray_that_grazes_sees_more_of_the_sheet():
    """A clear sheet is brighter where it is seen along its own plane, by 1 over the cosine."""
    view = View.of(change(tea_house(), "camera.distance", 0.7), SIZE)
    seen = Wall(cone(TALL, foot=0.03, rim=0.03), light(), view, (0.0, 0.0)).seen(1, SMOOTH)
    line = seen.painted(seen.area)[seen.window.height // 2]
    wide = 0.03 * view.scale / np.sqrt(1 - (0.03 / view.distance) ** 2)
    for share, close in ((0.0, 0.03), (0.8, 0.06), (0.97, 0.12)):
        place = round(SIZE[0] / 2 + share * wide - 0.5)
        # From the middle of the element itself: near the outline half an element counts.
        aside = (place + 0.5 - SIZE[0] / 2) / wide
        assert line[place - seen.window.left] == pytest.approx(1 / np.sqrt(1 - aside**2), rel=close)
    # Never infinite: the wall itself has a thickness.
    assert line.max() < 10


@pytest.mark.parametrize("moved", [0.004, 0.02])
def test_a_lasting_light_smears_the_edge_by_its_motion(moved):
    """Mean light over the rows that the edge has passed falls evenly to nothing; its sum is that of the still ones."""
    view = View.of(tea_house(), SIZE)
    course = cone(TALL, TALL + moved, foot=0.03, rim=0.03)
    seen = Wall(course, light(1.0), view, (0.0, 0.0)).seen(1, SMOOTH)
    picture = seen.painted(seen.area)
    middle = picture.shape[1] // 2
    profile = picture[:, middle - 16 : middle + 16].mean(1)
    rows = np.arange(seen.window.top, seen.window.top + seen.window.height) + 0.5
    scale = view.scale * view.distance / (view.distance - 0.03)
    shown = (profile / np.median(profile[-20:])).sum()
    assert shown == pytest.approx((TALL + moved / 2) * scale, rel=0.03)
    top, full = (view.place(0.0, height, -0.03)[1] for height in (TALL + moved, TALL))
    assert rows[profile > 0.02 * profile.max()].min() == pytest.approx(top, abs=2)
    between = (rows > top + 1) & (rows < full - 1)
    told = (rows[between] - top) / (full - top)
    assert np.abs(profile[between] / np.median(profile[-20:]) - told).mean() < 0.06


def test_rows_that_the_curtain_covers_stay_dark():
    view = View.of(tea_house(), SIZE)
    half = light(1.0, (np.full(48, 0.0), np.full(48, 0.5)))
    seen = Wall(cone(TALL, TALL), half, view, (0.0, 0.0)).seen(1, SMOOTH)
    picture = seen.painted(seen.area)
    rows = np.arange(seen.window.top, seen.window.top + seen.window.height) + 0.5
    assert picture[rows < 0.5 * SIZE[1] - 1].sum() == 0
    assert picture[rows > 0.5 * SIZE[1] + 1].sum() > 0
