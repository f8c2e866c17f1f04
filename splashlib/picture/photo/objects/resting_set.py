"""The set at rest: dark backdrop, glass vase, water, drawn once for each light and kept.

All values are radiances in the light that they are drawn for, 1 a white card that faces it.
"""

from dataclasses import dataclass

import numpy as np

from splashlib.physics.constants import WATER_INDEX
from splashlib.physics.light.clear_surface import fresnel_reflectance
from splashlib.picture.photo.raster.kept_results import kept

SLATE = np.array([0.52, 0.74, 1.0], np.float32)
DEEP = np.array([0.30, 0.78, 0.95], np.float32)
GLASS = np.array([0.86, 1.0, 0.96], np.float32)
MILK = np.array([1.0, 0.985, 0.94], np.float32)


@dataclass(frozen=True)
class Pool:
    """The vessel and what stands in it [m]; `milk` True for an opaque white pool."""

    width: float
    depth: float
    rim: float
    glass: float
    milk: bool

    @classmethod
    def of(cls, setup):
        """The pool of a set-up: a drop of milk falls into milk, everything else into water."""
        vessel = setup.vessel
        return cls(vessel.width, vessel.depth, vessel.rim, vessel.glass, setup.drop.form == "milk")


@kept(megabytes=32)
def still(view, pool, lamp):
    """The resting set in the light of one lamp, or of an even room when `lamp` is None.

    Parameters
    ----------
    view : View
    pool : Pool
    lamp : optics.Lamp or None

    Returns
    -------
    float32 array (3, height, width), not to be changed
    """
    width, height = view.size
    x = ((np.arange(width, dtype=np.float32) + 0.5) - width / 2) / view.scale
    y = view.centre - ((np.arange(height, dtype=np.float32) + 0.5) - height / 2) / view.scale
    resting = _Set(view, pool, lamp, x, y)
    resting.draw()
    resting.image.setflags(write=False)
    return resting.image


