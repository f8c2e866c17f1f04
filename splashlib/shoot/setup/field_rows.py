"""What one row of the table of fields knows: its label, unit, range, step, key, and how to check a value.

Inside, settings are SI; a row says how they are shown (cm, ms, mm) and what is allowed. `low`, `high`
and `step` are the slider's, `least` and `most` the limits of what is possible, all in the shown unit.
"""

import math
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from numbers import Integral, Real

from splashlib.shoot.setup.figures import figures

STYLES = ("mirror", "mirror_up", "no_mirror", "held_open")


class SettingError(ValueError):
    """A setting with an impossible value: `path`, what was `said`, what is `allowed`."""

    def __init__(self, row, said):
        self.path, self.said, self.allowed = row.path, said, row.allowed
        super().__init__(f"{row.label} is {said}; it must be {row.allowed} ({row.path})")


@dataclass(frozen=True, kw_only=True)
class Field:
    """One setting: where it stands in the set-up, how it is called, shown, dragged, limited and written.

    kind "number" has low, high, step (for its slider, in `unit`); "marks" has `marks`, the engraved steps
    of a dial as (label, SI value), and `dial`, its kind in physics.stops; "choice" has `choices` as (label,
    value); "text" is free.
    """

    path: str
    label: str
    kind: str = "number"
    unit: str = ""
    per_si: int = 1
    low: float = 0.0
    high: float = 1.0
    step: float = 0.1
    least: float = 0.0
    most: float = math.inf
    whole: bool = False
    marks: tuple = ()
    dial: str = ""
    choices: tuple = ()
    key: str = ""

    @cached_property
    def limits(self):
        """The smallest and the largest value allowed [SI]."""
        return self.to_si(self.least), self.to_si(self.most)

    @cached_property
    def allowed(self):
        """What is allowed, in words."""
        if self.kind == "text":
            return "a text of 1 to 60 characters on one line, none of them invisible"
        if self.kind == "choice":
            return "one of " + ", ".join(f'"{value}"' for _, value in self.choices)
        unit = f" {self.unit}" if self.unit else ""
        least = fraction_text(self.least) if 0 < self.least < 0.001 else f"{self.least:.10g}"
        return f"a {'whole ' if self.whole else ''}number from {least} to {self.most:.10g}{unit}"

    def to_si(self, shown):
        """Turn a shown number into SI, in decimal arithmetic: 45.1 cm is 0.451 m and nothing near it."""
        if self.per_si == 1:
            return float(shown)
        return float(Decimal(str(shown)) / self.per_si)

    def from_si(self, value):
        """Turn an SI number into the shown unit, in decimal arithmetic."""
        if self.per_si == 1:
            return float(value)
        return float(Decimal(repr(float(value))) * self.per_si)

    def check(self, value):
        """Return `value` [SI] in its own type, or raise SettingError with one line."""
        if self.kind in ("number", "marks"):
            return self._number(value)
        if self.kind == "text":
            fine = isinstance(value, str) and 0 < len(value) <= 60 and value.isprintable() and value.strip()
        else:
            fine = isinstance(value, str) and any(value == choice for _, choice in self.choices)
        if not fine:
            raise SettingError(self, quoted(value))
        return str(value)

    def _number(self, value):
        if isinstance(value, bool) or not isinstance(value, Real):
            raise SettingError(self, quoted(value))
        least, most = self.limits
        if not least <= value <= most or not math.isfinite(value):
            raise SettingError(self, self.text(_float(value)))
        if not self.whole:
            return float(value)
        if not isinstance(value, Integral) and float(value) != int(value):
            raise SettingError(self, self.text(float(value)))
        return int(value)

    def text(self, value, *, digits=6):
        """Say a number [SI] with its unit, as exactly as `digits` figures allow."""
        shown = self.from_si(value) if math.isfinite(value) else value
        return f"{shown:.{digits}g} {self.unit}".strip()


def _float(value):
    """The number, infinite where it is too large for a float."""
    try:
        return float(value)
    except OverflowError:
        return math.inf if value > 0 else -math.inf


def quoted(value):
    """Say any value on one short line."""
    try:
        said = " ".join(repr(value).split())
    except ValueError:  # Python refuses to write whole numbers of thousands of digits
        said = "a number of many digits"
    said = f'"{value}"' if isinstance(value, str) and value.isprintable() else said
    return said if len(said) <= 60 else said[:57] + "..."


def fraction_text(value):
    """Write a short time or a power as 1/n when that is what it is, else as a decimal number."""
    count = round(1 / value)
    return f"1/{count}" if float(Fraction(1, count)) == value else figures(value, 4)
