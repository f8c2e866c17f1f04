"""Judging settings: any set-up that meets the conditions is right."""

import math
import warnings
from functools import lru_cache

from splashlib.classroom.judges.judging import MOST_OTHERS, plain_word, real_number, right, stripped
from splashlib.classroom.judges.number import as_typed
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.units import UNITS, find_unit, read_quantity, units_of
from splashlib.classroom.questions.variants import Values
from splashlib.classroom.questions.wording import listed, quoted, say, sentence
from splashlib.shoot import FIELDS, Setup, change_all, field, tea_house, value_at

# The table of fields writes a unit as it stands in a file, the classroom as people type it.
HEADS = "the number of flash heads"
SPELLED = {"kg/m3": "kg/m³"}


def start(question, values):
    """The set-up that a question starts from: the tea house with some settings changed."""
    changes = question.start(values) if callable(question.start) else question.start
    return change_all(tea_house(), dict(changes))


def record(question, answer, unit=None, variant=1, values=None):
    """The settings asked for, by path: a value in SI, or what was typed; and which others were changed."""
    if type(answer) is Setup:
        begun = start(question, values)
        settings = {path: _plain(value_at(answer, path)) for path in question.asked}
        return {"settings": settings, "others": _others(begun, answer, question.asked)}
    if type(answer) is not dict or not all(type(path) is str for path in answer):
        return {"other": plain_word(answer)}
    asked = {path: _plain(answer[path]) for path in question.asked if path in answer}
    return {"settings": asked, "others": [path[:40] for path in answer if path not in question.asked][:MOST_OTHERS]}


def _plain(value):
    """A value as JSON can hold it; anything odd by its name, which is then not readable."""
    value = stripped(value)
    if type(value) is str:
        return value[:200]
    number = real_number(value)
    if number is None:
        return f"({plain_word(value)})"
    return number if math.isfinite(number) else f"({number})"


def _others(begun, answer, asked):
    """Settings that were changed without being asked for."""
    if len(begun.flashes) != len(answer.flashes):
        return [HEADS]
    changed = []
    for row in FIELDS:
        if row.path in asked or (row.path == "drop.length" and "drop.diameter" in asked):
            continue
        if value_at(begun, row.path) != value_at(answer, row.path) and not _alias(row.path, asked, answer):
            changed.append(row.path)
    return changed[:MOST_OTHERS]


def _alias(path, asked, setup):
    """Whether a record of a camera style is asked for under its short path, as camera.lag."""
    parts = path.split(".")
    short = {
        "lag": "lag",
        "scatter": "lag_scatter",
        "shape": "scatter_shape",
        "first_curtain": "first_curtain",
    }
    return len(parts) == 3 and parts[1] == setup.camera.style and f"camera.{short[parts[2]]}" in asked


def verdict(question, record, variant, values):
    """The reply to recorded settings."""
    if "other" in record:
        return Reply("wrong_kind", f"That is {record['other']}. A set-up, or a dict of settings, is asked for.")
    if record.get("others"):
        return Reply("wrong_kind", _alone(question, record["others"]))
    begun = start(question, values)
    try:
        read = {path: reading(path, value) for path, value in record["settings"].items()}
    except UnitError as error:
        return Reply("wrong_unit", sentence(str(error)))
    except ValueError as error:
        return Reply("unreadable", sentence(str(error)))
    try:
        setup = _changed(begun, read)
    except ValueError as error:
        return Reply("wrong_kind", f"That cannot be set. {sentence(str(error))}{_counted(error, read, record)}")
    if setup == begun:
        return Reply("not_attempted", "Nothing is changed yet.")
    return _judged(question, values, setup)


def _alone(question, others):
    """That some settings were not asked for; each by its label, or as it was typed where there is no such setting."""
    asked = listed([f"*{field(path).label}*" for path in question.asked])
    return f"Leave {listed([_label(path) for path in others])} alone; only {asked} may be changed here."


def _label(path):
    try:
        return f"*{field(path).label}*"
    except ValueError:
        return path if path == HEADS else quoted(path)


def _counted(error, read, record):
    """What a bare number in code counts in, where the shown unit is another."""
    path = getattr(error, "path", "")
    if path not in read or isinstance(record["settings"][path], str) or field(path).per_si == 1:
        return ""
    unit = SPELLED.get(field(path).unit, field(path).unit)
    return f" A bare number in code counts in {units_of(UNITS[unit].measures)[0]}, not in {unit}."


