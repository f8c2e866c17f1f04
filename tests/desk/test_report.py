"""The report on a class: thirty made-up learners whose mistakes are known, and files that must be passed over."""

import csv
import io
import os
import random
import re
import sqlite3
import subprocess
import sys
import time
from collections import Counter, defaultdict
from html.parser import HTMLParser
from pathlib import Path

import pytest

from splashlib.classroom.judges import judge
from splashlib.classroom.questions.slip_words import SLIP_WORDS, in_words
from splashlib.classroom.record.progress_file import FILE_NAME, Progress, _prepare
from splashlib.desk import class_counts, commands
from splashlib.desk.class_counts import count, parts, stopped
from splashlib.desk.class_files import collected
from splashlib.desk.report_table import harmless
from tests.proof.exercise_proof import _given

ROOT = Path(__file__).resolve().parents[2]
SEED, LEARNERS = 20, 30
PARTS = parts()
COUNTED = [(part, part.questions[name]) for part in PARTS for name in part.judged]
RUDE = '<script>alert("x")</script> & "Ann"'


class Truth:
    """What the made-up class did, noted while it is made."""

    def __init__(self):
        self.made, self.times = defaultdict(set), Counter()
        self.right, self.answers, self.last = set(), Counter(), {}
        self.foretold = Counter()


def keep(progress, part, question, record, *, act="answer", variant=1, outcome="", slip=""):
    row = {"lesson": part.name, "question": question.name, "variant": variant, "act": act}
    assert progress.keep(**row, record=record, outcome=outcome, slip=slip) == ""


def answer(progress, part, question, what, variant):
    """Give an answer as the course keeps it; no verdict is stored, so that the report has to judge."""
    record = judge.record(question, *_given(question, what), variant=variant)
    keep(progress, part, question, record, variant=variant)


def slip_of(question, rng, variant):
    """A slip that can be made with these numbers, with the answer of whoever makes it."""
    kind, values = judge.kind_of(question), judge.numbers(question, variant)
    pairs = [(slip, kind.slip_answer(question, slip, values, variant)) for slip in question.slips]
    return rng.choice([(slip, given) for slip, given in pairs if given is not None])


def work_through(progress, who, rng, truth):
    """One learner goes through the course for a while, with slips on the way."""
    for part, question in COUNTED[: rng.randint(1, len(COUNTED))]:
        variant, key = rng.randint(1, 40), (part.name, question.name)
        kind, values = judge.kind_of(question), judge.numbers(question, variant)
        for _ in range(rng.choice((0, 0, 1, 2))):
            slip, given = slip_of(question, rng, variant)
            answer(progress, part, question, given, variant)
            truth.made[(*key, slip.name)].add(who)
            truth.times[(*key, slip.name)] += 1
            truth.answers[key] += 1
        if rng.random() < 0.8:
            answer(progress, part, question, kind.right_answer(question, values, variant), variant)
            truth.right.add((who, *key))
            truth.answers[key] += 1
        else:
            keep(progress, part, question, {}, act="hint", variant=variant)
        truth.last[who] = key


@pytest.fixture(scope="module")
def classroom(tmp_path_factory):
    """A folder with thirty learners, each in a folder of the learner's own, and what they did."""
    folder, rng, truth = tmp_path_factory.mktemp("class"), random.Random(SEED), Truth()
    for number in range(LEARNERS):
        who = f"learner {number:02d}"
        place = folder / who
        place.mkdir()
        work_through(Progress(place / FILE_NAME), who, rng, truth)
    return folder, truth


@pytest.fixture(scope="module")
def overview(classroom):
    sheets, skipped = collected(classroom[0])
    assert skipped == []
    return count(sheets)


def test_every_learner_is_there(overview):
    assert [learner.name for learner in overview.learners] == [f"learner {number:02d}" for number in range(LEARNERS)]
    assert overview.unknown == 0


