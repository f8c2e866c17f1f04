"""What the picture of the lesson `beam` says in words."""

import math

import numpy as np

from splashlib.picture.kit import phrases as words
from splashlib.picture.kit.canvas import Description
from splashlib.shoot import contact_speed, show

NEAR_BEST = 0.05
"""So far over the best height is good enough: it costs a millimetre [m]."""
BEYOND = 0.051
"""Farther off than this a drop is beyond the scale of the chart [m]: its last step ends there."""
FAR = 0.01
"""Drops that lie farther apart than this are no repeat of each other [m]."""
WHY = {"rim": "clear the rim", "frame": "stay out of the frame", "lag": "leave the rig its lag"}


def at_least(value, system="metric"):
    """Say a height that must be reached: rounded up to the next millimetre, so that the words are enough.

    Parameters
    ----------
    value : float [m]
    system : str
    """
    return words.length(math.ceil(1000 * value - 1e-6) / 1000, "cm", system)


def told(setup, *, mine, room, wanted, seed, system="metric"):
    """Say what thirty drops with two beams show.

    Parameters
    ----------
    setup : Setup
    mine : splashlib.picture.beam.beam_picture Outcome, of the set-up's own beam
    room : splashlib.picture.beam.beam_picture Room
    wanted : float, the height that was aimed at [m]
    seed : int, of the drops
    system : str

    Returns
    -------
    Description
    """
    say = _Say(setup, mine, room, wanted, system)
    tone, line = say.verdict()
    return Description(readout=say.readout(seed), alt=say.alt(line, seed), line=line, tone=tone)


