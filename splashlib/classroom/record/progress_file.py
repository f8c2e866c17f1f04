"""Where a learner stands: one small SQLite file in the learner's home, never required, never lost.

Each answer is one transaction, committed to the disk before the reply is shown. Several notebooks may write at
once: a writer waits its turn. The file is a plain rollback database and not a WAL one, so that whoever copies that
one file has everything that was acknowledged. A file that is damaged, foreign, or of a newer version is renamed and
kept; a new one begins.
"""

import contextlib
import json
import os
import sqlite3
import time
import uuid
from datetime import UTC, datetime
from pathlib import Path

from splashlib.classroom.record.attempt_rows import COLUMNS, attempts_in, select
from splashlib.shoot import home

__all__ = ["APPLICATION", "FILE_NAME", "VERSION", "Foreign", "Progress", "Unfit"]

FILE_NAME = "my_progress.sqlite"
APPLICATION = 0x53504C41  # marks the file as ours
VERSION = 1
PATIENCE = 20.0  # how long a writer waits for its turn [s]
SCHEMA = (
    "CREATE TABLE about (key TEXT PRIMARY KEY, value TEXT NOT NULL)",
    "CREATE TABLE attempts (id INTEGER PRIMARY KEY, at TEXT NOT NULL, lesson TEXT NOT NULL, question TEXT NOT NULL,"
    " variant INTEGER NOT NULL, act TEXT NOT NULL, outcome TEXT NOT NULL, slip TEXT NOT NULL, answer TEXT NOT NULL)",
    f"PRAGMA application_id = {APPLICATION}",
    f"PRAGMA user_version = {VERSION}",
)
MOST_ACTS = 20_000  # so many acts of one learner are read for a report
MOST_WORK = 10.0  # so long a file may keep a report busy [s]


class Unfit(Exception):
    """The file cannot be used as it is."""


class Foreign(Unfit):
    """The file belongs to another program."""


class Progress:
    """The learner's file of attempts.

    Parameters
    ----------
    path : where it lies; left out, my_progress.sqlite in the learner's home. Nothing is made before something is kept.
    """

    def __init__(self, path=None):
        self._path = None if path is None else Path(path)
        self._checked = None

    @property
    def path(self):
        """The file; the home is asked each time, since it may change."""
        return self._path or home() / FILE_NAME

    def keep(self, *, lesson, question, variant, record, act="answer", outcome="", slip=""):
        """Keep one act. Returns "" once it is on the disk, else a line about what happened; never raises for a file."""
        note = ""
        try:
            row = (_now(), lesson, question, variant, act, outcome, slip, json.dumps(record, ensure_ascii=True))
            for _ in range(3):
                try:
                    self._insert(row)
                    return note
                except Unfit as problem:
                    note = self._set_aside(str(problem)) or note
        except Exception as problem:  # whatever is wrong with the file or the folder, the answer is judged
            name = self._path.name if self._path else FILE_NAME
            return f"This could not be kept in {name} ({_line(problem)}); it is judged all the same."
        return note

    def _insert(self, row):
        with self._open(create=True) as connection:
            connection.execute("BEGIN IMMEDIATE")
            with contextlib.closing(connection.cursor()) as cursor:
                _prepare(cursor)
                cursor.execute(f"INSERT INTO attempts ({COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)", row)
            connection.execute("COMMIT")

    @contextlib.contextmanager
    def _open(self, *, create, bounded=False):
        """A connection for one transaction. Turns everything that says "damaged" into Unfit."""
        self.path.parent.mkdir(parents=True, exist_ok=True) if create else None
        address = f"{self.path.resolve().as_uri()}?mode={'rwc' if create else 'rw'}"
        connection = sqlite3.connect(address, uri=True, timeout=PATIENCE, isolation_level=None)
        # A bad byte spoils the text that it stands in, and nothing else.
        connection.text_factory = lambda data: data.decode("utf-8", "surrogateescape")
        try:
            connection.execute("PRAGMA synchronous = FULL")
            if bounded:
                _bound(connection)
            # One look at the file: another kernel may be making its tables at this moment.
            connection.execute("BEGIN")
            _check(connection, thorough=self._checked != self.path)
            connection.execute("COMMIT")
            self._checked = self.path
            yield connection
        except sqlite3.DatabaseError as problem:
            # OperationalError (locked, full, read-only) is no damage; IntegrityError cannot happen here.
            if isinstance(problem, sqlite3.OperationalError):
                raise
            raise Unfit("is damaged") from None
        except UnicodeDecodeError:  # what SQLite says about a damaged table name is no text either
            raise Unfit("is damaged") from None
        finally:
            connection.close()

    def _set_aside(self, problem):
        """Rename an unfit file, so that it is kept and out of the way. Only one of several kernels does it."""
        path, stamp = self.path, datetime.now().strftime("%Y%m%d-%H%M%S")
        aside = path.with_name(f"{path.stem}.set-aside-{stamp}-{uuid.uuid4().hex[:4]}{path.suffix}")
        try:
            with _alone(path):
                if not self._still_unfit():
                    return ""
                for ending in ("-journal", "-wal", "-shm", ""):
                    with contextlib.suppress(FileNotFoundError):
                        os.replace(f"{path}{ending}", f"{aside}{ending}")
        except OSError as error:
            return f"{path.name} {problem} and could not be set aside ({_line(error)})."
        return f"{path.name} {problem}. It was set aside as {aside.name}, with all that is in it; a new one begins."

    def _still_unfit(self):
        self._checked = None
        try:
            with self._open(create=False):
                return False
        except Unfit:
            return True
        except sqlite3.Error:
            return False

    def attempts(self, lesson=None, question=None, act=None):
        """What was kept, oldest first. A file that cannot be read gives nothing; `trouble` says why."""
        return self._read(lesson, question, act)[0]

    @property
    def trouble(self):
        """What is the matter with the file, in one line, or ""."""
        return self._read(None, None, None)[1]

    def _read(self, lesson, question, act):
        wanted = {"lesson": lesson, "question": question, "act": act}
        wanted = {name: value for name, value in wanted.items() if value is not None}
        where = " AND ".join(f"{name} = ?" for name in wanted) or "1"
        try:
            if not self.path.exists():
                return [], ""
            with self._open(create=False) as connection:
                if not _tables(connection):
                    return [], ""
                rows = connection.execute(select(where), tuple(wanted.values())).fetchall()
                return attempts_in(rows), ""
        except Unfit as problem:
            return [], f"{self.path.name} {problem}. It will be set aside when something is to be kept."
        except (sqlite3.Error, OSError, RuntimeError, ValueError) as problem:
            name = self._path.name if self._path else FILE_NAME
            return [], f"{name} could not be read ({_line(problem)})."

    def everything(self):
        """The file as a teacher reads it: (the learner's tag, all attempts). Raises Unfit, with a reason in words.

        It is read in bounds, since it comes from somebody else: in time, in acts, in the length of a text.
        """
        try:
            with self._open(create=False, bounded=True) as connection:
                if not _tables(connection):
                    return "", []
                tag = connection.execute("SELECT value FROM about WHERE key = 'learner'").fetchone()
                rows = connection.execute(select("1") + f" LIMIT {MOST_ACTS + 1}").fetchall()
        except (sqlite3.Error, OSError, RuntimeError, ValueError) as problem:
            raise Unfit(f"could not be read ({_line(problem)})") from None
        if len(rows) > MOST_ACTS:
            raise Unfit(f"holds more than {MOST_ACTS} acts")
        return str(tag[0]) if tag else "", attempts_in(rows)

    def prediction(self, lesson, question):
        """The prediction that was noted last, or None."""
        found = self.attempts(lesson, question, "prediction")
        return found[-1] if found else None

    def solved(self, lesson):
        """The names of the questions that were answered right at least once."""
        return {each.question for each in self.attempts(lesson, act="answer") if each.outcome == "right"}


