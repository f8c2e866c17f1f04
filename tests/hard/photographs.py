"""Photographs of set-ups from the whole table of settings, under a limit of memory.

    python -m tests.hard.photographs [--count 300] [--first 0]

Each set-up has half of its settings changed to anything that is possible, or to anything that a slider offers; most are
lit at an instant of the splash. They are photographed one after the other in a process that may have 300 MB more
than it has after its first photograph. Printed: the slowest, the largest, and every one that broke or took too much.
`test_photograph_bounds.py` runs a few of them at each change.
"""

import argparse
import json
import os
import resource
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np

from splashlib.picture import photograph
from splashlib.shoot import FIELDS, Flash, change, change_all, tea_house, with_body
from splashlib.shoot.chain.events import events

ROOT = Path(__file__).resolve().parents[2]
BODIES = ("kumquat", "glass marble", "drop of milk")
SECONDS, MEGABYTES = 1.0, 300.0
"""What one photograph of 640 x 427 may take: processor time, and memory beyond the first photograph's."""


def value_of(row, rng, wild):
    """A value of one setting: anything possible, evenly in its logarithm where it spans decades, or a slider's."""
    if row.kind == "text":
        return str(rng.choice(["kumquat", "white ball", "pebble", "glass marble"]))
    if row.kind == "choice":
        return row.choices[rng.integers(len(row.choices))][1]
    if row.kind == "marks" and not wild:
        return row.marks[rng.integers(len(row.marks))][1]
    low, high = row.limits if wild else (row.to_si(row.low), row.to_si(row.high))
    ends = rng.random()
    if ends < 0.15:
        value = low if ends < 0.075 else high
    elif low > 0 and high > 20 * low:
        value = float(np.exp(rng.uniform(np.log(low), np.log(high))))
    else:
        value = float(rng.uniform(low, high))
    return int(value) if row.whole else value


def setup_of(seed):
    """The set-up of a number: a third wild, a third within the sliders, a third within them and close up."""
    rng = np.random.default_rng((seed, 17))
    while True:
        base = with_body(tea_house(), str(rng.choice(BODIES)))
        base = replace(base, flashes=(Flash(),) * int(rng.integers(1, 4)))
        count = int(rng.integers(2, 40))
        rows = [FIELDS[n] for n in rng.choice(len(FIELDS), count, replace=False)]
        try:
            setup = change_all(base, {row.path: value_of(row, rng, seed % 3 == 0) for row in rows})
            setup = _close_up(setup, rng) if seed % 3 == 2 else setup
            return _lit_in_the_splash(setup, rng) if rng.random() < 0.8 else setup
        except ValueError:
            continue


def _close_up(setup, rng):
    """The camera as near as its lens lets it, focused there or elsewhere, the frame where the splash is."""
    camera = setup.camera
    distance = max(camera.focal_length * (1 + 1 / np.exp(rng.uniform(-1.5, 3.0))), 0.15)
    focus = max(distance * rng.choice([1.0, 1.0, rng.uniform(0.9, 1.2)]), 0.15)
    near = {"camera.distance": distance, "camera.focus_distance": focus}
    return change_all(setup, {**near, "camera.frame_centre": rng.choice([0.0, rng.uniform(-0.05, 0.05)])})


def _lit_in_the_splash(setup, rng):
    when = events(change(setup, "trigger.delay", 0.0))
    after = rng.choice([-0.002, 0.004, 0.01, 0.03, 0.06, 0.1, 0.2]) * rng.uniform(0.5, 1.5)
    delay = float(when.contact[0] - when.light[0]) + after
    return change(setup, "trigger.delay", min(delay, 10.0)) if delay > 0 else setup


def photographed(setup, seed):
    """Processor seconds and megabytes at most that a photograph takes."""
    rng = np.random.default_rng(seed) if seed % 5 == 0 else None
    before = _forget_peak()
    start = time.process_time()
    picture = photograph(setup, rng=rng, size=(640, 427))
    seconds = time.process_time() - start
    assert picture.shape == (427, 640, 3)
    assert picture.dtype == np.uint8
    return seconds, status("VmHWM") - before


def status(name):
    """A line of this process's memory [MB]."""
    line = next(line for line in Path("/proc/self/status").read_text().splitlines() if line.startswith(name + ":"))
    return int(line.split()[1]) / 1024


def _forget_peak():
    Path("/proc/self/clear_refs").write_text("5")
    return status("VmRSS")


def work(first, count):
    """Photograph set-ups in this process, under the limit; one line of JSON for each."""
    photograph(tea_house(), size=(640, 427))
    most = int((status("VmSize") + MEGABYTES) * 2**20)
    resource.setrlimit(resource.RLIMIT_AS, (most, most))
    for seed in range(first, first + count):
        setup = setup_of(seed)
        print(json.dumps({"seed": seed}), flush=True)
        try:
            seconds, megabytes = photographed(setup, seed)
        except Exception as error:
            print(json.dumps({"seed": seed, "broke": f"{type(error).__name__}: {error}"[:200]}), flush=True)
        else:
            print(json.dumps({"seed": seed, "seconds": seconds, "megabytes": megabytes}), flush=True)


def tried(first, count):
    """Photograph set-ups in processes of their own.

    Returns
    -------
    list of dict
        seed, and seconds and megabytes, or in what way it broke.
    """
    found, last = [], first + count
    while first < last:
        span = [f"--first={first}", f"--count={last - first}"]
        command = [sys.executable, "-m", "tests.hard.photographs", "--work", *span]
        alone = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
        done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, env=alone)
        lines = [json.loads(line) for line in done.stdout.splitlines()]
        ended = {line["seed"] for line in lines if len(line) > 1}
        found += [line for line in lines if len(line) > 1]
        started = [line["seed"] for line in lines if len(line) == 1]
        if started and started[-1] not in ended:
            found.append({"seed": started[-1], "broke": f"the process ended with {done.returncode}"})
        if not started:
            raise RuntimeError(done.stderr[-2000:])
        first = started[-1] + 1
    return found


def too_much(one):
    """Whether a photograph broke, or took more than it may."""
    return "broke" in one or one["seconds"] > SECONDS or one["megabytes"] > MEGABYTES


def main():
    """Print what was found."""
    ask = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    ask.add_argument("--count", type=int, default=300)
    ask.add_argument("--first", type=int, default=0)
    ask.add_argument("--work", action="store_true")
    ask = ask.parse_args()
    if ask.work:
        work(ask.first, ask.count)
        return
    found = tried(ask.first, ask.count)
    whole = [one for one in found if "broke" not in one]
    for name in ("seconds", "megabytes"):
        most = sorted(whole, key=lambda one: -one[name])[:5]
        print(f"most {name}: " + ", ".join(f"{one[name]:.2f} (number {one['seed']})" for one in most))
    bad = [one for one in found if too_much(one)]
    print(f"{len(found)} set-ups, {len(bad)} broke or took over {SECONDS:g} s or {MEGABYTES:g} MB")
    for one in bad:
        print(one)


if __name__ == "__main__":
    main()
