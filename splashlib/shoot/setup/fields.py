"""Settings by their path: look up the row of one, read it, change it, say it.

The rows themselves stand in `table`; what a row knows stands in `field_rows`.
"""

import difflib
import math
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from splashlib.physics.constants import FOOT, INCH
from splashlib.physics.stops import nearest_mark
from splashlib.shoot.setup.field_rows import STYLES, fraction_text, quoted
from splashlib.shoot.setup.figures import figures, fixed
from splashlib.shoot.setup.table import FIELDS, IN_USE, SECTIONS

__all__ = ["change", "change_all", "field", "say", "show", "value_at"]


def tidy(part, section):
    """Check every value of one part of a set-up and store it in its own type."""
    for name, row in SECTIONS[section].items():
        value = getattr(part, name)
        clean = row.check(value)
        if type(clean) is not type(value):
            object.__setattr__(part, name, clean)


def require_parts(whole, kinds):
    """Refuse a whole whose parts are not what they should be."""
    for name, kind in kinds.items():
        if not isinstance(getattr(whole, name), kind):
            raise ValueError(f"{name} is {quoted(getattr(whole, name))}; it must be a {kind.__name__}")


@lru_cache(maxsize=512)
def field(path):
    """Return the row of one setting.

    Parameters
    ----------
    path : str
        "drop.release_height", "camera.style", "camera.mirror.lag", "flashes.0.power" (any head's number);
        "camera.lag", "camera.lag_scatter", "camera.scatter_shape", "camera.first_curtain" mean the style in
        use.

    Returns
    -------
    Field
    """
    parts = str(path).split(".")
    row = None
    if len(parts) == 2:
        row = SECTIONS.get(parts[0], {}).get(parts[1]) if parts[0] not in ("flashes", "release") else None
        if parts[0] == "camera" and parts[1] in IN_USE:
            row = SECTIONS["release"][IN_USE[parts[1]]]
    elif len(parts) == 3 and parts[0] == "flashes" and parts[1].isdecimal() and len(parts[1]) <= 3:
        row = SECTIONS["flashes"].get(parts[2])
    elif len(parts) == 3 and parts[0] == "camera" and parts[1] in STYLES:
        row = SECTIONS["release"].get(parts[2])
    if row is None:
        raise ValueError(f"there is no setting {quoted(path)}{_nearest(str(path))}")
    return row if row.path == path else replace(row, path=str(path))


def _nearest(path):
    close = difflib.get_close_matches(path, [row.path for row in FIELDS], n=1, cutoff=0.5)
    return f"; the nearest is {close[0]}" if close else "; settings are named like drop.release_height"


def _in_use(style, path):
    """Spell out the record that a short path such as "camera.lag" means in the style in use."""
    first, _, last = path.partition(".")
    if first == "camera" and last in IN_USE:
        return f"camera.{style}.{IN_USE[last]}"
    return path


def value_at(setup, path):
    """Return the value of one setting [SI].

    Parameters
    ----------
    setup : Setup
    path : str
        As in `field`.

    Returns
    -------
    float, int or str
    """
    field(path)
    part = setup
    for name in path.split("."):
        part = _head(part, name) if isinstance(part, tuple) else getattr(part, name)
    return part


def _head(flashes, number):
    if int(number) >= len(flashes):
        raise ValueError(f"there is no flash head {number}; the set-up has {len(flashes)}, counted from 0")
    return flashes[int(number)]


def _put(part, names, value):
    """Return a copy of `part` with the value at the end of `names` changed."""
    name, rest = names[0], names[1:]
    if isinstance(part, tuple):
        changed = _put(_head(part, name), rest, value)
        return (*part[: int(name)], changed, *part[int(name) + 1 :])
    return replace(part, **{name: _put(getattr(part, name), rest, value) if rest else value})


def change_all(setup, changes):
    """Return `setup` with several settings changed at once; it is checked as a whole only at the end.

    Parameters
    ----------
    setup : Setup
    changes : dict
        Path to value [SI], as for `change`.

    Returns
    -------
    Setup
    """
    changes = {path: field(path).check(value) for path, value in changes.items()}
    if setup.drop.round and "drop.diameter" in changes:
        # A round body stays round when its one size is dragged.
        changes.setdefault("drop.length", changes["drop.diameter"])
    # A style that is changed along with its lag is the style whose lag is meant.
    style = changes.get("camera.style", setup.camera.style)
    parts = {}
    for path, value in changes.items():
        first, *rest = _in_use(style, path).split(".")
        parts[first] = _put(parts.get(first, getattr(setup, first)), rest, value)
    return replace(setup, **parts)


def change(setup, path, value):
    """Return a copy of `setup` with one setting changed.

    Parameters
    ----------
    setup : Setup
    path : str
        As in `field`.
    value : float, int or str
        The new value [SI]; ValueError with one line when it is impossible, alone or with the rest.

    Returns
    -------
    Setup
    """
    return change_all(setup, {path: value})


IMPERIAL = {"cm": ("in", 0.01 / INCH, 1), "mm": ("in", 0.001 / INCH, 2), "m": ("ft", 1 / FOOT, 1)}
"""Unit, factor, and how many decimals more make it as fine as the metric one: 0.01 in is next to a millimetre."""


def show(path, value, system="metric"):
    """Say a value as people do: "45.0 cm", "17.7 in", "1/200 s", "shutter held open".

    Parameters
    ----------
    path : str
        As in `field`.
    value : float, int or str
        SI value.
    system : str
        "metric", or "imperial" for inches and feet (times, light and power stay as they are).

    Returns
    -------
    str
    """
    return say(field(path), value, system)


def say(row, value, system="metric"):
    """Say a value by its row; as `show`, which looks the row up."""
    value = row.check(value)
    if row.kind == "text":
        return value
    if row.kind == "choice":
        return next(label for label, choice in row.choices if choice == value)
    if row.kind == "marks":
        return _mark(row, value)
    shown, unit = row.from_si(value), row.unit
    decimals = max(0, -Decimal(str(row.step)).normalize().as_tuple().exponent)
    if system not in ("metric", "imperial"):
        raise ValueError(f"system is {quoted(system)}; it must be metric or imperial")
    if system == "imperial" and unit in IMPERIAL:
        unit, factor, finer = IMPERIAL[unit]
        shown, decimals = shown * factor, decimals + finer
    return f"{_digits(shown, decimals)} {unit}".strip()


def _digits(shown, decimals):
    """A number with so many decimals, or with two digits where those would tell something else: 0.3 is not 0."""
    text = fixed(shown, decimals)
    return text if abs(float(text) - shown) <= 0.06 * abs(shown) else figures(shown)


def _mark(row, value):
    """The mark of the dial on which the value lies; the number itself where it lies between marks."""
    mark = nearest_mark(value, kind=row.dial)
    on_mark = any(math.isclose(value, each, rel_tol=1e-6) for each in (mark.marked, mark.exact))
    label = mark.label if on_mark else fraction_text(value) if value < 0.3 else figures(value, 4)
    return f"{'f/' if row.dial == 'aperture' else ''}{label} {row.unit}".strip()
