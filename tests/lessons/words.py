"""A lesson's words as the notebook has them: text.md with its numbers filled in."""

from lessons import COURSE
from splashlib.desk.house import lessons_folder
from splashlib.desk.prose import told


def words_of(name):
    """The filled text.md of a lesson."""
    return told(next(lesson for lesson in COURSE if lesson.name == name), lessons_folder() / name)
