"""The blocks and keys of a set-up file, and one clear line about a key that is not among them."""

import difflib
import re

from splashlib.shoot.setup.field_rows import STYLES, quoted
from splashlib.shoot.setup.fields import field
from splashlib.shoot.setup.table import SECTIONS, SUFFIX


def _blocks():
    """Every block but the flash heads': its names in the file, and its rows."""
    for section in ("drop", "beam", "trigger", "camera", "room", "vessel"):
        yield (section,), tuple(SECTIONS[section].values())
        if section == "camera":
            for style in STYLES:
                # A shutter that is held open has a first curtain but no lag.
                names = ("first_curtain",) if style == "held_open" else tuple(SECTIONS["release"])
                yield ("camera", style), tuple(field(f"camera.{style}.{name}") for name in names)


BLOCKS = tuple(_blocks())
LONG = 300
"""So much of a line or a key is looked at to say what is wrong with it; the time grows with its square."""


def head_block(number):
    """The block of one flash head, as in BLOCKS."""
    return ("flashes", str(number)), tuple(field(f"flashes.{number}.{name}") for name in SECTIONS["flashes"])


def require_names(table, allowed, text, name, names):
    """Refuse a key that the file's block does not have, and name what may have been meant."""
    for key in table:
        if key not in allowed:
            inside = f" in {title_of(names)}" if names else ""
            where = place_of(text, name, names, key)
            raise ValueError(f"{where}: {quoted(key)}{inside} is not a setting; {_meant(key, allowed, names)}")


def _meant(key, allowed, names):
    key = key[:LONG]
    if names == ("camera", "held_open"):
        return "a shutter held open has a first_curtain but no lag of its own"
    same = [each for each in allowed if _stem(each) == _stem(key)]
    if same:
        return f"the unit belongs to the key: write {same[0]}"
    close = difflib.get_close_matches(key, allowed, n=1, cutoff=0.7)
    elsewhere = None if close else _elsewhere(key, names)
    if elsewhere:
        return elsewhere
    return f"the nearest is {(close or difflib.get_close_matches(key, allowed, n=1, cutoff=0.0))[0]}"


def _stem(key):
    """A key without its unit; inches and feet are tried too, though they are no units here."""
    ends = sorted({end for end in SUFFIX.values() if end} | {"in", "ft", "pct"}, key=len, reverse=True)
    return re.sub(f"_({'|'.join(ends)})$", "", key)


def _elsewhere(key, names):
    """Name the block that has such a key, nearest relatives first."""
    places = [(block, row.key) for block, rows in (*BLOCKS, head_block(0)) for row in rows]
    places.sort(key=lambda place: place[0][:1] != names[:1])
    found = next((place for place in places if _stem(place[1]) == _stem(key)), None)
    return f"{found[1]} belongs in {title_of(found[0]).removesuffix(' number 1')}" if found else None


def title_of(names):
    """How a block is headed in the file: [camera.mirror], or [[flashes]] with the number of the head."""
    return f"[[flashes]] number {int(names[1]) + 1}" if names[:1] == ("flashes",) else f"[{'.'.join(names)}]"


def _blocks_of(text):
    """Each line of a text: its number, the line, the block that it belongs to, and whether it is that one's header."""
    block, heads = (), 0
    for number, whole in enumerate(text.splitlines(), start=1):
        line = whole[:LONG]
        header = re.match(r"\s*(\[+)\s*([^\]]*?)\s*\]+", line)
        if header:
            block = tuple(part.strip(" \"'") for part in header[2].split("."))
            if header[1] == "[[":
                block, heads = (*block, str(heads)), heads + 1
        yield number, line, block, bool(header)


def block_at(text, number):
    """The names of the block that a line belongs to."""
    return next((block for at, _, block, _ in _blocks_of(text) if at == number), ())


def place_of(text, name, names, key):
    """Say the file, and the line where a key stands if it can be found."""
    found, loose = "", ""
    for number, line, block, header in _blocks_of(text):
        said = block[:1] if header and not names else (line.split("=")[0].strip(" \t\"'"),) * (block == names)
        if said == (key,):
            # Of a key that stands twice, the second one is the mistake: its line is told.
            found = f", line {number}"
        elif key and re.search(rf"\b{re.escape(key)}\b[\"']?\s*=", line.split("#")[0]):
            # Written as drop.release_height_cm, or within braces.
            loose = f", line {number}" if not loose else " "
    return name + (found or loose.strip())
