"""`build`: lessons/ becomes notebooks/ and the list of lessons in README.md; --check only compares."""

import argparse
import re
from pathlib import Path

from lessons import BREAK, TWO_HOURS, Lesson
from splashlib.desk.house import checkout, heading, lessons_folder, notebook_name, strangers, work_of, written
from splashlib.desk.notebook import counted, notebook, on_path
from splashlib.desk.prose import told
from splashlib.desk.trouble import Trouble
from splashlib.shoot.files.replacing import replace_file

NAME = "build"
HELP = "make notebooks/ from lessons/ (for those who write lessons)"
ABOUT = (
    "Make notebooks/ and the list of lessons in README.md from lessons/. Notebooks are never edited by hand: "
    "change lessons/NAME/text.md, then build. Numbers like [[lead to 1 ms]] are computed as they are put in. "
    "The same lessons give the same bytes."
)

LIST_STARTS = "<!-- lessons: python -m splashlib build writes this list -->"
LIST_ENDS = "<!-- end of lessons -->"
NUMBERED = re.compile(r"\d\d_[a-z_]+\.ipynb")


def arguments(parser: argparse.ArgumentParser):
    """What the command takes."""
    parser.add_argument(
        "--check",
        action="store_true",
        help="write nothing; name each file that is out of step, and fail if any is",
    )


def run(args: argparse.Namespace) -> int:
    """Build the checkout, or check it."""
    return build(checkout(), lessons_folder(), check=args.check)


def build(top: Path, lessons: Path, *, check: bool) -> int:
    """Build notebooks and README's list below a folder, or only compare; returns the exit status."""
    files = built(top, lessons)
    late = {path: text for path, text in files.items() if contents(path) != text}
    left_over = leftovers(top, files)
    if not check:
        for path, text in late.items():
            write(path, text)
    for path in late:
        print(f"{path.relative_to(top).as_posix()} {'is out of step with lessons/' if check else 'written'}")
    for path in left_over:
        print(f"{path.relative_to(top).as_posix()} belongs to no lesson; delete it")
    if check and (late or left_over):
        raise Trouble("not in step; build with: uv run --group dev python -m splashlib build")
    if not late and not left_over:
        print("notebooks/ and README.md are in step with lessons/")
    return 0


def built(top: Path, lessons: Path) -> dict[Path, str]:
    """Every file that the build makes, with its text; nothing is written."""
    for name in strangers(lessons):
        raise Trouble(f"lessons/{name} stands in no row of COURSE in lessons/__init__.py")
    there = written(lessons)
    files = {
        top / "notebooks" / notebook_name(lesson): notebook(
            lesson, told(lesson, lessons / lesson.name), among=there, work=work_of(lesson, lessons)
        )
        for lesson in there
    }
    readme = top / "README.md"
    minutes = {lesson.name: work_of(lesson, lessons)["core"].minutes for lesson in there}
    return {**files, readme: with_list(contents(readme) or "", there, minutes)}


def with_list(readme: str, there: tuple[Lesson, ...], minutes: dict[str, int]) -> str:
    """README's text with a fresh list of lessons between its two marks."""
    before, mark, rest = readme.partition(LIST_STARTS)
    _, end, after = rest.partition(LIST_ENDS)
    if not mark or not end:
        raise Trouble(f"README.md lacks the two marks of the list: {LIST_STARTS} and {LIST_ENDS}")
    return f"{before}{mark}\n\n{lesson_list(there, minutes)}\n\n{end}{after}"


def lesson_list(there: tuple[Lesson, ...], minutes: dict[str, int]) -> str:
    """The list of lessons, one line each, and how long the two-hour path takes."""
    rows = ["| Lesson | Minutes | You decide |", "|---|--:|---|"]
    for lesson in there:
        star = " ★" if lesson.name in TWO_HOURS else ""
        place = f"[{heading(lesson)}](notebooks/{notebook_name(lesson)}){star}"
        rows.append(f"| {place} | {minutes[lesson.name]} | {lesson.decides} |")
    path = sum(minutes[lesson.name] for lesson in on_path(there))
    rows += [
        "",
        f"★ The two-hour path, for one evening: {counted(path)} of work and a break of {BREAK}, in this order.",
    ]
    return "\n".join(rows)


def leftovers(top: Path, files: dict[Path, str]) -> list[Path]:
    """Numbered notebooks that no lesson makes. They are named, not deleted: they may hold somebody's work."""
    found = (top / "notebooks").glob("*.ipynb")
    return sorted(path for path in found if NUMBERED.fullmatch(path.name) and path not in files)


def contents(path: Path) -> str | None:
    """A file's text, None if there is none. Line ends are not told apart: Windows may have its own."""
    return path.read_text(encoding="utf-8") if path.is_file() else None


def write(path: Path, text: str):
    """Write a file, with the same line ends on every system."""
    path.parent.mkdir(exist_ok=True)
    replace_file(path, text.encode("utf-8"))
