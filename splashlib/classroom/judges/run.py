"""Running a function that a learner wrote: with a time limit, in silence, leaving everything as it was.

Where there are processes it runs in one of its own, which is ended when the time is over, whatever it does: a copy of
this one (see `child_process`), or a fresh Python where copies are not to be had (see `fresh_process`). A browser's
Python has one process only. There a watch looks at the clock before each step of Python. It cannot stop one long call
into C, such as time.sleep(1000), nor code that catches BaseException and goes on, nor code that takes the watch away;
then the page must be loaded again.
"""

import contextlib
import sys
from time import monotonic

from splashlib.classroom.judges.calls import TimeIsUp, call, silence
from splashlib.classroom.judges.child_process import NoChild, call_in_child
from splashlib.classroom.judges.fresh_process import call_in_fresh_python

USUAL = (call_in_child,)
ROUTES = {
    "win32": (call_in_fresh_python,),
    # Parts of this system break in a copied process.
    "darwin": (call_in_fresh_python, call_in_child),
    "emscripten": (),
}
"""Ways to a process of its own, by system, the best one first."""


def call_all(function, cases, seconds, *, ours=None):
    """Call a function with each case (a dict of arguments) and note what came back, as plain data.

    Parameters
    ----------
    function : what the learner wrote
    cases : list of dict; each call gets copies
    seconds : time limit for all calls together [s]
    ours : our own solution, a function; a call that goes to it, or to its helpers, is noted

    Returns
    -------
    list of dict, as of `calls.call`, or {"late": True} for a call that was stopped; nothing is called after that.
    """
    code = getattr(ours, "__code__", None)
    file = code and code.co_filename
    for route in ROUTES.get(sys.platform, USUAL):
        with contextlib.suppress(NoChild):
            return route(function, cases, seconds, ours=file)
    return call_here(function, cases, seconds, ours=file)


def call_here(function, cases, seconds, *, ours=None):
    """As `call_all`, in this process, watched as well as that can be done from inside."""
    notes, until = [], monotonic() + seconds
    with silence():
        for case in cases:
            note = {"late": True}
            with time_limit(until - monotonic()) as watch:
                note = call(function, case, ours)
            notes.append({"late": True} if watch.late else note)
            if watch.late:
                break
    return notes


class _Watch:
    """Looks at the clock before each step of Python that the watched code takes."""

    def __init__(self, seconds):
        self.until = monotonic() + seconds
        self.on, self.late = True, False

    def __call__(self, frame, event, argument):
        # Line events alone would miss `while True: pass`, which is one line.
        frame.f_trace_opcodes = True
        if self.on and monotonic() > self.until:
            self.late = True
            raise TimeIsUp
        return self


@contextlib.contextmanager
def time_limit(seconds):
    """Stop the code inside after so many seconds, as far as a watch in the same process can."""
    before, watch = sys.gettrace(), _Watch(seconds)
    sys.settrace(watch)
    try:
        yield watch
    except TimeIsUp:
        watch.late = True
    finally:
        watch.on = False
        sys.settrace(before)
