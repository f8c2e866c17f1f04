"""The learner's file: nothing acknowledged is lost, nothing damaged is thrown away, nothing is written unasked."""

import importlib
import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from splashlib.classroom.exercises import Exercises
from splashlib.classroom.judges.judge import rejudge, verdict
from splashlib.classroom.judges.replies import OUTCOMES
from splashlib.classroom.record.progress_file import APPLICATION, FILE_NAME, VERSION, Progress, Unfit
from tests.classroom.samples import QUESTIONS, TIME, sample_exercises

# The package has a function of the same name.
MODULE = importlib.import_module("splashlib.classroom.record.progress_file")
ROOT = Path(__file__).resolve().parents[3]


def kept(path):
    return [(each.question, each.record) for each in Progress(path).attempts()]


def keep(progress, number, question="time"):
    return progress.keep(lesson="fall", question=question, variant=1, record={"text": str(number)}, outcome="low")


@pytest.fixture
def path(tmp_path):
    return tmp_path / FILE_NAME


def test_what_is_kept_is_found_again(path):
    progress = Progress(path)
    assert progress.attempts() == []
    assert not path.exists()
    note = progress.keep(
        lesson="fall", question="time", variant=-3, record={"text": "303 ms \u2028🍊"}, outcome="slip", slip="half"
    )
    assert note == ""
    (found,) = Progress(path).attempts("fall", "time", "answer")
    assert (found.variant, found.outcome, found.slip, found.record) == (-3, "slip", "half", {"text": "303 ms \u2028🍊"})
    assert found.at.endswith("+00:00")
    assert Progress(path).attempts("beam") == []
    assert [p.name for p in path.parent.iterdir()] == [FILE_NAME]


def test_the_home_is_where_the_environment_says(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path / "not yet there"))
    assert keep(Progress(), 1) == ""
    assert (tmp_path / "not yet there" / FILE_NAME).exists()


def test_exercises_write_only_what_was_answered(path):
    exercises = sample_exercises(progress=Progress(path))
    for question in QUESTIONS:
        exercises.ask(question.name)
        exercises.predict(question.name)
        exercises.look_back(question.name)
        exercises.check(question.name, ...)
        exercises.hint(question.name)
        exercises.worked(question.name)
        exercises.numbers(question.name)
    assert not path.exists()
    exercises.check("time", "1 ms")
    exercises.check("time", "1 kg")
    assert [each.outcome for each in exercises.progress.attempts()] == ["low", "wrong_unit"]


def test_stored_answers_are_judged_again_as_they_were(path):
    exercises = sample_exercises(progress=Progress(path))
    for question in QUESTIONS:
        from splashlib.classroom.judges import judge

        kind = judge.kind_of(question)
        for variant in (1, 2, 3):
            values = judge.numbers(question, variant)
            unit = "s" if question is TIME else None
            exercises.check(question.name, kind.right_answer(question, values, variant), unit, variant=variant)
            for slip in question.slips:
                exercises.check(question.name, kind.slip_answer(question, slip, values, variant), unit, variant=variant)
    stored = Progress(path).attempts()
    assert len(stored) > 30
    for each in stored:
        reply = verdict(exercises[each.question], each.record, variant=each.variant)
        assert (reply.outcome, reply.slip) == (each.outcome, each.slip)
    assert exercises.progress.solved("sample") == set(exercises.questions)


def test_predictions_are_noted_and_looked_back_at(path):
    exercises = sample_exercises(progress=Progress(path))
    back = exercises.look_back("empty frame")
    assert "no prediction" in back._front.reply["html"]
    assert exercises.note("time", "parsecs").outcome == "unreadable"
    assert exercises.note("empty frame", "weak").outcome == "noted"
    assert "too weak" in back._front.reply["html"]  # the view that is already there follows
    again = sample_exercises(progress=Progress(path))
    said, found = again.looked_back("empty frame")
    assert "too weak" in said.text
    assert "timing comes first" in found
    assert [each.act for each in again.progress.attempts()] == ["prediction"]
    assert again.progress.solved("sample") == set()


# ---- damage


def set_aside(path):
    return sorted(p for p in path.parent.iterdir() if "set-aside" in p.name)


def torn(path):
    """A file with the middle torn out."""
    for number in range(300):
        keep(Progress(path), number)
    data = bytearray(path.read_bytes())
    data[4096:8192] = os.urandom(4096)
    path.write_bytes(data)


