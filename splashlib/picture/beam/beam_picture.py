"""The picture of the lesson `beam`: thirty drops with the beam under the hand, and the same thirty with yours."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import ClassVar

import matplotlib
import numpy as np
from matplotlib.axes import Axes

from splashlib.physics.fall import fall_time
from splashlib.picture.beam.beam_set import BeamSet
from splashlib.picture.beam.beam_words import at_least, told
from splashlib.picture.beam.lead_chart import LeadChart
from splashlib.picture.beam.miss_chart import MissChart
from splashlib.picture.beam.overlaid_bodies import OverlaidBodies
from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import DPI, Layered
from splashlib.picture.kit.lettering import write
from splashlib.shoot import BODIES, Frame, Vessel, beam_bounds, best_beam_height, change, framed, tea_house, with_body
from splashlib.shoot.decide.spread import Aim, Spread, aim, hand_too_high, spread

DROPS = 30
HAIR = 1e-6
"""Room between a beam and the hand over it [m]."""
UNDER_HAND = 0.02
"""The other beam lies so far under the lowest point of the body in the hand [m]."""
HAND = 0.003
"""The hand that is too high, in the readout [m]."""
NUMBER = 30.0
"""Letters to be read from the back of the room [points]."""
PLAIN = {"fontweight": "normal"}
REASONS = {"rim": "rim", "frame": "frame", "lag": "lag"}


@dataclass(frozen=True, kw_only=True, eq=False)
class Outcome:
    """What one beam makes of thirty drops; `hand`: what a hand 3 mm too high does in the picture [m]."""

    aim: Aim
    spread: Spread
    hand: float


@dataclass(frozen=True, kw_only=True, eq=False)
class BeamLimits:
    """What does not depend on where the beam is: the beam under the hand, the bounds, the best height or None."""

    other: Outcome
    bounds: dict
    best: float | None


def bodies_of(drop):
    """Names of what may fall: the body of the set-up, and the others of the scene."""
    return (drop.name, *(name for name in BODIES if name != drop.name))


def under_hand(setup):
    """Height of a beam just under the hand [m]."""
    half = setup.beam.width / 2
    # All of a beam lies under the hand, of a wide one by a hair, so that no rounding puts it above.
    return max(setup.drop.release_height - max(UNDER_HAND, half + HAIR), half)


def outcome(setup, *, wanted, seed):
    """Drop thirty times with one beam, the delay set for a height.

    Parameters
    ----------
    setup : Setup
    wanted : float, lowest point over the water at the light [m]
    seed : int, of the drops

    Returns
    -------
    Outcome
    """
    aimed = aim(setup, height=wanted)
    drops = spread(aimed.setup, DROPS, np.random.default_rng(seed))
    return Outcome(aim=aimed, spread=drops, hand=hand_too_high(aimed.setup, HAND))


@lru_cache(maxsize=64)
def _room(setup, wanted, seed):
    try:
        best = best_beam_height(setup, height=wanted)
    except ValueError:
        best = None
    other = outcome(setup, wanted=wanted, seed=seed)
    return BeamLimits(other=other, bounds=beam_bounds(setup, height=wanted), best=best)


def room(setup, *, wanted, seed):
    """What holds for every beam of a set-up; remembered while only the beam is dragged."""
    high = change(setup, "beam.height", under_hand(setup))
    return _room(change(high, "trigger.delay", 0.0), wanted, seed)


@dataclass(frozen=True)
class Still:
    """What the resting layer depends on: vessel, frame, and how high the hand is [m]."""

    vessel: Vessel
    frame: Frame
    hand: float

    @classmethod
    def of(cls, setup):
        """Take it from a set-up."""
        return cls(setup.vessel, framed(setup), setup.drop.release_height)

    @property
    def longest(self):
        """From the beam under the hand to the water, about [s]."""
        return fall_time(self.hand) - fall_time(min(UNDER_HAND, self.hand))


class BeamPicture(Layered):
    """The set with its beams and bounds, thirty drops with each of two beams, and lead against lag.

    Parameters
    ----------
    size : (int, int), optional [pixels]
    overlay : function, optional
        (setup, draw, size=(width, height)) -> uint8 array (height, width, 3): thirty photographs over each other,
        shown at rest in place of the plain bodies. It takes too long to be made while a handle moves.
    """

    size = (1000, 620)
    rc: ClassVar[dict] = {"font.size": 13, "axes.labelsize": 13, "xtick.labelsize": 13, "ytick.labelsize": 13}

    def __init__(self, size=None, *, overlay=None):
        self.overlay, self._drops, self._laid = overlay, [None, None], None
        self._still = Still.of(tea_house())
        super().__init__(size)

    def build(self, figure):
        """Draw what rests; return what moves."""
        still = self._still
        left, right, wide = 0.325, 0.668, 0.325
        scene = figure.add_axes((0.004, 0.01, 0.298, 0.93))
        frames = [figure.add_axes((x, 0.518, wide, 0.35)) for x in (left, right)]
        strips = [figure.add_axes((x, 0.312, wide, 0.165)) for x in (left, right)]
        time = figure.add_axes((left + 0.115, 0.078, right + wide - left - 0.125, 0.125))
        scene.axis("off")
        self.set_view = BeamSet(scene, vessel=still.vessel, hand=still.hand, frame=still.frame, reasons=REASONS)
        self.ghosts = [OverlaidBodies(axes, frame=still.frame, vessel=still.vessel) for axes in frames]
        self.tallies = [MissChart(axes, drops=DROPS, numbered=axes is strips[0]) for axes in strips]
        self.wait = LeadChart(time, rows=("under the hand", "yours"), span=1.05 * max(still.longest, 0.12))
        self._write(figure)
        parts = [self.set_view, *self.ghosts, *self.tallies, self.wait]
        return [*(artist for part in parts for artist in part.moving), *self.names, *self.numbers]

    def _write(self, figure):
        """Titles, the names of the two beams, and how far apart their drops are, for the back of the room."""
        words = {"fontweight": "bold", "va": "center"}
        figure.text(0.012, 0.965, "How low may the beam be?", fontsize=14, **words)
        figure.text(0.325, 0.24, "Lag, then delay, up to the light. ▼ is the instant that you want", **words)
        self.names, self.numbers = [], []
        # Words that are new at every step of a drag cost least set anew, the others kept as pixels.
        for ghosts, name, put in zip(
            self.ghosts, ("Beam under the hand", "Your beam"), (write, Axes.text), strict=True
        ):
            axes = ghosts.axes
            over = {"transform": axes.transAxes, **words}
            axes.text(0, 1.3, name, fontsize=13.5, **over)
            axes.text(1, 1.13, "from the lowest\nto the highest", ha="right", fontsize=11.5, **(over | PLAIN))
            self.names.append(put(axes, 1, 1.3, "", fontsize=13.5, ha="right", **over))
            self.numbers.append(put(axes, 0, 1.13, "", fontsize=NUMBER, **over))

    def update(self, setup, *, wanted, body, seed):
        """Drop thirty times with the beam under the hand and thirty times with this one."""
        setup = setup if body == setup.drop.name else with_body(setup, body)
        self._keep_up(setup)
        seed = round(seed)
        around = room(setup, wanted=wanted, seed=seed)
        mine = outcome(setup, wanted=wanted, seed=seed)
        for place, each in enumerate((around.other, mine)):
            self._move_side(place, each, wanted)
        self._move_set(setup, mine, around)
        return told(setup, mine=mine, room=around, wanted=wanted, seed=seed, system=self.system)

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture: plain bodies while a handle moves, photographs over each other at rest."""
        if self.overlay:
            self._lay(None if moving else scale)
        return super().frame(moving=moving, scale=scale)

    def _lay(self, scale):
        if self._laid == scale:
            return
        for ghosts, (setup, draw) in zip(self.ghosts, self._drops, strict=True):
            size = [round(scale * edge * DPI / self.figure.dpi) for edge in ghosts.axes.bbox.size] if scale else None
            ghosts.overlay(self.overlay(setup, draw, size=size) if scale else None)
        self._laid = scale

    def _keep_up(self, setup):
        """Lay everything out again when vessel, frame or hand are others than those drawn."""
        still = Still.of(setup)
        if still == self._still:
            return
        self._still = still
        self._moving.clear()
        self.figure.clear()
        with matplotlib.rc_context(self._look()):
            self.moves(*self.build(self.figure))

    def _move_side(self, place, each, wanted):
        setup, drops = each.aim.setup, each.spread
        self._drops[place], self._laid = (setup, drops.draw), None
        self.names[place].set_text(words.length(setup.beam.height, "cm", self.system))
        self.numbers[place].set_text(self._number(drops))
        self.ghosts[place].move(
            drop=setup.drop,
            heights=np.where(drops.seen, drops.heights, math.nan),
            across=drops.draw.across,
            wanted=wanted,
            beam=setup.beam.height,
            empty=_empty(each),
            note=f"{drops.missed} of {DROPS} missed the beam" if drops.missed else "",
        )
        self.tallies[place].move(drops.heights, wanted=wanted)
        lit = math.isfinite(each.aim.lag)
        self.wait.move(place, lead=each.aim.lead if lit else 0.0, lag=each.aim.lag if lit else None,
                       delay=setup.trigger.delay)  # fmt: skip

    def _number(self, drops):
        """How far apart the thirty are."""
        if not drops.seen.any():
            return "none"
        return words.length(drops.span, "mm", self.system, decimals=0 if drops.span >= 0.00995 else 1)

    def _move_set(self, setup, mine, around):
        lowest = float(np.nanmedian(mine.spread.heights)) if mine.spread.missed < DROPS else math.nan
        self.set_view.move(
            drop=setup.drop,
            beam=setup.beam.height,
            other=around.other.aim.setup.beam.height,
            height=lowest if lowest > -setup.vessel.depth else None,
            bounds=around.bounds,
            best=around.best,
            say=lambda value: at_least(value, self.system),
        )


def _empty(each):
    """What is said in a frame without bodies."""
    drops = each.spread
    if drops.missed == DROPS:
        return "no light"
    if drops.seen.any():
        return ""
    if not drops.lit.any():
        return "black: shutter closed"
    return "empty: too late" if each.aim.short_by else "outside the frame"
