"""Running a function that a learner wrote: with a time limit, in silence, leaving everything as it was."""

import builtins
import contextlib
import copy
import inspect
import io
import random
import sys
import time
import traceback
import warnings

from splashlib.classroom.kinds import plain_word


class TimeIsUp(BaseException):
    """Raised inside the learner's code when its time is over; `except Exception` there does not catch it.

    A bare `except:` does, and Python stops tracing when a tracer raises. So when such a handler drops the
    exception, the watch is set again, and the next step outside the handler's `try` is stopped for good.
    """

    def __init__(self, watch):
        super().__init__()
        self.watch = watch

    def __del__(self):
        if self.watch.on:
            self.watch.follow(sys._getframe(1))
            sys.settrace(self.watch)


class _Watch:
    """Looks at the clock before each step of Python that the watched code takes."""

    def __init__(self, seconds):
        self.until = time.monotonic() + seconds
        self.home = sys._getframe(1)
        self.on, self.late = True, False

    def __call__(self, frame, event, argument):
        # Line events alone would miss `while True: pass`, which is one line.
        frame.f_trace_opcodes = True
        if self.on and time.monotonic() > self.until:
            self.late = True
            raise TimeIsUp(self)
        return self

    def follow(self, frame):
        """Trace a frame and its callers, up to our own."""
        while frame is not None and frame is not self.home:
            frame.f_trace, frame.f_trace_opcodes = self, True
            frame = frame.f_back


@contextlib.contextmanager
def time_limit(seconds):
    """Stop the code inside after so many seconds. One long call into C is not stopped before it returns."""
    before, watch = sys.gettrace(), _Watch(seconds)
    sys.settrace(watch)
    try:
        yield watch
    except TimeIsUp:
        watch.late = True
    finally:
        watch.on = False
        sys.settrace(before)


@contextlib.contextmanager
def silence():
    """Swallow what is printed, refuse input(), and put random generators and warning filters back."""
    states, asked = _random_states(), builtins.input
    builtins.input = _no_input
    try:
        with (
            contextlib.redirect_stdout(io.StringIO()),
            contextlib.redirect_stderr(io.StringIO()),
            warnings.catch_warnings(),
        ):
            warnings.simplefilter("ignore")
            yield
    finally:
        builtins.input = asked
        for put_back, state in states:
            put_back(state)


def _random_states():
    states = [(random.setstate, random.getstate())]
    if "numpy" in sys.modules:
        import numpy.random

        # The old global state is what a learner's cell may rely on.
        states.append((numpy.random.set_state, numpy.random.get_state()))  # noqa: NPY002
    return states


def _no_input(*_):
    raise RuntimeError("the function asks with input(); its values come in as arguments")


def call_all(function, cases, seconds):
    """Call a function with each case (a dict of arguments) and note what came back, as plain data.

    Parameters
    ----------
    function : what the learner wrote
    cases : list of dict; each call gets copies
    seconds : time limit for all calls together [s]

    Returns
    -------
    list of dict: {"value": 0.3}, {"none": True}, {"other": "a list"}, {"raised": "...", "line": 2} or
    {"late": True}; nothing is called after one that was late.
    """
    notes, until = [], time.monotonic() + seconds
    with silence():
        for case in cases:
            notes.append(_call(function, copy.deepcopy(case), until - time.monotonic()))
            if notes[-1].get("late"):
                break
    return notes


def _call(function, case, seconds):
    keywords = _keyword_only(function, case)
    note = {"late": True}
    with time_limit(seconds) as watch:
        try:
            note = _note(function(**case) if keywords else function(*case.values()))
        except (KeyboardInterrupt, TimeIsUp):
            raise
        except BaseException as error:
            note = _trouble(error)
    return {"late": True} if watch.late else note


def _keyword_only(function, case):
    try:
        parameters = inspect.signature(function).parameters.values()
    except (TypeError, ValueError):
        return False
    return {p.name for p in parameters if p.kind is p.KEYWORD_ONLY} & set(case) != set()


def _note(value):
    """A returned value as plain data."""
    if value is None or value is Ellipsis:
        return {"none": True}
    from splashlib.classroom.number import record

    found = record(None, value)
    return found if "value" in found or "other" in found else {"other": plain_word(value)}


def _trouble(error):
    """An exception in words, and the line of the learner's code where it came from."""
    try:
        said = str(error).split("\n")[0][:120]
    except BaseException:  # its own text may be broken
        said = ""
    steps = traceback.extract_tb(error.__traceback__)
    own = [step.lineno for step in steps if step.filename != __file__]
    return {"raised": f"{type(error).__name__[:40]}: {said}".rstrip(": "), "line": own[0] if own else 0}
