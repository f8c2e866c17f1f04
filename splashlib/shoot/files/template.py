"""A new set-up file: every setting on its line, with a few words about it."""

from splashlib.shoot.files.keys import BLOCKS, head_block
from splashlib.shoot.files.toml_values import written
from splashlib.shoot.setup.fields import value_at

HEAD = """\
# The set-up of a shoot. Change a number, save, and read it again; the unit stands in the key.
# A line that you delete falls back on the tea-house scene. Comments of your own stay.
# Heights are counted from the resting water, those of the body from its lowest point.
"""

WORDS = {
    "drop": "What falls. Leave length_mm out for a round body.",
    "beam": "The beam that the falling body breaks.",
    "trigger": "The box between the beam and the camera or the flash.",
    "camera": "The camera, its lens and its place.",
    "camera.mirror": "Lags of the camera, one block for each style: put in what you measured.",
    "room": "The room light.",
    "vessel": "The vessel.",
    "flashes.0": "The flash heads: one block like this for each.",
}


def fresh_text(setup):
    """Write a whole set-up as the text of a new file.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    str
    """
    heads = [head_block(number) for number in range(len(setup.flashes))]
    return "\n".join([HEAD, *(_block(setup, names, rows) for names, rows in (*BLOCKS, *heads))])


def _block(setup, names, rows):
    title = ".".join(names)
    lines = [f"# {WORDS[title]}"] if title in WORDS else []
    lines.append("[[flashes]]" if names[0] == "flashes" else f"[{title}]")
    said = [(f"{row.key} = {written(row, value_at(setup, row.path))}", row) for row in rows]
    room = max(len(text) for text, _ in said)
    lines += [f"{text.ljust(room)}  # {_comment(row)}" for text, row in said]
    return "\n".join(lines) + "\n"


def _comment(row):
    if row.kind == "text":
        return row.label
    if row.kind == "choice":
        return f"{row.label}: {', '.join(value for _, value in row.choices)}"
    return f"{row.label} ({row.allowed.split(' from ')[1]})"
