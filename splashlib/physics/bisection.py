"""Where something that holds on one side ceases to hold: found by halving, in one place."""

import math


def last_held(holds, low, high, *, steps=60):
    """Find the end of the range in which something holds.

    Parameters
    ----------
    holds : function of a float to bool; true from `low` up to the wanted place, false beyond it
    low, high : float, in any unit; on either side of the place
    steps : int, halvings of the interval

    Returns
    -------
    float
        The upper end of the last interval: right to (high - low) / 2**steps.
    """
    return _halved(holds, low, high, steps, lambda a, b: (a + b) / 2)


def last_held_ratio(holds, low, high, *, steps=40):
    """As `last_held`, for a positive quantity whose size is not known: halves the ratio of the two ends."""
    return _halved(holds, low, high, steps, lambda a, b: math.sqrt(a * b))


def _halved(holds, low, high, steps, between):
    for _ in range(steps):
        middle = between(low, high)
        low, high = (middle, high) if holds(middle) else (low, middle)
    return high
