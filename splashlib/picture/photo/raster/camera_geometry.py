"""Where a point of the set falls in the frame, and how far out of focus it is there."""

from dataclasses import dataclass, replace

import numpy as np

from splashlib.physics.light.lens import blur_disc
from splashlib.shoot import framed

LOWEST_EYE = 0.03
"""How far above the water the lens stands at least, as a share of its distance [-].

The lens is aimed level at the middle of the frame. Where that lies lower, the lens is shifted rather than
tilted, as still-life cameras do: a height in the plane of fall is a row here, by the magnification alone.
"""

LEAST = 16
"""Width of the coarsest frame [its cells]."""


@dataclass(frozen=True)
class View:
    """The camera's frame: `scale` [picture elements per m in the plane of fall], where the lens stands [m].

    `lens` holds focal length [m], f-number, distance in focus [m] and width of the sensor [m].
    """

    size: tuple[int, int]
    scale: float
    centre: float
    distance: float
    eye: float
    lens: tuple[float, float, float, float]

    @classmethod
    def of(cls, setup, size):
        """The frame of a set-up, drawn `size` (width, height) picture elements large."""
        camera = setup.camera
        return cls(
            size=size,
            scale=size[0] / framed(setup).width,
            centre=camera.frame_centre,
            distance=camera.distance,
            eye=max(camera.frame_centre, LOWEST_EYE * camera.distance),
            lens=(camera.focal_length, camera.aperture, camera.focus_distance, camera.sensor_width),
        )

    def coarser(self, cell):
        """The same frame in cells about so many picture elements wide."""
        width = max(round(self.size[0] / cell), min(LEAST, self.size[0]))
        share = width / self.size[0]
        return replace(self, size=(width, max(round(self.size[1] * share), 1)), scale=self.scale * share)

    def column(self, x):
        """Column of a place in the plane of fall, x [m] to the right of its middle."""
        return self.size[0] / 2 + x * self.scale

    def row(self, height):
        """Row of a height over the water [m] in the plane of fall; rows grow downwards."""
        return self.size[1] / 2 - (height - self.centre) * self.scale

    def place(self, x, y, z):
        """Columns and rows of points [m]: x to the right, y over the water, z behind the plane of fall."""
        nearer = self.distance / (self.distance + z)
        column = self.size[0] / 2 + self.scale * x * nearer
        row = self.size[1] / 2 - self.scale * (self.eye - self.centre + (y - self.eye) * nearer)
        return column, row

    def blur_disc(self, z=0.0):
        """Diameter of the disc to which a point at depth z [m] is spread [picture elements]."""
        focal_length, aperture, focus, sensor = self.lens
        disc = blur_disc(
            np.maximum(self.distance + z, 1e-3),
            focus_distance=focus,
            focal_length=focal_length,
            aperture=aperture,
        )
        return disc * self.size[0] / sensor
