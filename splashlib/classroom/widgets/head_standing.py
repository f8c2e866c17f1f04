"""Where the learner stands in one lesson, at its head; it follows by itself while questions are answered."""

from html import escape

import anywidget
import traitlets

from splashlib.classroom.record.standing import standing
from splashlib.classroom.widgets.front_end import script, style
from splashlib.classroom.widgets.saved_view import display_with_still, new_name

SIGNS = {"right": ("✓", "right"), "tried": ("✗", "not right yet"), "open": ("○", "open")}
BOX = "display:inline-block;min-width:1.6em;margin:0 4px 0 0;border:1px solid;border-radius:4px;text-align:center"


def standing_html(row, trouble=""):
    """One lesson's standing: a sentence, and a sign for each question in the order in which they are asked.

    Parameters
    ----------
    row : splashlib.classroom.record.standing.LessonRow
    trouble : str
        Why the file could not be read, or "".
    """
    boxes = (_box(question, state) for question, state in row.states)
    note = f"<p><strong>{escape(trouble)}</strong></p>" if trouble else ""
    said = f"Where you stand in this lesson: {row.right} of {len(row.states)} right."
    return f"{note}<p><strong>{said}</strong></p><p>{''.join(boxes)}</p>"


def _box(question, state):
    sign, word = SIGNS[state]
    name = escape(f"{question.replace('_', ' ')}: {word}")
    return f'<span role="img" style="{BOX}" title="{name}" aria-label="{name}">{sign}</span>'


class _StandingFront(anywidget.AnyWidget):
    """The standing's face in the browser."""

    _esm = script("head_standing")
    _css = style("head_standing")
    html = traitlets.Unicode().tag(sync=True)
    still = traitlets.Unicode().tag(sync=True)


class HeadStanding:
    """The standing in one lesson; made by `Exercises.standing`, shown by being a cell's last line."""

    def __init__(self, exercises):
        self._exercises = exercises
        self._front = _StandingFront(html=self._html(), still=new_name())
        exercises.on_change(self.refresh)

    @property
    def html(self):
        """What it shows now."""
        return self._front.html

    def refresh(self):
        """Read the learner's file again."""
        self._front.html = self._html()

    def _html(self):
        shown = standing((self._exercises,), self._exercises.progress.path)
        row = next(row for row in shown.rows if row.lesson == self._exercises.lesson)
        return standing_html(row, shown.trouble)

    def _ipython_display_(self):
        display_with_still(self._front, self._repr_mimebundle_()[0])

    def _repr_mimebundle_(self, **kwargs):
        """Give the live standing, and for viewers without Python how it stood when the notebook was saved."""
        bundle = self._front._repr_mimebundle_(**kwargs)
        data, metadata = bundle if isinstance(bundle, tuple) else (bundle, {})
        data["text/html"] = f"<div>{self.html}</div>"
        data["text/plain"] = "Where you stand in this lesson"
        return data, metadata
