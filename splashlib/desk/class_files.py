"""The progress files of a class: found below a folder, named, read; what cannot be read is told and passed over."""

from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from splashlib.classroom.record.progress_file import FILE_NAME, Progress, Unfit
from splashlib.desk.trouble import Trouble

ENDING = ".sqlite"


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """One learner's file."""

    name: str
    """What the learner is called in the report: the folder's name, or that of the file."""
    file: str
    """The file's place below the folder of the class."""
    attempts: tuple


@dataclass(frozen=True, kw_only=True)
class Skipped:
    """A file that does not count, and why."""

    file: str
    why: str


def collected(folder):
    """Read all progress files below a folder; they are only read.

    Parameters
    ----------
    folder : Path

    Returns
    -------
    (list of Sheet, list of Skipped), each in the order of the files' names
    """
    if not folder.exists():
        raise Trouble(f"{folder} is not there; name the folder that holds the learners' files")
    if not folder.is_dir():
        raise Trouble(f"{folder} is a file; name the folder that it lies in")
    files = sorted(path for path in folder.rglob(f"*{ENDING}") if path.is_file())
    if not files:
        raise Trouble(f"{folder} holds no progress file; each learner's is called {FILE_NAME}")
    names, read, skipped = _names(folder, files), {}, []
    for path in files:
        place = path.relative_to(folder).as_posix()
        try:
            tag, attempts = Progress(path).everything()
        except Unfit as problem:
            skipped.append(Skipped(file=place, why=str(problem)))
            continue
        sheet = Sheet(name=names[path], file=place, attempts=tuple(attempts))
        twin = read.get(tag) if tag else None
        if twin is not None:
            twin, sheet = sorted((twin, sheet), key=lambda each: len(each.attempts))
            skipped.append(Skipped(file=twin.file, why=f"is an earlier or equal copy of {sheet.file}"))
        read[tag or place] = sheet
    return sorted(read.values(), key=lambda each: each.name.casefold()), skipped


def _names(folder, files):
    """Each file's learner. Two who would be called alike are called by the whole place of their files."""
    short = {path: _short(folder, path) for path in files}
    often = Counter(short.values())
    return {path: name if often[name] == 1 else path.relative_to(folder).as_posix() for path, name in short.items()}


def _short(folder, path):
    alone = path.name != FILE_NAME or path.parent == Path(folder)
    return path.stem if alone else path.parent.name
