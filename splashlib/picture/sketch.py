"""A plain drawing of what the camera records of one drop: body, water, band or nothing.

It has the call of a photograph, `sketch(setup, size=...)` to pixels, so that either can stand in a panel.
"""

import math

import numpy as np
from PIL import Image, ImageDraw

from splashlib.physics.water_entry import crown_outline, jet_outline
from splashlib.shoot.chain import events, open_rows
from splashlib.shoot.motion import impact_of
from splashlib.shoot.view import framed, sees

FINE = 2  # drawn so many times larger, for smooth edges
BLACK = (5, 7, 9)
NIGHT, DEEP = (27, 39, 50), (10, 38, 58)
WATER, WALL = (16, 70, 104), (120, 135, 146)
SURFACE, SHEET = (150, 205, 235), (185, 215, 235)
FRUIT, GLOW, LIMB = (226, 104, 14), (255, 176, 92), (150, 60, 4)


def sketch(setup, *, size=(240, 160)):
    """Draw the frame of the nominal drop.

    Parameters
    ----------
    setup : Setup
    size : (int, int), width and height [pixels]

    Returns
    -------
    uint8 array (height, width, 3); black where the light finds the frame covered

    Notes
    -----
    To scale: the framed area, the body where half of the first head's light finds it, crown and jet where the
    likely stages have them. Blur, exposure, depth of field and chance are left to the photograph.
    """
    seen = sees(setup)
    if not seen.lit > 0:
        return np.full((size[1], size[0], 3), BLACK, np.uint8)
    large = FINE * size[0], FINE * size[1]
    pen = _Pen(setup, large)
    pen.set_and_water()
    pen.body(seen.height)
    pen.splash(seen.after_contact)
    image = np.asarray(pen.image.reduce(FINE))
    return _covered(setup, seen.light, image) if seen.lit < 1 else image


def _covered(setup, light, image):
    """Blacken the rows that a curtain covers; the picture's lower edge is uncovered first."""
    first, last = open_rows(setup, light - float(events(setup).curtain_starts[0]))
    place = 1 - (np.arange(len(image)) + 0.5) / len(image)
    image = image.copy()
    image[(place < first) | (place > last)] = BLACK
    return image


class _Pen:
    """Draws in metres over the water on a picture of the framed area."""

    def __init__(self, setup, size):
        frame = framed(setup)
        self.setup, self.size, self.top = setup, size, frame.top
        self.scale = size[1] / (frame.top - frame.bottom)
        self.image = Image.new("RGB", size, NIGHT)
        self.draw = ImageDraw.Draw(self.image, "RGBA")

    def at(self, across, height):
        """Pixels of a place."""
        return self.size[0] / 2 + self.scale * across, self.scale * (self.top - height)

    def points(self, across, heights):
        return [self.at(x, z) for x, z in zip(across, heights, strict=True)]

    def set_and_water(self):
        vessel, (wide, tall) = self.setup.vessel, self.size
        half, surface = vessel.width / 2, self.at(0, 0)[1]
        left, right = self.at(-half, 0)[0], self.at(half, 0)[0]
        self.draw.rectangle((0, surface, wide, tall), fill=DEEP)
        self.draw.rectangle((left, surface, right, tall), fill=WATER)
        for x in (left, right):
            self.draw.line((x, self.at(0, vessel.rim)[1], x, tall), fill=WALL, width=2)

    def body(self, height):
        drop = self.setup.drop
        x0, y1 = self.at(-drop.breadth / 2, height)
        x1, y0 = self.at(drop.breadth / 2, height + drop.height)
        if y1 < 0 or y0 > self.size[1]:
            return
        self.draw.ellipse((x0, y0, x1, y1), fill=LIMB)
        wide, tall = x1 - x0, y1 - y0
        # The lamp stands at the left: each smaller ellipse lies nearer to it, and is brighter.
        for step in np.linspace(0, 1, 12):
            size, shift = 0.97 - 0.72 * step, 0.16 * step
            tone = tuple(round((1 - step) * a + step * b) for a, b in zip(FRUIT, GLOW, strict=True))
            cx, cy = x0 + wide * (0.5 - shift), y0 + tall * (0.5 - shift)
            self.draw.ellipse(
                (cx - wide * size / 2, cy - tall * size / 2, cx + wide * size / 2, cy + tall * size / 2), fill=tone
            )

    def splash(self, after):
        """The surface over what is under it, then what the water throws up."""
        wide, tall = self.size
        surface = self.at(0, 0)[1]
        self.draw.rectangle((0, surface, wide, tall), fill=(*WATER, 120))
        half = self.setup.vessel.width / 2
        self.draw.line((self.at(-half, 0), self.at(half, 0)), fill=SURFACE, width=FINE + 1)
        if not after > 0:
            return
        stages = events(self.setup).stages
        if math.isfinite(_date(stages, "crown_peak")):
            self._crown(*crown_outline(impact_of(self.setup), after)[:2])
        if math.isfinite(_date(stages, "jet_peak")):
            self._jet(*jet_outline(impact_of(self.setup), after))

    def _crown(self, heights, radii):
        if len(heights) < 2:
            return
        ring = self.points(np.concatenate([-radii, radii[::-1]]), np.concatenate([heights, heights[::-1]]))
        self.draw.polygon(ring, fill=(*SHEET, 70))
        for side in (-1, 1):
            self.draw.line(self.points(side * radii, heights), fill=(*SHEET, 235), width=2 * FINE)
        self.draw.line((ring[len(radii) - 1], ring[len(radii)]), fill=(*SHEET, 150), width=FINE)

    def _jet(self, heights, radii):
        if len(heights) < 2:
            return
        column = self.points(np.concatenate([-radii, radii[::-1]]), np.concatenate([heights, heights[::-1]]))
        self.draw.polygon(column, fill=(*SHEET, 225))


def _date(stages, name):
    """When a stage comes [s], nan when it does not."""
    return float(stages[name][0]) if name in stages else math.nan
