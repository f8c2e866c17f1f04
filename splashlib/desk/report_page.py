"""The report as one page: no script, nothing fetched, everything that learners typed escaped."""

from collections import Counter
from html import escape

from splashlib.classroom.questions.wording import quoted, to_html
from splashlib.desk.class_counts import stopped
from splashlib.desk.report_style import STYLE

SIGNS = {"right": "✓", "tried": "~", "open": ""}
NOBODY = '<p class="quiet">Nothing to show here yet.</p>'


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
    parts = (
        _summary(overview),
        _skipped(skipped),
        _section("Who finished what", _finished(overview)),
        _section("What went wrong, and what to say", _mistakes(overview)),
        _section("The same slips over the whole course", _kinds(overview)),
        _section("Where people stopped", _stopped(overview)),
        _section("Question by question", _questions(overview)),
        _section("What they expected", _predictions(overview)),
    )
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>Report on a class</title>\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<style>{STYLE}</style></head>\n<body><main>\n<h1>Report on a class</h1>\n"
        + "\n".join(filter(None, parts))
        + "\n</main></body></html>\n"
    )


def made(caption, heads, rows, *, kind=""):
    """A table. The first cell of a row is its head; cells are HTML already, heads and caption are not."""
    if not rows:
        return NOBODY
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in heads)
    lines = (f'<tr><th scope="row">{first}</th>{"".join(map(_cell, rest))}</tr>' for first, *rest in rows)
    return (
        f'<div class="wide" tabindex="0" role="region" aria-label="{escape(caption)}"><table class="{kind}">'
        f"<caption>{escape(caption)}</caption><thead><tr>{head}</tr></thead><tbody>{''.join(lines)}</tbody></table></div>"
    )


def _cell(content):
    return content if content.startswith("<td") else f"<td>{content}</td>"


def words(name):
    """A name from the course as it is read: first_frame is "first frame"."""
    return escape(str(name).replace("_", " "))


def people(count):
    """So many learners, in words."""
    return f"{count} learner{'' if count == 1 else 's'}"


def _section(title, body):
    return f"<section><h2>{escape(title)}</h2>\n{body}</section>"


def _summary(overview):
    answers = sum(work.answers for learner in overview.learners for work in learner.work.values())
    said = f"{people(len(overview.learners))}, {answers} answers. Every answer was judged again for this page."
    if overview.differing:
        said += f" {overview.differing} of them are judged otherwise now than when they were given."
    if overview.unknown:
        one = overview.unknown == 1
        entries = "1 entry belongs" if one else f"{overview.unknown} entries belong"
        said += f" {entries} to no question of this version; {'it is' if one else 'they are'} left out."
    return f'<p class="lead">{said}</p>'


def _skipped(skipped):
    items = "".join(f"<li><strong>{escape(each.file)}</strong> {escape(each.why)}.</li>" for each in skipped)
    return f'<div class="note"><p>Not counted:</p><ul>{items}</ul></div>' if items else ""


def _finished(overview):
    heads = ("Learner", *(f"{part.number} {part.name.replace('_', ' ')}" for part in overview.parts), "Last on")
    rows = []
    for learner in overview.learners:
        cells = [_progress(learner, part) for part in overview.parts]
        rows.append((escape(learner.name), *cells, escape(learner.last[0]) if learner.last else "never"))
    done = [sum(learner.finished(part) for learner in overview.learners) for part in overview.parts]
    rows.append(("Finished by", *(str(number) for number in done), ""))
    note = '<p class="quiet">Right answers of the questions that count; ✓ finished, ~ begun, empty: not begun.</p>'
    return note + made("Right answers in each lesson", heads, rows, kind="grid")


def _progress(learner, part):
    state = "right" if learner.finished(part) else "tried" if learner.begun(part) else "open"
    shown = f"{SIGNS[state]} {learner.done(part)}/{len(part.judged)}" if state != "open" else ""
    return f'<td class="{state}">{shown}</td>'


def _mistakes(overview):
    heads = ("Slip", "Lesson and question", "Made by", "Not right yet", "What to say, to one of their answers")
    rows = []
    for each in overview.mistakes:
        share = 100 * len(each.learners) / len(overview.learners)
        bar = f'<span class="bar" style="width:{share:.0f}%"></span>'
        times = f"{people(len(each.learners))}, {each.times} time{'' if each.times == 1 else 's'}"
        place = f"{words(each.lesson)}: {words(each.question)}"
        rows.append((words(each.slip), place, f"{times}{bar}", str(len(each.stuck)), _advice(each)))
    return made("Slips, the most frequent first", heads, rows, kind="slips")


def _advice(mistake):
    example = f"{to_html(quoted(mistake.typed, 120))}" if mistake.typed else ""
    see = f'<p class="quiet">In the lesson: {escape(mistake.reply.see)}.</p>' if mistake.reply.see else ""
    return f"{example}{to_html(mistake.reply.text)}{see}"


def _kinds(overview):
    who, times, where = {}, Counter(), {}
    for each in overview.mistakes:
        who.setdefault(each.slip, set()).update(each.learners)
        where.setdefault(each.slip, set()).add((each.lesson, each.question))
        times[each.slip] += each.times
    order = sorted(who, key=lambda slip: (-len(who[slip]), -times[slip], slip))
    rows = [(words(slip), str(len(who[slip])), str(times[slip]), str(len(where[slip]))) for slip in order]
    return made("Slips by kind", ("Slip", "Learners", "Times", "Questions"), rows)


def _stopped(overview):
    rows = []
    for (lesson, question), names in stopped(overview).items():
        listed = ", ".join(escape(name) for name in names)
        rows.append((f"{words(lesson)}: {words(question)}", str(len(names)), listed))
    note = '<p class="quiet">The last thing they did was here, and the lesson is not finished.</p>'
    return note + made("Where people stopped", ("Lesson and question", "Learners", "Who"), rows)


def _questions(overview):
    rows = []
    for part in overview.parts:
        for name in part.judged:
            works = [learner.work[part.name, name] for learner in overview.learners]
            states = Counter(work.state for work in works)
            counts = (states["right"], states["tried"], sum(w.answers for w in works), sum(w.helps for w in works))
            rows.append((f"{words(part.name)}: {words(name)}", *map(str, counts)))
    heads = ("Lesson and question", "Right", "Tried, not right yet", "Answers", "Hints and solutions")
    return made("All questions that count", heads, rows)


def _predictions(overview):
    rows = []
    for part in overview.parts:
        for name in part.questions:
            counts = overview.predictions.get((part.name, name))
            if counts:
                wrong = [each for each in counts.most_common() if each[0] != "right"]
                common = f"{_option(part.questions[name], wrong[0][0])} ({wrong[0][1]})" if wrong else ""
                rows.append((words(part.name), str(counts.total()), str(counts["right"]), common))
    heads = ("Lesson", "Noted by", "As it turned out", "Most frequent other expectation")
    return made("Predictions, before anything was shown", heads, rows)


def _option(question, key):
    options = {option.key: option.text for option in getattr(question, "options", ())}
    return escape(str(options.get(key, key)))
