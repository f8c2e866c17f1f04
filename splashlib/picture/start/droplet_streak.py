"""A droplet as the flash draws it: a point when the light is short, a streak when it is long."""

import numpy as np

from splashlib.picture.kit import style

MM = 1000.0
ACROSS, ALONG = 30, 168  # picture elements of the small image; enough for a smooth edge at panel size


class DropletStreak:
    """Draws one droplet, moving to the right while the light lasts, on a window of the set.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    width : float, of the window [m]
    diameter : float, of the droplet [m]
    """

    def __init__(self, axes, *, width, diameter):
        self.axes, self.width, self.diameter = axes, width, diameter
        height = width * ACROSS / ALONG
        axes.set(xlim=(0, MM * width), ylim=(0, MM * height), yticks=[], aspect="equal")
        axes.set_xlabel("mm on the set")
        axes.set_facecolor(style.NIGHT)
        for side in axes.spines.values():
            side.set_visible(False)
        self.x = (np.arange(ALONG) + 0.5) * width / ALONG
        y = (np.arange(ACROSS) + 0.5) * height / ACROSS - height / 2
        self.chord = np.sqrt(np.clip((diameter / 2) ** 2 - y**2, 0, None))[:, None]
        self.image = axes.imshow(
            np.zeros((ACROSS, ALONG)),
            cmap="gray",
            vmin=0,
            vmax=1,
            origin="lower",
            zorder=1,
            extent=(0, MM * width, 0, MM * height),
            interpolation="bilinear",
        )
        self.moving = [self.image]

    def move(self, places):
        """Draw the droplet at every place where an equal share of the light finds it.

        Parameters
        ----------
        places : array, ways of the droplet since the light began, one for each equal share of the light [m]
        """
        start = max(0.0008, self.diameter)
        across = self.x[None, :, None] - start - (places - places[0])[None, None, :]
        depth = (self.chord[:, :, None] - np.abs(across)) / (self.width / ALONG) + 0.5
        light = (np.clip(depth, 0, 1) * (self.chord > 0)[:, :, None]).mean(axis=2)
        self.image.set_data(light ** (1 / 2.2))
