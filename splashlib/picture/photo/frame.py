"""One light's share of the photograph: the still set, and over it everything that moves, from back to front."""

from functools import cached_property

import numpy as np

from splashlib.picture.photo.lights import FAINTEST
from splashlib.picture.photo.objects.moving_body import BodyPicture
from splashlib.picture.photo.objects.resting_set import MILK, Pool, still
from splashlib.picture.photo.raster import optics
from splashlib.picture.photo.raster.defocus import enlarged
from splashlib.picture.photo.raster.layers import SOFT_FROM, lay
from splashlib.picture.photo.water.column import heads, jet_clouds, jet_course
from splashlib.picture.photo.water.crown_edge import Edge, beads, rim_pieces, thread_pieces
from splashlib.picture.photo.water.crown_sheet import crown_course, sheets
from splashlib.picture.photo.water.droplet_clouds import ball_clouds, flying
from splashlib.picture.photo.water.strands import strands
from splashlib.picture.photo.water.surface import surface_of
from splashlib.picture.photo.water.surface_waves import swell_pieces
from splashlib.picture.photo.water.underwater import cavity_cloud, cavity_course

CLEAR = np.array([0.95, 0.985, 1.0], np.float32)
DEEP = np.array([0.80, 0.97, 1.0], np.float32)
SKY = optics.Lamp(optics.unit((0.0, 0.9, -0.3)), 1.0, 0.6)
"""The even light of a room as clear water sees it: a broad pale ceiling."""

FASTEST = 1.5
"""Speed of the fastest thing in a splash, in that of the impact."""

WIDEST = 1800.0
"""Radius of crown or cavity [picture elements] up to which they are drawn element by element."""

LONGEST_SPLASH = 0.07
"""Exposures longer than this [s] leave of a splash in a room's light only a breath, which is not drawn."""