def _changed(begun, read):
    """The set-up with the answer in it; camera.lag means the style that was answered, not the one before."""
    first = {path: value for path, value in read.items() if path == "camera.style"}
    return change_all(change_all(begun, first), {path: read[path] for path in read if path not in first})


class UnitError(ValueError):
    """A unit of the wrong kind was typed."""


def reading(path, value):
    """A setting as typed, in SI: "25", "25 cm", a mark such as "1/32", a choice by value or words."""
    row = field(path)
    if not isinstance(value, str) or row.kind == "text":
        return value
    for said, choice in row.marks if row.kind == "marks" else row.choices:
        if value.strip() in (said, choice):
            return choice
    if row.kind == "choice":
        raise ValueError(f"{quoted(value)} is none of the choices for {row.label}: {_said(row)}.")
    return _quantity(row, value)


def _said(row):
    return ", ".join(said for said, _ in row.choices)


def _quantity(row, text):
    spelled = SPELLED.get(row.unit, row.unit)
    try:
        number, unit = read_quantity(text, like=as_typed(12.5, UNITS[spelled]) if spelled in UNITS else "12.5")
    except ValueError as error:
        raise ValueError(f"{row.label}: {quoted(text)}: {error}") from None
    if unit is None or unit.name == spelled:
        return row.to_si(number)
    own = UNITS.get(spelled) or find_unit(row.unit)
    bare = {"camera.aperture": "f/", "camera.iso": "ISO"}
    if unit.measures != own.measures and unit.name != bare.get(row.path):
        raise UnitError(f"{row.label}: {unit.name} is a unit of {unit.measures}, not of {own.measures}.")
    return number * unit.size


def _judged(question, values, setup):
    """Conditions and slips on a set-up that exists."""
    held = [_held(condition, values, setup) for condition in question.conditions]
    if all(ok for ok, _ in held):
        return right(question, values)
    for slip in question.slips:
        if _true(slip.test, values, setup)[0]:
            return Reply("slip", say(slip.reply, values, setup), slip=slip.name, see=slip.see or question.see)
    told = next(text for ok, text in held if not ok)
    lines = [
        f"- {'✓' if ok else '✗'} {say(condition.text, values)}"
        for condition, (ok, _) in zip(question.conditions, held, strict=True)
    ]
    return Reply("wrong", "\n\n".join([told, "\n".join(lines)]), see=question.see)


def _held(condition, values, setup):
    """Whether a condition holds, and what to say if it does not."""
    ok, trouble = _true(condition.test, values, setup)
    return ok, "" if ok else trouble or say(condition.reply, values, setup)


def _true(test, values, setup):
    """A test's outcome. Settings for which it cannot be computed fail, with the formula's own line."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            found = test(values, setup)
    except ValueError as error:
        return False, f"{error}."
    if isinstance(found, bool) or type(found).__name__ == "bool_":
        return bool(found), ""
    return bool(found >= 0), ""


def apart(question, values, variant=1):
    """The worked answer meets all conditions; each slip's example does not, and is recognised as itself."""
    return _apart(question, tuple(values.items()))


@lru_cache(maxsize=1024)
def _apart(question, shown):
    """As `apart`, kept: a question has a few dozen sets of numbers, and thousands of variants that show them."""
    values = Values(dict(shown))
    begun = start(question, values)
    if not _judged(question, values, _changed(begun, question.answer(values))).right:
        return False
    found = (_judged(question, values, _changed(begun, slip.example(values))) for slip in question.slips)
    return all(reply.slip == slip.name for reply, slip in zip(found, question.slips, strict=True))


def right_answer(question, values, variant=1):
    """Settings that pass, by path."""
    return dict(question.answer(values))


def slip_answer(question, slip, values, variant=1):
    """The settings of someone who makes this slip."""
    return dict(slip.example(values))


def in_words(question, record, values):
    """A readable answer, as it is told again."""
    from splashlib.shoot import show

    read = {path: reading(path, value) for path, value in record["settings"].items()}
    return ", ".join(f"{field(path).label} **{show(path, value)}**" for path, value in read.items())
