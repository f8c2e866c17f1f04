"""Refusing impossible numbers in one clear line, and warning where a model leaves its range.

Every formula sends its arguments through one of these. They take numbers, sequences or arrays and give back a
``float`` or a float array, so that the formula itself need not care which it was given.
"""

import warnings
from numbers import Real

import numpy as np


class OutOfRange(UserWarning):
    """A model was used outside the range that its source covers; the value is still the model's value."""


def warn_outside(text):
    """Warn that a model is used outside its range, from where the formula was called."""
    # Two frames up: the formula that noticed, then the line that called the formula.
    warnings.warn(text, OutOfRange, stacklevel=3)


def positive(name, value, unit="", *, infinite=False):
    """Give `value` back as float or array, refusing anything that is not above 0 (nan and inf included).

    Parameters
    ----------
    name : str
        What the number is, as the caller knows it.
    value : number or array
    unit : str
        Its unit, for the message.
    infinite : bool
        Whether infinity is a meaningful value (a terminal speed without air).

    Returns
    -------
    float or ndarray
    """
    ok = (lambda x: x > 0) if infinite else (lambda x: (x > 0) & (x < np.inf))
    return _checked(name, value, unit, ok, f"above {_with_unit(0, unit)}")


def not_negative(name, value, unit="", *, infinite=False):
    """Give `value` back as float or array, refusing anything below 0 (nan, and inf unless `infinite`)."""
    ok = (lambda x: x >= 0) if infinite else (lambda x: (x >= 0) & (x < np.inf))
    return _checked(name, value, unit, ok, f"{_with_unit(0, unit)} or more")


def finite(name, value, unit=""):
    """Give `value` back as float or array, refusing nan and infinity."""
    return _checked(name, value, unit, lambda x: abs(x) < np.inf, "a finite number")


def between(name, value, low, high, unit="", *, open_low=False, open_high=False):
    """Give `value` back as float or array, refusing anything outside [low, high]; an end may be excluded."""

    def ok(x):
        above = x > low if open_low else x >= low
        below = x < high if open_high else x <= high
        return above & below

    if not (open_low or open_high):
        return _checked(name, value, unit, ok, f"between {low:g} and {_with_unit(high, unit)}")
    start = f"above {low:g}" if open_low else f"at least {low:g}"
    end = f"below {_with_unit(high, unit)}" if open_high else f"at most {_with_unit(high, unit)}"
    return _checked(name, value, unit, ok, f"{start} and {end}")


def whole(name, value, low=1):
    """Give `value` back as int, refusing anything that is not a whole number of at least `low`."""
    number = _number(name, value, "")
    if not (isinstance(number, float) and number.is_integer() and number >= low):
        raise ValueError(f"{name} is {_show(value)}; it must be a whole number, {low} or more")
    return int(number)


def one_of(name, value, allowed):
    """Give `value` back, refusing anything that is not in `allowed`."""
    if not isinstance(value, str) or value not in allowed:
        raise ValueError(f"{name} is {_show(value)}; it must be one of {', '.join(allowed)}")
    return value


def plain(result):
    """Turn a 0-d array or numpy scalar into a float, leave real arrays as they are."""
    return float(result) if np.ndim(result) == 0 else result


def _checked(name, value, unit, ok, allowed):
    number = _number(name, value, unit)
    if isinstance(number, float):
        if ok(number):
            return number
        raise ValueError(f"{name} is {_with_unit(number, unit)}; it must be {allowed}")
    good = ok(number)
    if good.all():
        return number
    bad = number[~good][0]
    place = int(np.flatnonzero(~good)[0])
    raise ValueError(f"{name} is {_with_unit(bad, unit)} at place {place}; it must be {allowed}")


def _number(name, value, unit):
    """The value as a float or float array; whatever is no number at all is refused here."""
    if isinstance(value, Real) and not isinstance(value, (bool, np.bool_)):
        try:
            return float(value)
        except OverflowError:
            raise ValueError(f"{name} is too large for a number{_in(unit)}") from None
    try:
        array = np.asarray(value)
        usable = array.dtype.kind in "iuf"
    except (TypeError, ValueError):
        usable = False
    if not usable:
        raise ValueError(f"{name} is {_show(value)}; it must be a number{_in(unit)} or an array of them")
    return float(array) if array.ndim == 0 else array.astype(float)


def _in(unit):
    return f" in {unit}" if unit else ""


def _with_unit(value, unit):
    return f"{value:g} {unit}".strip()


def _show(value):
    """A short repr on one line, so that a huge or many-lined value does not flood the message."""
    text = " ".join(repr(value).split())
    return text if len(text) <= 40 else text[:37] + "..."
