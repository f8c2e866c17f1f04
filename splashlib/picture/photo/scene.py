"""What is where at a time, in one drop: the body, and the impact that the water's shapes are computed from."""

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from splashlib.physics import droplets, water_entry
from splashlib.picture.photo.objects.body_sprite import Body, look_of
from splashlib.picture.photo.water.walls import VARIANTS
from splashlib.shoot import body_height, framed, impact_of
from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.framing import merged

NOMINAL = 1851
"""Seed of what chance shapes in the nominal drop: fingers of the crown, thrown droplets."""


@dataclass(frozen=True)
class Scene:
    """One drop: set-up, its draw and events, and the seed of everything that has only a shape.

    With `flat` the body is drawn in the plane of fall, however far it strays towards the camera.
    """

    setup: object
    draw: object
    seed: int
    flat: bool = False

    @cached_property
    def when(self):
        """The dated events of this drop."""
        return events(self.setup, self.draw)

    @property
    def contact(self):
        """When the body touches the water [s]."""
        return float(self.when.contact[0])

    @property
    def across(self):
        """How far to the right of the middle the body falls [m]."""
        return float(self.draw.across[0])

    @property
    def behind(self):
        """How far behind the plane of fall the body falls [m]."""
        return 0.0 if self.flat else -float(self.draw.toward[0])

    @cached_property
    def impact(self):
        """The impact as the physics of the water takes it."""
        return impact_of(self.setup)

    @cached_property
    def chance(self):
        """Everything that chance shapes in this splash."""
        return shapes_of(self.impact, self.seed)

    @cached_property
    def variant(self):
        """Which of the few sets of wrinkles the walls have."""
        return self.seed % VARIANTS

    @property
    def busy(self):
        """When the body moves through the frame, with room to spare [s]."""
        speed, drop = self.impact.speed, self.setup.drop
        # Its mean speed on the way down is at least half of its last one.
        fall = 2 * max(framed(self.setup).top, 0.0) / speed
        return max(float(self.when.released[0]), self.contact - fall), self.contact + 4 * drop.height / speed + 0.05

    def heights(self, times):
        """Height of the body's lowest point at times [m]."""
        return np.asarray(body_height(self.setup, np.asarray(times, float), draw=self.draw))

    def merged(self, times):
        """Whether a liquid drop has become part of the pool."""
        return merged(self.setup, np.asarray(times, float) - self.contact)

    def happens(self, stage):
        """Whether a stage of the splash happens in this drop."""
        return bool(np.isfinite(self.when.stages.get(stage, np.array([np.nan]))[0]))

    @cached_property
    def splashes(self):
        """Whether this body throws up a crown and opens a cavity behind it, or a drop its crown."""
        return self.happens("crown_peak")

    @cached_property
    def slipped(self):
        """Whether this body slipped in: no crown, no cavity, and a spout instead of a cavity's jet."""
        return not (self.setup.drop.liquid or self.splashes)

    @cached_property
    def domed(self):
        """Whether this crown closes into a dome."""
        return self.happens("dome_closes")

    def water_time(self, times):
        """Times after contact on the clock of the likely splash: an early one runs ahead of it, a late one behind.

        The stages of this drop are laid on the likely ones; in between the clock runs evenly.
        """
        since = np.asarray(times, float) - self.contact
        here, likely = self._clock
        return np.interp(since, here, likely) + np.maximum(since - here[-1], 0)

    @cached_property
    def _clock(self):
        if self.draw.pace[0] == 0:
            return np.array([-1.0, 0.0]), np.array([-1.0, 0.0])
        usual = events(self.setup)
        pairs = [
            (float(dates[0]) - self.contact, float(usual.stages[name][0] - usual.contact[0]))
            for name, dates in self.when.stages.items()
            if np.isfinite(dates[0]) and np.isfinite(usual.stages[name][0])
        ]
        here, likely = np.array(sorted([(-1.0, -1.0), (0.0, 0.0), *pairs])).T
        return here, np.maximum.accumulate(likely)

    @cached_property
    def peak_time(self):
        """When the likely crown is highest, after contact [s]."""
        return float(water_entry.crown_peak(self.impact).likely)

    def body(self, scale):
        """The body as it is drawn at `scale` [picture elements per m]."""
        drop = self.setup.drop
        spin, lean, roll = np.random.default_rng((self.seed, 1)).uniform(size=3)
        turn = (2 * math.pi * spin, -0.9 + 1.5 * lean, 0.8 * (roll - 0.5))
        if self.seed == NOMINAL:
            turn = (0.5, 0.55, 0.25)
        return Body(look_of(drop), drop.breadth / 2 * scale, drop.height / 2 * scale, turn)