def test_slips_are_counted(classroom, overview):
    truth = classroom[1]
    found = {(m.lesson, m.question, m.slip): m for m in overview.mistakes}
    assert set(found) == set(truth.made)
    for key, mistake in found.items():
        assert {who.split("/")[0] for who in mistake.learners} == truth.made[key]
        assert mistake.times == truth.times[key]
        stuck = {who for who in truth.made[key] if (who, *key[:2]) not in truth.right}
        assert {who.split("/")[0] for who in mistake.stuck} == stuck
        assert mistake.reply.text.strip()
    sizes = [len(mistake.learners) for mistake in overview.mistakes]
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[0] > 3


def test_right_answers_are_counted(classroom, overview):
    truth = classroom[1]
    for learner in overview.learners:
        right = {(learner.name, *key) for key, work in learner.work.items() if work.right}
        assert right == {each for each in truth.right if each[0] == learner.name}
        for part in PARTS:
            done = sum((learner.name, part.name, name) in truth.right for name in part.judged)
            assert learner.done(part) == done
            assert learner.finished(part) == (done == len(part.judged))
    for key, number in truth.answers.items():
        assert sum(learner.work[key].answers for learner in overview.learners) == number


def test_where_people_stopped(classroom, overview):
    truth = classroom[1]
    expected = defaultdict(list)
    for who, (lesson, question) in sorted(truth.last.items()):
        part = next(part for part in PARTS if part.name == lesson)
        if not all((who, lesson, name) in truth.right for name in part.judged):
            expected[lesson, question].append(who)
    assert stopped(overview) == expected
    assert sum(map(len, expected.values())) > 5


def test_only_hints_and_solutions_are_help(tmp_path):
    progress, (part, question) = Progress(tmp_path / FILE_NAME), COUNTED[0]
    for act in ("fresh", "waived", "hint", "worked"):
        keep(progress, part, question, {}, act=act)
    (learner,) = count(collected(tmp_path)[0]).learners
    assert learner.work[part.name, question.name].helps == 2


def test_questions_that_are_only_predicted_do_not_count():
    start = next(part for part in PARTS if part.name == "start")
    assert "first_frame" in start.questions
    assert "first_frame" not in start.judged
    assert "lead" in start.judged


def test_predictions_are_counted(tmp_path):
    start = next(part for part in PARTS if part.name == "start")
    question = start.questions["first_frame"]
    wrong = next(option.key for option in question.options if not option.right)
    right = next(option.key for option in question.options if option.right)
    for number, key in enumerate((wrong, wrong, right)):
        progress = Progress(tmp_path / f"{number}.sqlite")
        keep(progress, start, question, {"option": wrong}, act="prediction")
        keep(progress, start, question, {"option": key}, act="prediction")
    found = count(collected(tmp_path)[0])
    assert found.predictions == {("start", "first_frame"): Counter({wrong: 2, "right": 1})}


class Reader(HTMLParser):
    """The tables of a page by caption, and everything that would fetch or run something."""

    def __init__(self, text):
        super().__init__()
        self.tables, self.suspects, self.tags = {}, [], Counter()
        self._open, self._caption, self._rows = [], "", []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags[tag] += 1
        names = dict(attrs)
        if tag in ("script", "link", "img", "iframe", "base") or "src" in names or "href" in names:
            self.suspects.append((tag, attrs))
        self.suspects += [(tag, name) for name in names if name.startswith("on")]
        if tag == "table":
            self._rows = []
        elif tag == "tr":
            self._rows.append([])
        elif tag in ("td", "th"):
            self._rows[-1].append("")
            assert tag == "td" or names.get("scope") in ("row", "col")
        elif tag == "caption":
            self._caption = ""
        if tag not in ("meta", "br"):
            self._open.append(tag)

    def handle_endtag(self, tag):
        assert self._open.pop() == tag
        if tag == "table":
            self.tables[self._caption] = self._rows

    def handle_data(self, data):
        if "caption" in self._open:
            self._caption += data
        elif self._rows and {"td", "th"} & set(self._open):
            self._rows[-1][-1] += data


def reported(folder, *words):
    status = commands.main(["report", str(folder), *words])
    return status, (folder / "class_report.html").read_text(encoding="utf-8")


