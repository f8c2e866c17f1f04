"""A number that was typed beside a slider: what it means, or in one line why it cannot be."""

import math

from splashlib.classroom.questions.units import UNITS, find_unit, read_quantity
from splashlib.shoot.setup.field_rows import quoted
from splashlib.shoot.setup.fields import IMPERIAL

SAME = 1e-9
"""So near, relative to it, a typed number is the slider's own stop."""


def typed_value(handle, text, system):
    """Read what was typed beside a slider.

    Parameters
    ----------
    handle : controls.Handle of kind "range"
    text : str
        A number, with a unit or without: 55.5, "55,5 cm", "1/32", "f/8"; or the words of a stop of the slider.
    system : str
        "metric" or "imperial": the unit that a plain number is in is the one that is shown.

    Returns
    -------
    float or int [SI]
        Exactly what was typed; a stop of the slider where it is that. ValueError with one line where it cannot be
        read, has another kind of unit, or lies beyond the slider.
    """
    words = " ".join(text.split())
    texts = handle.texts(system)
    if words in texts:
        return handle.values[texts.index(words)]
    try:
        value = _in_si(handle.row, *read_quantity(words, like=texts[len(texts) // 2]), system)
    except ValueError as problem:
        raise ValueError(f"{handle.label} is {quoted(words)}: {problem}") from None
    near = handle.values[handle.at(value)] if value > 0 or handle.row.kind != "marks" else math.nan
    if math.isclose(value, near, rel_tol=SAME, abs_tol=1e-12):
        return near
    ends = f"from {texts[0]} to {texts[-1]}"
    if not handle.values[0] <= value <= handle.values[-1]:
        raise ValueError(f"{handle.label} is {words}; in this panel it must be {ends}")
    if handle.row.whole or not (handle.is_setting or handle.row.unit):
        raise ValueError(f"{handle.label} is {words}; it must be a whole number {ends}")
    return value


def _in_si(row, number, unit, system):
    """A number in a unit, or in the unit that the panel shows [SI]."""
    shown = IMPERIAL[row.unit][0] if system == "imperial" and row.unit in IMPERIAL else row.unit
    own, bare = find_unit(row.unit), find_unit(shown)
    if unit is None and shown != row.unit:
        return number * bare.size
    if unit is None or (own is not None and unit.name == own.name):
        return row.to_si(number)
    measures = own.measures if own else {"aperture": "f-number"}.get(row.dial, "")
    if unit.measures != measures:
        raise ValueError(f"{unit.name} is {unit.measures}; write it in {shown or 'a plain number'}.")
    return number * UNITS[unit.name].size
