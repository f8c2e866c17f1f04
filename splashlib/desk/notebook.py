"""One lesson's text becomes one notebook: head, the lesson's own cells, foot."""

import re
from collections import Counter

from lessons import COURSE, TWO_HOURS, Lesson
from splashlib.classroom.prose.reading_time import work_in
from splashlib.desk.house import TEXT, heading, notebook_name
from splashlib.desk.trouble import Trouble

METADATA = {
    "kernelspec": {"display_name": "Python 3 (ipykernel)", "language": "python", "name": "python3"},
    "language_info": {"name": "python"},
}

RUN_IT_ALL = (
    "**To run it all:** in the menu at the top choose *Run*, then *Run All Cells*; the page comes back up "
    "here. After that you drag and type numbers; you need no Python for it. "
    "A cell that you have changed runs again with Shift and Enter together."
)

SHOW_STANDING = "from lessons.{name}.exercises import exercises\n\nexercises.standing()"

DECIDED = (
    "## What you have decided\n\nHere the two-hour path ends. These are the numbers to take to your set. "
    "Press a card's button and run the next cell again, and it follows."
)
SHOW_DECIDED = "from splashlib.classroom import decided\n\ndecided()"

# Without it jupytext takes the language of the first fence for that of the lesson.
IN_PYTHON = "---\njupyter:\n  kernelspec:\n    display_name: x\n    language: python\n    name: python3\n---\n\n"

LESSON_LINK = re.compile(r"\[([^\]]+)\]\(lesson:([^)]*)\)")


def notebook(lesson: Lesson, text: str, *, among: tuple[Lesson, ...], work: dict | None = None) -> str:
    """The notebook of a lesson as the text of its file; the same input gives the same bytes.

    Parameters: lesson, the row of the course; text, its text.md with its numbers filled in; among, the lessons that
    are written (links lead to these only); work, how much there is to do, by part (None: that of the text).
    """
    nbformat = tool("nbformat")
    cells = [
        nbformat.v4.new_markdown_cell(head(lesson, work or work_in(text), among=among), id=f"{lesson.name}-head"),
        *standing(lesson, text),
        *own_cells(lesson, text, among=among),
        *(decided_cells(lesson) if lesson == end_of_path(among) else []),
        nbformat.v4.new_markdown_cell(foot(lesson, among=among), id=f"{lesson.name}-foot"),
    ]
    refuse_bad_ids(lesson, cells)
    node = nbformat.v4.new_notebook(cells=cells, metadata=METADATA)
    node.nbformat_minor = 5
    nbformat.validate(node)
    return nbformat.writes(node).rstrip("\n") + "\n"


def tool(name: str):
    """A module that only the build needs."""
    try:
        return __import__(name)
    except ImportError as error:
        raise Trouble(
            f"{error.name} is not installed here. Run the build with the tools for contributors: "
            "uv run --group dev python -m splashlib build"
        ) from None


def head(lesson: Lesson, work: dict, *, among: tuple[Lesson, ...]) -> str:
    """The first cell: title, how long it takes, what it is for, how to run it."""
    facts = f"{counted(work['core'].minutes)}. You decide {lesson.decides}."
    path = on_path(among)
    if lesson in path:
        facts += f" Step {path.index(lesson) + 1} of {len(path)} on the two-hour path."
    return "\n\n".join(filter(None, (f"# {heading(lesson)}", f"*{facts}*", later(work), RUN_IT_ALL)))


def later(work: dict) -> str:
    """What may wait for another day, and how long it takes; "" where nothing may."""
    extra, at_set = work["extra"], work["set"]
    said = []
    if extra.words:
        said.append(f"*In code* and what is headed *Extra*: {counted(extra.minutes)} more")
    if at_set.words:
        said.append(f"*At the set*: {counted(at_set.minutes)}, to be read there")
    return f"For another day: {'; '.join(said)}." if said else ""


def counted(minutes: int) -> str:
    """1 minute, 2 minutes."""
    return f"{minutes} minute{'' if minutes == 1 else 's'}"


def on_path(among: tuple[Lesson, ...]) -> list[Lesson]:
    """The lessons of the two-hour path that are written, in the order of the path."""
    there = {lesson.name: lesson for lesson in among}
    return [there[name] for name in TWO_HOURS if name in there]


def end_of_path(among: tuple[Lesson, ...]) -> Lesson | None:
    """The lesson with which the two-hour path ends for now."""
    return next(iter(reversed(on_path(among))), None)


