"""What can be dragged in a panel: a setting by its path, or an extra of the lesson (a clock time).

The front end knows no units and no rounding. It gets the finished words of every position and answers with
the number of a position; what a position means in SI is decided here.
"""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from splashlib.shoot import Field, field
from splashlib.shoot.setup.fields import say
from splashlib.shoot.setup.table import PER_SI

MOST_POSITIONS = 4001
# Up to this many choices are shown side by side, more go into a list that folds out.
SIDE_BY_SIDE = 4


@dataclass(frozen=True)
class Control:
    """A slider for something that is no setting; its picture gets the value in SI under `name`.

    Parameters
    ----------
    name : str
        The name of the extra, as the picture's `update` takes it.
    label : str
    unit : str
        cm, mm, ms, µs and % are turned into SI; other units are taken as they are.
    low, high, step, start : float
        In `unit`.
    """

    name: str
    label: str
    unit: str
    low: float
    high: float
    step: float
    start: float


@dataclass(frozen=True)
class Span:
    """A setting's slider with a range and step of its own, in its unit: what the picture has room for."""

    path: str
    low: float
    high: float
    step: float


@dataclass(frozen=True)
class Steps:
    """A setting's slider with positions of its own [SI], for what is better counted in factors than in steps."""

    path: str
    values: tuple


@dataclass(frozen=True)
class Pick:
    """A choice that is no setting.

    Parameters
    ----------
    name, label : str
    choices : pairs of (str, value), or plain strings
        What is shown, and what the picture gets.
    start : value, optional
        The first one when left out.
    """

    name: str
    label: str
    choices: tuple
    start: object = None


@dataclass(frozen=True)
class Toggle:
    """A box to tick; its picture gets True or False under `name`."""

    name: str
    label: str
    start: bool = False


class Handle:
    """One control of a panel: its positions, their words, and what each one means.

    Attributes
    ----------
    name : str
    kind : "range", "radio", "select" or "check"
    is_setting : bool
        True when it changes the set-up, False for an extra.
    start : value
        Of an extra; a setting starts where the set-up is.
    """

    def __init__(self, name, kind, row, values, *, is_setting, start=None):
        self.name, self.kind, self.row, self.values = name, kind, row, tuple(values)
        self.is_setting, self.start = is_setting, start

    @property
    def label(self):
        """The label as it stands at the head of a control."""
        return self.row.label[:1].upper() + self.row.label[1:]

    def value(self, at):
        """The value of a position [SI]."""
        if isinstance(at, bool) or not isinstance(at, int) or not 0 <= at < len(self.values):
            raise ValueError(f"{self.name} has no position {at!r}; it must be 0 to {len(self.values) - 1}")
        return self.values[at]

    def at(self, value):
        """The position nearest to a value; a choice must be among the choices."""
        if self.kind != "range":
            return self._choice_at(value)
        near = math.log if self.row.kind == "marks" else float
        return min(range(len(self.values)), key=lambda at: abs(near(self.values[at]) - near(value)))

    def _choice_at(self, value):
        if value not in self.values:
            allowed = ", ".join(map(repr, self.values))
            raise ValueError(f"{self.name} is {value!r}; it must be one of {allowed}")
        return self.values.index(value)

    def say(self, value, system):
        """The words of a value."""
        if self.kind == "check":
            return "yes" if value else "no"
        if self.kind != "range":
            return self.row.choices[self.at(value)][0]
        # A true minus: a hyphen is too short to be seen from the back of a room.
        return say(self.row, value, system).replace("-", "−", 1) if value < 0 else say(self.row, value, system)

    def texts(self, system):
        """The words of every position."""
        return list(_texts(self, system))

    def as_spec(self, system):
        """What the front end has to know."""
        return {"name": self.name, "kind": self.kind, "label": self.label, "texts": self.texts(system)}


@lru_cache(maxsize=128)
def _texts(handle, system):
    return tuple(handle.say(value, system) for value in handle.values)


def handle(control):
    """Return the Handle of a setting's path, a Span, Steps, a Control, a Pick or a Toggle."""
    if isinstance(control, str):
        return _of_row(field(control))
    if isinstance(control, Span):
        row = field(control.path)
        if row.kind != "number":
            raise ValueError(f"{control.path} is no plain number; only those can be given a range of their own")
        return _of_row(replace(row, low=control.low, high=control.high, step=control.step))
    if isinstance(control, Steps):
        return _of_steps(control)
    if isinstance(control, Control):
        return _of_control(control)
    if isinstance(control, Pick):
        return _of_pick(control)
    if isinstance(control, Toggle):
        row = Field(path=control.name, label=control.label, kind="choice")
        return Handle(control.name, "check", row, (False, True), is_setting=False, start=bool(control.start))
    raise ValueError(f"{control!r} is no control; it must be a setting's path, Span, Steps, Control, Pick or Toggle")


def _of_row(row):
    if row.kind == "text":
        raise ValueError(f"{row.path} is a text; only numbers, marks and choices can be dragged")
    if row.kind == "choice":
        values = [value for _, value in row.choices]
        return Handle(row.path, _choice_kind(values), row, values, is_setting=True)
    values = sorted(value for _, value in row.marks) if row.kind == "marks" else _grid(row)
    return Handle(row.path, "range", row, values, is_setting=True)


def _of_steps(control):
    row = field(control.path)
    if row.kind not in ("number", "marks") or not control.values or list(control.values) != sorted(control.values):
        raise ValueError(f"{control.path} cannot be dragged in steps; it must be a number, and the steps must rise")
    return Handle(row.path, "range", row, [row.check(value) for value in control.values], is_setting=True)


def _of_control(control):
    row = Field(
        path=control.name,
        label=control.label,
        unit=control.unit,
        per_si=PER_SI.get(control.unit, 1),
        low=control.low,
        high=control.high,
        step=control.step,
        least=-math.inf,
    )
    values = _grid(row)
    if not control.low <= control.start <= control.high:
        raise ValueError(f"{control.name} starts at {control.start}; it must be {control.low} to {control.high}")
    return Handle(control.name, "range", row, values, is_setting=False, start=row.to_si(control.start))


def _of_pick(control):
    pairs = [pair if isinstance(pair, tuple) else (str(pair), pair) for pair in control.choices]
    row = Field(path=control.name, label=control.label, kind="choice", choices=tuple(pairs))
    values = [value for _, value in pairs]
    if not values:
        raise ValueError(f"{control.name} has no choices")
    start = values[0] if control.start is None else control.start
    if start not in values:
        raise ValueError(f"{control.name} starts at {start!r}; it must be one of {', '.join(map(repr, values))}")
    return Handle(control.name, _choice_kind(values), row, values, is_setting=False, start=start)


def _choice_kind(values):
    return "radio" if len(values) <= SIDE_BY_SIDE else "select"


def _grid(row):
    """The values [SI] that a slider can take: from low to high in steps, in decimal numbers."""
    if not (row.step > 0 and row.high > row.low):
        raise ValueError(f"{row.path}: low {row.low:g}, high {row.high:g}, step {row.step:g} make no slider")
    count = round((row.high - row.low) / row.step) + 1
    if count > MOST_POSITIONS:
        raise ValueError(f"{row.path} has {count} steps; a slider must have {MOST_POSITIONS - 1} or fewer")
    # Rounding takes the dust off 0.1 + 0.2.
    return [row.to_si(round(row.low + at * row.step, 9)) for at in range(count)]
