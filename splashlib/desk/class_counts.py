"""What a class did, counted: who finished what, which slips were made, where people stopped."""

import json
import re
import time
from collections import Counter
from dataclasses import dataclass, field
from importlib import import_module

from splashlib.classroom.judges import judge
from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.wording import say
from splashlib.desk.class_files import Skipped
from splashlib.desk.house import TEXT, lessons_folder, written

ASKED = re.compile(r'exercises\.ask\(\s*"([^"]+)"')
MOST_WORK = 60.0  # so long a file may keep the judge busy [s]
TEACHERS = 90  # pages from this number on are no part of the course


@dataclass(frozen=True, kw_only=True)
class Part:
    """A lesson with its questions: those that count, and those that are only predicted."""

    name: str
    title: str
    number: int
    questions: dict
    judged: tuple


def parts():
    """The written lessons of the course, in order."""
    return tuple(_part(lesson) for lesson in written() if lesson.number < TEACHERS)


def _part(lesson):
    questions = import_module(f"lessons.{lesson.name}.exercises").exercises.questions
    text = (lessons_folder() / lesson.name / TEXT).read_text(encoding="utf-8")
    judged = tuple(name for name in questions if name in ASKED.findall(text))
    return Part(name=lesson.name, title=lesson.title, number=lesson.number, questions=questions, judged=judged)


@dataclass(kw_only=True)
class Work:
    """What one learner did with one question."""

    answers: int = 0
    right: bool = False
    slips: Counter = field(default_factory=Counter)
    helps: int = 0
    last: str = ""

    @property
    def state(self):
        """In a word: right, tried, or open."""
        return "right" if self.right else "tried" if self.answers else "open"


@dataclass(kw_only=True)
class Learner:
    """One learner: the work by (lesson, question), and what was done last."""

    name: str
    file: str
    work: dict
    last: tuple | None = None
    """(day, lesson, question) of the last act, or None."""

    def done(self, part):
        """How many questions of a lesson are right."""
        return sum(self.work[part.name, name].right for name in part.judged)

    def begun(self, part):
        """Whether anything was answered, predicted or asked for in a lesson."""
        return any(self.work[part.name, name].last for name in part.questions)

    def finished(self, part):
        """Whether every question of a lesson that counts was right once."""
        return self.done(part) == len(part.judged)


@dataclass(kw_only=True)
class Mistake:
    """One slip at one question, over the class."""

    lesson: str
    question: str
    slip: str
    learners: set = field(default_factory=set)
    times: int = 0
    stuck: set = field(default_factory=set)
    """Who made it and has not answered the question right yet."""
    typed: str = ""
    """One answer as it was typed, for an example."""
    reply: Reply | None = None
    """What the course says to that answer."""


@dataclass(kw_only=True)
class Overview:
    """A class."""

    parts: tuple
    learners: list
    mistakes: list
    predictions: dict
    """(lesson, question) -> Counter of "right" and of the names of other options, each learner's last one."""
    skipped: list = field(default_factory=list)
    """Sheets that took too long to judge, as Skipped."""
    unknown: int = 0
    """Acts that belong to no lesson of this version."""
    differing: int = 0
    """Answers that are judged otherwise now than when they were given."""


def count(sheets, among=None):
    """Judge all stored answers again, and count.

    Parameters
    ----------
    sheets : list of Sheet
    among : sequence of Part; the written lessons when left out

    Returns
    -------
    Overview
    """
    among = parts() if among is None else among
    found = Overview(parts=among, learners=[], mistakes=[], predictions={})
    mistakes = {}
    for sheet in sheets:
        try:
            found.learners.append(_learner(sheet, found, mistakes))
        except Endless:
            found.skipped.append(Skipped(file=sheet.file, why=f"takes more than {MOST_WORK:.0f} s to judge"))
    for each in mistakes.values():
        of = {learner.file: learner for learner in found.learners}
        each.stuck = {who for who in each.learners if not of[who].work[each.lesson, each.question].right}
    found.mistakes = sorted(mistakes.values(), key=lambda m: (-len(m.learners), -m.times, m.lesson, m.question, m.slip))
    return found


class Endless(Exception):
    """A file takes too long to judge."""


def _replies(sheet, questions):
    """The reply to each act of a sheet, None where nothing is judged; Endless when they take too long."""
    until, replies, known = time.monotonic() + MOST_WORK, [], {}
    for attempt in sheet.attempts:
        question = questions.get((attempt.lesson, attempt.question))
        if question is None or attempt.act not in ("answer", "prediction"):
            replies.append(None)
            continue
        same = (attempt.lesson, attempt.question, attempt.variant, json.dumps(attempt.record, sort_keys=True))
        if same not in known:
            known[same] = judge.rejudge(question, attempt.record, variant=attempt.variant)
        replies.append(known[same])
        if time.monotonic() > until:
            raise Endless
    return replies


def _learner(sheet, found, mistakes):
    questions = {(part.name, name): question for part in found.parts for name, question in part.questions.items()}
    learner = Learner(name=sheet.name, file=sheet.file, work={key: Work() for key in questions})
    foretold = {}
    # All of it is judged before anything is counted: a sheet counts whole or not at all.
    for attempt, reply in zip(sheet.attempts, _replies(sheet, questions), strict=True):
        key = attempt.lesson, attempt.question
        if key not in questions:
            found.unknown += 1
            continue
        learner.work[key].last = str(attempt.at)[:10]
        learner.last = (str(attempt.at)[:10], *key)
        if attempt.act == "answer":
            _answer(attempt, reply, questions[key], learner, found, mistakes)
        elif attempt.act == "prediction":
            foretold[key] = "right" if reply.right else reply.slip or "other"
        elif attempt.act in ("hint", "worked"):
            learner.work[key].helps += 1
    for key, what in foretold.items():
        found.predictions.setdefault(key, Counter())[what] += 1
    return learner


def _answer(attempt, reply, question, learner, found, mistakes):
    key = attempt.lesson, attempt.question
    work = learner.work[key]
    work.answers += 1
    work.right |= reply.right
    found.differing += (reply.outcome, reply.slip) != (attempt.outcome, attempt.slip)
    if not reply.slip:
        return
    work.slips[reply.slip] += 1
    mistake = mistakes.setdefault((*key, reply.slip), Mistake(lesson=key[0], question=key[1], slip=reply.slip))
    mistake.times += 1
    mistake.learners.add(learner.file)
    mistake.typed, mistake.reply = typed(question, attempt.record, attempt.variant), reply


def typed(question, record, variant=1):
    """A stored answer, short, for an example; whatever it is, it is text."""
    if "option" in record:
        values = judge.numbers(question, variant)
        return next((say(option.text, values) for option in question.options if option.key == record["option"]), "")
    # An answer given in code has all its digits; six are enough to see what was meant.
    value = record.get("value", "")
    text = record.get("text", f"{value:.6g}" if isinstance(value, float) else str(value))
    unit = record.get("unit") or ""
    return f"{text} {unit}".strip() if isinstance(text, str) and isinstance(unit, str) else ""


def stopped(found):
    """Where people stopped: (lesson, question) -> names of those whose last act was there, the lesson unfinished."""
    by_name, places = {part.name: part for part in found.parts}, {}
    for learner in found.learners:
        if learner.last and not learner.finished(by_name[learner.last[1]]):
            places.setdefault(learner.last[1:], []).append(learner.name)
    return dict(sorted(places.items(), key=lambda item: (-len(item[1]), item[0])))
