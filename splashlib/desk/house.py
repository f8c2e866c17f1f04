"""Where the course lies on disk, and which of its lessons are written."""

from pathlib import Path

import lessons
from lessons import COURSE, Lesson
from splashlib.classroom.prose.reading_time import Work, work_in

TEXT = "text.md"


def lessons_folder() -> Path:
    """The folder that holds one folder a lesson."""
    return Path(lessons.__file__).resolve().parent


def checkout() -> Path:
    """The folder that holds lessons/, notebooks/ and README.md."""
    return lessons_folder().parent


def notebook_name(lesson: Lesson) -> str:
    """The notebook's file name, such as 02_fall.ipynb."""
    return f"{lesson.number:02d}_{lesson.name}.ipynb"


def heading(lesson: Lesson) -> str:
    """The lesson's title with its number; pages that stand beside the course carry none."""
    return lesson.title if lesson.number >= 90 else f"{lesson.number} · {lesson.title}"


def written(folder: Path | None = None) -> tuple[Lesson, ...]:
    """The lessons of the course whose text is there, in order."""
    folder = folder or lessons_folder()
    return tuple(lesson for lesson in COURSE if (folder / lesson.name / TEXT).is_file())


def work_of(lesson: Lesson, folder: Path | None = None) -> dict[str, Work]:
    """How much there is to do in a written lesson, by part: "core", "extra" and "set"."""
    return work_in(((folder or lessons_folder()) / lesson.name / TEXT).read_text(encoding="utf-8"))


def strangers(folder: Path | None = None) -> list[str]:
    """Folders that hold a lesson's text but stand in no row of the course."""
    folder = folder or lessons_folder()
    known = {lesson.name for lesson in COURSE}
    return sorted(text.parent.name for text in folder.glob(f"*/{TEXT}") if text.parent.name not in known)
