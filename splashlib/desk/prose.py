"""The numbers in a lesson's words: computed from its numbers.py and put in at the build, or one clear line why not."""

import importlib.util
from pathlib import Path

from lessons import Lesson
from splashlib.classroom.prose.numbers import Numbers, named_in
from splashlib.classroom.prose.placeholder import ProseError
from splashlib.classroom.prose.scene_numbers import SCENE_NUMBERS
from splashlib.desk.house import TEXT
from splashlib.desk.trouble import Trouble

NUMBERS = "numbers.py"


def told(lesson: Lesson, folder: Path) -> str:
    """A lesson's text.md with its numbers filled in.

    Parameters: lesson, the row of the course; folder, the one with text.md and, if it states numbers of its own,
    numbers.py.
    """
    numbers = numbers_of(lesson, folder)
    text = (folder / TEXT).read_text(encoding="utf-8")
    try:
        filled = numbers.fill(text, where=f"lessons/{lesson.name}/{TEXT}")
    except ProseError as error:
        raise Trouble(str(error)) from None
    refuse_idle(lesson, folder, numbers)
    return filled


def numbers_of(lesson: Lesson, folder: Path) -> Numbers:
    """What a lesson's numbers.py names; only the numbers of the scene where there is none."""
    path = folder / NUMBERS
    if not path.is_file():
        return Numbers(also=SCENE_NUMBERS)
    spec = importlib.util.spec_from_file_location(f"numbers_of_{lesson.name}", path)
    module = importlib.util.module_from_spec(spec)
    try:
        spec.loader.exec_module(module)
    except Exception as error:
        raise Trouble(f"lessons/{lesson.name}/{NUMBERS}: {type(error).__name__}: {error}") from None
    if not isinstance(getattr(module, "NUMBERS", None), Numbers):
        raise Trouble(f"lessons/{lesson.name}/{NUMBERS}: it has no NUMBERS = Numbers(...)")
    return module.NUMBERS


def refuse_idle(lesson: Lesson, folder: Path, numbers: Numbers):
    """Every number that a lesson names must be stated in its text, or in what its exercises and panels say."""
    words = [path.read_text(encoding="utf-8") for path in (folder / TEXT, *sorted(folder.glob("*.py")))]
    stated = set().union(*map(named_in, words))
    for name in numbers.names:
        if name not in stated:
            raise Trouble(f"lessons/{lesson.name}/{NUMBERS}: {name} is stated nowhere in the lesson; delete it")
