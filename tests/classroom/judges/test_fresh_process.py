"""A learner's function in a fresh Python, as on Windows: it takes along what it needs, and is ended like any other."""

import math
import sys
import time

import pytest

from splashlib.classroom.judges import run
from splashlib.classroom.judges.child_process import NoChild
from splashlib.classroom.judges.fresh_process import call_in_fresh_python
from splashlib.classroom.judges.judge import judge
from splashlib.classroom.judges.packing import CannotPack, packed, unpacked
from splashlib.physics.fall import fall_time
from tests.classroom.samples import QUICK

FACTOR = 2.0
CASES = [{"x": 1.0}, {"x": 3.0}]


def by_hand(x):
    return FACTOR * x if x < 2 else 2 + by_hand(x - 1)


def maker(a):
    """A function that closes over a number, over another function, and over itself."""

    def inner(x):
        return helper(x) * a if x < 2 else 2 * a + inner(x - 1)

    def helper(x):
        return by_hand(x)

    return inner


def as_in_a_notebook(source, name):
    """A function whose module cannot be imported."""
    names = {"__name__": "__main__", "math": math, "fall_time": fall_time}
    exec(source, names)
    return names[name]


NOTEBOOK = """
G = 9.81
def fall(h, *, g=None):
    return math.sqrt(2 * h / (g or G))
def twice(x):
    return fall(x) / fall_time(x) * 2 * x + sum(0 * n for n in range(3))
"""


@pytest.mark.parametrize("function", [by_hand, maker(1), lambda x: 2 * x, lambda x, y=2.0: x * y])
def test_a_function_takes_along_what_it_needs(function):
    assert unpacked(packed(function))(3.0) == function(3.0) == 6.0
    assert call_in_fresh_python(function, CASES, 5.0) == [{"value": 2.0}, {"value": 6.0}]


def test_what_a_notebook_defined_goes_by_value():
    twice = as_in_a_notebook(NOTEBOOK, "twice")
    assert [round(note["value"], 6) for note in call_in_fresh_python(twice, CASES, 10.0)] == [2.0, 6.0]


def test_what_cannot_be_carried_is_called_here(monkeypatch):
    file = open(__file__, encoding="utf-8")  # noqa: SIM115
    with file, pytest.raises(CannotPack):
        packed(lambda x: file.read() and 2 * x)
    file = open(__file__, encoding="utf-8")  # noqa: SIM115
    with file, pytest.raises(NoChild):
        call_in_fresh_python(lambda x: file.read() and 2 * x, CASES, 1.0)
    monkeypatch.setattr(sys, "platform", "win32")
    with open(__file__, encoding="utf-8") as file:
        assert judge(QUICK, lambda x: 2 * x if file else 0).right


def endless(x):
    while True:
        try:
            time.sleep(1000)
        except BaseException:
            continue


def test_it_is_ended_whatever_it_does():
    began = time.perf_counter()
    assert call_in_fresh_python(endless, CASES, 0.3) == [{"late": True}]
    assert time.perf_counter() - began < 12  # a wide margin for a busy machine
    assert call_in_fresh_python(lambda x: sys.exit(3), CASES[:1], 5.0)[0]["raised"].startswith("SystemExit")


def test_our_own_solution_is_heard_there_too():
    ours = fall_time.__code__.co_filename
    assert call_in_fresh_python(lambda x: fall_time(x), CASES[:1], 10.0, ours=ours) == [{"ours": True}]


@pytest.mark.parametrize("system", ["win32", "darwin", "linux", "emscripten"])
def test_each_system_has_its_way(system, monkeypatch):
    monkeypatch.setattr(sys, "platform", system)
    assert run.call_all(lambda x: 2 * x, CASES, 5.0) == [{"value": 2.0}, {"value": 6.0}]
    assert run.call_all(lambda x: x / 0, CASES[:1], 5.0)[0]["raised"].startswith("ZeroDivisionError")
