"""Put new files in the place of old ones in one step: after a crash there is the one or the other, never half of it."""

import contextlib
import os
import stat
import tempfile
import time
from pathlib import Path

PREFIX, ENDING = ".splash-", ".new"
STALE = 60.0  # a temporary file of this age was left behind by a kill [s]


def replace_file(path, data):
    """Write one file; its owner, its rights and links to it stay.

    Parameters
    ----------
    path : str or pathlib.Path
    data : bytes

    Raises
    ------
    OSError : no room, no right, a loop of links; the old file is then as it was.
    """
    replace_files({path: data})


def replace_files(contents):
    """Write several files, all of them or none.

    Parameters
    ----------
    contents : dict
        Path to bytes.

    Notes
    -----
    All new files are on the disk before the first takes its place. When one cannot (on Windows: open in another
    program), those before it are put back. Only a power cut between two renames can part them.
    """
    places = {_real(path): data for path, data in contents.items()}
    made, done = {}, {}
    try:
        for path, data in places.items():
            made[path] = _made_beside(path, data)
        for path in places:
            before = path.read_bytes() if path.exists() else None
            _put(made[path], path, places[path])
            done[path] = before
    except BaseException:
        for path, before in done.items():
            _put_back(path, before)
        raise
    finally:
        for temporary in made.values():
            temporary.unlink(missing_ok=True)


def _real(path):
    """The file itself where the path is a link; a loop of links is an OSError in every version of Python."""
    try:
        return Path(path).resolve()
    except RuntimeError:
        raise OSError(40, "too many levels of symbolic links") from None


def _made_beside(path, data):
    """A temporary file in the same folder with the new content, on the disk. Those left by a kill are removed."""
    _remove_stale(path.parent)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=PREFIX, suffix=ENDING)
    temporary = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        _like(temporary, path)
    except BaseException:
        temporary.unlink(missing_ok=True)
        raise
    return temporary


def _like(temporary, path):
    """Give a new file the rights and the owner of the old one."""
    old = path.stat() if path.exists() else None
    os.chmod(temporary, stat.S_IMODE(old.st_mode) if old else 0o644)
    if old and hasattr(os, "chown"):
        # Only root may give a file away; for everybody else owner and writer are mostly the same.
        with contextlib.suppress(PermissionError):
            os.chown(temporary, old.st_uid, old.st_gid)


def _put(temporary, path, data):
    if path.exists() and path.stat().st_nlink > 1:
        _overwrite(path, data)
    else:
        os.replace(temporary, path)


def _overwrite(path, data):
    """Write into a file that has a second name (a hard link), which a rename would part from it.

    One write covers the old text to its end, with empty lines behind a shorter one: a kill leaves a whole text.
    """
    with path.open("r+b", buffering=0) as file:
        file.write(data.ljust(path.stat().st_size, b"\n"))
        file.truncate(len(data))
        os.fsync(file.fileno())


def _put_back(path, before):
    with contextlib.suppress(OSError):
        if before is None:
            path.unlink(missing_ok=True)
        else:
            os.replace(_made_beside(path, before), path)


def _remove_stale(folder):
    for left in folder.glob(f"{PREFIX}*{ENDING}"):
        with contextlib.suppress(OSError):
            if time.time() - left.stat().st_mtime > STALE:
                left.unlink()