def test_the_page_says_what_was_counted(classroom, overview, tmp_path):
    folder = classroom[0]
    assert commands.main(["report", str(folder), "--to", str(tmp_path)]) == 0
    read = Reader((tmp_path / "class_report.html").read_text(encoding="utf-8"))
    assert read.suspects == []
    done = read.tables["Right answers in each lesson"]
    assert len(done) == LEARNERS + 2
    assert done[-1][1:-1] == [str(sum(who.finished(part) for who in overview.learners)) for part in PARTS]
    slips = read.tables["Slips, the most frequent first"][1:]
    assert len(slips) == LEARNERS
    slips += read.tables["Slips, the most frequent first, the rest"][1:]
    assert len(slips) == len(overview.mistakes)
    questions = {(part.name, question.name): question for part, question in COUNTED}
    for row, mistake in zip(slips, overview.mistakes, strict=True):
        assert row[0] == in_words(questions[mistake.lesson, mistake.question], mistake.slip)
        assert row[2].startswith(f"{len(mistake.learners)} learner")
        assert row[3] == str(len(mistake.stuck))
        plain = re.sub(r"\W+", "", mistake.reply.text)[:30]
        assert plain in re.sub(r"\W+", "", row[4])
    assert sum(int(row[2]) for row in read.tables["Slips by kind"][1:]) == sum(m.times for m in overview.mistakes)
    assert list(folder.glob("class_report.*")) == []


