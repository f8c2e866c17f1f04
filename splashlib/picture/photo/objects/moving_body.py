"""The body as one light finds it: where it is at every instant, smeared by its fall, out of focus, in the water."""

import numpy as np

from splashlib.picture.photo.objects import body_sprite as bodies
from splashlib.picture.photo.raster.defocus import defocused
from splashlib.picture.photo.raster.smear import smeared
from splashlib.picture.photo.water.surface import near_edge

SEEN_THROUGH_WATER = np.array([0.68, 0.83, 0.86], np.float32)


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
        view, drop = self.view, self.scene.setup.drop
        shape = self.scene.body(view.scale * self.nearer)
        whole = int(np.floor(self.middle))
        picture = bodies.sprite(shape, (round((self.middle - whole) * 8) / 8, 0.0), self.light.lamp)
        rows = view.place(0.0, self.heights + drop.height / 2, self.scene.behind)[1]
        tops = np.where(there, rows - len(picture) / bodies.FINE / 2, 1e6)
        margin = self._margin()
        first, smear = smeared(
            picture, fine=bodies.FINE, tops=tops + margin, light=self.light, height=view.size[1] + 2 * margin
        )
        if not len(smear):
            return
        self.picture, margin_out = defocused(smear, self._disc())
        self.first = first - margin - margin_out
        self.left = whole - picture.shape[1] // 2 - margin_out

    def _disc(self):
        return float(self.view.blur_disc(self.scene.behind))

    def _margin(self):
        """Rows beyond the frame that its blur brings in."""
        return int(np.ceil(self._disc())) if self.light.opening is None else 0

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
