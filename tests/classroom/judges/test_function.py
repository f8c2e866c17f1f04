"""Judging a function that a learner wrote: run in silence with a time limit, judged from what it returned."""

import builtins
import contextlib
import json
import os
import random
import signal
import sys
import time
import warnings

import numpy as np
import psutil
import pytest

from splashlib.classroom.judges.judge import judge, record, verdict
from splashlib.classroom.judges.run import call_all, call_here, time_limit
from tests.classroom import samples
from tests.classroom.samples import LEAD, QUICK


def fall(height):
    return (2 * height / 9.81) ** 0.5


def lead(height, beam):
    return fall(height) - fall(height - beam)


def test_right_whatever_the_arguments_are_called():
    assert judge(LEAD, lead).right
    assert judge(LEAD, lambda h, b: lead(h, b)).right
    assert judge(LEAD, lambda h, b=0.1: np.float64(lead(h, b))).right
    assert judge(LEAD, lambda *both: lead(*both)).right

    def keywords(*, beam, height):
        return lead(height, beam)

    assert judge(LEAD, keywords).right


def test_slips_low_high_and_in_part():
    assert judge(LEAD, lambda h, b: fall(h - b)).slip == "from the hand"
    assert judge(LEAD, lambda h, b: fall(b)).slip == "from rest at the beam"
    assert judge(LEAD, lambda h, b: 0.9 * lead(h, b)).outcome == "low"
    assert judge(LEAD, lambda h, b: 1.1 * lead(h, b)).outcome == "high"
    partly = judge(QUICK, lambda x: 2.0 * x if x < 3 else 9)
    assert partly.outcome == "high"
    assert "2 of 3" in partly.text
    assert judge(QUICK, lambda x: 2 * x + (x - 2)).outcome == "wrong"


def test_the_reply_shows_the_inputs_and_what_came_back_but_not_what_should():
    reply = judge(QUICK, lambda x: 7.5)
    assert "x = 1" in reply.text
    assert "7.5" in reply.text
    assert " 2" not in reply.text
    assert "for x = 1" in judge(QUICK, lambda x: x).text


@pytest.mark.parametrize(
    ("function", "outcome", "word"),
    [
        (lambda x: None, "not_attempted", "nothing"),
        (lambda x: ..., "not_attempted", "nothing"),
        (lambda x: None if x < 2 else 2 * x, "wrong_kind", "nothing"),
        (lambda x: "4", "wrong_kind", "text"),
        (lambda x: [2 * x], "wrong_kind", "list"),
        (lambda x: np.array([2 * x, 1]), "wrong_kind", "array"),
        (lambda x: 1j, "wrong_kind", "complex"),
        (lambda x: float("nan"), "wrong_kind", "nan"),
        (lambda x: float("inf"), "wrong_kind", "infinite"),
        (lambda x: True, "wrong_kind", "yes or no"),
        (lambda x: 10**400, "wrong_kind", "too large"),
        (lambda x: x / 0, "raised", "ZeroDivisionError"),
        (lambda x: undefined_name, "raised", "NameError"),  # noqa: F821
        (lambda: 3, "raised", "TypeError"),
        (lambda x, y: 3, "raised", "TypeError"),
        (lambda x: sys.exit(), "raised", "SystemExit"),
        (lambda x: input("x?"), "raised", "input"),
        (3.0, "wrong_kind", "float|number"),
        ("2*x", "wrong_kind", "text"),
        (..., "not_attempted", ""),
        (None, "not_attempted", ""),
    ],
)
def test_everything_else_gets_a_plain_reply(function, outcome, word):
    reply = judge(QUICK, function)
    assert reply.outcome == outcome
    assert any(part in reply.text for part in word.split("|"))
    assert "\n" not in reply.text
    assert "Traceback" not in reply.text


def test_an_untouched_cell_is_told_to_hold_a_function():
    """A function has no form to type into: the reply speaks of its cell."""
    text = judge(QUICK, ...).text
    assert "function in the cell" in text
    assert "form" not in text
    assert judge(QUICK, 3).text == "That is a number. A function is asked for."


def test_the_line_of_the_mistake_is_named():
    def wrong(x):
        y = x - x
        return x / y

    line = wrong.__code__.co_firstlineno + 2
    assert f"line {line}" in judge(QUICK, wrong).text


