"""Calling a function that a learner wrote, in whichever process: in silence, with copies, noting what came back."""

import builtins
import contextlib
import copy
import inspect
import io
import random
import sys
import traceback
import warnings

from splashlib.classroom.judges.judging import plain_word


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


def call(function, case, ours=None):
    """Call a function with a case (a dict of arguments) and note what came back, as plain data.

    Parameters
    ----------
    function : what the learner wrote
    case : dict; the call gets a copy
    ours : the file that holds our own solution, or None

    Returns
    -------
    dict: {"value": 0.3}, {"none": True}, {"other": "a list"}, {"raised": "...", "line": 2}, or {"ours": True} where
    our own solution, or a helper beside it, was called on the way. Raises KeyboardInterrupt and TimeIsUp.
    """
    case = copy.deepcopy(case)
    with _listening(ours) as heard:
        try:
            value = function(**case) if _keyword_only(function, case) else function(*case.values())
            note = _note(value)
        except (KeyboardInterrupt, TimeIsUp):
            raise
        except BaseException as error:
            note = _trouble(error)
    return {"ours": True} if heard else note


class TimeIsUp(BaseException):
    """Raised inside the learner's code when its time is over; `except Exception` there does not catch it."""


@contextlib.contextmanager
def _listening(file):
    """Hear whether code of some file is called inside."""
    heard, before = [], sys.getprofile()

    def listen(frame, event, _argument):
        if frame.f_code.co_filename == file:
            heard.append(event)

    if file is not None:
        sys.setprofile(listen)
    try:
        yield heard
    finally:
        sys.setprofile(before)


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
    from splashlib.classroom.judges.number import record

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
