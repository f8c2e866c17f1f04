"""The progress files of a class: found below a folder, named, read; what cannot be read is told and passed over."""

import contextlib
import os
import shutil
import tempfile
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from splashlib.classroom.record.progress_file import FILE_NAME, Foreign, Progress, Unfit
from splashlib.desk.trouble import Trouble

ENDING = ".sqlite"
COMPANIONS = ("", "-journal", "-wal")  # a crash may have left part of the file beside it
MOST_BYTES = 100_000_000


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
        raise Trouble(f"{said(folder)} is not there; name the folder that holds the learners' files")
    if not folder.is_dir():
        raise Trouble(f"{said(folder)} is a file; name the folder that it lies in")
    files, skipped = _found(folder)
    names, read = _names(folder, files), []
    with tempfile.TemporaryDirectory(prefix="splash-report-") as room:
        for path in files:
            place = said(path.relative_to(folder).as_posix())
            try:
                tag, attempts = _copied_and_read(path, Path(room))
            except Unfit as problem:
                # What other programs keep beside a learner's file is no news, unless it bears our name.
                if not isinstance(problem, Foreign) or path.name == FILE_NAME:
                    skipped.append(Skipped(file=place, why=str(problem)))
                continue
            if not attempts:
                skipped.append(Skipped(file=place, why="is empty; it counts for no learner"))
                continue
            read.append((tag, Sheet(name=names[path], file=place, attempts=tuple(attempts))))
    if not read and not skipped:
        raise Trouble(f"{said(folder)} holds no progress file; each learner's is called {FILE_NAME}")
    sheets, copies = _without_copies(read)
    skipped = sorted([*skipped, *copies], key=lambda each: each.file)
    return sorted(sheets, key=lambda each: each.name.casefold()), skipped


def _found(folder):
    """All progress files, and what could not be looked into."""
    files, skipped = [], []

    def refused(problem):
        place = Path(problem.filename or folder)
        skipped.append(Skipped(file=_place(place, folder), why=f"could not be looked into ({problem.strerror})"))

    for place, _, names in os.walk(folder, onerror=refused):
        for path in (Path(place) / name for name in names if name.endswith(ENDING)):
            # What is no plain file may keep a reader waiting for ever.
            if path.is_file():
                files.append(path)
            else:
                skipped.append(Skipped(file=_place(path, folder), why="is no plain file"))
    return sorted(files), skipped


def _place(path, folder):
    return said(path.relative_to(folder).as_posix() if path.is_relative_to(folder) else path)


def said(path):
    """A name as it can be shown and written anywhere: what is no text, or steers a screen, is spelled out."""
    text = os.fsencode(path).decode("utf-8", "backslashreplace")
    return "".join(each if each.isprintable() else each.encode("unicode_escape").decode("ascii") for each in text)


def _copied_and_read(path, room):
    """Read a copy, since reading may finish what a crash left half done, and learners' files stay as they are."""
    copy = room / FILE_NAME
    for ending in COMPANIONS:
        Path(f"{copy}{ending}").unlink(missing_ok=True)
    try:
        if path.stat().st_size > MOST_BYTES:
            raise Unfit(f"is larger than {MOST_BYTES // 1_000_000} MB")
        for ending in COMPANIONS:
            with contextlib.suppress(FileNotFoundError):
                shutil.copyfile(f"{path}{ending}", f"{copy}{ending}")
    except OSError as problem:
        raise Unfit(f"could not be read ({problem.strerror or problem})") from None
    return Progress(copy).everything()


def _without_copies(read):
    """Pass over earlier copies of a learner's file. Two who began from one copied file and went on apart are two."""
    by_tag = {}
    for number, (tag, sheet) in enumerate(read):
        by_tag.setdefault(tag or number, []).append(sheet)
    kept, copies = [], []
    for sheets in by_tag.values():
        own = []
        # The longest first; of equal ones that whose name comes first.
        for sheet in sorted(sheets, key=lambda each: -len(each.attempts)):
            whole = next((each for each in own if _begins(each, sheet)), None)
            if whole is None:
                own.append(sheet)
            else:
                copies.append(Skipped(file=sheet.file, why=f"is an earlier or equal copy of {whole.file}"))
        kept += own
    return kept, copies


def _begins(longer, shorter):
    return longer.attempts[: len(shorter.attempts)] == shorter.attempts


def _names(folder, files):
    """Each file's learner. Two who would be called alike are called by the whole place of their files."""
    short = {path: said(_short(folder, path)) for path in files}
    often = Counter(short.values())
    return {path: name if often[name] == 1 else _place(path, folder) for path, name in short.items()}


def _short(folder, path):
    alone = path.name != FILE_NAME or path.parent == Path(folder)
    return path.stem if alone else path.parent.name