def damaged_name(path):
    """The name of the table, where the file lists its tables, is no text any more."""
    data = path.read_bytes()
    at = data.index(b"attempts", 0, 4096)
    path.write_bytes(data[:at] + b"\xff\xfe\xff" + data[at + 3 :])


DAMAGE = {
    "text": lambda path: path.write_text("lesson,question\n" * 100),
    "noise": lambda path: path.write_bytes(random.Random(1).randbytes(5000)),
    "half a file": lambda path: (keep(Progress(path), 1), path.write_bytes(path.read_bytes()[:5000])),
    "a torn page": torn,
    "tables gone": lambda path: (keep(Progress(path), 1), _run(path, "DROP TABLE attempts")),
    "a newer version": lambda path: (keep(Progress(path), 1), _run(path, f"PRAGMA user_version = {VERSION + 1}")),
    "a damaged table name": lambda path: (keep(Progress(path), 1), damaged_name(path)),
    "a column gone": lambda path: (keep(Progress(path), 1), _run(path, "ALTER TABLE attempts DROP COLUMN slip")),
    "a table of another shape": lambda path: (
        keep(Progress(path), 1),
        _run(path, "ALTER TABLE attempts RENAME TO old"),
        _run(path, "CREATE TABLE attempts (x)"),
    ),
    "another program's": lambda path: _run(path, "CREATE TABLE recipes (name TEXT)"),
}


def _run(path, statement):
    with sqlite3.connect(path) as connection:
        connection.execute(statement)
    connection.close()


@pytest.mark.parametrize("damage", DAMAGE)
def test_an_unfit_file_is_set_aside_with_a_message(path, damage):
    DAMAGE[damage](path)
    before = path.read_bytes()
    assert Progress(path).attempts() == []
    assert path.name in Progress(path).trouble
    assert path.read_bytes() == before  # reading leaves it where it is
    note = keep(Progress(path), 7)
    (aside,) = set_aside(path)
    assert aside.name in note
    assert path.name in note
    assert aside.read_bytes() == before
    assert kept(path) == [("time", {"text": "7"})]
    assert Progress(path).trouble == ""
    assert keep(Progress(path), 8) == ""


def test_damage_while_it_is_in_use(path):
    progress = Progress(path)
    keep(progress, 1)
    path.write_bytes(b"x" * 4096)
    assert "set aside" in keep(progress, 2)
    assert kept(path) == [("time", {"text": "2"})]


def test_an_empty_file_is_a_new_one(path):
    path.touch()
    assert Progress(path).attempts() == []
    assert keep(Progress(path), 1) == ""
    assert not set_aside(path)


def test_a_deleted_file_begins_anew(path):
    progress = Progress(path)
    keep(progress, 1)
    path.unlink()
    assert keep(progress, 2) == ""
    assert kept(path) == [("time", {"text": "2"})]


def test_progress_is_never_required(tmp_path):
    blocked = tmp_path / "a file"
    blocked.write_text("")
    exercises = Exercises("sample", (TIME,), progress=Progress(blocked / "in it" / FILE_NAME))
    reply = exercises.check("time", "1 ms")
    assert reply.outcome == "low"
    assert "could not be kept" in reply.note
    assert "could not be kept" in str(reply)
    assert exercises.note("time", "300 ms").outcome == "noted"
    assert "300 ms" in exercises.looked_back("time")[0].text  # still known in this kernel


def test_records_that_no_longer_read_do_not_stop_the_rest(path):
    keep(Progress(path), 1)
    _run(path, "UPDATE attempts SET answer = '{not json'")
    keep(Progress(path), 2)
    assert [record for _, record in kept(path)] == [{}, {"text": "2"}]
    # A report goes on over them, and over records that somebody has edited.
    for question in QUESTIONS:
        for record in (
            {},
            {"text": 5},
            {"value": "x"},
            {"returned": 3},
            {"returned": [{}]},
            {"settings": [1]},
            {"option": []},
        ):
            assert rejudge(question, record).outcome in OUTCOMES
            assert not rejudge(question, record).right
    assert rejudge(TIME, "no record").outcome == "not_attempted"
    assert rejudge(TIME, {"text": "303 ms"}, variant="x").outcome == "unreadable"


SPOILED = (
    "question = CAST(x'74ff6d65' AS TEXT)",
    "lesson = x'00ff'",
    "variant = 'two'",
    "at = NULL",
)


