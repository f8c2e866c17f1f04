"""One home for the learner's files: the folder named by SPLASH_HOME, else the current one."""

import os
from pathlib import Path

from splashlib.shoot.files.reading import load_setup
from splashlib.shoot.setup.default_scene import tea_house


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


def my_setup():
    """Return the learner's own set-up, or the tea-house scene while there is none. Nothing is written.

    Returns
    -------
    Setup
    """
    path = my_setup_path()
    return load_setup(path) if path.exists() else tea_house()


def readable_setup():
    """Return the learner's own set-up, or the scene also while the file has a mistake, which others tell.

    Returns
    -------
    Setup
    """
    try:
        return my_setup()
    except ValueError:
        return tea_house()
