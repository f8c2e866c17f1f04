"""How an answer is written in code: an example for each kind of question, which gives nothing away."""

import json

from splashlib.classroom.judges import judge
from splashlib.classroom.questions.units import UNITS, units_of


def in_code(question):
    """Where to write, and an example of this kind (Markdown)."""
    place = "Open the cell above with a click on its three dots, write, and press Shift and Enter together."
    units = " Settings are in metres and seconds." if question.kind == "settings" else ""
    return f"{place} For example: `{EXAMPLES[question.kind](question)}`.{units}"


def _check(question, answer):
    return f'exercises.check("{question.name}", {answer})'


def _number(question):
    measures = UNITS[question.unit].measures
    # Where the form lets one choose the unit, the example must not tell it.
    unit = "cm" if len(units_of(measures)) > 1 else UNITS[question.unit].name
    return _check(question, f'"{f"12.5 {unit}".strip()}"')


def _settings(question):
    from splashlib.classroom.judges.settings import start
    from splashlib.shoot import field, value_at

    rows = [field(path) for path in question.asked]
    row = next((row for row in rows if row.kind in ("number", "marks")), rows[0])
    # As it stands at the beginning: possible, and no advice.
    value = value_at(start(question, judge.numbers(question)), row.path)
    shown = float(f"{value:.6g}") if isinstance(value, float) else value
    return _check(question, f'{{"{row.path}": {json.dumps(shown)}}}')


EXAMPLES = {
    "number": _number,
    "choice": lambda question: _check(question, '"a"'),
    "formula": lambda question: _check(question, f'"{next(iter(question.symbols))}^2/3"'),
    "function": lambda question: _check(question, question.name),
    "settings": _settings,
}
