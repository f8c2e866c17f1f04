"""The report as one page: no script, nothing fetched, everything that learners typed escaped.

What stands in it is gathered here as plain data; how it is laid out stands in report.html.
"""

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from splashlib.classroom.questions.slip_words import in_words
from splashlib.classroom.questions.wording import quoted, to_html
from splashlib.desk.class_counts import stopped
from splashlib.desk.report_style import STYLE

TEMPLATE = "report.html"
OPEN = 4
"""So many slips stand open at least, if they were seen more than once, and as many as there are learners; a page of
paper holds that for six. The others are folded."""
SIGNS = {"right": "✓", "tried": "~", "open": ""}


@dataclass(frozen=True, kw_only=True)
class Cell:
    """One cell: its text, its class in the style sheet, and the length of a bar under it in percent."""

    text: str
    kind: str = ""
    share: int = 0


@dataclass(frozen=True, kw_only=True)
class Table:
    """One section of the page. The first entry of a row is its head and text, the others are cells."""

    title: str
    caption: str
    heads: tuple
    rows: list
    note: str = ""
    kind: str = ""
    fold: str = ""
    """The words of what is folded away: the whole table, or `more`."""
    more: tuple = ()
    """Further rows, folded below the others."""


def page(overview, skipped=()):
    """The whole page.

    Parameters
    ----------
    overview : Overview
    skipped : sequence of Skipped, files that do not count

    Returns
    -------
    str, an HTML document
    """
    # Everything is escaped but what is Markup: the course's own words, made by to_html, and the style.
    made = Environment(
        loader=FileSystemLoader(Path(__file__).parent),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        keep_trailing_newline=True,
    )
    parts = (_finished, _mistakes, _kinds, _stopped, _questions, _predictions)
    return made.get_template(TEMPLATE).render(
        style=Markup(STYLE),
        summary=_summary(overview),
        skipped=skipped,
        tables=[part(overview) for part in parts],
    )


def words(name):
    """A name from the course as it is read: first_frame is "first frame"."""
    return str(name).replace("_", " ")


def people(count):
    """So many learners, in words."""
    return f"{count} learner{'' if count == 1 else 's'}"


def _plain(first, *rest):
    """A row of plain cells."""
    return (first, *(each if isinstance(each, Cell) else Cell(text=str(each)) for each in rest))


def _summary(overview):
    answers = sum(work.answers for learner in overview.learners for work in learner.work.values())
    said = f"{people(len(overview.learners))}, {answers} answers. Every answer was judged again for this page."
    if overview.differing:
        said += f" {overview.differing} of them are judged otherwise now than when they were given."
    if overview.unknown:
        one = overview.unknown == 1
        entries = "1 entry belongs" if one else f"{overview.unknown} entries belong"
        said += f" {entries} to no question of this version; {'it is' if one else 'they are'} left out."
    return said


def _finished(overview):
    rows = []
    for learner in overview.learners:
        cells = [_progress(learner, part) for part in overview.parts]
        rows.append(_plain(learner.name, *cells, learner.last[0] if learner.last else "never"))
    done = [sum(learner.finished(part) for learner in overview.learners) for part in overview.parts]
    rows.append(_plain("Finished by", *done, ""))
    return Table(
        title="Who finished what",
        caption="Right answers in each lesson",
        heads=("Learner", *(f"{part.number} {words(part.name)}" for part in overview.parts), "Last on"),
        rows=rows,
        note="Right answers of the questions that count; ✓ finished, ~ begun, empty: not begun.",
        kind="grid",
    )


def _progress(learner, part):
    state = "right" if learner.finished(part) else "tried" if learner.begun(part) else "open"
    shown = f"{SIGNS[state]} {learner.done(part)}/{len(part.judged)}" if state != "open" else ""
    return Cell(text=shown, kind=state)