class _Say:
    def __init__(self, setup, mine, room, wanted, system):
        self.setup, self.mine, self.room, self.wanted, self.system = setup, mine, room, wanted, system
        self.name, self.beam = words.name_of(setup.drop), setup.beam.height

    def cm(self, value):
        return words.length(value, "cm", self.system)

    def least(self, value):
        return at_least(value, self.system)

    def mm(self, value):
        return words.length(value, "mm", self.system, decimals=1)

    def apart(self, drops):
        if drops.missed == len(drops):
            return "no picture"
        if not drops.seen.any():
            return "none in the frame"
        return f"{self.mm(drops.span)} apart"

    def readout(self, seed):
        aim, other = self.mine.aim, self.room.other
        lit = math.isfinite(aim.lag)
        bounds = ", ".join(f"{reason} {self.bound(reason)}" for reason in WHY)
        return (
            ("Delay for this beam", words.ms(aim.setup.trigger.delay, 1)),
            ("Lead, from the beam to that instant", words.ms(aim.lead, 1) if lit else "-"),
            ("Lag, from the beam to the light", words.ms(aim.lag, 1) if lit else "no light"),
            ("Thirty drops, your beam", self.apart(self.mine.spread)),
            ("Thirty drops, beam under the hand", self.apart(other.spread)),
            (f"A hand {self.mm(0.003)} too high", f"{self.mm(self.mine.hand)} lower"),
            ("The same, beam under the hand", f"{self.mm(other.hand)} lower"),
            ("Beam at least, for", bounds),
            ("Best height", "none" if self.room.best is None else self.least(self.room.best)),
            (f"More than {self.cm(BEYOND)} off", f"{self.far_off()} of {len(self.mine.spread)}"),
            ("Missed the beam", f"{self.mine.spread.missed} of {len(self.mine.spread)} (series {seed})"),
        )

    def far_off(self):
        """How many drops lie beyond the scale of the chart."""
        off = np.abs(self.mine.spread.heights - self.wanted)
        return int((off > BEYOND).sum())

    def bound(self, reason):
        value = self.room.bounds[reason]
        return "none will do" if math.isnan(value) else self.least(max(value, 0.0))

    def verdict(self):
        """A tone and one sentence or two."""
        drops = self.mine.spread
        if drops.missed == len(drops):
            return "bad", f"Nothing is triggered: the {self.name} does not block enough of the beam."
        if not drops.lit.any():
            return "bad", "The flash fires while the shutter is closed. All thirty frames are black."
        found = self.too_late(self.mine.aim) or self.outside(drops) or self.too_low() or self.misses(drops)
        return found or self.repeats(drops)

    def too_late(self, aim):
        if self.beam <= self.wanted:
            return "bad", f"The beam lies no higher than the place where you want the {self.name}. Raise it."
        if aim.short_by == 0:
            return None
        best = self.room.best
        way = "No beam under this hand is high enough." if best is None else f"Raise the beam to {self.least(best)}."
        late = words.ms(aim.short_by, 1)
        return "bad", f"Too late by {late}. The lag is longer than the lead: no delay repairs that. {way}"

    def outside(self, drops):
        if drops.seen.any():
            return None
        return "bad", f"The place where you want the {self.name} is outside the frame. Aim the camera at it."

    def too_low(self):
        for reason, word in WHY.items():
            bound = self.room.bounds[reason]
            # A bound that no height meets is nan, and this comparison false.
            if not self.beam >= bound - 1e-9:
                need = "no height is enough" if math.isnan(bound) else f"that needs {self.least(bound)}"
                late = " When the lag is long, the light comes too late." if reason == "lag" else ""
                return "warning", f"Too low to {word}: {need}.{late}"
        return None

    def misses(self, drops):
        if drops.missed < 3:
            return None
        return "warning", (
            f"{drops.missed} of {len(drops)} miss the beam: the {self.name} is small against its sideways scatter. "
            "Guide it, or let it fall through the middle of the beam."
        )

    def repeats(self, drops):
        both = (
            f"Your thirty drops lie within {self.mm(drops.span)}. With the beam under the hand the same thirty lie "
            f"within {self.mm(self.room.other.spread.span)}."
        )
        if self.by_camera() > drops.span / 2:
            lag = show("camera.lag_scatter", self.setup.camera.lag_scatter)
            tone = "warning" if drops.span > FAR else "good"
            return tone, f"{both} What is left is the camera's: its lag scatters by {lag}, and no beam cures that."
        if self.beam <= self.room.best + NEAR_BEST:
            return "good", both
        reason = max(self.room.bounds, key=self.room.bounds.get)
        return (
            "warning",
            f"{both} At {self.least(self.room.best)} the beam would still {WHY[reason]}, and repeat better.",
        )

    def by_camera(self):
        """How far apart thirty drops lie by the scatter of the camera's lag alone [m]: four scatters of a bell."""
        camera = self.setup.camera
        wide = 1 if camera.scatter_shape == "uniform" else 4
        return wide * camera.lag_scatter * contact_speed(self.setup)

    def alt(self, line, seed):
        aim, other = self.mine.aim, self.room.other
        best = (
            "no height is good for the beam"
            if self.room.best is None
            else f"the best height is {self.least(self.room.best)}"
        )
        return (
            f"The set from the side: the {self.name} is let go {self.cm(self.setup.drop.release_height)} over the "
            f"water; "
            f"one beam lies under the hand at {self.cm(other.aim.setup.beam.height)}, yours at "
            f"{self.cm(self.beam)}; {best}. "
            f"Beside it two frames, each with thirty translucent bodies (series {seed}). "
            f"Beam under the hand: {self.scene(other.spread)}. Your beam: {self.scene(self.mine.spread)}. "
            f"Delay {words.ms(aim.setup.trigger.delay, 1)}. {line}"
        )

    def scene(self, drops):
        seen, missed = int(drops.seen.sum()), drops.missed
        if missed == len(drops):
            return "no light, an empty row of dark frames"
        if not seen:
            return "an empty frame, all bodies are gone when the light comes"
        rest = f", {missed} missed the beam" if missed else ""
        return f"{seen} bodies in the frame, {self.apart(drops)}{rest}"