def test_an_exception_that_cannot_even_be_printed():
    class Worse(Exception):
        def __str__(self):
            raise RuntimeError

    def wrong(x):
        raise Worse

    assert judge(QUICK, wrong).outcome == "raised"


# ---- the time limit


def forever(x):
    while True:
        pass


def stubborn(x):
    while True:
        try:  # noqa: SIM105
            x = x + 1
        except:  # noqa: E722
            pass


def generator(x):
    return sum(1 for _ in iter(int, 1))


def deep(x):
    return deep(x + 1)


def one_line():
    """A loop that never comes to another line; written as text, since formatters would break it."""
    names = {}
    exec("def one_line(x):\n    while True: pass\n", names)
    return names["one_line"]


def swallows(x):
    while True:
        try:
            while True:
                x = x + 1
        except BaseException:
            continue


def finally_forever(x):
    try:
        return forever(x)
    finally:
        while True:
            pass


def untraced(x):
    sys.settrace(None)
    sys._getframe().f_trace = None
    return forever(x)


def patched_clock(x):
    time.monotonic = time.time = time.perf_counter = lambda: 0.0
    return forever(x)


def sleeps(x):
    time.sleep(1000)


def long_in_c(x):
    return sum(range(10**12))


def deaf_to_signals(x):
    for number in (signal.SIGTERM, signal.SIGINT, signal.SIGALRM):
        signal.signal(number, signal.SIG_IGN)
    return forever(x)


def leaves_a_child(x):
    if os.fork():
        return 2 * x
    return time.sleep(1000)


own_process = pytest.mark.skipif(not hasattr(os, "fork"), reason="no process of its own here")
ENDLESS = (forever, one_line(), stubborn, generator)
STUBBORN = (swallows, finally_forever, untraced, patched_clock, sleeps, long_in_c, deaf_to_signals)


@pytest.mark.parametrize("function", [*ENDLESS, *(pytest.param(f, marks=own_process) for f in STUBBORN)])
def test_what_never_ends_is_stopped(function):
    began = time.perf_counter()
    reply = judge(QUICK, function)
    assert reply.outcome == "raised"
    assert "not finished" in reply.text
    # The limit is 0.2 s for all inputs together; a wide margin for a busy machine.
    assert time.perf_counter() - began < 8
    assert sys.gettrace() is None or "judge" not in repr(sys.gettrace())


@pytest.mark.parametrize("function", [forever, one_line(), generator])
def test_without_processes_what_ends_nowhere_is_stopped_from_inside(function):
    """As in a browser; what cannot be stopped there is said in the head of `run`."""
    assert call_here(function, [{"x": 1.0}], 0.2) == [{"late": True}]


def test_where_no_process_can_be_made_the_call_is_made_here(monkeypatch):
    def refused():
        raise OSError

    monkeypatch.setattr(os, "fork", refused, raising=False)
    assert judge(QUICK, lambda x: 2 * x).right
    monkeypatch.delattr(os, "fork")
    assert judge(QUICK, lambda x: 2 * x).right
    assert "not finished" in judge(QUICK, forever).text


@own_process
def children():
    """The processes that this one has started; a browser of other tests may be among them."""
    return {child.pid for child in psutil.Process().children()}


def test_nothing_of_a_call_stays_behind():
    """Neither a process that it started nor a change of what its notebook holds; a dead interpreter is told."""
    began, before = time.perf_counter(), children()
    assert judge(QUICK, leaves_a_child).right
    assert time.perf_counter() - began < 8
    assert children() == before
    kept = []
    assert judge(QUICK, lambda x: kept.append(x) or 2 * x).right
    assert kept == []
    assert "broke off" in judge(QUICK, lambda x: os.abort()).text
    assert "broke off" in judge(QUICK, lambda x: os._exit(0)).text


def test_a_usual_answer_is_quick():
    """The best of five, on a machine that does other things as well."""
    times = []
    for _ in range(5):
        began = time.perf_counter()
        assert judge(LEAD, lead).right
        times.append(time.perf_counter() - began)
    assert min(times) < 0.5


def test_bottomless_recursion_is_reported():
    assert "RecursionError" in judge(QUICK, deep).text


