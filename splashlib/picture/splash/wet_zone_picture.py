"""What a splash wets and what it sets off: the set from the side, and on a clock how long the beam must stay deaf."""

from typing import ClassVar

import numpy as np
from matplotlib.patches import Polygon, Rectangle

from splashlib.physics.droplets import paths
from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import Layered
from splashlib.picture.kit.lettering import write
from splashlib.picture.splash.gear import Gear
from splashlib.picture.splash.wet_zone_words import told
from splashlib.shoot import hold_off_advice, impact_of, vessel_advice
from splashlib.shoot.decide.splash_camera import in_hand

CM = 100.0
SIDE, TOP, FLOOR = 124.0, 74.0, -18.6
"""Half the width of the set that is shown, its highest and its lowest height [cm]."""
SECONDS = 4.0
TRAY = np.array([[-10.0, FLOOR + 4.0], [-10.0, FLOOR + 0.4], [10.0, FLOOR + 0.4], [10.0, FLOOR + 4.0]])
"""The tray under the vessel, from its walls [cm]."""
WET, DAMP = style.WATER, style.DAMP
BARS = ("droplets at the beam", "jet in the beam", "shutter is open", "your hold-off")


class WetZonePicture(Layered):
    """The wet zone over the set, to scale, and the hold-off against what it must outlast."""

    size = (1000, 600)
    rc: ClassVar[dict] = {"font.size": 13.5, "axes.labelsize": 13, "xtick.labelsize": 13}

    def build(self, figure):
        """Draw table and axes; return what moves."""
        scene = figure.add_axes((0.0, 0.285, 1.0, 0.715))
        scene.set(xlim=(-SIDE, SIDE), ylim=(FLOOR - 6, TOP))
        scene.axis("off")
        scene.add_patch(Rectangle((-SIDE, FLOOR - 6), 2 * SIDE, 6, color=style.FAINT, lw=0))
        for distance in range(-120, 121, 20):
            if distance and abs(distance) < SIDE - 5:
                scene.text(distance, FLOOR - 5.4, f"{abs(distance)} cm", ha="center", fontsize=11.5, color=style.QUIET)
        clock = figure.add_axes((0.215, 0.085, 0.765, 0.19))
        clock.set(xlim=(0, SECONDS), ylim=(3.6, -0.6), yticks=[])
        clock.set_xlabel("seconds after the beam is broken", labelpad=1)
        clock.grid(axis="x")
        clock.spines["left"].set_visible(False)
        for row, name in enumerate(BARS):
            clock.text(-0.03, row, name, ha="right", va="center", fontsize=13.5)
        return [*self._scene(scene), *self._clock(clock)]

    def _scene(self, axes):
        self.zones = [axes.add_patch(Rectangle((0, FLOOR - 1.4), 1, 1.4, color=c, lw=0)) for c in (DAMP, WET)]
        self.water = axes.add_patch(Rectangle((0, 0), 1, 1, color=style.WATER, alpha=0.25, lw=0))
        self.risen = axes.add_patch(Rectangle((0, 0), 1, 1, color=style.WATER, alpha=0.6, lw=0))
        self.stand = axes.add_patch(Rectangle((0, FLOOR), 1, 1, color=style.LAG, lw=0))
        self.walls = axes.add_patch(Polygon(np.zeros((4, 2)), closed=False, fill=False, ec=style.INK, lw=2))
        (self.beam,) = axes.plot([], [], color=style.BEAM, lw=2, ls=(0, (5, 2)), marker="s", ms=8)
        looks = ((WET, "-", 2.2), (DAMP, "--", 1.8))
        self.arcs = [axes.plot([], [], color=c, ls=ls, lw=lw)[0] for c, ls, lw in looks for _ in (0, 1)]
        self.body = axes.plot([], [], marker="o", color=style.BODY, mec=style.INK, ls="none")[0]
        self.said = [write(axes, x, TOP - 5, ha=ha, fontsize=15, fontweight="bold") for x, ha in _CORNERS]
        self.beam_name = write(axes, 0, 0, "beam", ha="left", va="bottom", fontsize=12.5, color=style.BEAM)
        self.gear = Gear(axes, side=SIDE, floor=FLOOR)
        self.tray = axes.add_patch(Polygon(np.zeros((4, 2)), closed=False, fill=False, ec=style.QUIET, lw=3))
        return [*self.zones, self.water, self.risen, self.stand, self.walls, self.tray, self.beam, *self.arcs,
                self.body, *self.gear.moving, *self.said, self.beam_name]  # fmt: skip

    def _clock(self, axes):
        self.bars = [axes.add_patch(Rectangle((0, row - 0.34), 1, 0.68, lw=0)) for row in range(len(BARS))]
        self.times = [write(axes, 0, row, va="center_baseline", fontsize=13.5) for row in range(len(BARS))]
        (self.needed,) = axes.plot([], [], color=style.INK, lw=2.5, ls=(0, (2, 1.5)))
        return [*self.bars, self.needed, *self.times]

    def update(self, setup, *, body=None):
        """Follow the set-up, with `body` in the hand."""
        setup = in_hand(setup, body)
        hold, vessel = hold_off_advice(setup), vessel_advice(setup)
        self._move_vessel(setup, vessel)
        self._move_drops(setup, vessel)
        self._move_clock(setup, hold)
        self.gear.move(setup, self.system)
        words, found = told(setup, hold, vessel, self.system)
        for text, said in zip(self.said, words, strict=True):
            text.set_text(said)
        return found

    def _move_vessel(self, setup, vessel):
        half, rim = CM * setup.vessel.width / 2, CM * setup.vessel.rim
        # The table stays where it is: a shallow vessel gets a stand, a very deep one is cut.
        depth = max(-CM * setup.vessel.depth, FLOOR)
        self.water.set_bounds(-half, depth, 2 * half, -depth)
        self.risen.set_bounds(-half, 0, 2 * half, CM * vessel.level_rise[1])
        self.walls.set_xy([(-half, rim), (-half, depth), (half, depth), (half, rim)])
        self.stand.set_bounds(-half, FLOOR, 2 * half, depth - FLOOR)
        self.tray.set_xy(TRAY + np.array([[-half, 0], [-half, 0], [half, 0], [half, 0]]))
        self.tray.set_visible(setup.vessel.tray == "tray")
        side = half + 7
        self.beam.set_data([-side, side], [CM * setup.beam.height] * 2)
        self.beam_name.set_position((side + 1.5, CM * setup.beam.height))
        self.body.set_data([0], [CM * (setup.drop.release_height + setup.drop.height / 2)])
        self.body.set_markersize(max(5.0, 1000 * setup.drop.height * 0.39))

    def _move_drops(self, setup, vessel):
        ways = paths(impact_of(setup), height=-setup.vessel.depth)[1:]
        for number, (lands, (out, up)) in enumerate(zip(vessel.on_table[1:], ways, strict=True)):
            self.zones[1 - number].set_bounds(-CM * lands, FLOOR - 1.4, 2 * CM * lands, 1.4)
            for arc, side in zip(self.arcs[2 * number : 2 * number + 2], (-1, 1), strict=True):
                # Beside a very deep vessel, which is cut, the way is cut as well.
                arc.set_data(side * CM * out, np.maximum(CM * up, FLOOR))
                arc.set_visible(lands > 0)

    def _move_clock(self, setup, hold):
        colours = (WET, style.WATER, style.CAMERA, style.GOOD if hold.enough else style.BAD)
        for row, seconds in enumerate((hold.droplets, hold.jet, hold.shutter, setup.trigger.hold_off)):
            shown = min(seconds, SECONDS)
            self.bars[row].set(width=shown, facecolor=colours[row])
            inside = shown > 0.8 * SECONDS
            self.times[row].set(x=shown + (-0.04 if inside else 0.04), ha="right" if inside else "left",
                                color="white" if inside else style.INK)  # fmt: skip
            self.times[row].set_text(f"{seconds:.2f} s" if seconds else "-")
        self.needed.set_data([min(hold.needed, SECONDS)] * 2, [-0.6, 3.6])


_CORNERS = ((-SIDE + 2, "left"), (SIDE - 2, "right"))
