"""The picture of the lesson `freeze`: one splash in four lights, and why they differ."""

from functools import lru_cache
from time import perf_counter
from typing import ClassVar

from splashlib.physics.light.lens import pixels_per_metre
from splashlib.physics.pulse import KINDS, class_t01
from splashlib.picture.freeze.duration_chart import DurationChart
from splashlib.picture.freeze.freeze_words import LIGHTS, print_words, told, verdict
from splashlib.picture.freeze.pixel_streak import PixelStreak
from splashlib.picture.freeze.pulse_chart import PulseChart
from splashlib.picture.kit.canvas import Layered
from splashlib.picture.kit.shots import Shots
from splashlib.picture.photo.photograph import photograph
from splashlib.shoot import Flash, change, contact_speed, framed, pulse_of, streak_in
from splashlib.shoot.decide.flash_duration import (
    DROPLET,
    MARKS,
    durations,
    heads_apart,
    in_four_lights,
    longest_light,
    on_route,
    seen_on_print,
)

WINDOW, ZOOM = (108, 72), 3  # pixels of the camera in the window, and how large each is drawn
ROUGH = 0.5
"""While a handle moves a photograph is so fine only [of the full one]."""
SMEAR, PATIENCE = 0.008, 0.010
"""A light longer than this leaves nothing fine in a photograph; so long the next photograph is waited for [s]."""
AT_ONCE, CHOSEN = 2, 1
"""So many photographs are made for one picture while a handle moves; and the light that is the learner's own."""


class Lights(Shots):
    """The four photographs; one that shows the same drop as before is not made again."""

    def __init__(self, *args, **kwargs):
        super().__init__(*args, **kwargs)
        self._held, self._turn = [(None, 0.0)] * len(self.images), 0

    def expose(self, scale=1.0, *, moving=False):
        """Make the pictures that are out of date.

        Parameters
        ----------
        scale : float
            How fine.
        moving : bool
            While a handle moves a finer picture may stay, and only `AT_ONCE` are made, one if that is slow: the chosen
            one, and the others in turn. At rest all four are up to date.
        """
        began = perf_counter()
        stale = [number for number in range(len(self.images)) if not self._fits(number, scale, moving)]
        if moving:
            self._turn += 1
            stale.sort(key=lambda number: (number != CHOSEN, (number - self._turn) % len(self.images)))
        for number in stale[: AT_ONCE if moving else None]:
            self._make(number, scale)
            if moving and perf_counter() - began > PATIENCE:
                return

    def _make(self, number, scale):
        setup = self.setups[number]
        # What is all smear needs no fine pixels, and would take long.
        smear = pulse_of(setup.flashes[0]).t01 > SMEAR
        fine = ROUGH * scale if smear else scale
        size = round(round(self.width) * fine), round(self.height * fine)
        self.images[number].show(self.shot(setup, size=size))
        self._held[number] = setup, scale

    def _fits(self, number, scale, moving):
        held, fine = self._held[number]
        return held == self.setups[number] and (fine == scale or (moving and fine > scale))


class FreezePicture(Layered):
    """Four photographs in a row; under them the pulse, the durations of all kinds, and a droplet in pixels.

    Parameters
    ----------
    size : (int, int), optional [pixels]
    """

    size = (1000, 640)
    rc: ClassVar[dict] = {"font.size": 12.5, "axes.labelsize": 12.5, "xtick.labelsize": 11.5, "ytick.labelsize": 11.5}

    def build(self, figure):
        """Lay photographs and charts out."""
        self._rough = False
        self.lights = Lights(figure, LIGHTS, top=2, shot=lru_cache(maxsize=24)(photograph))
        wide, tall = figure.bbox.width, figure.bbox.height
        top, base = tall - self.lights.depth - 38, 56

        def axes(left, width, low=base):
            return figure.add_axes((left / wide, low / tall, width / wide, (top - low) / tall))

        self.pulse = PulseChart(axes(46, 258))
        self.durations = DurationChart(axes(394, 252))
        width, height = (ZOOM * count for count in WINDOW)
        self.pixel = PixelStreak(axes(wide - width - 8, width, round(top) - height), pixels=WINDOW, zoom=ZOOM)
        self.pulse.axes.set_title("The light against time")
        self.durations.axes.set_title("How long it lasts, t0.1")
        self.pixel.axes.set_title("A 1 mm droplet, in pixels")
        parts = (self.lights, self.pulse, self.durations, self.pixel)
        return [artist for part in parts for artist in part.moving]

    def update(self, setup, *, print_width=0.30, apart=0.001, route=None):
        """Follow the set-up.

        `print_width` [m] is that of the whole frame, `apart` [s] the second head's lateness, `route` that of the
        first head, if another one was chosen.
        """
        setup = on_route(setup, route or setup.flashes[0].route)
        four = in_four_lights(setup, apart=apart)
        gap, streak = heads_apart(four[-1]), streak_in(setup, print_width=print_width)
        shots = [self._verdict(each, setup, print_width, gap) for each in four]
        self.lights.move(four, verdicts=shots, chosen=CHOSEN)
        self._move_charts(setup, streak)
        return told(setup, streak=streak, print_width=print_width, shots=shots, apart=gap, system=self.system)

    def _verdict(self, each, setup, print_width, gap):
        """What is said of one photograph; its crop is a part of the print, so the print's scale is the set-up's."""
        moved, mine = streak_in(each).on_object, streak_in(setup, print_width=print_width)
        seen = seen_on_print(setup, mine.on_print * moved / mine.on_object, print_width)
        return verdict(each, moved=moved, apart=gap, seen=seen, system=self.system)

    def _move_charts(self, setup, streak):
        head, camera = setup.flashes[0], setup.camera
        self.pulse.move(pulse_of(head), pulse_of(change(setup, "flashes.0.power", 1.0).flashes[0]))
        every, band = _courses(head.full_t05, head.rise, head.tail, head.kind)
        self.durations.move(
            head.kind, power=head.power, durations=every, marks=MARKS, band=band, longest=longest_light(setup)
        )
        fine = pixels_per_metre(
            pixels=camera.pixels_wide, sensor=camera.sensor_width, magnification=framed(setup).magnification
        )
        self.pixel.move(
            speed=contact_speed(setup),
            pulse=pulse_of(head),
            diameter=DROPLET,
            pixels_per_metre=fine,
            streak=streak.pixels,
            under=print_words(streak.on_print, self.system),
        )

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture. While a handle moves, what changes is photographed coarsely."""
        self._rough = moving
        return super().frame(moving=moving, scale=scale)

    def pixels(self, *, scale=1.0):
        """Expose the four photographs and draw the present state."""
        self.lights.expose(ROUGH if self._rough else scale, moving=self._rough)
        return super().pixels(scale=scale)


@lru_cache(maxsize=32)
def _courses(full_t05, rise, tail, kind):
    """t0.1 of every kind at each mark, and the band of one class there."""
    head = Flash(full_t05=full_t05, rise=rise, tail=tail)
    return {each: durations(head, each) for each in KINDS}, [class_t01(kind, power=power) for power in MARKS]
