"""Ten thousand changes on every panel: does its memory stay flat?

    python -m tests.hard.panel_memory 10000 [PANEL ...]

Each panel runs in a process of its own. Messages come as its page sends them, hands at random on every handle, one in
five at rest. Printed for each panel: megabytes after a fifth of the changes, and how many more there are at the end.
"""

import contextlib
import ctypes
import gc
import importlib
import os
import random
import subprocess
import sys
from pathlib import Path

from splashlib.desk.house import written

ROOT = Path(__file__).resolve().parents[2]
FLAT = 5.0
"""Growth after the first fifth of the changes that counts as none [MB]."""

PANELS = {
    "beam": ("panel",),
    "camera": ("panel", "curtains"),
    "fall": ("panel",),
    "for_teachers": ("cameras", "beams", "lights"),
    "freeze": ("panel",),
    "room": ("panel",),
    "splash": ("panel", "vessel_panel"),
    "start": ("panel",),
    "stops": ("panel",),
}


def names():
    """Every panel of the course, as "lesson.function"."""
    return [f"{lesson.name}.{made}" for lesson in written() for made in PANELS[lesson.name]]


def panel_of(name):
    """Build a panel."""
    lesson, made = name.split(".")
    return getattr(importlib.import_module(f"lessons.{lesson}.panel"), made)()


def message(panel, rng, number):
    """One message of a page: one or two handles moved anywhere."""
    handles = list(panel._handles.values())
    moved = {each.name: rng.randrange(len(each.values)) for each in rng.sample(handles, min(2, len(handles)))}
    return {"view": "one", "number": number, "moved": moved, "rest": number % 5 == 0}


def megabytes():
    """What this process holds [MB], with what only waits to be collected or given back let go.

    What the allocator keeps free for the next picture goes up and down by several MB and says nothing of a leak.
    """
    gc.collect()
    with contextlib.suppress(AttributeError, OSError):  # only this system's usual C library has it
        ctypes.CDLL(None).malloc_trim(0)
    text = Path("/proc/self/status").read_text()
    return next(int(line.split()[1]) for line in text.splitlines() if line.startswith("VmRSS:")) / 1024


def work(name, count, again=0):
    """Change a panel in this process; returns megabytes after a fifth of the changes, and at 16 places after.

    After `again` messages the same ones come again, if that is given: then nothing new is to be kept.
    """
    panel, rng, seen = panel_of(name), random.Random(name), []
    places = {round(count * share / 20) for share in range(4, 21)}
    for number in range(1, count + 1):
        if again and number % again == 1:
            rng.seed(name)
        panel._received(None, message(panel, rng, number), None)
        if number in places:
            seen.append(megabytes())
    return seen


def run(name, count, again=0):
    """Change a panel in a process of its own; returns megabytes as `work`."""
    alone = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
    command = [sys.executable, "-m", "tests.hard.panel_memory", "--work", name, str(count), str(again)]
    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, env=alone)
    if done.returncode:
        raise RuntimeError(done.stderr[-2000:])
    return [float(each) for each in done.stdout.split()]


def growth(seen):
    """How much more is held at the end than after the first fifth [MB]; peaks between do not count as growth."""
    return max(seen[-3:]) - seen[0]


def main(arguments):
    """Print what every panel holds."""
    if arguments[:1] == ["--work"]:
        print(*work(arguments[1], *map(int, arguments[2:])))
        return
    count, chosen = int(arguments[0]), arguments[1:] or names()
    for name in chosen:
        seen = run(name, count)
        more = growth(seen)
        print(f"{name:20}{seen[0]:8.1f} MB{more:+8.1f} MB {'flat' if more <= FLAT else 'GROWS'}", flush=True)
        print("    " + " ".join(f"{each:.0f}" for each in seen), flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
