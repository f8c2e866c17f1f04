"""The body as one light finds it: where it is at every instant, smeared by its fall, out of focus, in the water."""

import math

import numpy as np

from splashlib.picture.photo.objects import body_sprite as bodies
from splashlib.picture.photo.raster.defocus import CELLS, LARGE, defocused, enlarged
from splashlib.picture.photo.raster.smear import smeared
from splashlib.picture.photo.water.surface import near_edge

SEEN_THROUGH_WATER = np.array([0.68, 0.83, 0.86], np.float32)

WHOLE = 300_000
"""Cells up to which the body is drawn whole, also what lies beyond the frame."""

MOST = 400_000
"""Cells of the body's sprite at most; a body that is larger in the frame is drawn on coarser ones."""

FAR = 1e7
"""A row [picture elements] where a body stands that is there no more."""


class BodyPicture:
    """The body's picture in one light, ready to be laid over or under the surface.

    `strength` is how much it covers what is behind it, 1 for a solid body.
    """

    def __init__(self, scene, view, light, strength=1.0):
        self.scene, self.view, self.light, self.strength = scene, view, light, np.float32(strength)
        self.nearer = view.distance / (view.distance + scene.behind)
        self.heights = scene.heights(light.times)
        self.middle = float(view.place(scene.across, 0.0, scene.behind)[0])
        self.first, self.left, self.picture = 0, 0, None
        self._draw()

    def _draw(self):
        there = ~self.scene.merged(self.light.times)
        if not there.any():
            return
        rows = self.view.place(0.0, self.heights + self.scene.setup.drop.height / 2, self.scene.behind)[1]
        cell = max(self._disc() / CELLS, 1.0) if self._disc() > LARGE else 1.0
        shape, part = self._part(rows[there], cell)
        cells = (part[1] - part[0]) * (part[3] - part[2])
        if cells > MOST:
            cell *= math.sqrt(cells / MOST)
            shape, part = self._part(rows[there], cell)
        if part[0] < part[1] and part[2] < part[3]:
            self._paint(shape, part, np.where(there, rows, FAR), cell)

    def _part(self, rows, cell):
        """The body on cells so many picture elements wide, and the part of its sprite that the frame may see.

        `rows` are those of the body's middle while it is there.
        """
        shape = self.scene.body(self.view.scale * self.nearer / cell)
        tall, wide = bodies.whole(shape)
        margin = math.ceil(self._disc() / cell) + 2
        left = math.floor(self.middle / cell) - wide // 2
        upper, lower = (float(edge) / cell - tall / bodies.FINE / 2 for edge in (rows.min(), rows.max()))
        down, across = self.view.size[1] / cell, self.view.size[0] / cell
        first, last = math.floor(-margin - lower), math.ceil(down + margin - upper)
        begin, end = -margin - left, math.ceil(across) + margin - left
        part = (max(first * bodies.FINE, 0), min(last * bodies.FINE, tall), max(begin, 0), min(end, wide))
        # A small sprite is made whole, so that the next picture finds it.
        return shape, part if tall * wide > WHOLE or part[0] >= part[1] or part[2] >= part[3] else (0, tall, 0, wide)

    def _paint(self, shape, part, rows, cell):
        """Smear that part over the instants of the light, and spread it by the lens."""
        middle, size = self.middle / cell, self.view.size
        tall, wide = bodies.whole(shape)
        offset = round((middle - math.floor(middle)) * 8) / 8
        picture = bodies.sprite(shape, (offset, 0.0), self.light.lamp, part)
        tops = rows / cell - tall / bodies.FINE / 2 + part[0] / bodies.FINE
        margin = math.ceil(self._disc() / cell) if self.light.opening is None else 0
        height = math.ceil(size[1] / cell) + 2 * margin
        first, smear = smeared(picture, fine=bodies.FINE, tops=tops + margin, light=self.light, height=height)
        if not len(smear):
            return
        picture, margin_out = defocused(smear, self._disc() / cell)
        first, left = first - margin - margin_out, math.floor(middle) - wide // 2 + part[2] - margin_out
        if cell > 1:
            picture, first, left = enlarged(picture, first, left, cell, size)
        self.first, self.left, self.picture = first, left, picture

    def _disc(self):
        return float(self.view.blur_disc(self.scene.behind))

    def is_under(self):
        """Whether nothing of the body is to be seen over the water."""
        return self.picture is None or float(self.heights.max()) < -self.scene.setup.drop.height

    def lay_over(self, image):
        """Lay what is over the water on the image."""
        if self.picture is not None:
            self._lay(image, lambda rows, edge: np.clip(edge - rows, 0, 1), (1, 1, 1))

    def lay_under(self, image, surface):
        """Lay what is under the water on the image, as far as the surface lets it be seen."""
        if self.picture is not None:
            through = surface.through[:, None]

            def share(rows, edge):
                return np.clip(rows + 1 - edge, 0, 1) * through[rows[:, 0]]

            self._lay(image, share, SEEN_THROUGH_WATER)

    def _lay(self, image, share, tint):
        height, width = image.shape[1:]
        y0, y1 = max(self.first, 0), min(self.first + len(self.picture), height)
        x0, x1 = max(self.left, 0), min(self.left + self.picture.shape[1], width)
        if y0 >= y1 or x0 >= x1:
            return
        cut = self.picture[y0 - self.first : y1 - self.first, x0 - self.left : x1 - self.left]
        shown = share(np.arange(y0, y1)[:, None], self._edge(np.arange(x0, x1))[None, :]).astype(np.float32)
        if not shown.any():
            return
        shown *= self.strength
        kept = 1 - cut[..., 3] * shown
        for number, plane in enumerate(image):
            part = plane[y0:y1, x0:x1]
            part *= kept
            part += cut[..., number] * (shown * tint[number])

    def _edge(self, columns):
        """The row where the body meets the water, column by column, at the middle of the light."""
        drop = self.scene.setup.drop
        height = self.light.at_middle(self.heights)
        along = np.clip(-2 * height / drop.height - 1, -1, 1)
        section = np.sqrt(1 - along**2)
        half = section * drop.breadth / 2
        depth = section * drop.diameter / 2 - self.scene.behind
        return near_edge(self.view, columns, self.middle, half * self.view.scale, depth)
