"""Numbers as people read them: no powers of ten, no minus before nothing, and a dash for what has no number."""

import math
from decimal import Decimal

UNKNOWN = "-"
"""Stands for a number that there is not: of light that never comes, of a way without end."""
NOTHING = 1e-9
"""Smaller than this is said as nothing: no unit in use shows it."""


def fixed(value, decimals=0, *, sign=False):
    """Say a number with so many decimals.

    Parameters
    ----------
    value : float
    decimals : int
    sign : bool, whether a plus is said as well

    Returns
    -------
    str : `UNKNOWN` for what is not finite; never "-0.0".
    """
    if not math.isfinite(value):
        return UNKNOWN
    text = f"{value:{'+' if sign else ''}.{decimals}f}"
    return text.replace("-", "+" if sign else "") if float(text) == 0 else text


def figures(value, digits=2):
    """Say a number with so many digits that count, and never with a power of ten: 0.00012, 1.6, 1600.

    Parameters
    ----------
    value : float
    digits : int

    Returns
    -------
    str : `UNKNOWN` for what is not finite.
    """
    if not math.isfinite(value):
        return UNKNOWN
    if abs(value) < NOTHING:
        return "0"
    return f"{Decimal(f'{value:.{digits}g}').normalize():f}"
