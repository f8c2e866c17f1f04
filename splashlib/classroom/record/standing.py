"""Where a learner stands: what `progress()` counts, and how it is shown, as a picture and as a table."""

import base64
from dataclasses import dataclass
from html import escape

from splashlib.classroom.record.progress_file import Progress


@dataclass(frozen=True, kw_only=True)
class LessonRow:
    """One lesson."""

    lesson: str
    states: tuple
    """Question and "right", "tried" or "open", in the order in which they are asked."""
    tries: int
    helps: int
    """How many hints and worked solutions were asked for."""
    last: str
    """The day of the last act, or ""."""

    @property
    def right(self):
        return sum(state == "right" for _, state in self.states)


def rows_of(attempts, lessons=()):
    """Count a learner's attempts by lesson.

    Parameters
    ----------
    attempts : list of Attempt
    lessons : sequence of Exercises, in the order of the course; lessons that are only in the attempts follow

    Returns
    -------
    list of Row
    """
    known = {each.lesson: list(each.judged) for each in lessons}
    for each in attempts:
        questions = known.setdefault(each.lesson, [])
        if each.act == "answer" and each.question not in questions:
            questions.append(each.question)
    return [_row(lesson, questions, attempts) for lesson, questions in known.items()]


def _row(lesson, questions, attempts):
    mine = [each for each in attempts if each.lesson == lesson]
    answers = [each for each in mine if each.act == "answer"]
    right = {each.question for each in answers if each.outcome == "right"}
    tried = {each.question for each in answers}
    states = ((q, "right" if q in right else "tried" if q in tried else "open") for q in questions)
    helps = sum(each.act in ("hint", "worked") for each in mine)
    last = max((each.at[:10] for each in mine), default="")
    return LessonRow(lesson=lesson, states=tuple(states), tries=len(answers), helps=helps, last=last)


class Standing:
    """Where a learner stands; shown by being a cell's last line."""

    def __init__(self, rows, trouble=""):
        self.rows, self.trouble = rows, trouble

    @property
    def said(self):
        """The standing in one sentence for each lesson."""
        if not self.rows:
            return "Nothing is answered yet."
        return " ".join(f"{row.lesson}: {row.right} of {len(row.states)} right." for row in self.rows)

    def __repr__(self):
        return "\n".join(filter(None, [self.trouble, self.said]))

    def _repr_html_(self):
        parts = [f"<p><strong>{escape(self.trouble)}</strong></p>"] if self.trouble else []
        return "".join([*parts, self._picture(), self._table()])

    def _picture(self):
        if not self.rows:
            return f"<p>{self.said}</p>"
        from splashlib.picture.kit.standing_chart import standing_png

        png = standing_png([(row.lesson.replace("_", " "), [state for _, state in row.states]) for row in self.rows])
        data = base64.b64encode(png).decode("ascii")
        return f'<img alt="{escape(self.said)}" src="data:image/png;base64,{data}">'

    def _table(self):
        heads = ("Lesson", "Right", "Tried, not right yet", "Answers given", "Hints and solutions", "Last on")
        cells = (
            (row.lesson, f"{row.right} of {len(row.states)}", _tried(row), row.tries, row.helps, row.last)
            for row in self.rows
        )
        body = "".join(f"<tr>{''.join(f'<td>{escape(str(each))}</td>' for each in line)}</tr>" for line in cells)
        head = "".join(f'<th scope="col">{text}</th>' for text in heads)
        return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>" if self.rows else ""


def _tried(row):
    return ", ".join(question.replace("_", " ") for question, state in row.states if state == "tried")


def standing(lessons=(), path=None):
    """Where the learner stands, from the file in the learner's home; it is only read."""
    kept = Progress(path)
    return Standing(rows_of(kept.attempts(), lessons), kept.trouble)


def progress(*lessons):
    """Show where the learner stands, as a picture and a table; the file is only read.

    Parameters
    ----------
    lessons : Exercises of the lessons to show in full; left out, what was answered so far

    Returns
    -------
    Standing
    """
    return standing(lessons)