@pytest.mark.parametrize("what", SPOILED)
def test_one_spoiled_row_hides_itself_and_no_other(path, what):
    for number in range(3):
        keep(Progress(path), number)
    _run(path, "CREATE TABLE loose AS SELECT * FROM attempts")  # without the rule that a column must not be empty
    _run(path, f"UPDATE loose SET {what} WHERE id = 2")
    _run(path, "DROP TABLE attempts")
    _run(path, "ALTER TABLE loose RENAME TO attempts")
    assert [record["text"] for _, record in kept(path)] == ["0", "2"]
    assert Progress(path).trouble == ""
    assert len(Progress(path).everything()[1]) == 2


@pytest.mark.parametrize("answer", ["NULL", "5", "x'ff'", "CAST(x'7bff7d' AS TEXT)", "hex(zeroblob(200000))", "'[1]'"])
def test_an_answer_that_is_no_record_is_an_empty_one(path, answer):
    keep(Progress(path), 1)
    _run(path, "CREATE TABLE loose AS SELECT * FROM attempts")
    _run(path, f"UPDATE loose SET answer = {answer}")
    _run(path, "DROP TABLE attempts")
    _run(path, "ALTER TABLE loose RENAME TO attempts")
    assert [record for _, record in kept(path)] == [{}]


def test_ten_thousand_brackets_are_an_empty_record(path):
    keep(Progress(path), 1)
    _run(path, f"UPDATE attempts SET answer = '{'[' * 99_000}'")
    assert [record for _, record in kept(path)] == [{}]


def test_a_learner_without_end_is_not_read_without_end(path, monkeypatch):
    for number in range(3):
        keep(Progress(path), number)
    monkeypatch.setattr(MODULE, "MOST_ACTS", 2)
    with pytest.raises(Unfit, match="holds more than 2 acts"):
        Progress(path).everything()


def test_a_file_that_is_made_to_be_slow_ends(path, monkeypatch):
    keep(Progress(path), 1)
    endless = "WITH RECURSIVE n(x) AS (SELECT 1 UNION ALL SELECT x + 1 FROM n) SELECT count(*) FROM n"
    _run(path, "ALTER TABLE about RENAME TO old")
    _run(path, f"CREATE VIEW slow AS {endless}")
    _run(path, "CREATE TABLE about AS SELECT * FROM old")
    monkeypatch.setattr(MODULE, "MOST_WORK", 0.2)
    monkeypatch.setattr(MODULE, "_tables", lambda connection: connection.execute("SELECT * FROM slow").fetchall())
    with pytest.raises(Unfit, match="interrupted"):
        Progress(path).everything()


@pytest.mark.parametrize(
    "row",
    [
        {"record": {"text": {1, 2}}},
        {"variant": 10**30},
        {"question": "\ud800"},
        {"outcome": ["right"]},
        {"record": float("nan")},
    ],
)
def test_what_cannot_be_kept_is_told_and_never_raised(path, row):
    whole = {"lesson": "fall", "question": "time", "variant": 1, "record": {"text": "1"}} | row
    note = Progress(path).keep(**whole)
    assert note == "" or note.startswith(f"This could not be kept in {FILE_NAME} (")
    assert "\n" not in note
    assert keep(Progress(path), 1) == ""


def test_a_folder_that_is_gone_or_a_loop_of_links_is_told_and_never_raised(tmp_path, monkeypatch):
    loop = tmp_path / FILE_NAME
    loop.symlink_to(loop)
    assert "could not be kept" in keep(Progress(loop), 1)
    assert Progress(loop).attempts() == []
    monkeypatch.delenv("SPLASH_HOME", raising=False)
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()
    assert "could not be kept" in keep(Progress(), 1)
    assert Progress().attempts() == []
    assert FILE_NAME in Progress().trouble


def test_the_file_says_what_it_is(path):
    keep(Progress(path), 1)
    connection = sqlite3.connect(path)
    assert connection.execute("PRAGMA application_id").fetchone() == (APPLICATION,)
    assert connection.execute("PRAGMA journal_mode").fetchone() == ("delete",)  # one file has everything
    ((learner,),) = connection.execute("SELECT value FROM about WHERE key = 'learner'").fetchall()
    connection.close()
    assert len(learner) == 32


# ---- several kernels, and kills

