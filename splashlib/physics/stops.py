"""Stops: exact steps of exposure between two settings, and the marks on cameras and flash heads.

A mark is a rounded name for an exact step: f/5.6 stands for 2^2.5 = 5.657, 1/60 s for 1/64 s, ISO 125 for
126. So steps between marks come out as whole stops and thirds, as the dials count them.
"""

import math
from fractions import Fraction
from typing import NamedTuple

import numpy as np

from splashlib.physics.checks import finite, one_of, plain, positive


class Mark(NamedTuple):
    """One mark of a series: the label, the number it shows, and the exact value that it stands for."""

    label: str
    marked: float
    exact: float


def _powers():
    for thirds in range(25):
        whole = -(-thirds // 3)
        more = 3 * whole - thirds
        value = 2 ** (-thirds / 3)
        yield Mark(f"1/{2**whole}" + (f" +{more}/3" if more else ""), value, value)


def _series(labels, exact):
    """Marks of a series of labels in steps of a third, `exact(k)` being the value of the k-th."""
    for k, label in enumerate(labels.split()):
        yield Mark(label, float(Fraction(label)), exact(k))


POWERS = tuple(_powers())
"""Power fractions from 1/1 down to 1/256 in thirds; "1/32 +1/3" is a third of a stop above 1/32."""

APERTURES = tuple(
    _series(
        "1.0 1.1 1.2 1.4 1.6 1.8 2 2.2 2.5 2.8 3.2 3.5 4 4.5 5.0 5.6 6.3 7.1 8 9 10 11 13 14 16 18 20 22 25 29 32",
        lambda k: 2 ** (k / 6),
    )
)
"""f-numbers from 1.0 to 32 in thirds: exactly 2^(k/6)."""

SHUTTERS = tuple(
    _series(
        "30 25 20 15 13 10 8 6 5 4 3.2 2.5 2 1.6 1.3 1 0.8 0.6 0.5 0.4 0.3 1/4 1/5 1/6 1/8 1/10 1/13"
        " 1/15 1/20 1/25 1/30 1/40 1/50 1/60 1/80 1/100 1/125 1/160 1/200 1/250 1/320 1/400 1/500"
        " 1/640 1/800 1/1000 1/1250 1/1600 1/2000 1/2500 1/3200 1/4000 1/5000 1/6400 1/8000",
        lambda k: 2 ** ((15 - k) / 3),
    )
)
"""Exposure times from 30 s to 1/8000 s in thirds: exactly 2^(k/3) s, so 1/60 is 1/64 s and 30 is 32 s."""

ISOS = tuple(
    _series(
        "50 64 80 100 125 160 200 250 320 400 500 640 800 1000 1250 1600 2000 2500 3200 4000 5000"
        " 6400 8000 10000 12800 16000 20000 25600",
        lambda k: 100 * 2 ** (k / 3 - 1),
    )
)
"""ISO speeds from 50 to 25600 in thirds: exactly 100 x 2^(k/3)."""

# Stops of exposure for each doubling of the setting, its unit, and its marks.
_KINDS = {
    "power": (1, "", POWERS),
    "iso": (1, "", ISOS),
    "aperture": (-2, "", APERTURES),
    "shutter": (1, "s", SHUTTERS),
    "distance": (-2, "m", ()),
}


def stops_between(a, b, *, kind):
    """Stops of exposure that going from setting `a` to setting `b` adds.

    Parameters
    ----------
    a, b : number or str
        The two settings: power fraction [-], ISO speed [-], f-number [-], exposure time [s] or distance
        from the lamp [m]; above 0. A fraction such as ``Fraction(1, 60)`` or the text of a mark ("1/60")
        will do as well.
    kind : str
        "power", "iso", "aperture", "shutter" or "distance".

    Returns
    -------
    int, Fraction or float
        Stops; positive when `b` gives more exposure than `a`. Whole stops are an int, thirds a Fraction; a
        step that is neither (to within 1e-12) is a float.

    Notes
    -----
    log2(b/a) for power, ISO and time; -2 log2(b/a) for the f-number (area of the opening) and for the
    distance (inverse square, so for a small lamp: see `exposure.size_loss`). A setting that is a mark
    counts as the exact value it stands for (`exact`). Real lenses, shutters and heads are off their marks
    by up to a sixth of a stop.

    Sources
    -------
    Definition of the stop; the series of ISO 517 (apertures), ISO 516 (times), ISO 12232 (speeds).
    """
    one_of("kind", kind, _KINDS)
    per_doubling = _KINDS[kind][0]
    return _simplest(per_doubling * (math.log2(_one_exact(b, kind)) - math.log2(_one_exact(a, kind))))


def exact(value, *, kind):
    """The exact value behind a setting: of a mark what it stands for, of any other number itself.

    Parameters
    ----------
    value : number, str or array
        A setting, as for `stops_between`.
    kind : str
        "power", "iso", "aperture", "shutter" or "distance".

    Returns
    -------
    float or ndarray
        f/11 gives 11.314, 1/125 s gives 1/128 s, ISO 125 gives 126.
    """
    one_of("kind", kind, _KINDS)
    if np.ndim(value) and not isinstance(value, str):
        values = positive(kind, value, _KINDS[kind][1])
        return np.array([_one_exact(each, kind) for each in values.flat]).reshape(values.shape)
    return _one_exact(value, kind)


def nearest_mark(value, *, kind):
    """The mark of a series that lies nearest to a setting, counted in stops.

    Parameters
    ----------
    value : number or str
        A setting, as for `stops_between`.
    kind : str
        "power", "iso", "aperture" or "shutter".

    Returns
    -------
    Mark
        Its label, the number it shows, and the exact value; the end of the series if the setting lies beyond.
    """
    one_of("kind", kind, [name for name, (_, _, marks) in _KINDS.items() if marks])
    setting = math.log2(_one_exact(value, kind))
    return min(_KINDS[kind][2], key=lambda mark: abs(math.log2(mark.exact) - setting))


def shifted(value, stops, *, kind):
    """The setting that gives `stops` more exposure than `value`.

    Parameters
    ----------
    value : number or str
        A setting, as for `stops_between`.
    stops : number
        Stops to add [-]; negative for less exposure.
    kind : str
        "power", "iso", "aperture", "shutter" or "distance".

    Returns
    -------
    float
        The setting's exact value; `nearest_mark` finds its mark.
    """
    one_of("kind", kind, _KINDS)
    return exact(value, kind=kind) * 2 ** (finite("stops", stops) / _KINDS[kind][0])


def stops_of(ratio):
    """Stops in a ratio of two lights, log2(ratio) [-]; 0 gives minus infinity (no light at all)."""
    ratio = np.asarray(ratio, dtype=float)
    if not (ratio >= 0).all():
        raise ValueError(f"ratio is {ratio[~(ratio >= 0)].flat[0]:g}; it must be 0 or more")
    with np.errstate(divide="ignore"):  # no light is infinitely many stops down, which is what is meant
        return plain(np.log2(ratio))


def _one_exact(value, kind):
    number = _number(value, kind)
    return _EXACT[kind].get(_key(number), number)


def _number(value, kind):
    unit = _KINDS[kind][1]
    if isinstance(value, str):
        value = _LABELS[kind].get(value.strip()) or _parsed(value, kind)
    number = positive(kind, value, unit)
    if isinstance(number, np.ndarray):
        raise ValueError(f"{kind} is an array; it must be one number")
    return number


def _parsed(text, kind):
    try:
        return Fraction(text)
    except (ValueError, ZeroDivisionError):
        raise ValueError(f"{kind} is {text[:30]!r}; it must be a number, or a mark such as 1/60") from None


def _simplest(stops):
    """Stops as int or Fraction where they are whole or thirds but for rounding."""
    thirds = round(3 * stops)
    if abs(3 * stops - thirds) > 3e-12:
        return stops
    return thirds // 3 if thirds % 3 == 0 else Fraction(thirds, 3)


def _key(number):
    # Nine digits: 1/125 read from a text, computed or written in a file is the same mark.
    return f"{number:.8e}"


_EXACT = {kind: {_key(mark.marked): mark.exact for mark in marks} for kind, (_, _, marks) in _KINDS.items()}
_LABELS = {kind: {mark.label: mark.marked for mark in marks} for kind, (_, _, marks) in _KINDS.items()}
