"""What a learner may have meant by a value that cannot be read: "55,5: write 55.5", "1/32: put it in quotes".

Each mend is tried on the setting before it is offered.
"""

import re
from fractions import Fraction

from splashlib.shoot.files.toml_values import Digits, read_value
from splashlib.shoot.setup.field_rows import quoted

# The quotation marks of word processors, in pairs as people type them.
CURLY = "“”„‟«»‘’‚`´"
PER_METRE = {"mm": 1000, "cm": 100, "m": 1, "in": Fraction(10000, 254), "ft": Fraction(10000, 3048)}
PER_SECOND = {"s": 1, "ms": 1000, "us": 10**6, "µs": 10**6}
# Signs that are not seen, such as those that turn the direction of writing, as `quoted` says them.
INVISIBLE = re.compile(r"\\(?:x[0-9a-f]{2}|u[0-9a-f]{4}|U[0-9a-f]{8})")
NUMBER_AND_UNIT = re.compile(r"([+-]?[\d_]*[.,]?\d+)\s*([a-zA-Zµ%³/]*\d?)")


def mend(row, typed):
    """Say what to write instead of a value.

    Parameters
    ----------
    row : Field
    typed : str
        The value as it stands in the file, with its quotation marks if it has some.

    Returns
    -------
    str
        "55,5: write 55.5", or "" when nothing near it can be read.
    """
    if len(typed) > 100:
        return ""
    bare = typed.strip().strip("\"'" + CURLY).strip()
    if row.kind == "text":
        bare = INVISIBLE.sub("", bare).strip()
    for written in (*_numbers(row, bare), f'"{bare}"'):
        if bare and written != typed.strip() and _reads(row, written):
            how = "put it in quotes" if written == f'"{typed.strip()}"' else f"write {written}"
            return f"{_short(typed.strip())}: {how}"
    return ""


def _short(text):
    return text if len(text) <= 40 else text[:37] + "..."


def _numbers(row, bare):
    """The number that may be meant, in the unit of the key."""
    found = NUMBER_AND_UNIT.fullmatch(bare)
    if row.kind not in ("number", "marks") or not found:
        return
    number, unit = found[1].replace(",", "."), found[2]
    if not unit or unit == row.unit or (row.unit == "µs" and unit == "us"):
        yield number
    for scale in (PER_METRE, PER_SECOND):
        if unit in scale and row.unit in scale:
            yield f"{float(Fraction(number.replace('_', '')) * scale[row.unit] / scale[unit]):.10g}"


def _reads(row, written):
    try:
        read_value(row, written[1:-1] if written.startswith('"') else float(written))
    except (ValueError, OverflowError):
        return False
    return True


def mended_line(line, rows):
    """Say what to write instead of a line that is no TOML, if it is a key of these rows and a value.

    Parameters
    ----------
    line : str
    rows : dict
        Key to Field: the settings that may stand in this block.

    Returns
    -------
    (str, str)
        The setting as it stands there, and the mend or "".
    """
    found = re.match(r"\s*[\"']?([A-Za-z0-9_]+)[\"']?\s*([=:])\s*([^#]*)", line)
    if not found or found[1] not in rows:
        return "", ""
    key, sign, typed = found[1], found[2], found[3].strip()
    if not typed:
        return f"{key} =", "a value is missing"
    said = f"{key} {sign} {_short(typed)}"
    advice = mend(rows[key], typed)
    if sign == ":":
        advice = f"write {key} = {typed}" if not advice else f"{advice}, and = in place of the colon"
    return said, advice


def said_value(typed):
    """Any value of a file on one short line, as it is told in a message."""
    if isinstance(typed, bool):
        return str(typed).lower()
    if isinstance(typed, str) and not isinstance(typed, Digits):
        return quoted(typed)
    if isinstance(typed, int) and abs(typed) > 10**40:
        return "a number of many digits"
    try:
        said = " ".join(str(typed).split())
    except ValueError:  # a whole number of thousands of digits, in a list
        said = "numbers of many digits"
    return said if len(said) <= 60 else said[:57] + "..."
