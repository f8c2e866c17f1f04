"""One impact as data: what meets the water, how fast, and the dimensionless numbers that decide the rest.

Three Froude numbers are in use in papers: U^2/(gR), U^2/(gD) and U/sqrt(gD). A solid body's `froude` is always
U^2/(gR) with R its radius as seen from below, a drop's is U^2/(gD) with its diameter; both say so again.
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

from splashlib.physics.checks import one_of, positive
from splashlib.physics.constants import (
    GRAVITY,
    MILK_DENSITY,
    MILK_SURFACE_TENSION,
    MILK_VISCOSITY,
    WATER_DENSITY,
    WATER_SURFACE_TENSION,
    WATER_VISCOSITY,
)

SURFACES = ("rough", "wet", "smooth_dry")


class Liquid(NamedTuple):
    """A liquid: density [kg/m3], viscosity [Pa s], surface tension against air [N/m]."""

    density: float
    viscosity: float
    tension: float


LIQUIDS = {
    "water": Liquid(WATER_DENSITY, WATER_VISCOSITY, WATER_SURFACE_TENSION),
    "milk": Liquid(MILK_DENSITY, MILK_VISCOSITY, MILK_SURFACE_TENSION),
}


class Band(NamedTuple):
    """A quantity that is known only within limits: its least, its likely and its greatest value.

    Of a time the least is the earliest: `early` and `late` say the same of it as `low` and `high`.
    """

    low: float
    likely: float
    high: float

    @property
    def early(self):
        """The earliest, where the quantity is a time."""
        return self.low

    @property
    def late(self):
        """The latest, where the quantity is a time."""
        return self.high

    def after(self, other):
        """This band, pushed later where needed so that none of its three values comes before `other`'s."""
        return Band(*(max(mine, its) for mine, its in zip(self, other, strict=True)))

    def plus(self, other):
        """The sum of two bands, limit by limit."""
        return Band(*(mine + its for mine, its in zip(self, other, strict=True)))


@dataclass(frozen=True)
class Stage:
    """One thing that the water does: when, how surely, and who says so.

    Times in s after first contact. `chance` is that the stage happens at all, above 0 and at most 1. `grade`:
    "B" rests on a published law, "C" on an estimate from the physics with soft inputs: a range, not a figure.
    """

    name: str
    early: float
    likely: float
    late: float
    chance: float
    source: str
    grade: str = "C"


@dataclass(frozen=True, kw_only=True)
class SolidImpact:
    """A solid body meeting a liquid, straight down, SI units; make it with `solid_impact`.

    `diameter` is that of the circle with the area that the body shows from below, `length` its upright axis.
    """

    diameter: float
    length: float
    density: float
    speed: float
    surface: str
    liquid: Liquid
    water_depth: float
    vessel_width: float

    @property
    def radius(self):
        """Half the diameter [m]."""
        return self.diameter / 2

    @property
    def froude(self):
        """U^2/(gR) [-]: inertia against gravity."""
        return self.speed**2 / (GRAVITY * self.radius)

    @property
    def weber(self):
        """rho U^2 R/sigma [-]: inertia against surface tension."""
        return self.liquid.density * self.speed**2 * self.radius / self.liquid.tension

    @property
    def bond(self):
        """rho g R^2/sigma [-]: gravity against surface tension."""
        return self.liquid.density * GRAVITY * self.radius**2 / self.liquid.tension

    @property
    def relative_density(self):
        """Density of the body over that of the liquid [-]."""
        return self.density / self.liquid.density

    @property
    def slenderness(self):
        """Upright axis over the diameter [-]; 1 for a sphere. It is also the volume over that of a sphere."""
        return self.length / self.diameter


