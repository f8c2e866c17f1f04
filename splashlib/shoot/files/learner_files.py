"""One home for the learner's files: the folder named by SPLASH_HOME, else the current one."""

import os
from pathlib import Path

from splashlib.shoot.files.reading import load_setup
from splashlib.shoot.setup.default_scene import tea_house
from splashlib.shoot.setup.fields import change_all


def home():
    """Return the folder of the learner's own files; it is not made here.

    Returns
    -------
    pathlib.Path
    """
    return Path(os.environ.get("SPLASH_HOME") or Path.cwd())


def my_setup_path():
    """Return where the learner's set-up file is, or will be.

    Returns
    -------
    pathlib.Path
    """
    return home() / "my_setup.toml"


def own_setup():
    """Return the learner's own set-up, and what is wrong with its file; nothing is written and nothing raised.

    Returns
    -------
    (Setup, str)
        The tea-house scene while there is no file, or while it has a mistake; that mistake in one line, or "".
    """
    try:
        path = my_setup_path()
        return (load_setup(path) if os.path.lexists(path) else tea_house()), ""
    except (ValueError, OSError) as problem:  # OSError: the current folder has been deleted
        return tea_house(), " ".join(str(problem).split())


def my_setup(changes=None):
    """Return the learner's own set-up for a cell of code; it never ends the cell because of the learner's file.

    Parameters
    ----------
    changes : dict, optional
        Path to value [SI], as for `change_all`.

    Returns
    -------
    Setup
        The scene while there is no file. When the file has a mistake, or the changes cannot stand together with
        it, the scene too, and that is said in one printed line. ValueError for changes that are impossible anyway.
    """
    own, problem = own_setup()
    if not problem:
        try:
            return change_all(own, changes or {})
        except ValueError as error:
            problem = f"{my_setup_path().name} and this change cannot both hold: {error}"
    scene = change_all(tea_house(), changes or {})
    print(f"{problem}. Until that is mended, this is the scene of the course.")
    return scene


def readable_setup():
    """Return the learner's own set-up, or the scene also while the file has a mistake, which others tell.

    Returns
    -------
    Setup
    """
    return own_setup()[0]


def is_own(setup):
    """Whether the learner has a file, and it says this set-up.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    bool
    """
    return os.path.lexists(my_setup_path()) and own_setup() == (setup, "")