def test_the_table_says_what_was_counted(classroom, overview, tmp_path):
    assert commands.main(["report", str(classroom[0]), "--to", str(tmp_path)]) == 0
    text = (tmp_path / "class_report.csv").read_text(encoding="utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text)))
    assert len(rows) == LEARNERS * len(COUNTED)
    right = {(row["learner"], row["lesson"], row["question"]) for row in rows if row["state"] == "right"}
    assert right == classroom[1].right
    assert sum(int(row["answers"]) for row in rows) == sum(classroom[1].answers.values())


def test_what_learners_typed_stays_text(tmp_path):
    start = PARTS[0]
    question = start.questions["lead"]
    progress = Progress(tmp_path / f"{RUDE.replace('/', '')}.sqlite")
    keep(progress, start, question, {"text": RUDE})
    keep(progress, start, question, {"text": "1 s"}, outcome=RUDE, slip=RUDE)
    keep(progress, start, question, {"option": RUDE}, act="prediction")
    keep(progress, start, question, {"returned": [RUDE]}, variant=3)
    status, text = reported(tmp_path)
    assert status == 0
    assert Reader(text).suspects == []
    assert "<script" not in text
    assert "&lt;script&gt;" in text


def test_a_stored_verdict_is_not_believed(tmp_path):
    start = PARTS[0]
    progress = Progress(tmp_path / "ann.sqlite")
    keep(progress, start, start.questions["lead"], {"text": "1 s"}, outcome="right")
    found = count(collected(tmp_path)[0])
    assert not found.learners[0].work["start", "lead"].right
    assert found.differing == 1


def test_entries_of_another_version_are_left_out_and_told(tmp_path):
    progress = Progress(tmp_path / "ann.sqlite")
    progress.keep(lesson="nowhere", question="nothing", variant=1, record={"text": "1"})
    _, text = reported(tmp_path)
    assert "1 entry belongs to no question of this version" in text


@pytest.fixture
def mixed(tmp_path):
    """One good file, one copy of it, one damaged, one of a newer version, one that is something else."""
    for who in ("ann", "ann again", "newer"):
        (tmp_path / who).mkdir()
    progress = Progress(tmp_path / "ann" / FILE_NAME)
    keep(progress, PARTS[0], PARTS[0].questions["lead"], {"text": "1 s"})
    (tmp_path / "ann again" / FILE_NAME).write_bytes(progress.path.read_bytes())
    (tmp_path / "broken.sqlite").write_bytes(progress.path.read_bytes()[:4096] + b"\xff" * 9000)
    (tmp_path / "newer" / FILE_NAME).write_bytes(progress.path.read_bytes())
    with sqlite3.connect(tmp_path / "newer" / FILE_NAME) as connection:
        connection.execute("PRAGMA user_version = 99")
    (tmp_path / "notes.sqlite").write_text("a shopping list, not a database, and long enough to be one" * 20)
    return tmp_path


def test_unfit_files_are_named_and_skipped(mixed, capsys):
    before = {path: path.read_bytes() for path in mixed.rglob("*.sqlite")}
    status, text = reported(mixed)
    out = capsys.readouterr().out
    assert status == 0
    assert "1 learner:" in out
    for file, why in (
        ("broken.sqlite", "is damaged"),
        ("newer/my_progress.sqlite", "newer version"),
        ("notes.sqlite", "is damaged"),
        ("my_progress.sqlite", "copy of"),
    ):
        assert re.search(rf"skipped: .*{file} .*{why}", out), file
    assert text.count("<li><strong>") == 4
    assert {path: path.read_bytes() for path in mixed.rglob("*.sqlite")} == before


def test_an_empty_file_is_no_learner(mixed, capsys):
    for name in ("nobody.sqlite", "begun.sqlite"):
        (mixed / name).touch()
    with Progress(mixed / "begun.sqlite")._open(create=True) as connection:
        connection.execute("BEGIN")
        _prepare(connection.cursor())
        connection.execute("COMMIT")
    _, text = reported(mixed)
    out = capsys.readouterr().out
    assert "1 learner:" in out
    assert "skipped: nobody.sqlite is empty; it counts for no learner" in out
    assert "skipped: begun.sqlite is empty; it counts for no learner" in out
    assert text.count(">nobody</th>") == text.count(">begun</th>") == 0


def test_files_of_other_programs_are_passed_over_in_silence(mixed, capsys):
    (mixed / "browser").mkdir()
    for place in (mixed / "history.sqlite", mixed / "browser" / "places.sqlite", mixed / "browser" / FILE_NAME):
        with sqlite3.connect(place) as connection:
            connection.execute("CREATE TABLE visits (at TEXT)")
    _, text = reported(mixed)
    out = capsys.readouterr().out
    for said in (text, out):
        assert "history" not in said
        assert "places" not in said
    # One that bears the learner's name is told.
    assert "skipped: browser/my_progress.sqlite is not a file of this course" in out


def test_a_folder_with_files_of_other_programs_only_holds_no_progress(tmp_path, capsys):
    with sqlite3.connect(tmp_path / "history.sqlite") as connection:
        connection.execute("CREATE TABLE visits (at TEXT)")
    assert commands.main(["report", str(tmp_path)]) == 1
    assert "holds no progress file" in capsys.readouterr().err


def test_what_was_seen_once_is_folded(tmp_path):
    part, lead = PARTS[0], PARTS[0].questions["lead"]
    for who, slips in {"ann": ("from the hand", "no root"), "ben": ("from the hand",)}.items():
        for slip in slips:
            given = judge.kind_of(lead).slip_answer(
                lead, next(each for each in lead.slips if each.name == slip), judge.numbers(lead, 1), 1
            )
            answer(Progress(tmp_path / f"{who}.sqlite"), part, lead, given, 1)
    _, text = reported(tmp_path)
    read = Reader(text)
    first, rest = (read.tables[f"Slips, the most frequent first{more}"][1:] for more in ("", ", the rest"))
    assert [row[0] for row in first] == ["counted from the hand instead of the beam"]
    assert [row[0] for row in rest] == ["forgot the square root"]
    fold = text[text.index("<details><summary>1 more, of which 1 was seen once") :]
    assert "forgot the square root" in fold[: fold.index("</details>")]


def test_every_slip_of_the_course_has_words():
    """Names are short and stay; a teacher reads what they mean. A new name gets its words in slip_words.py."""
    named = {
        slip.name for part in PARTS for each in part.questions.values() if each.kind != "choice" for slip in each.slips
    }
    assert {name for name in named if name not in SLIP_WORDS} == set()
    assert all(len(words.split()) > 2 for words in SLIP_WORDS.values())


def test_an_option_is_told_by_its_text():
    question = next(part for part in PARTS if part.name == "stops").questions["without_room"]
    assert in_words(question, "iso pays") == "chose “ISO two stops up”"


def test_a_report_can_be_made_again(mixed):
    first = reported(mixed)
    assert reported(mixed) == first
    assert sorted(path.name for path in mixed.glob("*report*")) == ["class_report.csv", "class_report.html"]


def test_a_folder_that_cannot_be_looked_into_is_named(mixed, capsys, monkeypatch):
    real = os.scandir

    def scandir(place):
        if str(place).endswith("closed"):
            raise PermissionError(13, "Permission denied", str(place))
        return real(place)

    (mixed / "closed").mkdir()
    monkeypatch.setattr(os, "scandir", scandir)
    status, text = reported(mixed)
    assert status == 0
    assert "skipped: closed could not be looked into (Permission denied)" in capsys.readouterr().out
    assert "<strong>closed</strong> could not be looked into" in text


def test_two_learners_who_began_from_one_copied_file_are_two(tmp_path):
    start, ann, ben = PARTS[0], tmp_path / "ann", tmp_path / "ben"
    ann.mkdir()
    ben.mkdir()
    keep(Progress(ann / FILE_NAME), start, start.questions["lead"], {"text": "1 s"})
    (ben / FILE_NAME).write_bytes((ann / FILE_NAME).read_bytes())
    keep(Progress(ann / FILE_NAME), start, start.questions["lead"], {"text": "2 s"})
    early = tmp_path / "ben, saved earlier"
    early.mkdir()
    (early / FILE_NAME).write_bytes((ben / FILE_NAME).read_bytes())
    for text in ("3 s", "4 s"):
        keep(Progress(ben / FILE_NAME), start, start.questions["lead"], {"text": text})
    sheets, skipped = collected(tmp_path)
    assert [(sheet.name, len(sheet.attempts)) for sheet in sheets] == [("ann", 2), ("ben", 3)]
    assert [each.file for each in skipped] == [f"{early.name}/{FILE_NAME}"]


def test_reading_finishes_nothing_in_a_learners_file(tmp_path):
    """A crash left a journal beside the file: whoever opens it writes into it, so a copy is opened."""
    progress = Progress(tmp_path / FILE_NAME)
    keep(progress, PARTS[0], PARTS[0].questions["lead"], {"text": "1 s"})
    connection = sqlite3.connect(progress.path, isolation_level=None)
    connection.execute("PRAGMA cache_size = 1")
    connection.execute("BEGIN")
    connection.execute("CREATE TABLE more AS SELECT hex(randomblob(200000)) AS noise")
    journal = Path(f"{progress.path}-journal")
    files = {progress.path.name: progress.path.read_bytes(), journal.name: journal.read_bytes()}
    connection.execute("ROLLBACK")
    connection.close()
    place = tmp_path / "crashed"
    place.mkdir()
    for name, data in files.items():
        (place / name).write_bytes(data)
    sheets, _ = collected(place)
    assert [len(sheet.attempts) for sheet in sheets] == [1]
    assert {path.name: path.read_bytes() for path in place.iterdir()} == files


def test_page_and_table_change_together_or_not_at_all(mixed, capsys):
    reported(mixed)
    page, table = mixed / "class_report.html", mixed / "class_report.csv"
    keep(Progress(mixed / "ann" / FILE_NAME), PARTS[0], PARTS[0].questions["lead"], {"text": "2 s"})
    before = page.read_bytes()
    table.unlink()
    table.mkdir()
    assert commands.main(["report", str(mixed)]) == 1
    assert "cannot be written into" in capsys.readouterr().err
    assert page.read_bytes() == before
    assert [path.name for path in mixed.iterdir() if path.name.startswith(".")] == []
    table.rmdir()
    assert reported(mixed)[1].encode() != before


def test_a_file_that_takes_too_long_to_judge_is_named_and_skipped_whole(mixed, capsys, monkeypatch):
    slow = Progress(mixed / "slow.sqlite")
    for text in ("9 s", "8 s", "7 s"):
        keep(slow, PARTS[0], PARTS[0].questions["lead"], {"text": text})
    real = judge.rejudge

    def rejudge(question, record, *, variant=1):
        if record["text"] == "8 s":
            time.sleep(0.5)
        return real(question, record, variant=variant)

    monkeypatch.setattr(class_counts.judge, "rejudge", rejudge)
    monkeypatch.setattr(class_counts, "MOST_WORK", 0.4)
    status, text = reported(mixed)
    out = capsys.readouterr().out
    assert status == 0
    assert "skipped: slow.sqlite takes more than 0 s to judge" in out
    assert "1 learner:" in out
    assert "<strong>slow.sqlite</strong> takes more than" in text


@pytest.mark.skipif(os.name != "posix" or sys.platform == "darwin", reason="names that are no text")
@pytest.mark.parametrize("utf8", ["0", "1"])
def test_names_that_are_no_text_in_a_terminal_that_knows_only_ascii(tmp_path, utf8):
    place = os.path.join(os.fsencode(tmp_path), b"class", b"caf\xe9 \xc3\xa9")
    os.makedirs(place)
    keep(Progress(Path(os.fsdecode(place)) / FILE_NAME), PARTS[0], PARTS[0].questions["lead"], {"text": "1 µs"})
    environment = {**os.environ, "LC_ALL": "C", "PYTHONUTF8": utf8, "PYTHONCOERCECLOCALE": "0"}
    environment.pop("PYTHONIOENCODING", None)
    command = [sys.executable, "-m", "splashlib", "report", str(tmp_path / "class")]
    done = subprocess.run(command, env=environment, capture_output=True, cwd=ROOT, check=False)
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"1 learner" in done.stdout
    assert "caf\\xe9 é" in (tmp_path / "class" / "class_report.html").read_text(encoding="utf-8")
    assert "caf\\xe9 é," in (tmp_path / "class" / "class_report.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize("cell", ["a;=1+1", 'a;"=1+1', "a, @SUM(A1)", "a\t+1", "x\n=1", " =1+1"])
def test_no_part_of_a_cell_becomes_a_formula_with_another_separator(cell):
    for separator in (",", ";", "\t"):
        for row in csv.reader(io.StringIO(harmless(cell)), delimiter=separator):
            assert [each for each in row if re.match(r"[\s\"]*[=+@-]", each)] == []


@pytest.mark.parametrize("what", ["missing", "file", "empty", "all broken", "no place"])
def test_trouble_is_told_in_one_line(what, tmp_path, capsys):
    folder, words = tmp_path / "class", []
    if what != "missing":
        folder.mkdir()
    if what == "file":
        folder = tmp_path / "page.txt"
        folder.write_text("no folder")
    if what == "all broken":
        (folder / "ann.sqlite").write_text("nothing that could be read as a database at all" * 20)
    if what == "no place":
        keep(Progress(folder / "ann.sqlite"), PARTS[0], PARTS[0].questions["lead"], {"text": "1 s"})
        (tmp_path / "taken").write_text("a file")
        words = ["--to", str(tmp_path / "taken")]
    assert commands.main(["report", str(folder), *words]) == 1
    err = capsys.readouterr().err
    assert err.startswith("splashlib report: ")
    assert err.count("\n") == 1
    assert not list(tmp_path.rglob("class_report.*"))


@pytest.mark.parametrize(("earlier", "later"), [("a", "b"), ("b", "a")])
def test_of_two_copies_the_one_with_more_answers_counts(earlier, later, tmp_path):
    """Handed in twice, the second time after more work; the folders' names say nothing about which is which."""
    for who in (earlier, later):
        (tmp_path / who).mkdir()
    progress = Progress(tmp_path / later / FILE_NAME)
    keep(progress, PARTS[0], PARTS[0].questions["lead"], {"text": "1 s"})
    (tmp_path / earlier / FILE_NAME).write_bytes(progress.path.read_bytes())
    keep(progress, PARTS[0], PARTS[0].questions["lead"], {"text": "43.5 ms"})
    sheets, skipped = collected(tmp_path)
    assert [(sheet.name, len(sheet.attempts)) for sheet in sheets] == [(later, 2)]
    assert [each.file for each in skipped] == [f"{earlier}/{FILE_NAME}"]
    assert f"copy of {later}/{FILE_NAME}" in skipped[0].why


@pytest.mark.parametrize("first", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_is_taken_for_a_formula(first):
    """What spreadsheets take for the beginning of a formula, a command among them: -2+cmd|... runs one."""
    assert harmless(f"{first}1+1") == f"'{first}1+1"
    assert harmless("Ann") == "Ann"
    assert harmless(-3) == -3
