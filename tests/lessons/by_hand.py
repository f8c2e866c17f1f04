"""Answers that somebody worked out by hand: what a lesson takes for right is held to them, whatever it computes.

    check_by_hand(exercises, {
        "time": ({"height_cm": 45}, "303 ms"),     # a number: the displayed numbers, and the answer with its unit
        "lead": ({"height": 0.45}, "0.303"),       # a function or a formula: what goes in, and what comes out [SI]
        "empty frame": "late",                     # a choice: the key of the right option
    })

Questions about settings have no one answer; their bounds are held by `check_edges`.
"""

import re

from splashlib.classroom.formulas.expression import evaluate, parse
from splashlib.classroom.judges import judge
from splashlib.classroom.judges.settings import start
from splashlib.classroom.questions.units import UNITS, read_quantity
from splashlib.shoot import change_all


def check_by_hand(exercises, cases):
    """Assert that each question but those about settings has a case, and that its right answer is that one."""
    asked = {name for name, question in exercises.questions.items() if question.kind != "settings"}
    assert set(cases) == asked, f"worked out by hand: {sorted(cases)}; asked: {sorted(asked)}"
    for name, case in cases.items():
        HELD[exercises[name].kind](exercises[name], case)


def variant_with(question, numbers):
    """The variant that shows these numbers."""
    for variant in range(1, 2000):
        values = judge.numbers(question, variant)
        if all(values[name] == value for name, value in numbers.items()):
            return variant
    raise AssertionError(f"{question.name}: no variant shows {numbers}")


def _number(question, case):
    numbers, by_hand = case
    variant = variant_with(question, numbers)
    value, unit = read_quantity(by_hand)
    size = (unit or UNITS[question.unit]).size
    _agree(question.name, question.answer(judge.numbers(question, variant)) / size, by_hand)
    assert judge.judge(question, value * size / UNITS[question.unit].size, question.unit, variant=variant).right


def _agree(name, computed, by_hand):
    """The computed value rounds to the one worked out, which has three digits or more: 0.5 % at the worst place."""
    digits = by_hand.split()[0]
    assert len(re.sub(r"^[-0.]+|\.", "", digits)) >= 3, f"{name}: give {by_hand} to three digits"
    within = 0.5 * 10.0 ** -len(digits.partition(".")[2])
    assert abs(float(computed) - float(digits)) <= within, f"{name}: {computed:.5g} is not {by_hand}"


def _formula(question, case):
    letters, by_hand = case
    _agree(question.name, evaluate(parse(question.answer, question.symbols), letters).real, by_hand)


def _function(question, case):
    given, by_hand = case
    _agree(question.name, question.reference(**given), by_hand)


def _choice(question, key):
    assert [option.key for option in question.options if option.right] == [key], question.name


HELD = {"number": _number, "formula": _formula, "function": _function, "choice": _choice}


def check_edges(question, numbers, right, edges):
    """Assert where the bounds of a question about settings lie.

    Parameters
    ----------
    question : Settings
    numbers : dict
        The displayed numbers of the variant that is looked at.
    right : dict
        Settings that meet all conditions [SI].
    edges : list of (text, inside, outside)
        For every condition, by its text: changes of `right` that lie just inside its bound and just outside [SI].
    """
    variant = variant_with(question, numbers)
    values = judge.numbers(question, variant)
    begun = change_all(start(question, values), right)
    conditions = {each.text: each for each in question.conditions}
    assert {text for text, _, _ in edges} == set(conditions)
    for text, inside, outside in edges:
        for changes, meets in ((inside, True), (outside, False)):
            found = conditions[text].test(values, change_all(begun, changes))
            met = bool(found) if isinstance(found, bool) else bool(found >= 0)
            assert met is meets, f"{question.name}: {text}, with {changes}"
