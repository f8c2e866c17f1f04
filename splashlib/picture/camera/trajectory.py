"""One fall on the clock of the beam, and where several lights find the body on its way."""

import numpy as np
from matplotlib.collections import LineCollection
from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

CM, MS = 100.0, 1000.0
LETTER = 12.6  # rough width of a letter of the date [pixels]
APART = 36  # numbers nearer than this share one label [pixels]


class Trajectory:
    """Draws height against time, with the frame, the water and numbered lights.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    count : int, how many lights
    """

    def __init__(self, axes, *, count):
        self.axes, self.count, self.scale = axes, count, None
        axes.axhspan(-1000, 0, color=style.WATER, alpha=0.16, lw=0)
        axes.axhline(0, color=style.WATER, lw=1.6)
        axes.axvline(0, color=style.BEAM, lw=1.4, ls=(0, (5, 2)))
        axes.tick_params(axis="x", length=0, labelbottom=False)
        axes.spines["bottom"].set_visible(False)
        self._draw_moving()

    def set_scale(self, span, top, floor):
        """Set the times [s] and heights [m] that are shown; redraws what rests when they change."""
        if (span, top, floor) != self.scale:
            self.scale = span, top, floor
            step = 10 if top < 0.5 else 20
            self.axes.set(xlim=[MS * time for time in span], ylim=(CM * floor, CM * top))
            self.axes.set_yticks(np.arange(0, CM * top, step))

    def _draw_moving(self):
        axes = self.axes
        self.frame = axes.add_patch(Rectangle((0, 0), 0, 0, fc=style.CAMERA, alpha=0.17, lw=0))
        self.wanted = axes.add_patch(Rectangle((0, 0), 0, 0, fc=style.WATER, alpha=0.22, lw=0))
        (self.contact,) = axes.plot([], [], color=style.WATER, lw=2)
        (self.beam,) = axes.plot([], [], color=style.BEAM, lw=1.6, ls=(0, (5, 2)))
        self.reach = LineCollection([], colors=style.LIGHT, lw=9, alpha=0.75, capstyle="butt")
        axes.add_collection(self.reach)
        (self.curve,) = axes.plot([], [], color=style.BODY, lw=2.4)
        self.lights = LineCollection([], colors=style.LIGHT, lw=2.2)
        axes.add_collection(self.lights)
        (self.dots,) = axes.plot([], [], marker="o", ms=12, mec=style.INK, mew=1.3, color=style.BODY, ls="none")
        self.names = [write(axes, 0, 0, fontweight="bold", fontsize=16, va="center") for _ in range(self.count)]
        small = {"ha": "right", "va": "center", "fontsize": 13}
        self.frame_name = write(axes, 0, 0, "frame ", color=style.CAMERA, **small)
        self.beam_name = write(axes, 0, 0, "beam ", color=style.BEAM, **small)
        self.date = write(axes, 0, 0, va="top", fontsize=14.5, fontweight="bold", color=style.WATER)
        self.moving = [self.frame, self.wanted, self.contact, self.beam, self.reach, self.curve, self.lights]
        self.moving += [self.dots, *self.names, self.frame_name, self.beam_name, self.date]

    def move(self, *, times, heights, frame, beam_height, contact, wanted, date, lights):
        """Draw the fall of one drop.

        Parameters
        ----------
        times, heights : arrays, the lowest point of the body [s], [m]
        frame : (float, float), lower and upper edge of the framed area [m]
        beam_height : float [m]
        contact : float [s]
        wanted : (float, float) or None, band of a stage that is aimed at [s]
        date : str, the words at the instant that is aimed at
        lights : sequence of (light, early, late, height) or None [s, m]: none, nothing is fired
        """
        low, high = self.axes.get_xlim()
        self.curve.set_data(MS * times, CM * heights)
        self.frame.set(x=low, width=high - low, y=CM * frame[0], height=CM * (frame[1] - frame[0]))
        self.beam.set_data([low, high], [CM * beam_height] * 2)
        self.contact.set_data([MS * contact] * 2, self.axes.get_ylim())
        self._move_words(frame, beam_height, contact, wanted, date)
        self._move_lights(times, heights, [light for light in lights if light is not None])
        self._number(lights)

    def _move_words(self, frame, beam_height, contact, wanted, date):
        (low, high), (floor, top) = self.axes.get_xlim(), self.axes.get_ylim()
        inside = CM * beam_height < top
        self.beam_name.set(x=high, y=CM * beam_height + 0.05 * (top - floor), visible=inside)
        middle = CM * max(sum(frame) / 2, 0.02)
        # A beam in the frame: the two words side by side, not over each other.
        close = inside and abs(CM * beam_height + 0.05 * (top - floor) - middle) < 0.13 * (top - floor)
        self.frame_name.set(x=high - (0.1 * (high - low) if close else 0), y=middle)
        self.wanted.set_visible(wanted is not None)
        early, late = wanted or (contact, contact)
        self.wanted.set(x=MS * early, width=MS * (late - early), y=floor, height=top - floor)
        # Right of the instant where there is room, else left of it.
        said, room = f" {date} ", (high - low) / self.axes.bbox.width
        left = MS * late + LETTER * len(said) * room > high
        self.date.set(x=min(MS * early, high) if left else MS * late, y=top, text=said, ha="right" if left else "left")

    def _move_lights(self, times, heights, lights):
        floor, top = self.axes.get_ylim()
        self.lights.set_segments([[(MS * when, floor), (MS * when, min(CM * at, top))] for when, _, _, at in lights])
        self.reach.set_segments([self._part(times, heights, early, late) for _, early, late, _ in lights])
        shown = [(MS * when, CM * at) for when, _, _, at in lights if floor < CM * at < top]
        self.dots.set_data([when for when, _ in shown], [at for _, at in shown])

    @staticmethod
    def _part(times, heights, early, late):
        """The part of the way on which the light may find the body."""
        when = np.linspace(early, late, 5)
        return np.column_stack([MS * when, CM * np.interp(when, times, heights)])

    def _number(self, lights):
        """The number of each light beside its dot; those close together share one label."""
        (low, high), width = self.axes.get_xlim(), self.axes.bbox.width
        found = sorted((MS * light[0], CM * light[3], number + 1) for number, light in enumerate(lights) if light)
        groups = []
        for when, at, number in found:
            if groups and when - groups[-1][0] < APART * (high - low) / width:
                groups[-1][2].append(number)
            else:
                groups.append((when, at, [number]))
        for name, group in zip(self.names, groups + [None] * (len(self.names) - len(groups)), strict=True):
            name.set_visible(group is not None and low <= group[0] <= high)
            if name.get_visible():
                self._put(name, *group)

    def _put(self, name, when, at, numbers):
        """Beside its place; where that lies outside, at the edge with an arrow that points there."""
        (low, high), (floor, top) = self.axes.get_xlim(), self.axes.get_ylim()
        per_pixel, step = (high - low) / self.axes.bbox.width, (top - floor) / self.axes.bbox.height
        arrow = " ↑" if at > top else " ↓" if at < floor else ""
        place = min(max(at + 10 * step, floor + 11 * step), top - 34 * step)
        name.set(x=when + 10 * per_pixel, y=place, text=" ".join(map(str, sorted(numbers))) + arrow)
