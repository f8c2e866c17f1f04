"""Calls in a process of their own, ended from outside when their time is over.

The process is a copy of this one (fork), so a function finds everything that its notebook holds, and nothing that it
changes comes back but its notes. It has no share in this terminal, and little time and memory for itself.
"""

import faulthandler
import gc
import json
import os
import select
import signal
import warnings
from contextlib import suppress
from itertools import islice
from math import ceil

# Held under names of our own: what a learner puts in their place later has no effect here.
from os import _exit, write
from time import monotonic

from splashlib.classroom.judges.calls import call, silence

MEMORY = 2**30
"""So much more than this process has it may take [bytes]."""
START = 15.0
"""So long it may take to begin; a machine that is busy may need it [s]."""


class NoChild(OSError):
    """No process can be made here, as in a browser's Python."""


def call_in_child(function, cases, seconds, *, ours=None):
    """As `run.call_all`, with the file of our own solution; NoChild where there are no processes."""
    if not hasattr(os, "fork"):
        raise NoChild
    reading, writing = os.pipe()
    try:
        child = _fork()
    except OSError as error:
        os.close(reading)
        os.close(writing)
        raise NoChild from error
    if child == 0:
        _live(writing, function, cases, seconds, ours)
    os.close(writing)
    try:
        return notes_from(_lines(reading, seconds), len(cases))
    finally:
        os.close(reading)
        _end(child)


def _fork():
    with warnings.catch_warnings():
        # Python warns of threads of the parent. The copy runs none of their code, and what it runs it leaves by _exit.
        warnings.simplefilter("ignore", DeprecationWarning)
        return os.fork()


def _live(writing, function, cases, seconds, ours):
    """The whole life of the child."""
    try:
        os.setsid()
        # What belongs to the parent is never finalised here, and a crash is told by the parent in one line.
        gc.freeze()
        faulthandler.disable()
        _shut_out(writing)
        _limit(seconds)
        write(writing, b"begun\n")
        with silence():
            for case in cases:
                try:
                    note = call(function, case, ours)
                except BaseException as error:
                    note = {"raised": type(error).__name__[:40], "line": 0}
                write(writing, json.dumps(note).encode() + b"\n")
    finally:
        _exit(0)


def _shut_out(writing):
    """Take terminal and keyboard away, also from code below Python."""
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        if stream != writing:
            os.dup2(nowhere, stream)


def _limit(seconds):
    """Bound time and memory from the system's side, should the parent die and nobody end this process."""
    with suppress(ImportError, OSError, ValueError):
        import resource

        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_CPU, (ceil(seconds) + 2, ceil(seconds) + 3))
        with open("/proc/self/statm", encoding="ascii") as sizes:
            most = int(sizes.read().split()[0]) * resource.getpagesize() + MEMORY
        resource.setrlimit(resource.RLIMIT_AS, (most, most))


def notes_from(lines, wanted):
    """The notes that a child writes in time; a last one says why there are no more.

    Parameters
    ----------
    lines : its lines, the first of which only says that it began; None when its time is over
    wanted : how many notes there should be
    """
    lines = list(islice(lines, wanted + 1))
    if not lines:
        raise NoChild("the process did not begin")
    try:
        notes = [json.loads(line) for line in lines[1:] if line is not None]
    except ValueError:
        notes = []
    if len(notes) < wanted:
        late = lines[-1] is None
        notes.append({"late": True} if late else {"raised": "Python itself broke off", "line": 0})
    return notes


def _lines(reading, seconds):
    """The lines that the child writes, and None when its time is over; the time counts from its first line."""
    until, begun, rest = monotonic() + START, False, b""
    while True:
        ready, _, _ = select.select([reading], [], [], max(0.0, until - monotonic()))
        if not ready:
            if begun:
                yield None
            return
        got = os.read(reading, 65536)
        if not got:
            return
        if not begun:
            begun, until = True, monotonic() + seconds
        *whole, rest = (rest + got).split(b"\n")
        yield from whole


def _end(child):
    """End the child and whatever it started."""
    with suppress(ProcessLookupError, PermissionError):
        os.kill(child, signal.SIGKILL)
        os.killpg(child, signal.SIGKILL)
    with suppress(ChildProcessError):
        os.waitpid(child, 0)
