"""The picture of the lesson `stops`: the photograph, the account of its light, and the steps on the flash's dial."""

import math
from dataclasses import replace
from typing import ClassVar

import numpy as np
from matplotlib.patches import Rectangle

from splashlib.physics.stops import stops_between
from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import DPI, Layered, Pixels
from splashlib.picture.kit.lettering import write
from splashlib.picture.kit.shots import GROUNDS, SIGNS
from splashlib.picture.photo import tone
from splashlib.picture.photo.photograph import exposed, photograph, scene_of
from splashlib.picture.stops.account_chart import AccountChart
from splashlib.picture.stops.power_dial import PowerDial
from splashlib.picture.stops.stops_words import told, verdict
from splashlib.shoot import account, payments
from splashlib.shoot.decide.exposure_account import alike
from splashlib.shoot.decide.exposure_balance import head_light, room_over_metered
from splashlib.shoot.decide.judgement import judge

QUICK = 0.5
"""How fine the photograph is while a handle moves."""
DISTANCES = 3
"""So many lamp distances for each doubling are enough for a lamp's look while a handle moves; its light is exact."""
GRAIN = 8
"""Seed of the noise: the same grain for the same light."""
CUT, ENLARGED = 0.10, 0.30
"""What is shown enlarged, and how large; shares of the photograph's width."""
CUT_AT = (0.55, 0.44)
"""Middle of that: on the shaded side of the fruit, and of the wall behind; shares of width and height."""


class StopsPicture(Layered):
    """One drop in a changing light."""

    size = (1000, 640)
    rc: ClassVar[dict] = {"font.size": 13.5, "axes.titlesize": 15}

    def build(self, figure):
        """Lay photograph, account and dial out."""
        shot = figure.add_axes((0.01, 0.505, 0.43, 0.4484))
        small = figure.add_axes((0.305, 0.5125, 0.129, 0.2016))
        band = figure.add_axes((0.01, 0.436, 0.43, 0.0672))
        lines, dial = figure.add_axes((0.655, 0.425, 0.256, 0.528)), figure.add_axes((0.01, 0.0, 0.98, 0.265))
        shot.set_title("The photograph (simulated)")
        lines.set_title("The light, in stops", x=-0.744)
        for axes in (shot, small, band):
            axes.axis("off")
        self.photo, self.detail, self._shown = Pixels(shot), Pixels(small), None
        self._last, self._moved = {}, ""
        # Grey and dark, so that they are seen on a picture that is too dark or too bright.
        rim = small.add_patch(Rectangle((0, 0), 1, 1, lw=3, fill=False, ec=style.LAG, transform=small.transAxes))
        plate = small.add_patch(Rectangle((0, 0.84), 1, 0.16, lw=0, fc=style.NIGHT, transform=small.transAxes))
        note = write(small, 0.5, 0.915, "3 times as large", ha="center", va="center", fontsize=11, color="white")
        note.set_transform(small.transAxes)
        self.badge = band.add_patch(Rectangle((0, 0), 1, 1, lw=0))
        self.word = write(band, 0.5, 0.46, "", ha="center", va="center", fontsize=21, fontweight="bold", color="white")
        self.lines = AccountChart(lines, lines=8, camera=5, span=(-9.0, 9.0))
        dial.set_title("The flash's dial: count the steps, not the marks", y=0.98)
        self.dial = PowerDial(dial)
        parts = [self.photo, self.detail, plate, rim, note, self.badge, self.word]
        return [*parts, *self.lines.moving, *self.dial.moving]

    def update(self, setup, *, heads=1):
        """Follow the set-up, with so many heads like its first one."""
        self._setup, self._shown = alike(setup, heads), None
        setup = self._setup
        self._note_moved(setup)
        self.lines.move([(_short(entry), entry.stops) for entry in account(setup)], room=room_over_metered(setup))
        self.dial.move(stops_between(1, setup.flashes[0].power, kind="power"))
        judged, noise = judge(setup), grey_noise(setup.camera.iso)
        tone_, word, _ = verdict(judged)
        self.badge.set_facecolor(GROUNDS[tone_])
        self.word.set_text(f"{SIGNS[tone_]} {word}")
        return told(judged, noise=noise, pays=payments(setup), moved=self._moved, system=self.system)

    def _note_moved(self, setup):
        """Remember which handle was moved last: what it would have to be is said first."""
        now = _handles(setup)
        changed = [name for name, value in now.items() if self._last and self._last[name] != value]
        self._moved = changed[0] if len(changed) == 1 else "" if changed else self._moved
        self._last = now

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture; the photograph is coarser, and without noise, while a handle moves."""
        self._expose(scale, moving)
        return super().frame(moving=moving, scale=scale)

    def pixels(self, *, scale=1.0):
        """Draw the present state, with the photograph that is there."""
        if self._shown is None:
            self._expose(scale, moving=False)
        return super().pixels(scale=scale)

    def _expose(self, scale, moving):
        if self._shown == (scale, moving):
            return
        fine = QUICK if moving else scale
        size = [round(fine * edge) for edge in self.photo.axes.bbox.size / (self.figure.dpi / DPI)]
        picture = photograph(coarse(merged(self._setup)), size=size) if moving else grainy(merged(self._setup), size)
        self.photo.show(picture)
        self.detail.show(enlarged(picture))
        self._shown = scale, moving


def _handles(setup):
    """What stands behind the handles that can pay, by the names of the payments; and the power."""
    head, camera = setup.flashes[0], setup.camera
    return {
        "power": head.power,
        "distance": head.distance,
        "diffuser": head.diffuser_loss,
        "heads": len(setup.flashes),
        "aperture": camera.aperture,
        "iso": camera.iso,
    }


def merged(setup):
    """The same light from two heads at most, one on each side: lights of one kind, time and place add."""
    heads = setup.flashes
    if len(heads) <= 2 or len(heads) % 2:
        return setup
    strong = (replace(head, guide_number=head.guide_number * math.sqrt(len(heads) / 2)) for head in heads[:2])
    return replace(setup, flashes=tuple(strong))


def coarse(setup):
    """The same light from lamps at the nearest of a few distances, whose pictures can be kept while a handle moves."""
    return replace(setup, flashes=tuple(_coarse(head) for head in setup.flashes))


def _coarse(head):
    moved = replace(head, distance=2 ** (round(DISTANCES * math.log2(head.distance)) / DISTANCES))
    return replace(moved, guide_number=head.guide_number * math.sqrt(head_light(head) / head_light(moved)))


def grainy(setup, size):
    """The nominal drop's photograph with the sensor's noise; the drop stays where it is while noise is drawn."""
    light = exposed(scene_of(setup), tuple(size))
    tone.add_noise(light, iso=setup.camera.iso, rng=np.random.default_rng(GRAIN))
    return np.ascontiguousarray(np.moveaxis(tone.develop(light), 0, -1))


def enlarged(picture):
    """Cut a small square out and show each of its elements as a square of several."""
    tall, wide = picture.shape[:2]
    half = round(CUT * wide / 2)
    x, y = round(CUT_AT[0] * wide), round(CUT_AT[1] * tall)
    cut = picture[y - half : y + half, x - half : x + half]
    times = max(1, round(ENLARGED / CUT))
    return np.ascontiguousarray(cut.repeat(times, axis=0).repeat(times, axis=1))


def grey_noise(iso):
    """Noise of a middle grey, 18 % of a white card, as a share of it [-]."""
    gain, dark = tone.noise_of(iso)
    return math.sqrt(0.18 * gain + dark**2) / 0.18


def _short(entry):
    return "full, bare, 1 m, f/8" if entry.name == "start" else entry.label
