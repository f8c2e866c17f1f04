"""Objects that were made to break whoever looks at them: each gets one plain line, and none of their code is run."""

import json
import math
import numbers
import time

import numpy as np
import pytest
import sympy

from splashlib.classroom.judges.judge import judge, record, rejudge
from splashlib.classroom.record.progress_file import Progress
from tests.classroom.samples import QUESTIONS, sample_exercises


def boom(*_, **__):
    raise RuntimeError


class Meta(type):
    """A class whose very name raises."""

    __name__ = property(boom)
    __module__ = property(boom)
    __getattribute__ = __eq__ = __hash__ = __instancecheck__ = boom


class Mine(metaclass=Meta):
    __getattribute__ = __eq__ = __hash__ = __float__ = __str__ = __repr__ = __len__ = __iter__ = __bool__ = boom


class Liar:
    @property
    def __class__(self):
        raise RuntimeError


class Text(str):
    strip = encode = lower = rstrip = __len__ = __str__ = __eq__ = __hash__ = boom


class Decimals(float):
    __float__ = __lt__ = __eq__ = __mul__ = __format__ = boom


class Whole(int):
    __float__ = __abs__ = __eq__ = __format__ = boom


class Table(dict):
    items = keys = __iter__ = __getitem__ = __len__ = boom


class Endless:
    def __float__(self):
        while True:
            pass


class Real:
    """It only says that it is a number."""

    __float__ = boom


numbers.Real.register(Real)


class Callable:
    __call__ = __repr__ = __str__ = boom


def grown():
    """A sympy expression of some thousand parts."""
    x = sympy.Symbol("x")
    for n in range(40):
        x = sympy.sin(x) + n * x
    return x


HOSTILE = [
    Mine(), Mine, Liar(),
    Text("3 kg"), Text("..."), Decimals(3), Decimals("nan"), Whole(3), Table(a=1), Endless(), Real(),
    Callable(), {"beam.height": Mine()}, {"beam.height": Endless()}, {"beam.height": Text("x")}, grown(), sympy.zoo,
    np.ma.masked, np.datetime64("now"), np.void(b"x"), np.array("x"), range(10**9), type("N", (), {"__module__": 5})(),
]  # fmt: skip


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.kind)
def test_hostile_objects_get_a_plain_reply(question):
    for answer in HOSTILE:
        for unit in (None, Text("s"), Mine(), ["s"]):
            began = time.perf_counter()
            reply = judge(question, answer, unit)
            assert not reply.right
            assert reply.text.strip()
            assert len(reply.text) < 500
            assert json.dumps(record(question, answer, unit))
            # Those that never end would need for ever; a wide margin for a busy machine.
            assert time.perf_counter() - began < 5


def test_a_text_or_number_of_a_class_of_ones_own_is_read_as_what_it_is(tmp_path):
    exercises = sample_exercises(progress=Progress(tmp_path / "p.sqlite"))
    right = exercises["stops"].answer(exercises.numbers("stops"))
    assert exercises.check("stops", Decimals(right)).right
    assert exercises.check("stops", Text(f"{right:g}")).right
    assert exercises.check("stops", Decimals(math.nan)).outcome == "wrong_kind"


def test_a_decimal_comma_in_code_gets_a_plain_reply(tmp_path):
    """21,5 is two arguments to Python; nothing of it is kept."""
    exercises = sample_exercises(progress=Progress(tmp_path / "p.sqlite"))
    for act in (exercises.check, exercises.note):
        assert f'Write `exercises.{act.__name__}("time", 21.5, "ms")`' in act("time", 21, 5, "ms").text
        assert f'Write `exercises.{act.__name__}("time", 21.5)`' in act("time", 21, 5).text
        for answer in ((21, 5, 3, 4), (21.5, 5, "ms"), (Mine(), 5.0), (21, 5, Mine())):
            reply = act("time", *answer)
            assert (reply.outcome, reply.right) == ("unreadable", False)
    assert not list(tmp_path.iterdir())


def test_an_exercise_that_is_none_is_told_in_one_line():
    exercises = sample_exercises()
    for name in ("lag", ["time"], Mine(), 3, None, "x" * 10_000):
        with pytest.raises(ValueError, match="is no exercise of 'sample'") as caught:
            exercises.check(name, 3)
        assert len(str(caught.value)) < 300


BRACKETS = "[" * 100_000
DAMAGED = [
    None, 7, 1.5, True, "", "late", [], [1], {}, {"x": 1}, {"text": None}, {"text": 7}, {"text": BRACKETS},
    {"value": None}, {"value": "x"}, {"value": 10**400}, {"value": 1e308, "unit": BRACKETS}, {"unit": 3}, {"other":
    BRACKETS}, {"other": 3}, {"length": BRACKETS}, {"option": []}, {"option": BRACKETS}, {"settings": 3},
    {"settings": {"beam.height": [BRACKETS]}}, {"settings": {"x.y": 1}}, {"settings": {}, "others": BRACKETS},
    {"settings": {}, "others": [3]}, {"returned": 3}, {"returned": [None]}, {"returned": [{"value": "x"}] * 9},
    {"returned": [{"raised": BRACKETS}]}, {"returned": []},
]  # fmt: skip


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.kind)
def test_a_damaged_record_gets_one_short_line_at_once(question):
    """As a report meets it in a file that was edited, or lost a part."""
    for damaged in DAMAGED:
        began = time.process_time()
        reply = rejudge(question, damaged)
        assert time.process_time() - began < 0.2
        assert not reply.right
        assert 0 < len(reply.text) < 500
