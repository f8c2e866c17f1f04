"""Numbers in words, as readouts and alternative texts say them; lengths in the units that the reader chose."""

import math
import unicodedata

from splashlib.physics.constants import INCH
from splashlib.shoot.setup.figures import UNKNOWN, figures, fixed

LENGTHS = {"cm": (100, 1), "mm": (1000, 2), "m": (1, 2)}  # per metre, decimals
FINER = {"cm": 1, "mm": 2, "m": -1}
"""So many decimals more make inches about as fine as the metric unit: 0.01 in is 0.25 mm, next to a millimetre."""
MINUS = "\N{MINUS SIGN}"
RIGHT_TO_LEFT = ("R", "AL", "AN")
ISOLATE, END_ISOLATE = "\N{FIRST STRONG ISOLATE}", "\N{POP DIRECTIONAL ISOLATE}"


def length(value, unit="cm", system="metric", decimals=None):
    """Say a length.

    Parameters
    ----------
    value : float [m]
    unit : "cm", "mm" or "m", the metric unit
    system : "metric" or "imperial"
    decimals : int, optional, of the metric number; inches are said as finely
    """
    per_metre, usual = LENGTHS[unit]
    decimals = usual if decimals is None else decimals
    if system == "imperial":
        return _with_unit(fixed(value / INCH, max(decimals + FINER[unit], 0)), "in")
    return _with_unit(fixed(value * per_metre, decimals), unit)


def speed(value, system="metric"):
    """Say a speed [m/s]."""
    if system == "imperial":
        return _with_unit(fixed(value / INCH / 12, 1), "ft/s")
    return _with_unit(fixed(value, 2), "m/s")


def ms(value, decimals=0):
    """Say a time [s] in milliseconds."""
    return _with_unit(fixed(1000 * value, decimals), "ms")


def part_of_second(value):
    """Say a short time [s] as photographers do: 1/12 000 s, to two digits; one of a second or more as it is."""
    if not (math.isfinite(value) and value > 0):
        return UNKNOWN
    parts = 1 / value
    if parts < 1.5:
        return f"{figures(value)} s"
    step = 10 ** max(0, math.floor(math.log10(parts)) - 1)
    return f"1/{round(parts / step) * step:,} s".replace(",", "\N{NARROW NO-BREAK SPACE}")


def stops(value):
    """Say a number of stops with its sign."""
    return _with_unit(fixed(value, 1, sign=True), "stops")


def name_of(drop):
    """Say the name of what falls; one that is read from right to left is kept from turning the sentence around."""
    name = drop.name
    if any(unicodedata.bidirectional(letter) in RIGHT_TO_LEFT for letter in name):
        return f"{ISOLATE}{name}{END_ISOLATE}"
    return name


def _with_unit(number, unit):
    return number if number == UNKNOWN else f"{number} {unit}".replace("-", MINUS)
