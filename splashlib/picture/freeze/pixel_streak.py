"""A droplet in its streak as the pixels of the camera hold it, each pixel enlarged to a small square."""

import numpy as np
from matplotlib.patches import Rectangle

from splashlib.physics.light.blur import bar_profile
from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import Pixels
from splashlib.picture.kit.lettering import write

GAMMA = 1 / 2.2
GRID = 14.0  # brightness of the ground, and how far the grid of pixels stands out from it [of 255]


class PixelStreak:
    """Draws one droplet on a window of camera pixels.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else, `zoom` times as large as `pixels` (width, height)
    pixels : (int, int), width and height of the window [pixels of the camera]
    zoom : int, how large a pixel of the camera is drawn [pixels of the picture]
    """

    def __init__(self, axes, *, pixels, zoom):
        self.axes, self.shape, self.zoom = axes, pixels, zoom
        axes.set(xlim=(0, pixels[0]), ylim=(0, pixels[1]), xticks=[], yticks=[], facecolor=style.NIGHT)
        for side in axes.spines.values():
            side.set_visible(False)
        self.image = Pixels(axes)
        self.ruler = axes.add_patch(Rectangle((0, 7), 1, 1.6, color="white", lw=0))
        self.word = write(axes, 0, 3.6, color="white", fontsize=13.5, fontweight="bold", va="center", ha="left")
        self.under = write(axes, 0, -3, fontsize=13.5, va="top", linespacing=1.35)
        self.moving = [self.image, self.ruler, self.word, self.under]

    def move(self, *, speed, pulse, diameter, pixels_per_metre, streak, under=""):
        """Draw a droplet that moves to the right.

        Parameters
        ----------
        speed : float [m/s]
        pulse : physics.pulse.Pulse
        diameter : float, of the droplet [m]
        pixels_per_metre : float, on the set [1/m]
        streak : float, its length [pixels]
        under : str, words under the window
        """
        self.under.set_text(under)
        size = diameter * pixels_per_metre
        start = max(0.12 * self.shape[0], size / 2 + 6)
        light = droplet(self.shape, start=start, middle=0.58 * self.shape[1], size=size,
                        speed=speed * pixels_per_metre, pulse=pulse)  # fmt: skip
        self.image.show(enlarged(light, self.zoom))
        shown = min(streak, self.shape[0] - start - 2)
        self.ruler.set(x=start, width=max(shown, 0.5))
        more = " ▸" if streak > shown else ""
        self.word.set(x=min(start, 0.35 * self.shape[0]), text=f"streak {streak:.0f} px{more}")


def droplet(shape, *, start, middle, size, speed, pulse):
    """Light on the pixels of a window.

    Parameters
    ----------
    shape : (int, int), width and height [pixels]
    start, middle : float, where the droplet's middle is as the light begins [pixels from the left, from below]
    size : float, its diameter [pixels]
    speed : float, to the right [pixels/s]
    pulse : physics.pulse.Pulse

    Returns
    -------
    float array (height, width), 0 to 1, lowest row first
    """
    light = np.zeros((shape[1], shape[0]))
    off = np.arange(shape[1]) + 0.5 - middle
    rows = np.flatnonzero(np.abs(off) < size / 2)
    chords = np.sqrt((size / 2) ** 2 - off[rows] ** 2) * 2
    places = np.arange(shape[0]) + 0.5 - start
    light[rows] = bar_profile(places[None, :], speed=speed, light=pulse, size=chords[:, None])
    return light


def enlarged(light, zoom):
    """The pixels as squares on a dark ground, the top row first."""
    tone = GRID + (255 - GRID) * np.clip(light[::-1], 0, 1) ** GAMMA
    large = tone.astype(np.uint8).repeat(zoom, axis=0).repeat(zoom, axis=1)
    # The seams between the pixels are a little darker: a pixel of the camera can be counted.
    large[::zoom] = large[::zoom] * 0.82
    large[:, ::zoom] = large[:, ::zoom] * 0.82
    return np.ascontiguousarray(np.broadcast_to(large[:, :, None], (*large.shape, 3)))
