"""From the visible variant to the numbers of a question."""

import numpy as np
import pytest

from splashlib.classroom.judges.judge import numbers
from splashlib.classroom.questions.question_kinds import Function, Number
from splashlib.classroom.questions.variants import Values, combination, count, drawn_inputs, stride, whole
from tests.classroom.samples import LEAD, TIME

TWO = Number(
    name="two",
    prompt="{a} {b} {c}",
    draw={"a": (1, 2, 3), "b": (10, 20, 30, 40, 50)},
    also=lambda v: {"c": v.a * v.b / 7},
    keep=lambda v: v.a * 10 != v.b,
    answer=lambda v: v.c,
)


def test_the_first_variant_takes_the_first_numbers():
    assert numbers(TIME, 1).height_cm == 20
    assert drawn_inputs(LEAD, 1)[0] == {"height": 0.3, "beam": 0.05}


def test_every_combination_comes_up_once_in_a_round():
    for total in (1, 2, 3, 12, 15, 100, 360):
        assert sorted(k * stride(total) % total for k in range(total)) == list(range(total))
    lists = {"a": (1, 2, 3), "b": (4, 5)}
    assert len({tuple(combination(lists, n).values()) for n in range(count(lists))}) == 6


def test_impossible_combinations_are_passed_over_and_the_rest_is_used():
    met = {(numbers(TWO, n).a, numbers(TWO, n).b) for n in range(1, 100)}
    assert len(met) == 15 - 3
    assert (1, 10) not in met


def test_displayed_numbers_are_rounded_before_the_answer():
    for variant in range(1, 16):
        v = numbers(TWO, variant)
        assert v.c == float(f"{v.a * v.b / 7:.3g}")
        assert TWO.answer(v) == v.c


def test_any_whole_number_is_a_variant():
    for variant in (0, -3, 10**9, np.int64(4)):
        assert numbers(TIME, variant).height_cm in TIME.draw["height_cm"]
    for bad in (1.0, "1", True, None, 10**10):
        with pytest.raises(ValueError, match="whole number"):
            whole(bad)


def test_values_are_read_by_name_and_unpacked():
    values = Values({"a": 1, "b": 2})
    assert (values.a, values["b"], dict(values), len(values)) == (1, 2, {"a": 1, "b": 2}, 2)


def test_inputs_of_a_function_differ_within_a_variant():
    for variant in range(1, 30):
        cases = [tuple(case.values()) for case in drawn_inputs(LEAD, variant)]
        assert len(set(cases)) == len(cases) == 6
    few = Function(name="f", prompt="", reference=lambda *, x: x, inputs={"x": (1.0, 2.0)})
    assert len(drawn_inputs(few, 1)) == 2