@dataclass(frozen=True, kw_only=True)
class DropImpact:
    """A liquid drop meeting its own liquid, SI units; make it with `drop_impact`."""

    diameter: float
    speed: float
    film_depth: float
    liquid: Liquid

    @property
    def froude(self):
        """U^2/(gD) [-], with the diameter."""
        return self.speed**2 / (GRAVITY * self.diameter)

    @property
    def weber(self):
        """rho U^2 D/sigma [-], with the diameter."""
        return self.liquid.density * self.speed**2 * self.diameter / self.liquid.tension

    @property
    def reynolds(self):
        """rho U D/mu [-]."""
        return self.liquid.density * self.speed * self.diameter / self.liquid.viscosity

    @property
    def ohnesorge(self):
        """mu/sqrt(rho sigma D) [-]: viscosity against surface tension."""
        return self.liquid.viscosity / math.sqrt(self.liquid.density * self.liquid.tension * self.diameter)


def solid_impact(
    *,
    diameter,
    density,
    speed,
    surface,
    length=None,
    liquid="water",
    water_depth=math.inf,
    vessel_width=math.inf,
):
    """Describe a solid body that meets the water.

    Parameters
    ----------
    diameter : float
        Diameter of the body as seen from below [m]; of an oval one lying down use `frontal_diameter`.
    density : float
        Density of the body [kg/m3].
    speed : float
        Speed at the water [m/s].
    surface : str
        "rough" (also dusty or water-repelling), "wet", or "smooth_dry" (clean and polished).
    length : float, optional
        Upright axis of an oval body [m]; the diameter where left out.
    liquid : str
        "water" or "milk", in the vessel.
    water_depth, vessel_width : float
        Depth of the liquid and width of the vessel [m]; infinite for an open pool.

    Returns
    -------
    SolidImpact
    """
    diameter = _one("diameter", diameter, "m")
    return SolidImpact(
        diameter=diameter,
        length=diameter if length is None else _one("length", length, "m"),
        density=_one("density", density, "kg/m3"),
        speed=_one("speed", speed, "m/s"),
        surface=one_of("surface", surface, SURFACES),
        liquid=LIQUIDS[one_of("liquid", liquid, tuple(LIQUIDS))],
        water_depth=_one("water_depth", water_depth, "m", infinite=True),
        vessel_width=_one("vessel_width", vessel_width, "m", infinite=True),
    )


def drop_impact(*, diameter, speed, film_depth=math.inf, liquid="water"):
    """Describe a drop that meets a pool or film of its own liquid.

    Parameters
    ----------
    diameter : float
        Diameter of the sphere of equal volume [m].
    speed : float
        Speed at the surface [m/s].
    film_depth : float
        Depth of the liquid that it meets [m]; infinite for a deep pool.
    liquid : str
        "water" or "milk".

    Returns
    -------
    DropImpact
    """
    return DropImpact(
        diameter=_one("diameter", diameter, "m"),
        speed=_one("speed", speed, "m/s"),
        film_depth=_one("film_depth", film_depth, "m", infinite=True),
        liquid=LIQUIDS[one_of("liquid", liquid, tuple(LIQUIDS))],
    )


def frontal_diameter(*, diameter, length):
    """Diameter of the circle with the area that an oval body lying on its side shows from below [m].

    Parameters
    ----------
    diameter, length : float
        Short and long axis of the body [m].

    Returns
    -------
    float
        sqrt(diameter x length) [m].

    Notes
    -----
    Cavity and drag follow the frontal area to first order; the splash of a lying oval is itself oval, which is
    neglected (the bands of the stages are widened for it).

    Sources
    -------
    Area of the ellipse; drag and cavity per frontal area: A. May, "Water entry and the cavity-running behavior
    of missiles", SEAHAC TR 75-2 (1975).
    """
    return math.sqrt(_one("diameter", diameter, "m") * _one("length", length, "m"))


def ramp(value, *, low, high):
    """Rise from 0 at `low` to 1 at `high`, straight in the logarithm of the value."""
    if value <= low:
        return 0.0
    if value >= high:
        return 1.0
    return math.log(value / low) / math.log(high / low)


def _one(name, value, unit, *, infinite=False):
    number = positive(name, value, unit, infinite=infinite)
    if not isinstance(number, float):
        raise ValueError(f"{name} is an array; it must be one number in {unit}")
    return float(number)
