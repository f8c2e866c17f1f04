"""Settings as they stand in a file: numbers in the shown unit, 1/200 for a short time, words in quotes."""

import json
import math
import re
from decimal import Decimal
from fractions import Fraction

from splashlib.shoot.setup.field_rows import SettingError, quoted

FRACTION = re.compile(r"\+?(\d{1,20}(\.\d{0,20})?|\.\d{1,20}|\d{1,20} ?/ ?\d{1,20})", re.ASCII)


class Digits(str):
    """A number with a decimal point as it was typed: what is read from it has lost nothing on the way."""


def read_value(row, said):
    """Turn what stands in a file into a setting's value.

    Parameters
    ----------
    row : Field
    said : Digits, int, str, or whatever else TOML can hold

    Returns
    -------
    float, int or str
        Value [SI]; SettingError with one line when it is impossible.
    """
    if isinstance(said, Digits):
        return row.check(_from_digits(row, said))
    if row.kind == "marks" and isinstance(said, str):
        return row.check(_from_mark(row, said))
    if row.kind not in ("number", "marks") or isinstance(said, bool) or not isinstance(said, int | float):
        return row.check(said)
    return row.check(_from_digits(row, repr(said)) if abs(said) < 1e300 else math.inf)


def _from_digits(row, text):
    """The number in SI, in decimal arithmetic; a text is no number for a setting that is a text."""
    if row.kind not in ("number", "marks"):
        return float(text)
    plain = text.replace("_", "")
    near = float(plain)
    # Beyond what a float can hold, decimal arithmetic would not end in a number either.
    return near if near == 0 or not math.isfinite(near) else float(Decimal(plain) / row.per_si)


def _from_mark(row, text):
    """Read "1/200", "1/32 +1/3" or "f/11"."""
    marked = dict(row.marks).get(text.strip())
    if marked is not None:
        return marked
    plain = text.strip().removeprefix("f/").removesuffix("s").strip()
    try:
        # No exponents: 1e999999999 would be reckoned out to its last digit.
        if not FRACTION.fullmatch(plain):
            raise SettingError(row, quoted(text))
        return float(Fraction(plain.replace(" ", "")))
    except (ZeroDivisionError, OverflowError):
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
        # Printable text has the same escapes in JSON as in TOML.
        return json.dumps(value, ensure_ascii=False)
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
