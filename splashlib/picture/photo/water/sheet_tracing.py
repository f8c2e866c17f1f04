"""The crown's sheet, found picture element by picture element: each looks along its ray for the wall round the axis.

A light lasts, and the sheet moves. So neighbouring elements look at different instants of the light, in a pattern
that a soft disc evens out: together they see the sheet smeared by its motion.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from splashlib.picture.photo.raster.splatting import Window
from splashlib.picture.photo.water.walls import AROUND, ROWS, map_of

OVER = 1.2
"""How far the tables go over the height of the wall, so that they know its edge."""

PASSES = 2
"""Times that place and shape of the wall are fitted to each other."""

EDGE_ON = 0.12
"""Least cosine between ray and normal: a sheet seen along its own plane is not infinitely bright."""

SHORT = 20.0
"""Motion of the edge up to which 16 instants are enough [picture elements]; 64 beyond."""


@dataclass(frozen=True, eq=False)
class WallHits:
    """What the elements of a window see of one half of a wall; arrays have an entry for each that sees any.

    cells : numbers of the elements in the window, row by row; normal : three arrays, outward; along : place on the
    wall, 0 foot to 1 edge; haze : unevenness of the sheet; area : of wall for one element [elements], times the
    share of it that is covered and of the light that it gets; sign : 1 for the near half, -1 for the far one.
    """

    window: Window
    cells: np.ndarray
    normal: tuple
    along: np.ndarray
    haze: np.ndarray
    area: np.ndarray
    sign: int

    def painted(self, values):
        """Values as a picture of the window, dark where nothing is seen."""
        made = np.zeros(self.window.height * self.window.width, np.float32)
        made[self.cells] = values
        return made.reshape(self.window.height, self.window.width)


class Wall:
    """A wall of revolution at several instants of a light.

    Parameters
    ----------
    course : sheet.Course, channels height, radius and their slopes along the wall [m]; height never falls
    light : Light
    view : View
    place : (float, float), of the axis, to the right and behind the plane of fall [m]
    """

    def __init__(self, course, light, view, place):
        self.light, self.view, self.place = light, view, place
        edge = course.values[:, -1, :2]
        moved = float(np.abs(np.diff(edge, axis=0)).sum()) * view.scale
        self.pattern = _pattern(moved, light.opening is not None)
        count = int(self.pattern.max()) + 1
        times, weights, self.moments = light.sampled((np.arange(count) + 0.5) / count)
        weights = weights * (float(light.shares.sum()) / weights.mean())
        points = course.values.shape[1]
        profile, there = course.at(np.repeat(times, points), np.tile(np.linspace(0, 1, points), count))
        self.shares = (there[::points] * weights).astype(np.float32)
        self._table(profile.reshape(count, points, -1))

    def _table(self, profile):
        """Place along the wall, radius and lean as tables over the height, a row for each instant."""
        height, radius, rise, widen = np.moveaxis(profile[..., :4], -1, 0)
        self.top, self.widest = float(height[:, -1].max()), float(radius.max())
        self.edge = float(radius[:, -1].max())
        length = float(np.hypot(np.diff(height), np.diff(radius)).sum(1).max()) * self.view.scale
        self.length = max(length, 1 / (OVER - 1))
        # The more instants are averaged, the coarser each one's table of heights may be.
        self.steps = max(1024 // len(profile), 128)
        self.step = OVER * max(self.top, 1e-6) / self.steps
        heights, along = (np.arange(self.steps) + 0.5) * self.step, np.linspace(0, 1, profile.shape[1])
        lean = widen / np.maximum(np.abs(rise), 1e-6)
        rows = []
        for each in zip(height, radius, lean, strict=True):
            rising = each[0] + 1e-9 * along
            place, *others = (np.interp(heights, rising, values) for values in (along, *each[1:]))
            # Over its edge the wall runs on, so that the edge itself lies where it should.
            place += np.maximum(heights - rising[-1], 0) / max(float(rising[-1]), 1e-6)
            rows.append((place, *others))
        self.along, self.radius, self.lean = np.array(rows, np.float32).transpose(1, 0, 2).reshape(3, -1)

    def seen(self, sign, uneven):
        """What is seen of its near half (sign 1) or its far half (-1); None if nothing.

        Parameters
        ----------
        sign : 1 or -1
        uneven : Uneven
        """
        highest = float(uneven.factor.max())
        window = self._window(highest)
        if window.empty:
            return None
        rays = _Rays(window, self, -sign)
        self._leave_out_what_passes(rays, highest)
        for _ in range(PASSES):
            rays.look_up(self)
            rays.meet(self, (uneven.factor.take(rays.column) - 1) * rays.up + 1)
        rays.look_up(self)
        cover = self._cover(rays)
        found = np.flatnonzero(cover > 0)
        rays.keep(found, "c e z radius entry cells across column along up")
        return self._shown(rays, cover[found], uneven, sign)

    def _leave_out_what_passes(self, rays, highest):
        """Keep the rays that come near the wall, had it its full height and width everywhere."""
        rays.meet(self)
        margin = 2 / self.view.scale
        # A foot that flares is wide but does not bulge: what is uneven grows up the wall.
        bulges = 0.35 * (highest - 1) * self.edge + margin
        height = rays.b + rays.e * rays.z
        near = (height > -margin) & (height < self.top * highest + margin) & (rays.rest > -2 * bulges * rays.radius)
        rays.keep(np.flatnonzero(near), "a b c e instant cells z radius entry")

    def _cover(self, rays):
        """Share of each element that the wall covers, times the share of the light that it has."""
        scale = np.float32(self.view.scale)
        # How far inside the outline an element lies, by the first-order rule f/|grad f|.
        outline = rays.rest * (scale / 2) / np.maximum(np.abs(rays.a), rays.radius * np.float32(0.1))
        edge = np.minimum(1 - rays.along, rays.along) * np.float32(self.length)
        foot = np.minimum(rays.height, 0) * scale + 1
        inside = np.minimum(np.minimum(edge, outline), foot) + np.float32(0.5)
        cover = np.minimum(np.maximum(inside, 0), 1) * self.shares.take(rays.instant)
        return cover if self.light.opening is None else cover * self._opened(rays)

    def _shown(self, rays, cover, uneven, sign):
        """Normals and area of the elements that see the wall."""
        cos, sin = rays.across, rays.z / rays.radius
        pick = np.minimum((rays.along * ROWS).astype(np.intp), ROWS - 1) * AROUND + rays.column
        turn, tilt, haze = (each.ravel().take(pick) for each in map_of(uneven.variant))
        lean = self.lean.take(rays.entry)
        facing = np.abs(cos * rays.c - lean * rays.e + sin) / np.sqrt(1 + lean * lean)
        lean = lean + np.float32(uneven.rough) * tilt
        norm = 1 / np.sqrt(1 + lean * lean)
        turn = np.float32(uneven.rough) * turn + uneven.ribs.take(rays.column) * rays.up
        # cos and sin of the turned angle to second order: turns are small.
        even = norm * (1 - np.float32(0.5) * turn * turn)
        turn = turn * norm
        normal = (cos * even - sin * turn, -lean * norm, sin * even + cos * turn)
        area = cover / np.maximum(facing, np.float32(EDGE_ON))
        return WallHits(rays.window, rays.cells, normal, rays.along, haze, area, sign)

    def _opened(self, rays):
        """Whether an element's row of the frame is open at its instant."""
        moment = self.moments[rays.instant]
        first, last = self.light.opening
        row = rays.window.top + rays.cells // rays.window.width + 0.5
        place = 1 - row / self.view.size[1]
        return (place >= first[moment]) & (place <= last[moment])

    def _window(self, factor):
        """The cells of the frame that may see it."""
        if self.top <= 0 or not self.shares.any():
            return Window(0, 0, 0, 0)
        wide = self.widest * (1 + 0.35 * (factor - 1))
        right, behind = self.place
        x, y, z = np.meshgrid([-wide, wide], [0, self.top * factor], [-wide, wide])
        column, row = self.view.place(x + right, y, z + behind)
        (left, width), (top, height) = (
            _span(each, limit) for each, limit in zip((column, row), self.view.size, strict=True)
        )
        return Window(left, top, width, height)


