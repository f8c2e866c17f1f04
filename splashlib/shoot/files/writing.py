"""Writing a set-up file: a new one whole, an old one with its comments, in one step."""

import os
from pathlib import Path

from splashlib.shoot.files.reading import text_of, understood, why
from splashlib.shoot.files.replacing import replace_file
from splashlib.shoot.files.template import fresh_text
from splashlib.shoot.files.updating import updated


def save_setup(setup, path):
    """Write a set-up file, or bring an existing one up to date; comments, order and spelling of the rest stay.

    Parameters
    ----------
    setup : Setup
    path : str or pathlib.Path

    Notes
    -----
    A file that cannot be read as a set-up is not overwritten (ValueError). The new text is written beside the
    old and put in its place in one step, so that a crash leaves the one or the other.
    """
    path = Path(path)
    if not os.path.lexists(path):
        _replace(path, fresh_text(setup))
        return
    old = text_of(path)
    try:
        _, before = understood(old, path.name)
    except ValueError as error:
        raise ValueError(f"{error}; the file was not changed") from None
    if before != setup:
        _replace(path, updated(old, setup, path.name))


def _replace(path, text):
    try:
        replace_file(path, text.encode("utf-8"))
    except OSError as error:
        busy = "; is it open in another program?" if isinstance(error, PermissionError) and os.name == "nt" else ""
        raise ValueError(f"{path}: the file cannot be written ({why(error)}{busy})") from None
