"""Calls in a Python of their own, for systems that cannot copy a process (Windows) or had better not (macOS).

The function goes there as bytes (see `packing`), and comes from a notebook that this Python has never seen. It takes
a tenth of a second more than a copy, and cannot carry everything.
"""

import base64
import json
import os
import queue
import subprocess
import sys
import threading
from contextlib import suppress
from time import monotonic

from splashlib.classroom.judges.calls import call, silence
from splashlib.classroom.judges.child_process import START, NoChild, notes_from
from splashlib.classroom.judges.packing import CannotPack, packed, unpacked


def call_in_fresh_python(function, cases, seconds, *, ours=None):
    """As `run.call_all`, with the file of our own solution; NoChild where it cannot be."""
    try:
        task = json.dumps({"function": base64.b64encode(packed(function)).decode(), "cases": cases, "ours": ours})
        child = _begun()
    except (CannotPack, OSError, TypeError, ValueError) as problem:
        raise NoChild from problem
    lines = queue.SimpleQueue()
    threading.Thread(target=_passed_on, args=(child, task, lines), daemon=True).start()
    try:
        return notes_from(_in_time(lines, seconds), len(cases))
    finally:
        child.kill()
        child.wait()


def _begun():
    """A Python that waits for its task. It finds the modules that this one finds."""
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(filter(None, sys.path)), "PYTHONIOENCODING": "utf-8"}
    return subprocess.Popen(
        [sys.executable, "-c", f"from {__name__} import live; live()"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env=environment,
        creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
    )


def _passed_on(child, task, lines):
    """Give the child its task, and pass on the lines that it writes; None for the end."""
    with suppress(OSError, ValueError), child:
        child.stdin.write(task.encode() + b"\n")
        child.stdin.close()
        for line in child.stdout:
            lines.put(line)
    lines.put(None)


def _in_time(lines, seconds):
    """The lines that come in time, and None when the time is over; it counts from the first line."""
    until, begun = monotonic() + START, False
    while True:
        try:
            line = lines.get(timeout=max(0.0, until - monotonic()))
        except queue.Empty:
            if begun:
                yield None
            return
        if line is None:
            return
        if not begun:
            begun, until = True, monotonic() + seconds
        yield line


def live():
    """The whole life of the child: one task from its input, one line for each note."""
    task = json.loads(sys.stdin.buffer.readline())
    out = os.fdopen(os.dup(1), "wb", buffering=0)
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    function = unpacked(base64.b64decode(task["function"]))
    out.write(b"begun\n")
    with silence():
        for case in task["cases"]:
            try:
                note = call(function, case, task["ours"])
            except BaseException as error:
                note = {"raised": type(error).__name__[:40], "line": 0}
            out.write(json.dumps(note).encode() + b"\n")
    os._exit(0)
