"""The five kinds of question as plain data: what is asked, what is right, which slips are known.

A question knows nothing of forms or notebooks and judges nothing itself (see `judge`). Its numbers come in
variants: `draw` names short lists of sensible numbers, the variant (an integer that the learner sees) picks
one combination, and the answer is computed from the numbers as displayed. Texts are a string with `{names}`
of the numbers in it, or a function of the numbers; they are a little Markdown (see `wording.to_html`).

Every question has
    name      short, stable: progress is kept under it
    prompt    the question; text or v -> text
    draw      {"height_cm": (30, 45, 60), ...}: v.height_cm is one of them
    also      v -> {"speed": ...}: more displayed numbers, rounded to three digits before they are used
    keep      v -> bool: combinations that make no sense are passed over
    hints     shown one by one, on request
    worked    the worked solution, on request; ends by saying what it shows
    meaning   shown when right: what the answer is good for at the set
    see       the place in the lesson to look at again: a heading, as it is written there
    slips     known mistakes, each with a reply that explains that mistake in the learner's own numbers
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

Text = str | Callable[..., str]


@dataclass(frozen=True, kw_only=True, eq=False)
class Slip:
    """A known mistake and its reply. Names are shared by the whole course, so that a class can be counted.

    Give `value` (v -> what someone making this mistake answers) or, for a number, `times` (answer times so
    much). `value` may return None for numbers with which the mistake cannot be made. The reply is text with
    `{given}` and the names of the numbers in it, or a function: (v, given) -> text, `given` in SI. It never
    tells the right value.
    """

    name: str
    reply: Text
    value: Callable | str | None = None
    times: float | None = None
    see: str = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Question:
    """What the five kinds share."""

    name: str
    prompt: Text
    draw: Mapping[str, tuple] = field(default_factory=dict)
    also: Callable | None = None
    keep: Callable | None = None
    hints: tuple = ()
    worked: Text = ""
    meaning: Text = ""
    see: str = ""
    kind = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Number(Question):
    """A number with a unit.

    >>> question = Number(
    ...     name="time",
    ...     prompt="The kumquat hangs {height_cm} cm above the water. How long does it fall?",
    ...     draw={"height_cm": (20, 30, 45, 60, 80)},
    ...     answer=lambda v: fall_time(v.height_cm / 100),   # SI
    ...     unit="ms",                       # the unit asked for; any other unit of time is read too
    ...     digits=3,                        # so many digits are wanted: within half a unit of the third
    ...     slips=(
    ...         Slip(name="no root", value=lambda v: 2 * v.height_cm / 100 / 9.81,
    ...              reply="{given} is the square of the time: 2·h/g is in s². Take the root."),
    ...         Slip(name="centimetres", value=lambda v: fall_time(v.height_cm),
    ...              reply=lambda v, given: f"{show(given, 's')}: {v.height_cm} went in as metres."),
    ...         slips.thousand(),
    ...     ),
    ...     hints=("Which of the three, h, g, t, do you know?", "h = ½·g·t², solved for t."),
    ...     worked=lambda v: f"t = √(2h/g) = {show(fall_time(v.height_cm / 100), 'ms')}. This shows ...",
    ...     see="Why",
    ... )
    """

    answer: Callable
    unit: str = ""
    units: tuple = ()
    """What the menu offers; empty = the usual ones. Any unit of the kind may be typed."""
    digits: int = 3
    absolute: float = 0.0
    """Also right within this [SI]; needed where the answer may be zero."""
    side: str = ""
    """"least" or "most": the least or the most that will do is asked for; rounding to the safe side is right."""
    spare: Callable | None = None
    """v -> how far on the safe side is still right [SI]; when left out, as far as two digits round."""
    slips: tuple = ()
    kind = "number"

    def __post_init__(self):
        if self.side not in ("", "least", "most"):
            raise ValueError(f"question {self.name!r}: side is {self.side!r}; it must be 'least' or 'most'")


@dataclass(frozen=True, kw_only=True, eq=False)
class Option:
    """One option of a choice. Its key is stable and names the slip; the reply says why it is right or not."""

    key: str
    text: Text
    reply: Text
    right: bool = False
    see: str = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Choice(Question):
    """One of several options, shuffled by the variant. Exactly one is right.

    >>> question = Choice(
    ...     name="empty frame",
    ...     prompt="The frame shows water and no kumquat. What happened?",
    ...     options=(
    ...         Option(key="late", text="The light came too late", right=True, reply="It had gone."),
    ...         Option(key="weak", text="The flash was too weak", reply="Then the water would be dark."),
    ...     ),
    ... )
    """

    options: tuple = ()
    kind = "choice"

    @property
    def slips(self):
        return tuple(Slip(name=o.key, value=o.key, reply=o.reply, see=o.see) for o in self.options if not o.right)


@dataclass(frozen=True, kw_only=True, eq=False)
class Formula(Question):
    """A formula in given letters, compared as mathematics: any way of writing it is right.

    >>> question = Formula(
    ...     name="time formula",
    ...     prompt="Write the time of the fall from the height h, with gravity g.",
    ...     gives="t",                                         # shown as "t ="
    ...     symbols={"h": "release height", "g": "gravity"},
    ...     domain={"h": (0.1, 1.0), "g": (9, 10)},            # where it is compared; all positive
    ...     answer="sqrt(2*h/g)",
    ...     slips=(Slip(name="no root", value="2*h/g", reply="That is t². Take the root."),),
    ... )
    """

    symbols: Mapping[str, str]
    answer: str | Callable
    gives: str = ""
    domain: Mapping[str, tuple] = field(default_factory=dict)
    slips: tuple = ()
    kind = "formula"


@dataclass(frozen=True, kw_only=True, eq=False)
class Function(Question):
    """A function that the learner writes, called with drawn inputs and compared with a reference.

    >>> question = Function(
    ...     name="lead",
    ...     prompt="Write `lead(height, beam)`: seconds from the broken beam to contact.",
    ...     reference=lambda *, height, beam: fall_time(height) - fall_time(height - beam),
    ...     inputs={"height": (0.3, 0.45, 0.6), "beam": (0.05, 0.12, 0.2)},
    ...     unit="s",
    ...     slips=(Slip(name="from the hand", reply="...",
    ...                 value=lambda *, height, beam: fall_time(height - beam)),),
    ... )
    """

    reference: Callable
    inputs: Mapping[str, tuple] = field(default_factory=dict)
    unit: str = ""
    digits: int = 3
    absolute: float = 0.0
    cases: int = 6
    """How many drawn inputs it is called with."""
    seconds: float = 2.0
    """Time limit for all calls together."""
    slips: tuple = ()
    kind = "function"


@dataclass(frozen=True, kw_only=True, eq=False)
class Condition:
    """One thing that a setting must bring about.

    `test(v, setup)` gives a bool, or a number that must be zero or more. `reply` (text or (v, setup) -> text)
    says what is wrong when the condition does not hold, in the numbers of that set-up.
    """

    text: Text
    test: Callable
    reply: Text


@dataclass(frozen=True, kw_only=True, eq=False)
class BadSetting:
    """A slip in settings: `test(v, setup)` recognises it, `example(v)` is a set of settings that makes it."""

    name: str
    example: Callable
    test: Callable
    reply: Text
    see: str = ""


@dataclass(frozen=True, kw_only=True, eq=False)
class Settings(Question):
    """Settings that must meet conditions; many right answers, judged by the library.

    >>> question = Settings(
    ...     name="in time",
    ...     prompt="The mirror is down. Place the beam so that the shutter is open at contact.",
    ...     start=lambda v: {"camera.style": "mirror", "beam.height": 0.05},  # SI; else the tea house
    ...     asked=("beam.height", "trigger.delay"),
    ...     conditions=(
    ...         Condition(text="the light comes before contact", test=lambda v, s: lead(s) - lag(s),
    ...                   reply=lambda v, s: f"It comes {show(lag(s) - lead(s), 'ms')} too late."),
    ...     ),
    ...     slips=(BadSetting(name="longer delay", example=lambda v: {"trigger.delay": 0.05},
    ...                       test=lambda v, s: s.trigger.delay > 0 and lag(s) > lead(s), reply="..."),),
    ...     answer=lambda v: {"beam.height": 0.25},
    ... )
    """

    asked: tuple
    conditions: tuple
    answer: Callable
    start: Callable | Mapping[str, Any] = field(default_factory=dict)
    slips: tuple = ()
    kind = "settings"
