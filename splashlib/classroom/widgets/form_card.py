"""What a form shows, as plain data: the prompt, the field that fits the kind of question, the labels of its buttons.

Pure functions, so that the words and fields are tested without a browser.
"""

from html import escape

from splashlib.classroom.judges import judge
from splashlib.classroom.judges.choice import LETTERS
from splashlib.classroom.questions.units import UNITS, find_unit, units_of
from splashlib.classroom.questions.variants import count, order
from splashlib.classroom.questions.wording import say, to_html

# What a menu offers first; everything else can be typed behind the number.
MENUS = {
    "time": ("s", "ms", "µs"),
    "length": ("m", "cm", "mm", "µm", "in", "ft"),
    "speed": ("m/s", "cm/s", "mm/s", "km/h", "ft/s"),
}
KICKERS = {"ask": "Exercise", "predict": "Before you see it: what do you think?", "look_back": "Looking back"}


def card(question, variant, *, mode="ask", lesson=""):
    """Everything that the front end needs to show a question.

    Parameters
    ----------
    question : one of the five kinds
    variant : which numbers
    mode : "ask", "predict" or "look_back"
    lesson : the name under which the exercises go in code

    Returns
    -------
    dict of plain data; texts that were Markdown are HTML with everything else escaped.
    """
    values = judge.numbers(question, variant)
    return {
        "mode": mode,
        "name": question.name,
        "kicker": KICKERS[mode],
        "prompt": to_html(say(question.prompt, values)),
        "variant": variant,
        "field": FIELDS[question.kind](question, values, variant),
        "buttons": _buttons(question, mode),
    }


def _buttons(question, mode):
    """The words on the buttons; those without words are not there."""
    if mode == "look_back":
        return {}
    if mode == "predict":
        return {"note": "Note my prediction"}
    buttons = {} if question.kind == "function" else {"check": "Check"}
    if question.hints:
        buttons["hint"] = "Hint"
    buttons["worked"] = "Worked solution"
    if count(question.draw) > 1 or (question.kind == "function" and count(question.inputs) > question.cases):
        buttons["fresh"] = "New numbers"
    return buttons


def _number(question, values, variant):
    unit = UNITS[question.unit]
    names = question.units or MENUS.get(unit.measures, units_of(unit.measures))
    if question.unit not in names:
        names = (*names, question.unit)
    several = len(units_of(unit.measures)) > 1
    digits = {1: "one digit is", 2: "two digits are", 3: "three digits are", 4: "four digits are"}
    return {
        "kind": "text",
        "label": "Your answer",
        "wide": False,
        "units": list(names) if several else [],
        "suffix": "" if several else unit.name,
        "help": f"{digits.get(question.digits, 'a few digits are')} enough" if several else "",
    }


def _formula(question, values, variant):
    letters = [f"{escape(letter)}: {escape(meaning)}" for letter, meaning in question.symbols.items()]
    return {
        "kind": "text",
        "label": f"{question.gives} =" if question.gives else "Your formula",
        "wide": True,
        "units": [],
        "suffix": "",
        "help": f"{'; '.join(letters)}. Write it as on paper, such as ½ a²/b, or with * ^ and sqrt( )",
    }


def _choice(question, values, variant):
    options = [
        {"key": option.key, "letter": letter, "html": to_html(say(option.text, values))}
        for letter, option in zip(LETTERS, order(question, variant), strict=False)
    ]
    return {"kind": "options", "label": "Choose one", "options": options}


def _function(question, values, variant):
    names = ", ".join(question.inputs)
    return {"kind": "code", "help": to_html(f"Open the folded cell below and write it there; it takes `{names}`.")}


def _settings(question, values, variant):
    from splashlib.classroom.judges.settings import start
    from splashlib.shoot import field, value_at

    begun = start(question, values)
    rows = []
    for path in question.asked:
        row, value = field(path), value_at(begun, path)
        said = list(row.marks if row.kind == "marks" else row.choices)
        shown, odd = _setting(row, value)
        options = [] if odd else [text for text, _ in said]
        rows.append({"path": path, "label": row.label, "unit": row.unit, "value": shown, "options": options})
    return {"kind": "settings", "label": "Your settings", "rows": rows}


def _setting(row, value):
    """A value of a setting as the field shows it, and whether it is none of those that can be chosen."""
    said = row.marks if row.kind == "marks" else row.choices
    shown = next((text for text, each in said if each == value), None)
    if shown is not None:
        return shown, False
    return f"{row.from_si(value):.6g}" if row.kind in ("number", "marks") else str(value), True


def typed_again(question, record):
    """A kept answer as it stands in the field of its form, as the front end's `write` takes it; {} if it cannot."""
    if question.kind == "choice":
        return {"option": record["option"]} if isinstance(record.get("option"), str) else {}
    if question.kind == "settings":
        settings = record.get("settings")
        return {"settings": _settings_again(question, settings)} if isinstance(settings, dict) else {}
    unit = record.get("unit", "")
    text = f"{record['value']:.12g}" if isinstance(record.get("value"), int | float) else record.get("text")
    if not isinstance(text, str) or not isinstance(unit, str):
        return {}
    known = find_unit(unit) if unit else None
    shown = FIELDS["number"](question, {}, 1)["units"] if question.kind == "number" else []
    if known and known.name in shown:
        return {"text": text, "unit": known.name}
    return {"text": f"{text} {unit}".strip(), "unit": ""}


def _settings_again(question, settings):
    from splashlib.shoot import field

    asked = {path: settings[path] for path in question.asked if isinstance(settings.get(path), str | int | float)}
    return {path: each if isinstance(each, str) else _setting(field(path), each)[0] for path, each in asked.items()}


FIELDS = {
    "number": _number,
    "formula": _formula,
    "choice": _choice,
    "function": _function,
    "settings": _settings,
}


def still_html(shown, reply=None):
    """The card for a viewer in which no Python runs: the question can be read, and the reply to the last answer."""
    field = shown["field"]
    parts = [f"<p><strong>{escape(shown['kicker'])}</strong></p>", shown["prompt"]]
    if field["kind"] == "options":
        items = "".join(f"<li>{option['html']}</li>" for option in field["options"])
        parts.append(f'<ol type="a">{items}</ol>')
    if field["kind"] == "settings":
        rows = [(row["label"], f"{row['value']} {row['unit']}") for row in field["rows"]]
        made = (f"<tr><th>{escape(label)}</th><td>{escape(value)}</td></tr>" for label, value in rows)
        parts.append(f"<table>{''.join(made)}</table>")
    if reply and reply.get("html") and shown["buttons"]:
        parts.append(reply["html"])
    if shown["buttons"]:
        parts.append("<p><em>Run the notebook to answer here.</em></p>")
    return f"<div>{''.join(parts)}</div>"