def _span(values, limit):
    first = int(np.clip(np.floor(values.min()) - 1, 0, limit))
    return first, int(np.clip(np.ceil(values.max()) + 1, first, limit)) - first


class _Rays:
    """Rays of the elements of a window: x = a + c z, y = b + e z from the wall's foot [m], z away from the camera.

    An element looks at one instant of the light. `side` is 1 for the wall's far half, -1 for its near one.
    """

    def __init__(self, window, wall, side):
        view, (right, behind) = wall.view, wall.place
        rows = np.arange(window.top, window.top + window.height)
        columns = np.arange(window.left, window.left + window.width)
        x = (columns + 0.5 - view.size[0] / 2) / view.scale
        y = (view.size[1] / 2 - rows - 0.5) / view.scale - view.eye + view.centre
        nearer = 1 + behind / view.distance
        self.a, self.c = (
            np.tile(part.astype(np.float32), window.height) for part in (x * nearer - right, x / view.distance)
        )
        self.b, self.e = (
            np.repeat(part.astype(np.float32), window.width) for part in (view.eye + y * nearer, y / view.distance)
        )
        across, down = columns % len(wall.pattern), rows % len(wall.pattern)
        self.instant = wall.pattern[np.ix_(down, across)].ravel()
        self.window, self.cells, self.side = window, np.arange(self.a.size), side
        self.z = np.float32(0)

    def meet(self, wall, stretch=1):
        """Find z where a ray meets a cylinder as wide as the wall, `stretch` times as high, is where the ray was."""
        self.height = self.b + self.e * self.z
        place = self.height * np.float32(1 / wall.step) / stretch
        place = np.minimum(np.maximum(place, 0), np.float32(wall.steps - 1))
        self.entry = place.astype(np.intp) + self.instant * wall.steps
        self.radius = wall.radius.take(self.entry) * (stretch * np.float32(0.35) + np.float32(0.65))
        steep = self.c * self.c + 1
        self.rest = steep * self.radius * self.radius - self.a * self.a
        self.z = (self.side * np.sqrt(np.maximum(self.rest, 0)) - self.c * self.a) / steep

    def look_up(self, wall):
        """Find where on the wall that is: round it, and up it."""
        self.across = np.minimum(np.maximum((self.a + self.c * self.z) / self.radius, -1), 1)
        self.column = _column_of(self.across, self.side)
        self.along = wall.along.take(self.entry)
        up = np.minimum(self.along, 1)
        self.up = up * np.sqrt(up)

    def keep(self, chosen, names):
        """Only some of the rays, and of what is known of them only what is named."""
        for name in names.split():
            setattr(self, name, getattr(self, name).take(chosen))