def _mistakes(overview):
    """The slips that many made or one made again and again stand open; what was seen once is folded."""
    questions = {(part.name, name): each for part in overview.parts for name, each in part.questions.items()}
    rows = [_mistake(each, questions, len(overview.learners)) for each in overview.mistakes]
    # The most frequent come first, by learners and then by times: the open ones are the first so many.
    often = next((at for at, each in enumerate(overview.mistakes) if each.times == 1), len(rows))
    shown = min(often, max(OPEN, len(overview.learners)))
    once = sum(each.times == 1 for each in overview.mistakes)
    return Table(
        title="What went wrong, and what to say",
        caption="Slips, the most frequent first",
        heads=("Slip", "Lesson and question", "Made by", "Not right yet", "What to say, to one of their answers"),
        rows=rows[:shown],
        more=tuple(rows[shown:]),
        fold=f"{len(rows) - shown} more, of which {once} {'was' if once == 1 else 'were'} seen once",
        kind="slips",
    )


def _mistake(each, questions, learners):
    times = f"{people(len(each.learners))}, {each.times} time{'' if each.times == 1 else 's'}"
    bar = Cell(text=times, share=round(100 * len(each.learners) / learners))
    place = f"{words(each.lesson)}: {words(each.question)}"
    said = in_words(questions[each.lesson, each.question], each.slip)
    return _plain(said, place, bar, len(each.stuck), Cell(text=_advice(each)))


def _advice(mistake):
    """An answer and the reply to it; to_html escapes what was typed."""
    example = to_html(quoted(mistake.typed, 120)) if mistake.typed else ""
    see = Markup('<p class="quiet">In the lesson: {}.</p>').format(mistake.reply.see) if mistake.reply.see else ""
    return Markup(example) + Markup(to_html(mistake.reply.text)) + see


def _kinds(overview):
    who, times, where, said = {}, Counter(), {}, {}
    questions = {(part.name, name): each for part in overview.parts for name, each in part.questions.items()}
    for each in overview.mistakes:
        said[each.slip] = in_words(questions[each.lesson, each.question], each.slip)
        who.setdefault(each.slip, set()).update(each.learners)
        where.setdefault(each.slip, set()).add((each.lesson, each.question))
        times[each.slip] += each.times
    order = sorted(who, key=lambda slip: (-len(who[slip]), -times[slip], slip))
    return Table(
        title="The same slips over the whole course",
        caption="Slips by kind",
        heads=("Slip", "Learners", "Times", "Questions"),
        rows=[_plain(said[slip], len(who[slip]), times[slip], len(where[slip])) for slip in order],
        fold="Show them by kind",
    )


def _stopped(overview):
    places = stopped(overview).items()
    return Table(
        title="Where people stopped",
        caption="Where people stopped",
        heads=("Lesson and question", "Learners", "Who"),
        rows=[
            _plain(f"{words(lesson)}: {words(question)}", len(names), ", ".join(names))
            for (lesson, question), names in places
        ],
        note="The last thing they did was here, and the lesson is not finished.",
    )


def _questions(overview):
    rows = []
    for part in overview.parts:
        for name in part.judged:
            works = [learner.work[part.name, name] for learner in overview.learners]
            states = Counter(work.state for work in works)
            counts = (states["right"], states["tried"], sum(w.answers for w in works), sum(w.helps for w in works))
            rows.append(_plain(f"{words(part.name)}: {words(name)}", *counts))
    return Table(
        title="Question by question",
        caption="All questions that count",
        heads=("Lesson and question", "Right", "Tried, not right yet", "Answers", "Hints and solutions"),
        rows=rows,
        fold="Show every question",
    )


def _predictions(overview):
    rows = []
    for part in overview.parts:
        for name in part.questions:
            counts = overview.predictions.get((part.name, name))
            if counts:
                wrong = [each for each in counts.most_common() if each[0] != "right"]
                common = f"{_option(part.questions[name], wrong[0][0])} ({wrong[0][1]})" if wrong else ""
                rows.append(_plain(words(part.name), counts.total(), counts["right"], common))
    return Table(
        title="What they expected",
        caption="Predictions, before anything was shown",
        heads=("Lesson", "Noted by", "As it turned out", "Most frequent other expectation"),
        rows=rows,
        fold="Show the predictions",
    )


def _option(question, key):
    options = {option.key: option.text for option in getattr(question, "options", ())}
    return str(options.get(key, key))
