"""Numbers in words, as readouts and alternative texts say them; lengths in the units that the reader chose."""

import math

INCH = 0.0254  # m, exact by definition
LENGTHS = {"cm": (100, 1), "mm": (1000, 2), "m": (1, 2)}  # per metre, decimals
INCHES = {"cm": 1, "mm": 3, "m": 1}  # decimals in inches, by the metric unit that they stand for
MINUS = "\N{MINUS SIGN}"


def length(value, unit="cm", system="metric"):
    """Say a length.

    Parameters
    ----------
    value : float [m]
    unit : "cm", "mm" or "m", the metric unit
    system : "metric" or "imperial"
    """
    if system == "imperial":
        return _signed(f"{value / INCH:.{INCHES[unit]}f} in")
    per_metre, decimals = LENGTHS[unit]
    return _signed(f"{value * per_metre:.{decimals}f} {unit}")


def speed(value, system="metric"):
    """Say a speed [m/s]."""
    return f"{value / INCH / 12:.1f} ft/s" if system == "imperial" else f"{value:.2f} m/s"


def ms(value, decimals=0):
    """Say a time [s] in milliseconds."""
    return _signed(f"{1000 * value:.{decimals}f} ms")


def part_of_second(value):
    """Say a short time [s] as photographers do: 1/12 000 s, to two digits."""
    parts = 1 / value
    step = 10 ** max(0, math.floor(math.log10(parts)) - 1)
    return f"1/{round(parts / step) * step:,} s".replace(",", "\N{NARROW NO-BREAK SPACE}")


def stops(value):
    """Say a number of stops with its sign."""
    return _signed(f"{value:+.1f} stops")


def _signed(text):
    return text.replace("-", MINUS)
