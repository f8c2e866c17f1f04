"""Tries that take long: each is a script of its own, `python -m tests.hard.NAME [HOW MANY]`.

`pytest` runs a short form of each; SPLASH_LONG=1 in the environment makes it the long one.
"""

import os


def how_many(short, long):
    """How many tries a test makes: the short form, or the long one where the environment asks for it."""
    return long if os.environ.get("SPLASH_LONG") else short
