"""The picture of the lesson `room`: one photograph as the room gets darker, and beside it the light in stops."""

from dataclasses import replace
from functools import lru_cache
from typing import ClassVar

from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import Layered, Pixels
from splashlib.picture.kit.lettering import write
from splashlib.picture.kit.shots import GROUNDS, SIGNS
from splashlib.picture.photo.frames_by_light import taken
from splashlib.picture.room.room_ladder import RoomLadder
from splashlib.picture.room.room_words import RED_SPOT, light, still_words, told, verdict
from splashlib.shoot import change, framed, ghosts, show
from splashlib.shoot.decide.exposure_balance import room_over_metered
from splashlib.shoot.decide.room_light import AGAIN, STRAYS, in_time, with_stray
from splashlib.shoot.setup.figures import figures

WIDE, TALL = 498, 332
"""The photograph [pixels]."""
LEFT, HEAD, BADGE = 10, 34, 44
STILL = (192, 128)
"""The frame of the still set [pixels]."""
IN_FRAME = 0.06
"""Height of the beam that was left in the frame [m]."""


class RoomPicture(Layered):
    """A large photograph, a small one of the still set without the flash, and the ladder of light."""

    size = (1000, 560)
    rc: ClassVar[dict] = {"ytick.labelsize": 12.5, "axes.labelsize": 12.5}

    def build(self, figure):
        """Lay photographs and ladder out."""
        wide, tall = self.size
        page = figure.add_axes((0, 0, 1, 1))
        page.set(xlim=(0, wide), ylim=(tall, 0))
        page.axis("off")
        self.main = self._frame(figure, LEFT, HEAD, WIDE, TALL)
        under = HEAD + TALL + BADGE
        self.small = self._frame(figure, LEFT, under + 12, *STILL)
        said = {"va": "center"}
        self.name = write(page, LEFT, HEAD / 2, fontsize=16, fontweight="bold", **said)
        page.text(LEFT + WIDE, HEAD / 2, "simulated", fontsize=11.5, color=style.QUIET, ha="right", **said)
        self.badge = page.add_patch(Rectangle((LEFT, HEAD + TALL), WIDE, BADGE, lw=0))
        middle = {"fontsize": 22, "fontweight": "bold", "color": "white", "ha": "center"}
        self.word = write(page, LEFT + WIDE / 2, HEAD + TALL + BADGE / 2, **middle, **said)
        beside = LEFT + STILL[0] + 14
        bold = {"fontsize": 15.5, "fontweight": "bold"}
        page.text(beside, under + 46, "The still set,\nwithout the flash", linespacing=1.3, **bold, **said)
        self.still = write(page, beside, under + 106, fontsize=14, linespacing=1.35, **said)
        self.ladder = RoomLadder(figure.add_axes((0.562, 0.022, 0.43, 0.842)))
        self.ladder.axes.set_ylabel("stops under the flash", labelpad=1)
        moving = [self.main, self.small, self.name, self.badge, self.word, self.still, *self.ladder.moving]
        self._now, self._shown = None, None
        return moving

    def _frame(self, figure, left, top, width, height):
        wide, tall = self.size
        axes = figure.add_axes((left / wide, 1 - (top + height) / tall, width / wide, height / tall))
        axes.axis("off")
        return Pixels(axes)

    def update(self, setup, *, other=None):
        """Follow the set-up. `other` is what else gives light: a name of `STRAYS`, "beam", "again", or None."""
        lit = with_stray(setup, other) if other in STRAYS else setup
        now = caught(lit)
        self._now, self._shown = (now, _low_beam(now) if other == "beam" else None, other == "again"), None
        tone, word = verdict(setup, now, other, self._now[1])
        self.name.set_text(_name(lit))
        self.badge.set_facecolor(GROUNDS[tone])
        self.word.set_text(f"{SIGNS[tone]} {word}")
        self.still.set_text("\n".join(still_words(room_over_metered(lit), word == RED_SPOT)))
        self._move_ladder(lit)
        return told(setup, now, other, self._now[1])

    def _move_ladder(self, lit):
        camera = lit.camera
        one = ghosts(change(lit, "room.lux", 1.0))
        heads = (
            f"shutter {show('camera.shutter', camera.shutter)}\nmirror down, mirror\nup, or no mirror",
            f"held open {figures(camera.open_time, 3)} s\nthe beam fires\nthe flash",
        )
        chosen = 1 if camera.style == "held_open" else 0
        self.ladder.move(unit=(one["mirror"], one["held_open"]), lux=lit.room.lux, chosen=chosen, heads=heads)

    def frame(self, *, moving, scale=1.0):
        """Expose the photographs, half as fine while a handle moves, and give the picture."""
        self._expose(0.5 if moving else scale)
        return super().frame(moving=moving, scale=scale)

    def pixels(self, *, scale=1.0):
        """Draw the present state."""
        if self._shown is None:
            self._expose(scale)
        return super().pixels(scale=scale)

    def _expose(self, scale):
        if self._shown == scale or self._now is None:
            return
        now, beam, again = self._now
        size = round(WIDE * scale), round(TALL * scale)
        self.main.show(taken(now, size=size, again=AGAIN if again else None, beam=beam))
        small = round(STILL[0] * scale), round(STILL[1] * scale)
        self.small.show(taken(now, size=small, flash=False, beam=beam))
        self._shown = scale


def caught(setup):
    """The set-up with the beam and the delay with which its camera is in time, whatever the light."""
    unlit = replace(setup, room=tea_room())
    return replace(_caught(unlit), room=setup.room)


@lru_cache(maxsize=1)
def tea_room():
    """The room that stands for any other one where light plays no part."""
    from splashlib.shoot import tea_house

    return tea_house().room


@lru_cache(maxsize=64)
def _caught(setup):
    return in_time(setup)


def _low_beam(setup):
    """The same with its beam, a visible one, in the frame."""
    low = min(IN_FRAME, framed(setup).top - 0.02, setup.drop.release_height - setup.beam.width)
    beam = replace(setup.beam, height=max(low, setup.beam.width), light="visible")
    return replace(setup, beam=beam)


def _name(setup):
    camera, lux = setup.camera, setup.room.lux
    if camera.style == "held_open":
        return f"Held open {figures(camera.open_time, 3)} s, at {light(lux)}"
    return f"Shutter {show('camera.shutter', camera.shutter)}, at {light(lux)}"
