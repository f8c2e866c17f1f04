"""What a widget sends to the browser: its own script and style, after those that all of them share."""

from pathlib import Path

HERE = Path(__file__).parent
PARTS = {"panel": ("sight", "steps", "enlarge", "veil", "origin")}
"""What else a widget's script is made of; it stands before it. Their styles, where they have some, stand behind."""


def script(name):
    """The script of one widget, with the shared functions before it.

    Parameters
    ----------
    name : str, such as "panel": the file beside this one, without its ending

    Returns
    -------
    str : JavaScript, one module
    """
    return _joined("shared.js", *(f"{part}.js" for part in PARTS.get(name, ())), f"{name}.js")


def style(name):
    """The style sheet of one widget, with the course's colours before it; `name` as for `script`."""
    parts = (f"{part}.css" for part in PARTS.get(name, ()))
    return _joined("house.css", f"{name}.css", *(part for part in parts if (HERE / part).exists()))


def _joined(*names):
    return "\n".join((HERE / name).read_text(encoding="utf-8") for name in names)
