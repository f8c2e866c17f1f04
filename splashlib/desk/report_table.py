"""The report as a table for a spreadsheet: one row for each learner and question."""

import csv
import io
import re

HEADS = ("learner", "file", "lesson", "question", "state", "answers", "slips", "hints_and_solutions", "last_on")

# A sign that begins a formula: at the start of a cell, and behind what some spreadsheet takes for the start of one.
STARTS = re.compile(r"[\t\r]|\s*[=+\-@]")
INSIDE = re.compile(r"([;,|\t\r\n][\s\"']*)(?=[=+\-@])")


def table(overview):
    """The table as the text of a CSV file.

    Parameters
    ----------
    overview : Overview
    """
    text = io.StringIO()
    lines = csv.writer(text, lineterminator="\n")
    lines.writerow(HEADS)
    for learner in overview.learners:
        for part in overview.parts:
            for name in part.judged:
                lines.writerow([harmless(cell) for cell in _row(learner, part.name, name)])
    return "\ufeff" + text.getvalue()  # the mark tells a spreadsheet that names are in UTF-8


def _row(learner, lesson, question):
    work = learner.work[lesson, question]
    slips = "; ".join(f"{name} ({times})" for name, times in sorted(work.slips.items()))
    return learner.name, learner.file, lesson, question, work.state, work.answers, slips, work.helps, work.last


def harmless(cell):
    """A cell that no spreadsheet takes for a formula, also one that parts it at semicolons or tabs."""
    if not isinstance(cell, str):
        return cell
    return ("'" if STARTS.match(cell) else "") + INSIDE.sub(r"\1'", cell)
