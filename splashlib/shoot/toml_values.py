"""Settings as they stand in a file: numbers in the shown unit, 1/200 for a short time, words in quotes."""

from decimal import Decimal
from fractions import Fraction

import tomlkit
from tomlkit.items import Float

from splashlib.shoot.rows import SettingError, quoted


def read_value(row, item):
    """Turn what stands in a file into a setting's value.

    Parameters
    ----------
    row : Field
    item : tomlkit item
        As parsed; of a float its digits as typed count, so that nothing is lost.

    Returns
    -------
    float, int or str
        Value [SI]; SettingError with one line when it is impossible.
    """
    value = item.unwrap() if hasattr(item, "unwrap") else item
    if row.kind == "marks" and isinstance(value, str):
        return row.check(_from_mark(row, value))
    if row.kind not in ("number", "marks") or isinstance(value, bool) or not isinstance(value, int | float):
        return row.check(value)
    digits = item.as_string() if isinstance(item, Float) else str(value)
    return row.check(float(Decimal(digits.replace("_", "")) / row.per_si))


def _from_mark(row, text):
    """Read "1/200", "1/32 +1/3" or "f/11"."""
    marked = dict(row.marks).get(text.strip())
    if marked is not None:
        return marked
    try:
        return float(Fraction(text.strip().removeprefix("f/").removesuffix("s").strip()))
    except (ValueError, ZeroDivisionError, OverflowError):
        raise SettingError(row, quoted(text)) from None


def written(row, value):
    """Write a setting's value as TOML; reading it gives the same value to the last digit.

    Parameters
    ----------
    row : Field
    value : float, int or str
        SI value.

    Returns
    -------
    str
    """
    if row.kind in ("text", "choice"):
        return tomlkit.string(value).as_string()
    if row.kind == "marks" and row.dial in ("shutter", "power"):
        return _mark_text(row, value)
    return _number_text(Decimal(repr(value)) * row.per_si)


def _mark_text(row, value):
    label = next((label for label, marked in row.marks if marked == value), None)
    if label is None and value < 0.5 and float(Fraction(1, round(1 / value))) == value:
        label = f"1/{round(1 / value)}"
    return f'"{label}"' if label else _number_text(Decimal(repr(value)))


def _number_text(number):
    plain = number.normalize()
    return format(plain, "f") if -9 < plain.adjusted() < 12 else str(plain)