@dataclass(frozen=True, eq=False, kw_only=True)
class Shapes:
    """What chance shapes in one splash.

    angles, lengths, bends : of the threads on the rim; lengths relative, 0 to 1; bends out and sideways.
    bead_angles, bead_sizes : of the beads on the rim; sizes, first of those on the tips, in radii of the rim.
    rim : pairs (amplitude, phase) of the crown's waves of 1, 2, 3 ... round it.
    waves : phases and amplitudes of the waver of the column, two rows each.
    thrown : droplets.
    """

    angles: np.ndarray
    lengths: np.ndarray
    bends: np.ndarray
    bead_angles: np.ndarray
    bead_sizes: np.ndarray
    rim: np.ndarray
    waves: tuple
    thrown: droplets.Droplets

    def height_factor(self, theta):
        """How high the rim stands at an angle, over its mean."""
        waves = np.arange(1, len(self.rim) + 1)[:, None]
        wave = (self.rim[:, :1] * np.cos(waves * theta + self.rim[:, 1:])).sum(0)
        away = np.abs((theta[:, None] - self.angles + np.pi) % (2 * np.pi) - np.pi)
        spacing = 2 * np.pi / max(len(self.angles), 1)
        peaks = (self.lengths * np.exp(-away / (0.22 * spacing))).sum(1)
        return (1 + wave + 0.16 * (peaks - peaks.mean())).astype(np.float32)

    def rib_turn(self, theta):
        """How far the sheet's normal turns sideways beside the ridges that lead up to the threads [rad]."""
        away = (theta[:, None] - self.angles + np.pi) % (2 * np.pi) - np.pi
        near = away / (0.15 * 2 * np.pi / max(len(self.angles), 1))
        return (0.9 * self.lengths * near * np.exp(-(near**2))).sum(1).astype(np.float32)


@lru_cache(maxsize=64)
def shapes_of(impact, seed):
    """Draw the shapes of one splash."""
    rng = np.random.default_rng((seed, 2))
    thrown = with_satellites(droplets.throw(impact, rng), impact, rng)
    count = int(np.clip(len(thrown.diameter) / 14, 9, 26))
    lengths = rng.uniform(0.25, 1.0, count)
    tips = rng.uniform(0.75, 1.7, count) * (0.6 + 0.6 * lengths)
    return Shapes(
        angles=(np.arange(count) + rng.uniform(-0.36, 0.36, count)) * 2 * np.pi / count,
        lengths=lengths,
        bends=rng.normal(0, 0.30, (2, count)),
        bead_angles=rng.uniform(0, 2 * np.pi, BEADS * count),
        bead_sizes=np.concatenate([tips, rng.gamma(3, 0.38, BEADS * count).clip(0.5, 1.6)]),
        rim=np.stack([rng.normal(0, 0.05, 7) / np.sqrt(np.arange(1, 8)), rng.uniform(0, 2 * np.pi, 7)], 1),
        waves=(rng.uniform(0, 2 * np.pi, (2, 4)), rng.normal(0, 1, (2, 4))),
        thrown=thrown,
    )


BEADS = 3
"""Beads on the rim for each thread."""

SATELLITES = 2.5
"""Small drops for every large one: a thread that breaks leaves one or more between any two drops (class value)."""


def with_satellites(thrown, impact, rng):
    """Add the small drops that form between the large ones when threads break, 0.1 to 0.45 of their size."""
    count = int(SATELLITES * len(thrown.diameter))
    if not count:
        return thrown
    small = droplets.throw(impact, rng, count=count)
    size = small.diameter * rng.uniform(0.10, 0.45, count)
    speed = np.maximum(np.hypot(small.outward, small.upward), 0.05)
    small = small._replace(diameter=size, relax=droplets.relax_time(size, speed, impact.liquid.density))
    return droplets.Droplets(*(np.concatenate(pair) for pair in zip(thrown, small, strict=True)))
