"""The exercises of a lesson: asked in a form, answered there or in code, judged by the same judge."""

from splashlib.classroom import judge
from splashlib.classroom.replies import Reply
from splashlib.classroom.variants import whole
from splashlib.classroom.wording import say


class Exercises:
    """All questions of one lesson, and where the learner is in them.

    Parameters
    ----------
    lesson : the lesson's name; progress is kept under it
    questions : of the five kinds, see `splashlib.classroom.questions`
    progress : a Progress; the learner's own file when left out. Nothing is written before an answer.
    """

    def __init__(self, lesson, questions, *, progress=None):
        self.lesson = lesson
        self.questions = {question.name: question for question in questions}
        if len(self.questions) != len(questions):
            raise ValueError(f"exercises of {lesson!r}: two questions have the same name")
        self._progress = progress
        self._variants = {}
        self._hints = {}

    def __repr__(self):
        return f"Exercises({self.lesson!r}: {', '.join(self.questions)})"

    def __getitem__(self, name):
        if name not in self.questions:
            known = ", ".join(self.questions)
            raise ValueError(f"{name!r} is no exercise of {self.lesson!r}; there are {known}")
        return self.questions[name]

    def variant(self, name):
        """Which numbers this question is asked with at present."""
        return self._variants.get(name, 1)

    def use(self, name, variant):
        """Ask a question with other numbers from now on; None keeps those in use."""
        if variant is not None:
            self._variants[self[name].name] = whole(variant)
        return self.variant(name)

    def numbers(self, name, variant=None):
        """The numbers of a question, for use in code: exercises.numbers("time").height_cm."""
        return judge.numbers(self[name], self.use(name, variant))

    def check(self, name, answer=..., unit=None, *, variant=None):
        """Judge an answer given in code: exercises.check("time", 303, "ms")."""
        question, variant = self[name], self.use(name, variant)
        record = judge.record(question, answer, unit, variant=variant)
        return judge.verdict(question, record, variant=variant)

    def hint(self, name):
        """The next hint."""
        hints, shown = self[name].hints, self._hints.get(name, 0)
        if not hints:
            return Reply("told", "There is no hint for this one.")
        self._hints[name] = min(shown + 1, len(hints))
        number = min(shown, len(hints) - 1)
        text = say(hints[number], self.numbers(name))
        return Reply("told", f"Hint {number + 1} of {len(hints)}: {text}")

    def worked(self, name, variant=None):
        """The worked solution."""
        return Reply("told", say(self[name].worked, self.numbers(name, variant)))
