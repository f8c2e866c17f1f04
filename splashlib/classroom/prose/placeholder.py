"""How a number is written in prose: [[lead to 1 ms]] names a value, how far it is rounded, and its unit.

    [[fall to 0.01 s]]       0.30 s       to the nearest 0.01 s, with as many decimals
    [[lead to 1 ms]]         44 ms
    [[bottom to 10 ms]]      110 ms       to the nearest ten
    [[best up to 0.1 cm]]    17.5 cm      rounded up: what has to be at least so much
    [[wet.late to 1 (cm)]]   89           in cm, the unit not printed
    [[frame to +0.1 stops]]  +0.2 stops   always with its sign
    [[power as 1/n]]         1/32         one over a whole number, else to two digits: 1/11 000 s
    [[lessons as word]]      sixteen      or [[lessons as Word]] at the head of a sentence
    [[heads to 1 heads]]     4 heads      a word for what is counted; 1 head, when it is one

Code fences, `code` and formulas between dollars are left alone.
"""

import math
import re
from dataclasses import dataclass
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal

from splashlib.classroom.questions.units import UNITS

SHAPE = "[[name to 1 ms]], [[name as 1/n s]] or [[name as word]]"
MINUS = "\N{MINUS SIGN}"
WORDS = (
    "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
)  # fmt: skip

_INSIDE = re.compile(
    r"(?P<name>[a-z][a-z0-9_]*(?:\.[a-z0-9_]+)*) "
    r"(?:(?P<up>up )?to (?P<sign>\+?)(?P<step>\d+(?:\.\d+)?)|as (?P<form>1/n|[Ww]ord))"
    r"(?: (?P<unit>[^\s()]+)| \((?P<silent>[^\s()]+)\))?"
)
# What is code or a formula is matched first, so that nothing inside it is taken for a placeholder.
_PIECES = re.compile(
    r"^ *(?P<fence>`{3,}).*?^ *(?P=fence)`*\s*?$"  # a fence of code
    r"|(?P<ticks>`+)(?!`)(?:(?!\n\s*\n).)*?(?<!`)(?P=ticks)(?!`)"  # `code`, within one paragraph
    r"|\$\$.*?\$\$|\$[^$\n]+\$"  # a formula
    r"|(?P<number>\[\[[^\]\n]*\]{0,2})",
    re.DOTALL | re.MULTILINE,
)


class ProseError(ValueError):
    """A number in prose that cannot be filled in: one line says where, which one, and what is wrong."""


@dataclass(frozen=True, kw_only=True)
class Placeholder:
    """One [[...]] of a text: its words, the line where it stands, what it names and how that is printed."""

    text: str
    line: int
    name: str
    step: str = ""
    signed: bool = False
    up: bool = False
    form: str = ""
    unit: str = ""
    silent: bool = False

    def say(self, value, measures):
        """The value [SI] of a number that `measures` a time, a length ..., as it is printed; or ValueError."""
        shown = float(value) / self._size(measures)
        if not math.isfinite(shown):
            raise ValueError(f"its value is {shown:g}")
        if self.form in ("word", "Word"):
            return _word(shown).capitalize() if self.form == "Word" else _word(shown)
        number = _one_over(shown) if self.form else self._rounded(shown)
        return self._with_unit(number)

    def _size(self, measures):
        """How much one of the unit is [SI]; the unit must measure the same as the number."""
        if measures == "count":
            return 1.0
        unit = UNITS.get(self.unit)
        if unit is None:
            raise ValueError(f'there is no unit "{self.unit}"')
        if unit.measures != measures:
            said = f"{self.unit} is a unit of {unit.measures}" if self.unit else "it has no unit"
            raise ValueError(f"the number is a {measures}, but {said}")
        return unit.size

    def _rounded(self, shown):
        """A number to the nearest step, with the decimals of the step; halves go up, as people round."""
        exact, step = Decimal(f"{shown:.12g}"), Decimal(self.step)
        if not step:
            raise ValueError("it is rounded to steps of 0")
        near = ((exact / step).to_integral_value(ROUND_CEILING if self.up else ROUND_HALF_UP) * step).quantize(step)
        if not near and abs(shown) > 1e-9:
            raise ValueError(f"{shown:.3g} would be printed as 0; round it less")
        return f"{MINUS if near < 0 else '+' if self.signed and near else ''}{_grouped(f'{abs(near):f}')}"

    def _with_unit(self, number):
        known = UNITS.get(self.unit)
        if self.silent or not self.unit:
            return number
        if known and known.before:
            return f"{known.before}{number}"
        counted = known is None or known.measures.startswith(("count", "number"))
        one = number.lstrip("+" + MINUS) == "1" and counted
        return f"{number} {self.unit.removesuffix('s') if one else self.unit}"


def _one_over(shown):
    """1/n: exactly where n is a whole number, else to two digits, as photographers say durations."""
    if shown <= 0:
        raise ValueError(f"{shown:.3g} is not one over a number")
    parts = 1 / shown
    if math.isclose(parts, round(parts), rel_tol=1e-9):
        return f"1/{_grouped(str(round(parts)))}"
    step = 10 ** max(0, math.floor(math.log10(parts)) - 1)
    return f"1/{_grouped(str(round(parts / step) * step))}"


def _grouped(digits):
    """Thousands set apart by a blank from 10 000 on."""
    whole, point, rest = digits.partition(".")
    return (f"{int(whole):,}".replace(",", " ") if len(whole) > 4 else whole) + point + rest


def _word(shown):
    if shown != int(shown) or not 0 <= shown < len(WORDS):
        raise ValueError(f"there is no word for {shown:g}; there are words for 0 to {len(WORDS) - 1}")
    return WORDS[int(shown)]


def read(text, line=1):
    """The placeholder that "[[lead to 1 ms]]" is; ValueError if it cannot be read."""
    found = _INSIDE.fullmatch(text[2:-2]) if text.endswith("]]") else None
    if not found:
        raise ValueError(f"it cannot be read; write {SHAPE}")
    part = found.groupdict(default="")
    return Placeholder(
        text=text,
        line=line,
        name=part["name"],
        step=part["step"],
        signed=bool(part["sign"]),
        up=bool(part["up"]),
        form=part["form"],
        unit=part["unit"] or part["silent"],
        silent=bool(part["silent"]),
    )


def fill(text, say, *, where="the text"):
    """A text with its numbers filled in.

    Parameters: text; say, which gives the words for a Placeholder, ValueError if it has none; where, the file for
    the line of an error. Raises ProseError with file, line and placeholder.
    """
    pieces, end = [], 0
    for found in _PIECES.finditer(text):
        if found["number"] is None:
            continue
        line = text.count("\n", 0, found.start()) + 1
        try:
            said = say(read(found["number"], line))
        except ValueError as error:
            raise ProseError(f"{where}:{line}: {found['number']}: {error}") from error
        pieces += [text[end : found.start()], said]
        end = found.end()
    return "".join([*pieces, text[end:]])
