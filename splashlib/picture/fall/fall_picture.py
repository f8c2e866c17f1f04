"""The picture of the lesson `fall`: how long, how fast, and whether the air has a say."""

from typing import ClassVar

import numpy as np

from splashlib.physics.fall import fall_speed
from splashlib.picture.fall.arrival_chart import ArrivalChart
from splashlib.picture.fall.speed_chart import FLASH, SpeedChart
from splashlib.picture.fall.strobe import Strobe
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description, Layered
from splashlib.shoot import arrival
from splashlib.shoot.chain.arrival import way
from splashlib.shoot.setup.figures import figures

HEIGHTS = np.linspace(0.02, 1.6, 40)
SCALES = ((0.60, 0.42), (1.50, 0.66))
"""Highest release height [m] and longest time [s] of the two scales."""
CLOSE_TOP, CLOSE_FLOOR = 0.175, -0.028
STEADIEST = 0.001
"""No hand, and no gate, lets go to better than this [m]."""


class FallPicture(Layered):
    """Four bodies let go together; one of them as a strobe shows it.

    Parameters
    ----------
    bodies : dict of str -> Drop, see `fallers`
    size : (int, int), optional [pixels]
    """

    size = (1000, 500)
    # Three pictures side by side are shown small; their words must not be.
    rc: ClassVar[dict] = {
        "font.size": 13.5,
        "axes.titlesize": 14,
        "axes.labelsize": 12.5,
        "xtick.labelsize": 12.5,
        "ytick.labelsize": 12.5,
    }

    def __init__(self, bodies, size=None):
        self.bodies = dict(bodies)
        self._curves = {}
        super().__init__(size)

    def build(self, figure):
        """Draw what rests; return what moves."""
        base, tall = 0.13, 0.785
        strip = figure.add_axes([0.068, base, 0.056, tall])
        chart = figure.add_axes([0.128, base, 0.254, tall], sharey=strip)
        close = figure.add_axes([0.397, base, 0.36, tall])
        speed = figure.add_axes([0.795, base, 0.138, tall])
        strip.set_title("Where it is every 20 ms")
        close.set_title("At the water, close up")
        speed.set_title("Speed, m/s")
        self.strobe = Strobe(strip, chart, scales=SCALES)
        sizes = {name: drop.height for name, drop in self.bodies.items()}
        self.touchdown = ArrivalChart(close, bodies=sizes, top=CLOSE_TOP, floor=CLOSE_FLOOR)
        self.speeds = SpeedChart(speed, heights=HEIGHTS, free=fall_speed(HEIGHTS), fastest=6.0)
        return [*self.strobe.moving, *self.touchdown.moving, *self.speeds.moving]

    def update(self, setup, *, body):
        """Let all bodies go from the release height of the set-up, `body` in the strobe's light."""
        height = setup.drop.release_height
        landed = {name: arrival(drop, height) for name, drop in self.bodies.items()}
        drop, now = self.bodies[body], landed[body]
        last = self.strobe.move(
            diameter=drop.height,
            release_height=height,
            way=lambda times: way(drop, times, height),
            contact=now.time,
        )
        self.touchdown.move(behind={name: each.behind for name, each in landed.items()}, chosen=body)
        self.speeds.move(speeds=self._curve(body), release_height=height, speed=now.speed)
        return self._tell(setup, body, landed, last)

    def _curve(self, body):
        if body not in self._curves:
            drop = self.bodies[body]
            self._curves[body] = np.array([arrival(drop, float(height)).speed for height in HEIGHTS])
        return self._curves[body]

    def _tell(self, setup, body, landed, last):
        now, system, height = landed[body], self.system, setup.drop.release_height
        later = arrival(self.bodies[body], height + 0.01).time - now.time
        line, tone = _verdict(body, now, setup.drop.release_scatter, system)
        one = "0.4 in" if system == "imperial" else "1 cm"
        readout = (
            ("Time to the water", words.ms(now.time, 1)),
            ("Without air", words.ms(now.free_time, 1)),
            ("Late because of the air", words.ms(now.late, 1)),
            ("Speed at the water", words.speed(now.speed, system)),
            ("Streak in 1/10 000 s", words.length(now.speed * FLASH, "mm", system)),
            (f"Hand {one} too high", f"{words.ms(later, 1)} later"),
            ("Energy that it brings", f"{figures(1e3 * now.energy, 3)} mJ"),
        )
        gaps = ", ".join(f"{name} {_mm(each.behind, system)}" for name, each in landed.items())
        high = words.length(height, "cm", system)
        alt = (
            f"Strobe picture of a fall: {body}, let go {high} over the water, drawn every 20 ms. The steps grow; "
            f"the last one is {words.length(last, 'cm', system)}. It touches the water after "
            f"{words.ms(now.time, 1)} at {words.speed(now.speed, system)}. Close up, when a fall without air ends, "
            f"the bodies are still this far above the water: {gaps}."
        )
        return Description(readout, alt, line, tone)


def _verdict(body, now, scatter, system):
    """Whether the air has a say, measured by the scatter of the hand."""
    hand = max(scatter, STEADIEST)
    gap = f"The air holds the {body} back by {_mm(now.behind, system)}"
    own = _mm(hand, system)
    if now.behind <= hand:
        return f"{gap}: no more than the {own} by which your hand scatters. √(2h/g) will do.", "good"
    return f"{gap}: more than the {own} by which your hand scatters. Let a beam time it, not the hand.", "warning"


def _mm(value, system):
    """A few millimetres, with one decimal and no more."""
    return words.length(value, "mm", system, decimals=1)
