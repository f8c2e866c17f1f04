"""The exercises of a lesson: asked in a form, answered there or in code, judged by the same judge."""

import json
import threading
from dataclasses import replace

from splashlib.classroom.judges import judge
from splashlib.classroom.judges.in_code import in_code
from splashlib.classroom.judges.judging import plain_word, real_number
from splashlib.classroom.judges.replies import UNJUDGED, Reply
from splashlib.classroom.questions.variants import whole
from splashlib.classroom.questions.wording import say
from splashlib.classroom.record.guess import Guess
from splashlib.classroom.record.progress_file import Progress
from splashlib.classroom.record.remembered import Remembered

TURNED_OUT = {"low": "That was too low.", "high": "That was too high.", "wrong": "It turned out differently."}
LAST_HINT = "There are no more hints. *Worked solution* shows the whole way."
ANSWER_IN_CODE = "Answer in code"
ENOUGH = 20  # so many next variants are tried for other numbers


class Exercises:
    """All questions of one lesson, and where the learner is in them.

    Parameters
    ----------
    lesson : the lesson's name; progress is kept under it
    questions : of the five kinds, see `splashlib.classroom.questions.question_kinds`
    progress : a Progress; the learner's own file when left out. Nothing is written before an answer.

    Notes
    -----
    In a notebook: `exercises.ask("time")` shows the question with its form; `exercises.check("time", 303, "ms")`
    answers in code; `exercises.predict("time")` notes an answer without judging it, and
    `exercises.look_back("time")` shows it again beside what was found.
    """

    def __init__(self, lesson, questions, *, progress=None):
        self.lesson = lesson
        self.questions = {question.name: question for question in questions}
        if len(self.questions) != len(questions):
            raise ValueError(f"exercises of {lesson!r}: two questions have the same name")
        self.progress = progress or Progress()
        # Forms may be answered in a thread of their own beside the cells.
        self.lock = threading.RLock()
        self._variants, self._hints, self._predicted, self._watchers = {}, {}, {}, {}
        self._asked, self._foretold, self._observers = set(), set(), []
        self._waived = set()

    def __repr__(self):
        return f"Exercises({self.lesson!r}: {', '.join(self.questions)})"

    def __getitem__(self, name):
        if type(name) is not str or name not in self.questions:
            known = ", ".join(self.questions)
            asked = repr(name) if type(name) is str else plain_word(name)
            raise ValueError(f"{asked[:60]} is no exercise of {self.lesson!r}; there are {known}")
        return self.questions[name]

    @property
    def judged(self):
        """The names of the questions that count: all but those that are only predicted."""
        return [name for name in self.questions if name in self._asked or name not in self._foretold]

    # ---- which numbers

    def remembered(self, name):
        """What the learner's file knows of this question."""
        return Remembered(self.progress.attempts(self.lesson, self[name].name))

    def variant(self, name):
        """Which numbers this question is asked with at present: those of the last time, also on the next day."""
        return self._variants.get(self[name].name) or self.remembered(name).variant or 1

    def use(self, name, variant):
        """Ask a question with other numbers from now on; None keeps those in use."""
        if variant is not None:
            self._variants[self[name].name] = whole(variant)
        return self.variant(name)

    def fresh(self, name):
        """Go on to a variant with other numbers; returns it."""
        before, variant = self._shown(name, self.variant(name)), self.variant(name)
        for _ in range(ENOUGH):
            variant += 1
            if self._shown(name, variant) != before:
                break
        self._hints.pop(name, None)
        self._keep(name, variant, "fresh", {})
        return self.use(name, variant)

    def _shown(self, name, variant):
        return say(self[name].prompt, judge.numbers(self[name], variant))

    def numbers(self, name, variant=None):
        """The numbers of a question, for use in code: exercises.numbers("time").height_cm."""
        return judge.numbers(self[name], self.use(name, variant))

    def start(self, name, variant=None):
        """The set-up that a settings question starts from."""
        from splashlib.classroom.judges.settings import start

        return start(self[name], self.numbers(name, variant))

    # ---- asked and answered

    def ask(self, name, variant=None):
        """The question with its form."""
        from splashlib.classroom.widgets.form import Form

        self.use(name, variant)
        self._asked.add(name)
        self._tell()
        return Form(self, name)

    def check(self, name, answer=..., unit=None, *more, variant=None):
        """Judge an answer, and keep it: exercises.check("time", 303, "ms").

        Untouched (...) is not kept; it gives the last answer again, if there is one. Nor is an answer that was kept
        before: a cell may be run as often as one likes.
        """
        variant = self.use(name, variant)
        if parted := _parted("check", name, answer, unit, more):
            return parted
        record = judge.record(self[name], answer, unit, variant=variant)
        reply = self._judged(name, record, variant)
        return reply if reply.outcome != "not_attempted" else self._unanswered(name, variant, reply)

    def answer(self, name, given, unit, variant):
        """Judge what was given in a form, as `check` does; there the last answer is always the one that counts."""
        variant = self.use(name, variant)
        return self._judged(name, judge.record(self[name], given, unit, variant=variant), variant, newest=True)

    def _judged(self, name, record, variant, *, newest=False):
        reply, known = judge.verdict(self[name], record, variant=variant), self.remembered(name)
        if reply.outcome == "not_attempted":
            return reply
        earlier = None if reply.right else known.right_with(record)
        if earlier is not None and earlier != variant:
            return Reply("told", f"**Right with numbers no. {earlier}.** Now the question asks with no. {variant}.")
        last = known.last(variant)
        there = known.holds(record, variant, reply.outcome)
        if there and not (newest and last.record != _plain(record)):
            return reply
        return replace(reply, note=self._keep(name, variant, "answer", record, reply.outcome, reply.slip))

    def _unanswered(self, name, variant, reply):
        """What an untouched cell says: it stays folded, so that it never contradicts the form above it."""
        recalled = self.recalled(name, variant)
        if recalled is not None:
            return replace(recalled, folded=ANSWER_IN_CODE)
        return replace(reply, text=f"{reply.text} {in_code(self[name])}".strip(), folded=ANSWER_IN_CODE)

    def recalled(self, name, variant):
        """The reply to the last answer with these numbers, judged again; None where there is none."""
        last = self.remembered(name).last(variant)
        if last is None:
            return None
        reply = judge.rejudge(self[name], last.record, variant=variant)
        return replace(reply, note=f"That is your last answer, of {last.at[:10]}.")

    def _keep(self, name, variant, act, record, outcome="", slip=""):
        row = {"lesson": self.lesson, "question": name, "variant": variant, "act": act}
        note = self.progress.keep(**row, record=record, outcome=outcome, slip=slip)
        self._tell()
        return note

    def standing(self):
        """Where the learner stands in this lesson; it follows by itself while questions are answered."""
        from splashlib.classroom.widgets.head_standing import HeadStanding

        return HeadStanding(self)

    def on_change(self, observer):
        """Have `observer()` called whenever a question was shown, or something was kept."""
        self._observers.append(observer)

    def off_change(self, observer):
        """Call `observer` no more."""
        self._observers.remove(observer)

    def _tell(self):
        for observer in tuple(self._observers):
            observer()

    def took(self, name, act, variant):
        """Keep that a hint or the worked solution was asked for."""
        return self._keep(name, variant, act, {})

    def hint(self, name, *, number=None, variant=None):
        """A hint: the next one, or the one with this number, counted from 0; after the last one a word that it was."""
        hints, values = self[name].hints, self.numbers(name, variant)
        if not hints:
            return Reply("told", "There is no hint for this one.")
        number = self._hints.get(name, 0) if number is None else number
        if number >= len(hints):
            return Reply("told", LAST_HINT)
        self._hints[name] = number + 1
        return Reply("told", f"**Hint {number + 1} of {len(hints)}.** {say(hints[number], values)}")

    def worked(self, name, variant=None):
        """The worked solution."""
        return Reply("told", f"**Worked solution.** {say(self[name].worked, self.numbers(name, variant))}")

    # ---- predictions

    def predict(self, name, variant=None):
        """The question with a form that notes the answer and does not judge it."""
        from splashlib.classroom.widgets.form import Form

        self.use(name, variant)
        self._foretold.add(name)
        self._tell()
        return Form(self, name, mode="predict")

    def note(self, name, answer=..., unit=None, *more, variant=None):
        """Note a prediction: exercises.note("time", 300, "ms")."""
        question, variant = self[name], self.use(name, variant)
        if parted := _parted("note", name, answer, unit, more):
            return parted
        record = judge.record(question, answer, unit, variant=variant)
        reply = judge.verdict(question, record, variant=variant)
        if reply.outcome in UNJUDGED:
            return reply
        self._predicted[name] = record, variant
        last = self.remembered(name).last(variant, "prediction")
        same = last is not None and last.record == _plain(record)
        trouble = "" if same else self._keep(name, variant, "prediction", record)
        for watcher in self._watchers.get(name, ()):
            watcher.refresh()
        return replace(self._noted(question, record, variant), note=trouble)

    def foretold(self, name, variant):
        """What was said to the prediction with these numbers, when it was noted; None where there is none."""
        kept = self.prediction(name)
        if kept is None or kept[1] != variant:
            return None
        return self._noted(self[name], *kept)

    def _noted(self, question, record, variant):
        words = judge.in_words(question, record, variant=variant)
        return Reply("noted", f"You think: {words}. You will see it again further down.")

    def prediction(self, name):
        """The record and variant of the last prediction, or None."""
        kept = self.progress.prediction(self.lesson, self[name].name)
        noted = (kept.record, kept.variant) if kept else self._predicted.get(name)
        # The file may come from anywhere: what cannot be judged is no prediction.
        sound = noted and judge.rejudge(self[name], noted[0], variant=noted[1]).outcome not in UNJUDGED
        return noted if sound else None

    def guess(self, name):
        """Whether a prediction was noted or waived: panel.show(exercises.guess("time")) is veiled until then."""
        return Guess(self, name)

    def waive(self, name):
        """Go on without a prediction."""
        if not self.waived(name):
            self._waived.add(name)
            self._keep(name, self.variant(name), "waived", {})

    def waived(self, name):
        """Whether there will be no prediction."""
        return name in self._waived or self.remembered(name).waived

    def look_back(self, name):
        """The prediction beside what was found."""
        from splashlib.classroom.widgets.form import LookBack

        back = LookBack(self, name)
        self._watchers.setdefault(name, []).append(back)
        return back

    def looked_back(self, name):
        """What to say of the prediction, and what was found (Markdown)."""
        question, noted = self[name], self.prediction(name)
        if noted is None:
            said = Reply("told", "You have noted no prediction yet; the form for it stands further up.")
            return said, say(question.worked, self.numbers(name))
        record, variant = noted
        reply = judge.verdict(question, record, variant=variant)
        words = judge.in_words(question, record, variant=variant)
        verdict = TURNED_OUT.get(reply.outcome, reply.text)
        said = Reply("right" if reply.right else "noted", f"You thought: {words}.\n\n{verdict}".strip())
        return said, say(question.worked, judge.numbers(question, variant))


def _plain(record):
    """A record as the file gives it back."""
    return json.loads(json.dumps(record))


def _parted(act, name, answer, unit, more):
    """The reply to 21,5 in code, which Python takes for two answers; None where there is one answer."""
    if not more and real_number(unit) is None:
        return None
    asked = f'exercises.{act}("{name}", ...)'
    if type(answer) is not int or type(unit) is not int or len(more) > 1:
        return Reply("unreadable", f"Those are several answers. `{asked}` takes one, and a unit if it has one.")
    rest = f', "{more[0]}"' if more and type(more[0]) is str else ""
    meant = f'exercises.{act}("{name}", {answer}.{unit}{rest[:20]})'
    return Reply("unreadable", f"`{answer},{unit}`: in code a number has a point, no comma. Write `{meant}`.")
