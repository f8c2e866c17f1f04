"""A class folder with everything in it that has ever stopped a report: each file is read in bounds, or named.

python -m tests.hard.hostile_class
"""

import csv
import io
import os
import re
import sqlite3
import sys
import tempfile
import time
from pathlib import Path

from splashlib.classroom.record.progress_file import FILE_NAME, Progress
from splashlib.desk import commands
from splashlib.desk.class_counts import parts

ENDLESS = (
    "v^2/(2*g)+0*abs(exp(sqrt(asin(2)))+sin(sqrt(acos(5))))",
    "((((((((((v+1)^9+1)^9+1)^9+1)^9+1)^9+1)^9+1)^9+1)^9+1)^9+1)^9",
    "9^9^9^9^9",
    "sqrt(" * 400 + "v" + ")" * 400,
    "(" * 90_000,
)


def kept(place, answers, *, name=FILE_NAME):
    """A progress file with these answers, one to each question of the course and over again."""
    place.mkdir(parents=True, exist_ok=True)
    progress = Progress(place / name)
    asked = [(part, question) for part in parts() for question in part.judged]
    for number, text in enumerate(answers):
        part, question = asked[number % len(asked)]
        note = progress.keep(lesson=part.name, question=question, variant=1, record={"text": text})
        assert note == "", note
    return place / name


def spoil(path, *statements):
    """Change a file as no course would."""
    connection = sqlite3.connect(path)
    for statement in statements:
        connection.execute(statement)
    connection.commit()
    connection.close()


LOOSE = (
    "CREATE TABLE loose AS SELECT * FROM attempts",
    "DROP TABLE attempts",
    "ALTER TABLE loose RENAME TO attempts",
)


def make(folder):
    """Put the class together; returns (files that count, files that must be named)."""
    formulas = [(part, name) for part in parts() for name in part.judged if part.questions[name].kind == "formula"]
    count = kept(folder / "ann", ["1 s", "2 ms"])
    endless = Progress(folder / "endless" / FILE_NAME)
    for part, name in formulas:
        for text in ENDLESS:
            assert endless.keep(lesson=part.name, question=name, variant=1, record={"text": text}) == ""
    spoil(kept(folder / "brackets", ["1"]), f"UPDATE attempts SET answer = '{'[' * 99_000}'")
    spoil(kept(folder / "number", ["1"]), *LOOSE, "UPDATE attempts SET answer = 5")
    spoil(kept(folder / "nothing", ["1"]), *LOOSE, "UPDATE attempts SET answer = NULL")
    spoil(kept(folder / "noise", ["1", "2"]), *LOOSE, "UPDATE attempts SET lesson = x'ff00' WHERE id = 1")
    kept(folder / os.fsdecode(b"caf\xe9"), ["1"])
    kept(folder / "two\nlines \u202e=1+1;=2", ["1"])
    kept(folder / 'a;=HYPERLINK("x")', ["1"])
    good = 9
    named = []
    damaged = kept(folder / "table name", ["1"])
    data = damaged.read_bytes()
    at = data.index(b"attempts", 0, 4096)
    damaged.write_bytes(data[:at] + b"\xff\xfe\xff" + data[at + 3 :])
    named.append("table name")
    (folder / "text.sqlite").write_text("a shopping list, and no database at all" * 100)
    with (folder / "large.sqlite").open("wb") as file:
        file.truncate(200_000_000)
    (folder / "loop.sqlite").symlink_to(folder / "loop.sqlite")
    named += ["text.sqlite", "large.sqlite", "loop.sqlite"]
    if hasattr(os, "mkfifo"):
        os.mkfifo(folder / "pipe.sqlite")
        named.append("pipe.sqlite")
    twin = folder / "began from ann's"
    twin.mkdir()
    (twin / FILE_NAME).write_bytes(count.read_bytes())
    same = folder / "copy of ann's"
    same.mkdir()
    (same / FILE_NAME).write_bytes(count.read_bytes())
    kept(twin, ["3 s"])
    kept(folder / "ann", ["4 s"])
    return good + 1, [*named, "copy of ann"]


def state(folder):
    """Every learner's file, and what lies beside it."""
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file() and path.stat().st_size < 10**8}


def run(folder):
    """Make the class and its report; returns how long it took [s]."""
    good, named = make(folder)
    before, begun = state(folder), time.perf_counter()
    out = folder.parent / "report"
    status = commands.main(["report", str(folder), "--to", str(out)])
    took = time.perf_counter() - begun
    assert status == 0
    assert state(folder) == before
    page = (out / "class_report.html").read_text(encoding="utf-8")
    table = (out / "class_report.csv").read_text(encoding="utf-8-sig")
    for each in named:
        assert each in page, each
    learners = {row["learner"] for row in csv.DictReader(io.StringIO(table))}
    assert len(learners) == good, sorted(learners)
    assert all(name.isprintable() for name in learners)
    for separator in ",;":
        cells = [cell for row in csv.reader(io.StringIO(table), delimiter=separator) for cell in row]
        assert [cell for cell in cells if re.match(r"[\s\"]*[=+@-]", cell)] == []
    return took


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as room:
        (Path(room) / "class").mkdir()
        print(f"the report took {run(Path(room) / 'class'):.1f} s", file=sys.stderr)
