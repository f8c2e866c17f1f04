"""The ladder of light: flash, rooms and limits in stops, once for each time that the shutter is open."""

import math

import numpy as np
from matplotlib.collections import LineCollection

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write
from splashlib.picture.room.room_words import light
from splashlib.shoot.decide.judgement import GONE, HARDLY, PLAIN
from splashlib.shoot.decide.room_light import ROOMS

TOP, FLOOR = 4.6, -19.6
"""Stops over the flash that are shown."""
RAILS = (0.32, 0.722)
"""Where the two ladders stand, as shares of the width."""
BANDS = (
    (TOP, 0.0, "drowns\nthe flash", "#f0b9a0"),
    (0.0, -PLAIN, "plain\nto see", "#f6d3c2"),
    (-PLAIN, -HARDLY, "seen", "#faeadf"),
    (-HARDLY, -GONE, "hardly\nseen", "#e9f1ec"),
    (-GONE, FLOOR, "gone", "#d3e6df"),
)
"""What the room's light does there, and its ground."""
CLEAR, LINE = 0.75, 0.95
"""Stops that words keep from the flash's line, and from words over or under them."""


class RoomLadder:
    """Draws the levels of light.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    """

    def __init__(self, axes):
        self.axes = axes
        axes.set(xlim=(0, 1), ylim=(FLOOR, TOP))
        axes.set_yticks(range(0, -19, -2), [str(-stops) for stops in range(0, -19, -2)])
        axes.set_xticks([])
        axes.tick_params(axis="y", length=0)
        for top, low, name, ground in BANDS:
            axes.axhspan(low, top, color=ground, lw=0)
            axes.text(0.012, (top + low) / 2, name, va="center", fontsize=13, linespacing=1.1)
        axes.axhline(0, color=style.LIGHT, lw=5)
        axes.text(0.012, 0.12, "FLASH", fontsize=13, fontweight="bold", va="bottom")
        for rail in RAILS:
            axes.axvline(rail, color=style.QUIET, lw=1.6)
        self._draw_moving()

    def _draw_moving(self):
        axes = self.axes
        self.rungs = axes.add_collection(LineCollection([], colors=style.INK, linewidths=2.2))
        self.names = [[write(axes, 0, 0, fontsize=12, va="center") for _ in ROOMS] for _ in RAILS]
        self.dots = [self._dot(size) for size in (11, 11)]
        (self.ring,) = axes.plot([], [], "o", ms=21, mfc="none", mec=style.INK, mew=3)
        self.lux = [write(axes, 0, 0, fontsize=13, fontweight="bold", va="center", ha="right") for _ in RAILS]
        over = {"transform": axes.get_xaxis_transform(), "ha": "center", "va": "bottom", "linespacing": 1.25}
        self.heads = [write(axes, rail + 0.07, 1.012, fontsize=12.5, **over) for rail in RAILS]
        names = (name for rail in self.names for name in rail)
        self.moving = [self.rungs, *names, *self.dots, self.ring, *self.lux, *self.heads]

    def _dot(self, size):
        (dot,) = self.axes.plot([], [], "o", ms=size, color=style.BODY, mec=style.INK, mew=1.2)
        return dot

    def move(self, *, unit, lux, chosen, heads):
        """Set the levels.

        Parameters
        ----------
        unit : (float, float)
            Stops by which a room of one lux lies under the flash, for each ladder.
        lux : float, illuminance at the set [lx]
        chosen : int, the ladder of the camera style in use
        heads : (str, str), what stands over them
        """
        for number, under in enumerate(unit):
            self._mark(number, math.log2(lux) - under if lux > 0 else -math.inf, lux, number == chosen)
            self.heads[number].set_text(heads[number])
            self.heads[number].set_fontweight("bold" if number == chosen else "normal")
        # The numbers stand first: the rooms' words make way for them.
        self.rungs.set_segments([rung for number, under in enumerate(unit) for rung in self._rooms(number, under)])

    def _rooms(self, number, under):
        """Write the rooms beside their rungs, and give the rungs."""
        rungs, rail = [], RAILS[number]
        levels = [math.log2(bright) - under for _, bright in ROOMS]
        places = clear_of_line(levels)
        # Words of the first ladder end where the second one's number begins.
        beside = self.lux[1].get_position()[1] if number == 0 else math.inf
        for name, (room, bright), level, place in zip(self.names[number], ROOMS, levels, places, strict=True):
            shown = FLOOR + 0.3 < level < TOP - 0.3
            text = room if abs(place - beside) < LINE else f"{room} {bright:g}"
            name.set(position=(rail + 0.037, place), text=text, visible=shown)
            if shown:
                rungs.append([(rail - 0.022, level), (rail + 0.026, level)])
        return rungs

    def _mark(self, number, level, lux, chosen):
        level, rail = float(np.clip(level, FLOOR + 0.5, TOP - 0.5)), RAILS[number]
        self.dots[number].set_data([rail], [level])
        place = level if abs(level) > CLEAR else -CLEAR
        self.lux[number].set(position=(rail - 0.039, place), text=light(lux))
        if chosen:
            self.ring.set_data([rail], [level])


def clear_of_line(levels):
    """Where words stand beside these falling levels, off the flash's line and off each other [stops]."""
    places, over, under = {}, CLEAR, -CLEAR
    for level in sorted(each for each in levels if each >= 0):
        places[level] = max(level, over)
        over = places[level] + LINE
    for level in sorted((each for each in levels if each < 0), reverse=True):
        places[level] = min(level, under)
        under = places[level] - LINE
    return [places[level] for level in levels]