@pytest.fixture
def _heeds_interrupts():
    """As a kernel does; what a shell starts in the background is deaf to them, and so are its tests."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("_heeds_interrupts")
def test_an_interrupt_of_the_learner_goes_through(monkeypatch):
    """Stopping the cell while the function runs: the wait ends, and the process with it."""
    parent, before = os.getpid(), children()

    def pressed(x):
        os.kill(parent, signal.SIGINT)
        time.sleep(1000)

    with pytest.raises(KeyboardInterrupt):
        judge(QUICK, pressed)
    assert children() == before
    monkeypatch.delattr(os, "fork", raising=False)
    with pytest.raises(KeyboardInterrupt):
        judge(QUICK, lambda x: signal.raise_signal(signal.SIGINT))


def test_our_own_solution_is_not_an_answer():
    """Neither itself, nor a function that calls it or a helper beside it; a function of the same steps is right."""
    by_helper = [lambda h, b: samples.fall(h) - samples.fall(h - b)]
    for question, functions in ((QUICK, [QUICK.reference, lambda x: QUICK.reference(x=x)]), (LEAD, by_helper)):
        for function in functions:
            reply = judge(question, function)
            assert reply.outcome == "wrong_kind"
            assert "Write the steps yourself" in reply.text
    assert call_here(QUICK.reference, [{"x": 1.0}], 1.0, ours=QUICK.reference.__code__.co_filename) == [{"ours": True}]
    assert judge(QUICK, lambda x: 2 * x).right


def test_a_tracer_that_was_there_is_put_back():
    def own(*_):
        return None

    before = sys.gettrace()
    sys.settrace(own)
    try:
        judge(QUICK, lambda x: 2 * x)
        call_here(forever, [{"x": 1.0}], 0.2)
        seen = sys.gettrace()
    finally:
        sys.settrace(before)
    assert seen is own


def test_the_limit_leaves_quick_code_alone():
    with time_limit(5) as watch:
        total = sum(range(100))
    assert total == 4950
    assert not watch.late


# ---- nothing is left behind


def test_printing_is_swallowed_and_warnings_too(capsys):
    def loud(x):
        print("loud")
        print("louder", file=sys.stderr)
        warnings.warn("loudest", stacklevel=1)
        return 2 * x

    assert judge(QUICK, loud).right
    assert capsys.readouterr() == ("", "")


def test_random_generators_and_builtins_are_as_before():
    random.seed(3)
    np.random.seed(3)  # noqa: NPY002
    before = random.getstate(), np.random.get_state()[1].tolist(), builtins.input, warnings.filters[:]  # noqa: NPY002

    def draws(x):
        warnings.simplefilter("error")
        return 2 * x + 0 * (random.random() + np.random.rand())  # noqa: NPY002

    assert judge(QUICK, draws).right
    after = random.getstate(), np.random.get_state()[1].tolist(), builtins.input, warnings.filters[:]  # noqa: NPY002
    assert before == after


def test_inputs_that_are_changed_do_no_harm():
    cases = [{"list": [1, 2]}, {"list": [3]}]

    def greedy(values):
        values.clear()
        return 1.0

    assert call_all(greedy, cases, 1.0) == [{"value": 1.0}, {"value": 1.0}]
    assert cases == [{"list": [1, 2]}, {"list": [3]}]


def test_the_same_answer_gets_the_same_reply():
    first = judge(LEAD, lambda h, b: 0.9 * lead(h, b), variant=9)
    assert first == judge(LEAD, lambda h, b: 0.9 * lead(h, b), variant=9)


def test_a_stored_answer_is_judged_again_without_running_it(tmp_path):
    """Counted in a file, since nothing else comes back from the process of a call."""
    calls = tmp_path / "calls"

    def counted(h, b):
        with calls.open("a") as file:
            file.write("x")
        return fall(h - b)

    stored = json.loads(json.dumps(record(LEAD, counted, variant=4)))
    assert calls.read_text() == "x" * 6
    assert verdict(LEAD, stored, variant=4).slip == "from the hand"
    assert calls.read_text() == "x" * 6


def test_stdout_is_put_back_even_after_a_stop():
    out = sys.stdout
    with contextlib.suppress(BaseException):
        judge(QUICK, forever)
    assert sys.stdout is out