class LightFrame:
    """Collects the light of one source on the frame; radiances are in the light's own unit."""

    def __init__(self, scene, view, light):
        self.scene, self.view, self.light = scene, view, light
        self.lamp = light.lamp or SKY
        self.liquid = "milk" if scene.setup.drop.form == "milk" else "water"
        self.tint = MILK if self.liquid == "milk" else CLEAR
        pool = Pool.of(scene.setup)
        self.surface = surface_of(view, pool)
        self.resting = still(view, pool, light.lamp)

    @cached_property
    def image(self):
        """What has been laid over the still set so far."""
        image = self.resting.copy()
        share = self.light.open_at(np.arange(self.view.size[1]), self.view.size[1])
        if share is not None:
            image *= share.astype(np.float32)[:, None]
        return image

    def drawn(self):
        """The radiance that this light alone gives; not to be changed where it is the kept picture of the still set."""
        if self._shows_water():
            knots = self._knots()
            crown = crown_course(self.scene, knots)
            cavity = cavity_course(self.scene, knots) if self.liquid == "water" else None
            widest = max(float(course.values[..., 1].max()) for course in (crown, cavity) if course)
            if widest * self.view.scale > WIDEST:
                return self._enlarged(widest * self.view.scale / WIDEST, knots, crown, cavity)
            self._lay_all(knots, crown, cavity)
        elif self._shows_body():
            self.lay_body(self.image)
        elif self.light.opening is None:
            return self.resting
        return self.image

    def _enlarged(self, cell, knots, crown, cavity):
        """As `drawn`, on cells so many picture elements wide: a splash far wider than the frame."""
        coarse = LightFrame(self.scene, self.view.coarser(cell), self.light)
        coarse._lay_all(knots, crown, cavity)
        drawn = coarse.image
        size = self.view.size
        made = enlarged(np.moveaxis(drawn, 0, -1), 0, 0, size[0] / drawn.shape[2], size)[0]
        return np.ascontiguousarray(np.moveaxis(made, -1, 0))

    def _lay_all(self, knots, crown, cavity):
        body = BodyPicture(self.scene, self.view, self.light)
        if self.liquid == "water":
            body.lay_under(self.image, self.surface)
            self._lay_cavity(cavity)
        far, near = self._water(knots, crown)
        if self.liquid == "water" and body.is_under():
            # Nothing opaque stands between the drops behind and those in front.
            (behind, soft), (before, softer) = far[2], near[2]
            far, near = (*far[:2], ([], soft)), (*near[:2], ([*behind, *before], softer))
        self._lay(*far, crown)
        body.lay_over(self.image)
        self._reflect()
        self._lay(*near, crown, sign=-1)

    def lay_body(self, image, strength=1.0):
        """Lay the body alone on an image, over and under the water."""
        body = BodyPicture(self.scene, self.view, self.light, strength)
        if self.liquid == "water":
            body.lay_under(image, self.surface)
        body.lay_over(image)

    def _shows_body(self):
        """Whether the body leaves a ghost that can be seen: a lasting light finds it at each place only briefly."""
        scene = self.scene
        passing = scene.setup.drop.height / scene.impact.speed
        share = min(1.0, passing / scene.setup.camera.exposure_time)
        return self.light.strength * share > FAINTEST

    def _shows_water(self):
        """Whether moving water is seen: in a flash always, in a room's light only if that is strong and short."""
        if self.light.lamp is not None:
            return True
        lasts = self.scene.setup.camera.exposure_time
        return lasts <= LONGEST_SPLASH and self.light.strength > 20 * FAINTEST

    def _knots(self):
        """Times at which shapes are computed; in between they move on straight lines."""
        first, last = self.light.span
        # The first droplets are about as fast as the impact; less than an element is not seen.
        if FASTEST * self.scene.impact.speed * (last - first) * self.view.scale < 1:
            return np.array([(first + last) / 2])
        count = int(np.clip(2 + (last - first) / 0.0015, 2, 24))
        return np.linspace(first, last, count)

    def _water(self, knots, crown):
        """What is behind the axis and in front of it, each as (strands, sheet, balls)."""
        scene, view, light, lamp, liquid = self.scene, self.view, self.light, self.lamp, self.liquid
        halves = sheets(scene, view, crown, light, lamp, liquid)
        threads, balls = self._strands(knots, crown)
        column = jet_course(scene, knots)
        jet = jet_clouds(scene, view, column, light, lamp, liquid)
        self.grain = max(self._grain(crown), self._grain(column))
        drops = ball_clouds(view, [*balls, heads(scene, knots), flying(scene, knots)], knots, light, lamp, liquid)
        return [([*threads[number], *(jet if number == 0 else [])], halves[number], drops[number]) for number in (0, 1)]

    def _strands(self, knots, crown):
        """Clouds of rim, threads and swell, behind the axis and in front of it, and groups of beads."""
        sets, balls = [], []
        if crown.there.any():
            edge = Edge(self.scene, self.view, crown, self.light)
            sets.append([*zip(rim_pieces(edge), thread_pieces(edge), strict=True)])
            balls.append(beads(edge, knots))
        if self.light.lamp is not None:
            rings = swell_pieces(self.scene, self.view, crown, self.light)
            sets.append([rings[0::2], rings[1::2]])
        if len(sets) == 2 and edge.lanes is None:
            sets = [[[*sets[0][side], *sets[1][side]] for side in (0, 1)]]
        made = [strands(each, self.view.size, self.lamp, self.liquid) for each in sets if each[0]]
        return [[cloud for clouds in made for cloud in clouds[side]] for side in (0, 1)], balls

    def _lay(self, strands, sheet, balls, crown, sign=1):
        """Lay one side of the axis; balls bring their own blur, the others share one."""
        middle = 0.6 * sign * float(crown.values[:, -1, 1].max())
        disc = max(float(self.view.blur_disc(middle + self.scene.behind)), self.grain)
        clouds, soft = balls
        for layer in soft if sign > 0 else []:
            lay(self.image, [], self.light, tint=self.tint, painted=layer)
        if disc < SOFT_FROM:
            lay(self.image, [*strands, *clouds], self.light, tint=self.tint, painted=sheet)
        else:
            lay(self.image, strands, self.light, tint=self.tint, painted=sheet, disc=disc)
            lay(self.image, clouds, self.light, tint=self.tint)
        for layer in soft if sign < 0 else []:
            lay(self.image, [], self.light, tint=self.tint, painted=layer)

    def _grain(self, course):
        """Disc that hides the grain of samples spread over the motion of a wall's edge [picture elements]."""
        edge = course.values[:, -1, :2]
        return grain(np.abs(edge[-1] - edge[0]).sum() * self.view.scale)

    def _lay_cavity(self, course):
        cloud = cavity_cloud(self.scene, self.view, course, self.light, self.lamp)
        moved = np.abs(course.values[-1, 0, 0] - course.values[0, 0, 0]) * self.view.scale
        disc = max(float(self.view.blur_disc(self.scene.behind)), grain(moved))
        lay(self.image, [cloud], self.light, tint=DEEP, disc=disc, rows=self.surface.through)

    def _reflect(self):
        """Mirror what stands over the water in the near part of the surface."""
        waterline, front = self.surface.waterline, self.surface.front
        count = min(front - waterline, waterline)
        if count < 1:
            return
        over = slice(waterline - count, waterline)
        risen = self.image[:, over] - self.resting[:, over]
        # Ripples break the image up, the more the farther it is from the thing itself.
        still_share = np.linspace(0.75, 0.35, count, dtype=np.float32)
        share = (self.surface.mirrored[waterline : waterline + count] * still_share)[:, None]
        self.image[:, waterline : waterline + count] += share * np.clip(risen[:, ::-1], 0, 1.5)


def grain(moved):
    """Disc that hides the grain of samples which are spread over a motion [picture elements, both]."""
    return min(2.4 + moved / 20, 7.0) if moved > 1 else 0.0