class _Set:
    """Draws the parts one over the other; x and y are places in the plane of fall [m]."""

    def __init__(self, view, pool, lamp, x, y):
        self.view, self.pool, self.lamp, self.x, self.y = view, pool, lamp, x[None, :], y[:, None]
        self.image = np.empty((3, len(y), len(x)), np.float32)
        self.half = pool.width / 2
        self.near, self.far = self._nearer(-self.half), self._nearer(self.half)
        self.side = 0.0 if lamp is None else lamp.direction[0]
        self.back = 0.5 if lamp is None else max(lamp.direction[2], 0)

    def draw(self):
        """Draw everything, from back to front."""
        self._draw_backdrop()
        self._draw_water()
        self._draw_vase()
        if self.lamp is not None and self.lamp.direction[2] < -0.4:
            self._draw_camera_in_glass()

    def _nearer(self, z):
        """How much larger a thing at depth z is drawn than in the plane of fall."""
        return self.view.distance / max(self.view.distance + z, 0.2 * self.view.distance)

    def _level(self, height, nearer):
        """Height in the plane of fall at which a height on a nearer or farther plane is drawn [m]."""
        return self.view.eye + (height - self.view.eye) * nearer

    def _draw_backdrop(self):
        """A dark ground with a broad, dim pool of light on the side away from the lamp."""
        wide, tall = 0.55 * self.view.size[0] / self.view.scale, 0.62 * self.view.size[1] / self.view.scale
        across = (self.x + 0.28 * wide * self.side) / wide
        glow = np.exp(-(across**2)) * np.exp(-(((self.y - self.view.centre - 0.12 * tall) / tall) ** 2))
        strength = 0.30 if self.lamp is None else 0.011 + 0.045 * self.back
        dark = 0.05 if self.lamp is None else 0.0016
        ground = np.float32(dark) + np.float32(strength) * glow
        for plane, colour in zip(self.image, SLATE, strict=True):
            np.multiply(ground, colour, out=plane)

    def _draw_water(self):
        """What is seen through the front glass below the waterline, and the surface seen from above."""
        front, back = self._level(0, self.near), self._level(0, self.far)
        floor = self._level(-self.pool.depth, self.near)
        inside = self._soft(self.half * self.near - np.abs(self.x), self.near)
        under = self._soft(front - self.y, self.near) * inside
        on_top = (1 - under) * self._soft(back - self.y, self.far) * self._inside_at(self.y)
        self._lay(on_top, *self._surface())
        self._lay(under, self._body_of_water(front), MILK if self.pool.milk else DEEP)
        self.image *= 1 - 0.75 * self._soft(floor - self.y, self.near)
        self._line(front, self.near, 0.0009, 0.13, inside)
        self._line(back, self.far, 0.0007, 0.04, self._soft(self.half * self.far - np.abs(self.x)))

    def _body_of_water(self, front):
        depth = np.maximum(front - self.y, 0)
        deep = np.minimum(depth / 0.08, 1)
        if self.pool.milk:
            facing = 0.5 if self.lamp is None else 0.10 + 0.55 * max(-self.lamp.direction[2], 0)
            return facing * (1 + 0.5 * np.clip(self.x * self.side / self.half, -1, 1)) * (1 - 0.35 * deep)
        glow = np.exp(-(((self.x + 0.4 * self.half * self.side) / (1.1 * self.half)) ** 2))
        strength = 0.32 if self.lamp is None else 0.022 + 0.05 * self.back
        return strength * (0.10 + glow) * ((1 - 0.72 * deep) * (1 + 0.4 * np.exp(-depth / 0.006)))

    def _surface(self):
        """The surface mirrors what lies beyond it, more the flatter it is seen, and lets the rest of it through."""
        nearer = np.clip((self.view.eye - self.y) / self.view.eye, 0.05, 20)
        sine = self.view.eye / np.hypot(self.view.eye, self.view.distance / nearer)
        share = fresnel_reflectance(np.clip(sine, 0, 1), index=WATER_INDEX)
        if self.pool.milk:
            light = 0.8 if self.lamp is None else 0.86 * max(self.lamp.direction[1], 0.05)
            slant = 1 + 0.35 * abs(self.side) * np.clip(self.x * np.sign(self.side) / self.half, -1, 1)
            return share * 0.02 + (1 - share) * light * slant, MILK
        beyond = self.image[0, : max(1, int(self.view.row(0)))].mean() / SLATE[0] * 0.9
        through = 0.004 if self.lamp is not None else 0.06
        return share * beyond + (1 - share) * through, SLATE

    def _draw_vase(self):
        """Edges of the glass: upright corners and rim, the near ones broader and softer."""
        top, floor = self.pool.rim, -self.pool.depth
        for nearer, bright in ((self.far, 0.014), (self.near, 0.055)):
            reach = self._soft(self._level(top, nearer) - self.y) * self._soft(self.y - self._level(floor, nearer))
            upright = 0
            for sign in (-1, 1):
                for wall in (0, self.pool.glass):
                    place = sign * (self.half + wall) * nearer
                    upright = upright + (1 + 0.8 * sign * self.side) * self._ridge(self.x - place, nearer, 0.0005)
            self._add(bright * reach * upright, GLASS)
            rim = self._soft((self.half + self.pool.glass) * nearer - np.abs(self.x))
            self._line(self._level(top, nearer), nearer, 0.0007, 0.8 * bright, rim)

    def _draw_camera_in_glass(self):
        """The rim of the lens, mirrored in the front glass: out of focus, two faces of 4 %."""
        view = self.view
        away = 2 * (view.distance - self.half)
        scale = view.distance / away
        radius = 0.030 * scale
        soft = max(float(view.blur_disc(away - view.distance)) / view.scale, 0.2 * radius)
        place = np.hypot(self.x, self.y - view.eye)
        ring = np.exp(-(((place - radius) / (0.35 * soft + 0.1 * radius)) ** 2))
        spot = np.exp(-((place / (0.4 * radius + 0.3 * soft)) ** 2))
        glass = self._soft(self._level(self.pool.rim, self.near) - self.y)
        glass = glass * self._soft(self.half * self.near - np.abs(self.x))
        spread = min(1.0, 0.45 * radius / soft)
        self._add(spread * glass * (0.050 * ring + 0.018 * spot), (1, 0.97, 0.92))

    def _inside_at(self, y):
        """The surface is bounded by the side walls, which run towards each other into the depth."""
        nearer = np.clip((self.view.eye - y) / self.view.eye, 0.05, 20)
        return self._soft(self.half * nearer - np.abs(self.x))

    def _soft(self, distance, nearer=1.0):
        """1 inside, 0 outside, for a signed distance [m]; the edge is as wide as the blur of its depth."""
        z = self.view.distance / nearer - self.view.distance
        wide = max(float(self.view.blur_disc(z)), 1.0)
        share = np.clip(distance * np.float32(self.view.scale / wide) + np.float32(0.5), 0, 1)
        return share * share * (3 - 2 * share)

    def _lay(self, cover, light, tint):
        """Lay a coloured layer over the image as far as it covers."""
        for plane, colour in zip(self.image, tint, strict=True):
            plane += cover * (light * colour - plane)

    def _add(self, light, tint):
        for plane, colour in zip(self.image, tint, strict=True):
            plane += light * np.float32(colour)

    def _ridge(self, distance, nearer, half_width):
        """Brightness across a line of light, spread by the blur of its depth but with its light kept."""
        z = self.view.distance / nearer - self.view.distance
        width = max(half_width * nearer, 0.6 / self.view.scale)
        blurred = float(np.hypot(width, 0.5 * self.view.blur_disc(z) / self.view.scale))
        return np.exp(-((distance / blurred) ** 2)) * (width / blurred)

    def _line(self, level, nearer, half_width, bright, reach):
        lit = 1 - 0.45 * self.side * np.clip(-self.x / self.half, -1, 1)
        self._add(
            (lit * reach) * (bright * self._ridge(self.y - level, nearer, half_width)),
            MILK if self.pool.milk else GLASS,
        )
