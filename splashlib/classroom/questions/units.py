"""Units that a learner may type, and the reading of "303 ms", "0,303 s" or "1/32".

Reading is kept apart from judging: what cannot be read is told so, and never counts as a wrong answer.
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from splashlib.physics.constants import FOOT, INCH

LONGEST = 60


@dataclass(frozen=True)
class Unit:
    """A unit: what it measures, and its size in SI."""

    name: str
    measures: str
    size: float
    before: str = ""
    """What stands before the number, as in f/11."""


_TABLE = {
    "time": {"s": 1, "ms": 1e-3, "µs": 1e-6, "ns": 1e-9, "min": 60, "h": 3600},
    "length": {"m": 1, "cm": 1e-2, "mm": 1e-3, "µm": 1e-6, "km": 1e3, "in": INCH, "ft": FOOT},
    "speed": {"m/s": 1, "cm/s": 1e-2, "mm/s": 1e-3, "mm/ms": 1, "m/ms": 1e3, "km/h": 1 / 3.6, "ft/s": FOOT},
    "acceleration": {"m/s²": 1, "cm/s²": 1e-2},
    "area": {"m²": 1, "cm²": 1e-4, "mm²": 1e-6},
    "volume": {"m³": 1, "l": 1e-3, "cl": 1e-5, "ml": 1e-6},
    "mass": {"kg": 1, "g": 1e-3, "mg": 1e-6},
    "density": {"kg/m³": 1, "g/cm³": 1e3},
    "energy": {"J": 1, "mJ": 1e-3},
    "illuminance": {"lx": 1},
    "light times time": {"lx·s": 1},
    "frequency": {"Hz": 1, "kHz": 1e3},
    "angle": {"rad": 1, "°": math.pi / 180},
    "share": {"": 1, "%": 1e-2},
    "number of stops": {"stops": 1},
    "exposure value": {"EV": 1},
    "count of pixels": {"px": 1},
    "resolution": {"px/mm": 1e3, "px/m": 1},
    "count of drops": {"drops": 1},
    "count of pictures": {"pictures": 1},
    "f-number": {"f/": 1},
    "ISO": {"ISO": 1},
}
_BEFORE = {"f/": "f/", "ISO": "ISO "}
UNITS = {
    name: Unit(name, measures, float(size), _BEFORE.get(name, ""))
    for measures, sizes in _TABLE.items()
    for name, size in sizes.items()
}
_SAME = {
    "us": "µs", "μs": "µs", "sec": "s", "secs": "s", "second": "s", "seconds": "s", "msec": "ms",
    "millisecond": "ms", "milliseconds": "ms", "microsecond": "µs", "microseconds": "µs", "minute": "min",
    "minutes": "min", "um": "µm", "μm": "µm", "micron": "µm", "microns": "µm", "metre": "m", "metres": "m",
    "meter": "m", "meters": "m", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm",
    "centimeters": "cm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "inch": "in", "inches": "in", '"': "in", "″": "in", "foot": "ft", "feet": "ft", "'": "ft", "′": "ft",
    "mps": "m/s", "kmh": "km/h", "kph": "km/h", "m/s^2": "m/s²", "m/s2": "m/s²", "m/s/s": "m/s²",
    "m/s**2": "m/s²", "cm/s^2": "cm/s²", "m^2": "m²", "m2": "m²", "cm^2": "cm²", "cm2": "cm²",
    "mm^2": "mm²", "mm2": "mm²", "m^3": "m³", "m3": "m³", "cm^3": "ml", "cm³": "ml", "cm3": "ml",
    "litre": "l", "litres": "l", "liter": "l", "liters": "l", "gram": "g", "grams": "g", "kg/m^3": "kg/m³",
    "kg/m3": "kg/m³", "g/cm^3": "g/cm³", "g/cm3": "g/cm³", "g/ml": "g/cm³", "lux": "lx", "hz": "Hz",
    "1/s": "Hz", "/s": "Hz", "per second": "Hz", "deg": "°", "degree": "°", "degrees": "°", "radian": "rad",
    "radians": "rad", "percent": "%", "per cent": "%", "stop": "stops", "pixel": "px", "pixels": "px",
    "drop": "drops", "picture": "pictures", "frame": "pictures", "frames": "pictures", "f": "f/",
    "iso": "ISO",
}  # fmt: skip


def find_unit(name):
    """The unit of that name (however it is spelled), or None."""
    name = name.strip().rstrip(".")
    if not name:
        return None
    for spelling in (name, name.lower()):
        if spelling in UNITS:
            return UNITS[spelling]
        if spelling in _SAME:
            return UNITS[_SAME[spelling]]
    return None


def units_of(measures):
    """Names of all units of one kind of quantity, the SI unit first."""
    return tuple(_TABLE[measures])


def may_be_bare(measures):
    """Whether a plain number needs no unit here: there is only one, or the unit is "nothing"."""
    names = _TABLE[measures]
    return len(names) == 1 or "" in names


_PLAIN = r"(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?"
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?:"
    r"(?P<whole>\d+)\s+(?P<num>\d+)/(?P<den>\d+)"
    rf"|(?P<over>{_PLAIN})\s*/\s*(?P<under>{_PLAIN})"
    rf"|(?P<plain>{_PLAIN}))",
    re.ASCII,
)
_POWER = re.compile(r"\s*[×xX*·]\s*10\s*(?:\^|\*\*)?\s*([+-]?\d{1,3})(?![\d.])", re.ASCII)
_MARKS = str.maketrans({"−": "-", "–": "-", "⁄": "/", "\u00a0": " ", "\u202f": " ", "\u2009": " "})
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")


def _power_of_ten(text):
    """10⁻³ as 10^-3, so that one pattern reads both."""
    return re.sub(r"(?<=10)[⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺]+", lambda found: "^" + found.group().translate(_RAISED), text)


def _point(text):
    """A decimal comma as a point. A comma that may as well part thousands is asked about."""
    if "," not in text:
        return text
    if re.search(r"\d,\d{3},\d{3}|\d,\d{3}\.\d|\d\.\d{3},", text) or text.count(",") > 1:
        raise ValueError(f"{text} has more than one mark; write it with one point, as 1234.5.")
    if re.search(r"(?<!\d)[1-9]\d{0,2},\d{3}(?!\d)", text):
        plain = text.replace(",", "")
        raise ValueError(f"{text} can be read in two ways; write {text.replace(',', '.')} or {plain}.")
    return re.sub(r"(?<=\d),(?=\d)|(?<!\S),(?=\d)", ".", text)


def read_quantity(text, *, like="12.5 ms"):
    """A number and the unit behind it, if any.

    Parameters
    ----------
    text : what was typed: "303 ms", "0,303 s", "3.03e-1", "1/32", "1 1/3 stops", "f/11"
    like : an example, for the line of what cannot be read

    Returns
    -------
    (number, Unit or None), the number as typed, in that unit; ValueError with one plain line if it cannot be
    read.
    """
    if len(text) > LONGEST:
        raise ValueError(f"That is {len(text)} characters long; a number and a unit need at most {LONGEST}.")
    plain = _point(_power_of_ten(text.translate(_MARKS).strip()))
    marked = re.match(r"(f\s*/|f(?=\d)|ISO)\s*(?=[\d.])", plain, re.I)
    if marked:
        number, plain = _number_at_start(plain[marked.end() :], like)
        if plain:
            raise ValueError(_how(like))
        return number, UNITS["f/" if marked.group()[0] in "fF" else "ISO"]
    number, rest = _number_at_start(plain, like)
    if not rest:
        return number, None
    unit = find_unit(rest)
    if unit is None:
        raise ValueError(f"I know no unit {rest!r}." if re.fullmatch(r"\D{1,20}", rest) else _how(like))
    return number, unit


def _how(like):
    return f"I expected one number and its unit, as in {like}."


def _number_at_start(text, like):
    """The number at the start of a text, and what is left of the text."""
    found = _NUMBER.match(text)
    if not found or not text.isprintable():
        raise ValueError(_how(like))
    number, rest = _number(found), text[found.end() :]
    power = _POWER.match(rest)
    if power:
        number, rest = number * 10.0 ** int(power.group(1)), rest[power.end() :]
    if not math.isfinite(number):
        raise ValueError("That number is too large to work with.")
    return number, rest.strip()


def _number(found):
    parts = found.groupdict()
    try:
        if parts["whole"]:
            value = float(int(parts["whole"]) + Fraction(int(parts["num"]), int(parts["den"])))
        elif parts["over"]:
            value = float(parts["over"]) / float(parts["under"])
        else:
            value = float(parts["plain"])
    except ZeroDivisionError:
        raise ValueError("That divides by zero.") from None
    except OverflowError:
        raise ValueError("That number is too large to work with.") from None
    return -value if parts["sign"] == "-" else value
