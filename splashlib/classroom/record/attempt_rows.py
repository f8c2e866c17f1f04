"""What one row of the learner's file holds; what it should not hold spoils that row and no other."""

import json
from dataclasses import dataclass

COLUMNS = "at, lesson, question, variant, act, outcome, slip, answer"
MOST_TEXT = 100_000  # so many characters of an answer are read back


@dataclass(frozen=True, kw_only=True)
class Attempt:
    """One act of a learner: an "answer", a "prediction" or that there will be none ("waived"), a "hint", a look at
    the "worked" solution, "fresh" numbers."""

    at: str
    """When, UTC, ISO 8601."""
    lesson: str
    question: str
    variant: int
    act: str = "answer"
    outcome: str = ""
    slip: str = ""
    record: dict
    """The answer as it was typed, as plain data; `judge.verdict` judges it again."""


def select(where):
    """The acts, oldest first. An answer of endless length is cut, and then no longer reads as a record."""
    columns = COLUMNS.replace("answer", f"substr(answer, 1, {MOST_TEXT + 1})")
    return f"SELECT {columns} FROM attempts WHERE {where} ORDER BY id"


def attempts_in(rows):
    """The acts in rows of the file; a row that holds something else than an act is passed over."""
    return [_attempt(row) for row in rows if _whole(row)]


def _whole(row):
    *texts, _ = row[:3] + row[4:]
    return isinstance(row[3], int) and all(isinstance(text, str) and _clean(text) for text in texts)


def _clean(text):
    """Whether a text was UTF-8 in the file."""
    return text.isascii() or not any("\udc80" <= letter <= "\udcff" for letter in text)


def _attempt(row):
    at, lesson, question, variant, act, outcome, slip, answer = row
    names = {"at": at, "lesson": lesson, "question": question, "variant": variant}
    return Attempt(**names, act=act, outcome=outcome, slip=slip, record=_record(answer))


def _record(text):
    """The answer as plain data; whatever else stands there, a number, nothing, ten thousand brackets, is no answer."""
    try:
        found = json.loads(text) if isinstance(text, str) and len(text) <= MOST_TEXT and _clean(text) else {}
    except (ValueError, RecursionError):
        return {}
    return found if isinstance(found, dict) else {}