def decided_cells(lesson: Lesson) -> list:
    """What was decided on the way, at the end of the path."""
    words = tool("nbformat").v4.new_markdown_cell(DECIDED, id=f"{lesson.name}-end")
    code = tool("nbformat").v4.new_code_cell(SHOW_DECIDED, id=f"{lesson.name}-decided")
    code.metadata.update({"jupyter": {"source_hidden": True}, "tags": ["decided"]})
    return [words, code]


def foot(lesson: Lesson, *, among: tuple[Lesson, ...]) -> str:
    """The last cell: where to go from here."""
    place = among.index(lesson)
    ways = []
    if place > 0:
        ways.append(f"Before: {link(among[place - 1])}")
    if place + 1 < len(among):
        ways.append(f"Next: {link(among[place + 1])}")
    step = next_on_path(lesson, among=among)
    if step is not None and step != lesson and step not in among[place + 1 : place + 2]:
        ways.append(f"Next on the two-hour path: {link(step)}")
    return "---\n\n" + ("  \n".join(ways) or "This is the whole course so far.")


def next_on_path(lesson: Lesson, *, among: tuple[Lesson, ...]) -> Lesson | None:
    """The lesson that follows on the two-hour path; None for lessons beside it, and at its end."""
    path = on_path(among)
    return next(iter(path[path.index(lesson) + 1 :]), None) if lesson in path else None


def link(lesson: Lesson) -> str:
    """A link to a lesson's notebook."""
    return f"[{heading(lesson)}]({notebook_name(lesson)})"


def own_cells(lesson: Lesson, text: str, *, among: tuple[Lesson, ...]) -> list:
    """The cells of a lesson's text, each with an id that is the same at every build."""
    refuse_title(lesson, text)
    cells = tool("jupytext").reads(IN_PYTHON + text, fmt="md").cells
    for number, cell in enumerate(cells, 1):
        cell.id = cell.metadata.pop("id", f"{lesson.name}-{number:02d}")
        if cell.cell_type == "markdown":
            cell.source = resolved(lesson, cell.source, among=among)
        elif cell.source.startswith("%%"):
            shell = cell.source.split(maxsplit=1)[0].lstrip("%")
            raise wrong(lesson, f"a fence of {shell} would run as code; write ```{shell} .noeval")
    return cells


def standing(lesson: Lesson, text: str) -> list:
    """The cell at the lesson's head that shows where the learner stands, if the lesson asks anything."""
    if "exercises.ask(" not in text:
        return []
    code = tool("nbformat").v4.new_code_cell(SHOW_STANDING.format(name=lesson.name), id=f"{lesson.name}-standing")
    code.metadata.update({"jupyter": {"source_hidden": True}, "tags": ["standing"]})
    return [code]


def resolved(lesson: Lesson, source: str, *, among: tuple[Lesson, ...]) -> str:
    """The source with links like [the beam](lesson:beam) led to notebooks.

    One to a lesson that is not written is refused: a learner cannot go where a sentence sends them.
    """
    known = {other.name for other in COURSE}
    there = {other.name: other for other in among}

    def lead(match: re.Match) -> str:
        words, name = match.groups()
        if name not in known:
            raise wrong(lesson, f'the link to "lesson:{name}" leads to no lesson of the course')
        if name not in there:
            raise wrong(lesson, f'the link to "lesson:{name}" leads to a lesson that is not written yet')
        return f"[{words}]({notebook_name(there[name])})"

    return LESSON_LINK.sub(lead, source)


def refuse_title(lesson: Lesson, text: str):
    """Titles have one home, the table of the course."""
    fenced = False
    for number, line in enumerate(text.splitlines(), 1):
        fenced ^= line.lstrip().startswith("```")
        if line.startswith("# ") and not fenced:
            raise wrong(lesson, f"line {number}: leave the title out; it comes from lessons/__init__.py")


def refuse_bad_ids(lesson: Lesson, cells: list):
    """Ids must be unlike each other and short words of letters, digits, - and _."""
    for name, count in Counter(cell.id for cell in cells).items():
        if count > 1:
            raise wrong(lesson, f'the cell id "{name}" stands {count} times')
        if not re.fullmatch(r"[A-Za-z0-9_-]{1,64}", name):
            raise wrong(lesson, f'the cell id "{name}" may hold letters, digits, - and _ only, at most 64')


def wrong(lesson: Lesson, what: str) -> Trouble:
    """A trouble in a lesson's text."""
    return Trouble(f"lessons/{lesson.name}/{TEXT}: {what}")
