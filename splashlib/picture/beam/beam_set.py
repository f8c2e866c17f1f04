"""The set from the side with two beams, and beside it how low the beam may go: one column for each reason."""

import math

from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write
from splashlib.picture.kit.set_view import SetView

CM = 100.0
SIDE = 11.0  # of the set, to each side, when nothing is wider [cm]
WORDS = 12.5  # large enough to be read in a narrow page [points]
WIDE = 48  # of a column [pixels]
NAME = 26  # above or below its line, the room for the name of a beam [pixels]
GAP = 12  # between the set and the columns, and at the right edge [pixels]
MARGIN = 0.095  # above the lowest point of the body in the hand, for the rest of it and the hand [m]


class BeamSet:
    """Draws hand, beams and vase to scale, and three columns of heights that are too low for a beam.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    vessel : splashlib.shoot Vessel
    hand : float, release height [m]
    frame : splashlib.shoot Frame, what the camera sees
    reasons : dict of name in `beam_bounds` -> the word for it; the last one moves, the others rest
    """

    def __init__(self, axes, *, vessel, hand, frame, reasons):
        self.axes = axes
        top = hand + MARGIN
        self.floor = max(-vessel.depth, -0.35 * top) - 0.01
        self.view = SetView(axes, vessel=vessel, top=top, floor=self.floor, frame=frame)
        self._measure(CM * top, CM * self.floor)
        self._draw_columns(reasons)
        self._draw_beams()
        # Only the lag depends on what a panel lets one drag; other bounds may rest until the set changes.
        self.moving = [self.bars[-1], self.says[-1], self.allowed, self.best, *self.view.moving]
        self.moving += [self.best_name, self.name]

    def _measure(self, top, floor):
        """Lay the set out on the left and leave the columns their pixels on the right."""
        box = self.axes.bbox
        self.unit = (top - floor) / box.height
        side = max(SIDE, self.view.half_width + 4)
        needed = 2 * side / (box.width - 3 * WIDE - 2 * GAP)
        self.unit = max(self.unit, needed)
        self.left = -side
        self.right = side + GAP * self.unit
        self.axes.set(
            xlim=(-side, -side + box.width * self.unit),
            ylim=(top - box.height * self.unit, top),
            aspect="auto",
        )

    def _draw_columns(self, reasons):
        axes, words = self.axes, {"ha": "center", "fontsize": WORDS}
        self.bars, self.says, self.reasons = [], [], dict(reasons)
        wide = WIDE * self.unit
        self.end = self.right + wide * len(self.reasons)
        axes.plot([self.right, self.end], [0, 0], color=style.WATER, lw=1.5)
        for place, word in enumerate(self.reasons.values()):
            left = self.right + place * wide
            self.bars.append(
                axes.add_patch(
                    Rectangle(
                        (left + 0.12 * wide, 0), 0.76 * wide, 0, fc=style.FAINT, ec=style.INK, lw=1.0, hatch="///"
                    )
                )
            )
            axes.text(left + wide / 2, -6 * self.unit, word, va="top", fontweight="bold", **words)
            self.says.append(write(axes, left + wide / 2, 0, va="bottom", **words))
        self.allowed = axes.add_patch(Rectangle((self.right, 0), 0, 0, color=style.CAMERA, alpha=0.16, lw=0))
        middle = (self.right + self.end) / 2
        key = "hatched: too low,\ngreen: good"
        axes.text(middle, -30 * self.unit, key, va="top", color=style.QUIET, linespacing=1.35, **words)
        (self.best,) = axes.plot([], [], color=style.CAMERA, lw=3.5, marker="D", ms=9, mec=style.INK, markevery=[0])
        self.best_name = write(axes, middle, 0, ha="center", va="bottom", fontweight="bold", fontsize=14)

    def _draw_beams(self):
        axes = self.axes
        self.other_height = None
        (self.other,) = axes.plot([], [], color=style.BEAM, lw=1.4, ls=(0, (1, 1.5)), zorder=3)
        words = {"color": style.BEAM, "fontweight": "bold", "fontsize": style.FONT["small"], "va": "bottom"}
        self.other_name = axes.text(self.left, 0, "", **words)
        self.name = write(axes, self.left, 0, **(words | {"fontsize": WORDS}))

    def move(self, *, drop, beam, other, height, bounds, best, say):
        """Place the beams, the body and the columns.

        Parameters
        ----------
        drop : splashlib.shoot Drop
        beam, other : float, heights of the beam and of the one under the hand [m]
        height : float or None, lowest point of the body when the light comes [m]
        bounds : dict of reason -> least height [m]; nan when no height does
        best : float or None, the lowest beam that will do [m]
        say : function of a length [m] -> words
        """
        self.view.move(drop=drop, beam_height=beam, height=height)
        side = self.view.half_width + 2.5
        self.view.beam.set_data([-side, self.end], [CM * beam] * 2)
        # Close under the other beam there is no room for the name above the line.
        below = other - beam < NAME * self.unit / CM
        self.name.set(y=CM * beam + (-NAME if below else 4) * self.unit, text="yours")
        if self.other_height != other:
            self.other_height = other
            self.other.set_data([-side, side], [CM * other] * 2)
            self.other_name.set(y=CM * other, text="under the hand")
        hand = CM * drop.release_height
        self._move_columns(bounds, hand, say)
        self._move_allowed(best, hand, say)

    def _move_columns(self, bounds, hand, say):
        for bar, text, reason in zip(self.bars, self.says, self.reasons, strict=True):
            bound = bounds[reason]
            none = math.isnan(bound) or CM * bound > hand
            tall, words = (hand, "none") if none else (max(CM * bound, 0.0), say(max(bound, 0.0)).split()[0])
            if (tall, words) != (bar.get_height(), text.get_text()):
                bar.set_height(tall)
                text.set(y=tall, text=words)

    def _move_allowed(self, best, hand, say):
        for artist in (self.allowed, self.best):
            artist.set_visible(best is not None)
        self.best_name.set(y=hand + 4 * self.unit, text="no good height" if best is None else f"◆ best {say(best)}")
        if best is None:
            return
        low = CM * best
        self.allowed.set(y=low, height=hand - low, width=self.end - self.right)
        self.best.set_data([self.right, self.end], [low, low])
