"""Processes that are killed while they write: what was acknowledged is there, and no file is half of anything.

python -m tests.hard.kills 200
"""

import os
import random
import signal
import sys
import tempfile
import time
from pathlib import Path

from splashlib.classroom.record.progress_file import FILE_NAME, Progress
from splashlib.desk.report import write
from splashlib.shoot import change, load_setup, save_setup, tea_house

LENGTHS = (10, 40_000)  # of the report's page and table, in lines


def write_set_up(folder, number):
    """Write the number into a set-up file."""
    save_setup(change(tea_house(), "trigger.delay", number / 10_000), folder / "my_setup.toml")


def write_progress(folder, number):
    """Keep an answer."""
    note = Progress(folder / FILE_NAME).keep(lesson="fall", question="time", variant=1, record={"text": str(number)})
    assert note == "", note


def write_report(folder, number):
    """Write a page and a table that carry the number on every line."""
    text = f"{number}\n" * LENGTHS[number % 2]
    write(folder, {"page.html": text, "table.csv": text})


WRITERS = {"set-up": write_set_up, "progress": write_progress, "report": write_report}


def one_life(folder, what, first, rng):
    """Fork a writer that counts up from `first`, kill it; returns the last number that it acknowledged, or None."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            for number in range(first, first + 10_000):
                WRITERS[what](folder, number)
                os.write(writing, f"{number}\n".encode())
        finally:
            os._exit(1)
    os.close(writing)
    with os.fdopen(reading) as pipe:
        heard = [pipe.readline() for _ in range(rng.randrange(4))]
        time.sleep(rng.uniform(0.0, 0.02))
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        heard += list(pipe)
    return int(heard[-1]) if heard else None


def found(folder, what):
    """The number that the files say; AssertionError for half a file."""
    if what == "set-up":
        return round(load_setup(folder / "my_setup.toml").trigger.delay * 10_000)
    if what == "progress":
        return max(int(each.record["text"]) for each in Progress(folder / FILE_NAME).attempts())
    lines = {name: (folder / name).read_text().split("\n")[:-1] for name in ("page.html", "table.csv")}
    for each in lines.values():
        assert len(set(each)) == 1, "lines of two reports in one file"
        assert len(each) == LENGTHS[int(each[0]) % 2], "half a file"
    page, table = (int(each[0]) for each in lines.values())
    # The one kill in thousands between the two renames leaves them one apart; the next report mends it.
    assert 0 <= page - table <= 1, (page, table)
    return page


def run(count, seed=1):
    """Kill so many writers of each kind; returns how many numbers were acknowledged."""
    rng, acknowledged = random.Random(seed), dict.fromkeys(WRITERS, 0)
    for what in WRITERS:
        with tempfile.TemporaryDirectory() as name:
            folder, last = Path(name), 0
            WRITERS[what](folder, 0)
            for _ in range(count):
                heard = one_life(folder, what, last + 1, rng)
                there = found(folder, what)
                # What was acknowledged, or the one that was under way.
                assert there in ((last, last + 1) if heard is None else (heard, heard + 1)), (what, heard, there)
                acknowledged[what] += there - last
                last = there
            for left in folder.glob(".splash-*.new"):
                os.utime(left, (0, 0))
            WRITERS[what](folder, last + 1)
            assert list(folder.glob(".*")) == [], what
    return acknowledged


if __name__ == "__main__":
    print(run(int(sys.argv[1]) if len(sys.argv) > 1 else 200))