def _column_of(across, side):
    """Column of the maps of unevenness at a place right of the axis, -1 to 1, on the far half (1) or the near one."""
    place = np.minimum(np.maximum((across + 1) * np.float32(FINE / 2), 0), np.float32(FINE - 1)).astype(np.intp)
    return _columns()[side].take(place)


FINE = 4096


@lru_cache(maxsize=1)
def _columns():
    theta = np.arccos((np.arange(FINE) + 0.5) * 2 / FINE - 1)
    far = np.minimum((theta * (AROUND / (2 * np.pi))).astype(np.intp), AROUND // 2 - 1)
    return {1: far, -1: AROUND - 1 - far}


@lru_cache(maxsize=8)
def _ordered(side, count):
    """Numbers of `count` instants on a square, neighbours far apart, and any few of them evenly spread.

    The fractions of a x + b y, with 1/a the plastic number and b = a^2, fill an interval most evenly in the plane
    (M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018).
    """
    x, y = np.meshgrid(np.arange(side), np.arange(side))
    return (count * ((0.7548776662466927 * x + 0.5698402909980532 * y) % 1)).astype(np.intp)


def _pattern(moved, shuttered):
    """Which instant each element of a square looks at."""
    if moved <= 1 and not shuttered:
        return _ordered(1, 1)
    return _ordered(128, 16 if moved <= SHORT and not shuttered else 64)


@dataclass(frozen=True, eq=False)
class Uneven:
    """What makes a wall uneven: arrays over AROUND columns (height of the edge over the course's, turn of the normal
    beside ridges [rad]), which wrinkles, and how strong these are."""

    factor: np.ndarray
    ribs: np.ndarray
    variant: int = 0
    rough: float = 1.0