WRITER = """
import sys
from splashlib.classroom.record.progress_file import Progress
progress, name = Progress(sys.argv[1]), sys.argv[2]
print("up", flush=True)
for number in range(int(sys.argv[3])):
    note = progress.keep(lesson="fall", question=name, variant=1, record={"text": str(number)}, outcome="low")
    print(number if not note else note, flush=True)
"""


def writer(path, name, count):
    command = [sys.executable, "-c", WRITER, str(path), name, str(count)]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT)


def test_four_processes_write_at_once(path):
    writers = [writer(path, f"q{number}", 40) for number in range(4)]
    for process in writers:
        out, _ = process.communicate(timeout=120)
        assert out.split() == ["up", *map(str, range(40))]
    rows = kept(path)
    for number in range(4):
        mine = [record["text"] for question, record in rows if question == f"q{number}"]
        assert mine == [str(n) for n in range(40)]
    assert not set_aside(path)


def test_several_kernels_meet_one_damaged_file(path):
    path.write_text("not a database at all, and long enough to be looked at" * 10)
    writers = [writer(path, f"q{number}", 5) for number in range(4)]
    outs = [process.communicate(timeout=120)[0] for process in writers]
    assert len(set_aside(path)) == 1
    assert len(kept(path)) == 20
    assert sum("set aside" in out for out in outs) == 1
    assert not list(path.parent.glob("*-lock"))


def test_a_file_set_aside_is_told_whatever_comes_after(path, monkeypatch):
    """The kernel that set it aside may find the new one in another's hands; what it did is told all the same."""
    path.write_text("not a database at all, and long enough to be looked at" * 10)
    progress, insert, calls = Progress(path), Progress._insert, []

    def in_other_hands(self, row):
        calls.append(row)
        if len(calls) == 2:
            raise Unfit("is not a file of this course")
        insert(self, row)

    monkeypatch.setattr(Progress, "_insert", in_other_hands)
    note = progress.keep(lesson="fall", question="q", variant=1, record={"text": "1"})
    assert "It was set aside as" in note
    assert len(calls) == 3
    assert len(kept(path)) == 1


def test_tables_made_between_two_looks_are_no_damage(path, monkeypatch):
    """A file that becomes the course's own while it is looked at: the look is one, so it is empty or ours."""
    other = Progress(path)
    path.touch()
    looked = MODULE._pragma

    def slowly(connection, name):
        found = looked(connection, name)
        if name == "application_id" and not calls:
            calls.append(name)
            waiting.append(threading.Thread(target=keep, args=(other, 1)))
            waiting[0].start()
            time.sleep(0.3)
        return found

    calls, waiting = [], []
    monkeypatch.setattr(MODULE, "_pragma", slowly)
    assert Progress(path).trouble == ""
    waiting[0].join()
    assert len(kept(path)) == 1


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_a_hundred_kills_lose_nothing_acknowledged(path):
    rng = random.Random(20)
    acknowledged = []
    for life in range(100):
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            _write_until_killed(path, life, writing)
        os.close(writing)
        with os.fdopen(reading) as pipe:
            # From before the first write to well into later ones, however slow the disk is.
            heard = [pipe.readline() for _ in range(rng.randrange(6))]
            time.sleep(rng.uniform(0.0, 0.01))
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            acknowledged += [(f"life {life}", int(line)) for line in [*heard, *pipe]]
    rows = [(question, int(record["text"])) for question, record in kept(path)]
    assert len(acknowledged) > 100
    assert set(acknowledged) <= set(rows)
    assert len(rows) == len(set(rows))
    # At most the one that was under way at each kill is there without having been acknowledged.
    assert len(rows) - len(acknowledged) <= 100
    assert not set_aside(path)
    assert keep(Progress(path), 1) == ""


def _write_until_killed(path, life, pipe):
    try:
        progress = Progress(path)
        for number in range(10_000):
            note = progress.keep(lesson="fall", question=f"life {life}", variant=1, record={"text": str(number)})
            if not note:
                os.write(pipe, f"{number}\n".encode())
    finally:
        os._exit(1)


def test_what_is_stored_is_json(path):
    exercises = sample_exercises(progress=Progress(path))
    exercises.check("time", float("nan"), "s")
    exercises.check("time", "\ud800")
    exercises.check("lead", lambda h, b: float("inf"))
    for each in Progress(path).attempts():
        json.dumps(each.record, allow_nan=False)
