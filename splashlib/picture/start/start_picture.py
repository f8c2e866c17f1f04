"""The picture of the lesson `start`: the set and its clock, the photograph, one droplet, and the light in stops."""

import math
from dataclasses import replace

import numpy as np

from splashlib.picture.kit import frame_words
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import DPI, Description, Layered, Pixels
from splashlib.picture.kit.dry_words import warned
from splashlib.picture.kit.set_view import SetView
from splashlib.picture.photo.photograph import described, photograph
from splashlib.picture.start.droplet_streak import DropletStreak
from splashlib.picture.start.exposure_bars import ExposureBars
from splashlib.picture.start.fall_chart import FallChart
from splashlib.picture.start.stage_bands import StageBands
from splashlib.shoot import body_height, contact_speed, framed, pulse_of, splash, tea_house
from splashlib.shoot.chain.events import events
from splashlib.shoot.decide.exposure_balance import ledger
from splashlib.shoot.decide.judgement import judge

TOP, FLOOR, SPAN = 0.84, -0.20, (-0.30, 0.36)
STAGE_ROWS = (54, 46, 38)  # cm
DROPLET = 0.001
QUICK = 0.45  # fineness of the photograph while a handle moves
ROWS = ("full power, 1 m", "flash power", "distance", "diffuser", "more heads", "ISO", "close-up", "result")
SHARES = 24  # equal shares of the light that draw the streak


class StartPicture(Layered):
    """Pictures of one drop that move together."""

    size = (1000, 680)

    def build(self, figure):
        """Lay the three pictures out."""
        scene, chart = figure.add_axes((0.0, 0.085, 0.15, 0.865)), figure.add_axes((0.175, 0.085, 0.255, 0.865))
        shot, droplet = figure.add_axes((0.45, 0.419, 0.54, 0.531)), figure.add_axes((0.80, 0.215, 0.19, 0.0499))
        light = figure.add_axes((0.57, 0.085, 0.195, 0.27))
        shot.axis("off")
        self.photo, self._exposed = Pixels(shot), None
        self.set_view = SetView(scene, vessel=tea_house().vessel, top=TOP, floor=FLOOR, frame=framed(tea_house()))
        self.fall = FallChart(chart, span=SPAN, top=TOP, floor=FLOOR)
        self.stages = StageBands(chart, span=SPAN, tops=STAGE_ROWS, tall=2.2)
        self.streak = DropletStreak(droplet, width=0.016, diameter=DROPLET)
        self.ledger = ExposureBars(light, rows=ROWS, span=(-6.5, 6.5))
        chart.set_title("Height over the water, cm")
        shot.set_title("The photograph (simulated)")
        droplet.set_title("A 1 mm droplet")
        light.set_title("The light, in stops")
        parts = (self.set_view, self.fall, self.stages, self.streak, self.ledger)
        return [self.photo, *(artist for part in parts for artist in part.moving)]

    def update(self, setup, **extras):
        """Follow the set-up."""
        self._setup, self._exposed = setup, None
        judged, when, entries = judge(setup), events(setup), ledger(setup)
        self._move_fall(setup, judged.seen, when)
        pulse, speed = pulse_of(setup.flashes[0]), contact_speed(setup)
        self.streak.move(speed * pulse.moments(SHARES))
        self.ledger.move([entry.stops for entry in entries])
        self.stages.move(splash(setup), float(when.contact[0]))
        found = told(judged, lead=float(when.contact[0]), streak=speed * pulse.t01, system=self.system)
        return replace(found, alt=f"{found.alt} {self.stages.words()}".strip())

    def expose(self, scale=1.0):
        """Make the photograph, `scale` times as fine, unless it is there already."""
        if self._exposed == scale:
            return
        size = [round(scale * edge) for edge in self.photo.axes.bbox.size / (self.figure.dpi / DPI)]
        self.photo.show(photograph(self._setup, size=size))
        self._exposed = scale

    def pixels(self, *, scale=1.0):
        """Draw the present state, with a photograph if there is none yet."""
        if self._exposed is None:
            self.expose(scale)
        return super().pixels(scale=scale)

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture; the photograph is coarser while a handle moves."""
        self.expose(QUICK if moving else scale)
        return super().frame(moving=moving, scale=scale)

    def _move_fall(self, setup, seen, when):
        shown = seen.height if math.isfinite(seen.height) and seen.height >= -setup.vessel.depth - 1e-9 else None
        self.set_view.move(drop=setup.drop, beam_height=setup.beam.height, height=shown)
        ends = max(SPAN[0], float(when.released[0])), SPAN[1]
        times = np.linspace(*ends, 90)
        heights = body_height(setup, times[:, None])[:, 0]
        light = seen.light if math.isfinite(seen.light) else None
        self.fall.move(times=times, heights=heights, beam_height=setup.beam.height, light=light, height=shown,
                       contact=float(when.contact[0]))  # fmt: skip


def told(judged, *, lead, streak, system="metric"):
    """Say in words what the picture of `start` shows.

    Parameters
    ----------
    judged : shoot.decide.judgement.Judgement
    lead : float, beam broken to contact [s]
    streak : float, of the droplet [m]
    system : "metric" or "imperial"
    """
    setup, seen = judged.setup, judged.seen
    tone, line = frame_words.verdict(judged, system)
    tone, line = warned(setup, tone, line, system)
    readout = (
        ("Lead, from the beam to the water", words.ms(lead, 1)),
        ("Light after the beam", words.ms(seen.light, 1) if math.isfinite(seen.light) else "none"),
        ("Height of the body at the light", words.length(seen.height, "cm", system)),
        ("Speed at the water", words.speed(contact_speed(setup), system)),
        ("Flash duration t0.1", words.part_of_second(pulse_of(setup.flashes[0]).t01)),
        ("Streak of a droplet", words.length(streak, "mm", system)),
        ("Exposure", words.stops(judged.total)),
        ("The frame is", judged.exposure),
    )
    alt = f"{described(setup)} {streak_words(streak, system)} The frame is {judged.exposure}."
    return Description(readout=readout, alt=alt, line=line, tone=tone)


def streak_words(streak, system="metric"):
    """Say how a droplet of one millimetre looks with a streak [m]."""
    if streak <= DROPLET / 5:
        return f"Droplets are points: they move {words.length(streak, 'mm', system)} in the light."
    if streak <= DROPLET:
        return f"Droplets are a little soft: they move {words.length(streak, 'mm', system)} in the light."
    return f"Droplets are streaks of {words.length(streak, 'mm', system)}."