def _bound(connection):
    """Let a file that somebody made to be slow, or to grow, end in an error."""
    until = time.monotonic() + MOST_WORK
    connection.set_progress_handler(lambda: time.monotonic() > until, 10_000)
    connection.setlimit(sqlite3.SQLITE_LIMIT_LENGTH, 10_000_000)
    connection.execute("PRAGMA trusted_schema = OFF")


def _now():
    return datetime.now(UTC).isoformat(timespec="milliseconds")


def _line(problem):
    return " ".join(str(problem).split())[:120]


def _pragma(connection, name):
    return connection.execute(f"PRAGMA {name}").fetchone()[0]


def _tables(connection):
    return {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}


def _check(connection, *, thorough):
    """Raise Unfit for a file that is not ours, newer than we are, or damaged."""
    ours, version = _pragma(connection, "application_id") == APPLICATION, _pragma(connection, "user_version")
    if not ours and (version or _tables(connection)):
        raise Foreign("is not a file of this course")
    if ours and version > VERSION:
        raise Unfit(f"was written by a newer version of this course (file version {version}, known {VERSION})")
    if thorough and _pragma(connection, "quick_check") != "ok":
        raise Unfit("is damaged")
    if ours and not {"attempts", "about"} <= _tables(connection):
        raise Unfit("is damaged")
    there = {row[1] for row in connection.execute("PRAGMA table_info(attempts)")}
    if ours and not {"id", *COLUMNS.split(", ")} <= there:
        raise Unfit("is damaged")


def _prepare(cursor):
    """Make the tables if the file is new; inside a transaction, so that of several kernels only one does."""
    if cursor.execute("PRAGMA application_id").fetchone()[0] == APPLICATION:
        return
    for statement in SCHEMA:
        cursor.execute(statement)
    # Tells the files of a class apart without asking for a name.
    cursor.execute("INSERT INTO about VALUES ('learner', ?)", (uuid.uuid4().hex,))


@contextlib.contextmanager
def _alone(path, patience=10.0):
    """Hold a lock file beside `path`; one that was left behind by a kill is taken over after a while."""
    lock, until = Path(f"{path}-lock"), time.monotonic() + patience
    while True:
        try:
            os.close(os.open(lock, os.O_CREAT | os.O_EXCL))
            break
        except FileExistsError:
            if time.monotonic() > until:
                lock.unlink(missing_ok=True)
            time.sleep(0.02)
    try:
        yield
    finally:
        lock.unlink(missing_ok=True)
