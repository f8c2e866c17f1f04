"""Reading a set-up file, TOML that a person can edit: units in the keys, mistakes named with their mend."""

import re
import stat
import tomllib
from dataclasses import replace
from pathlib import Path

from splashlib.shoot.files.keys import BLOCKS, LONG, block_at, head_block, place_of, require_names, title_of
from splashlib.shoot.files.mends import mend, mended_line, said_value
from splashlib.shoot.files.toml_values import Digits, read_value
from splashlib.shoot.setup.default_scene import tea_house
from splashlib.shoot.setup.field_rows import SettingError
from splashlib.shoot.setup.fields import change_all, field
from splashlib.shoot.setup.parts import Flash

MOST_HEADS = 20
MOST_BYTES = 1_000_000
MOST_DOTS = 40  # a key of so many parts is no setting, and the parser's time grows with their square
ASIDE = re.compile(r"\"[^\"]*\"|'[^']*'|#.*")


def load_setup(path):
    """Read a set-up file.

    Parameters
    ----------
    path : str or pathlib.Path

    Returns
    -------
    Setup
        A key that is missing in the file has the value of the tea-house scene; a body without a length is
        round. ValueError, one line with file, key, value and what is allowed, for anything that is wrong.
    """
    path = Path(path)
    return understood(text_of(path), path.name)[1]


def text_of(path):
    try:
        return _bytes_of(path).decode("utf-8-sig")
    except FileNotFoundError:
        raise ValueError(f"{path}: there is no such file") from None
    except UnicodeDecodeError:
        raise ValueError(f"{path.name} is not a text file in UTF-8") from None
    except (OSError, RuntimeError) as error:  # RuntimeError: a loop of links, before Python 3.13
        raise ValueError(f"{path}: the file cannot be read ({why(error)})") from None


def _bytes_of(path):
    """What is in a plain file of a sensible size; a pipe would keep the reader waiting for ever."""
    if not stat.S_ISREG(path.stat().st_mode):
        raise ValueError(f"{path}: the file cannot be read (it is no plain file)")
    with path.open("rb") as file:
        found = file.read(MOST_BYTES + 1)
    if len(found) > MOST_BYTES:
        raise ValueError(f"{path.name} is no set-up: it is longer than {MOST_BYTES // 1_000_000} MB")
    return found


def why(error):
    return getattr(error, "strerror", None) or " ".join(str(error).split())


def understood(text, name):
    """Return what stands in a set-up file's text, as plain dicts, and its set-up; ValueError with one line."""
    for number, line in enumerate(text.splitlines(), 1):
        if line.count(".") > MOST_DOTS and ASIDE.sub("", line).count(".") > MOST_DOTS:
            raise ValueError(f"{name}, line {number}: this is not a set-up; a key of so many parts is no setting")
    try:
        # With a line end of our own, every mistake lies on a line and none "at the end of the document".
        parsed = tomllib.loads(text if text.endswith("\r") else text + "\n", parse_float=Digits)
    except tomllib.TOMLDecodeError as error:
        raise ValueError(_not_toml(str(error), text, name)) from None
    except RecursionError:
        raise ValueError(f"{name}: this is not a set-up; it is nested too deeply") from None
    except ValueError:
        # Python refuses to read whole numbers of thousands of digits.
        raise ValueError(f"{name}: this is not a set-up; a number in it has too many digits") from None
    return parsed, _setup_in(parsed, text, name)


def _not_toml(said, text, name):
    """One line about a file that is no TOML: where, what stands there, and what to write instead."""
    found = re.fullmatch(r"(.*?) \(at line (\d+), column (\d+)\)", said)
    if not found:
        return f"{name}: this is not TOML ({said})"
    said, number = found[1], int(found[2])
    lines = text.splitlines() or [""]
    if number > 1 and (number > len(lines) or (said.startswith("Cannot overwrite") and int(found[3]) == 1)):
        number -= 1
    line = lines[min(number, len(lines)) - 1][:LONG]
    twice = re.match(r"\s*\[*\s*[\"']?([^\s=\"'\]]+)", line) if "twice" in said or "overwrite" in said else None
    if twice:
        return f"{name}, line {number}: this is not TOML ({twice[1]} already exists further up)"
    block = block_at(text, number)
    typed, advice = mended_line(line, {row.key: row for row in _rows_of(block)})
    if not advice:
        return f"{name}, line {number}: this is not TOML ({said})"
    return f"{name}, line {number}: {typed} in {title_of(block)} cannot be read; {advice}"


def _rows_of(block):
    if block[:1] == ("flashes",) and len(block) == 2:
        return head_block(0)[1]
    return dict(BLOCKS).get(block, ())


def _setup_in(parsed, text, name):
    require_names(parsed, ("flashes", *(names[0] for names, _ in BLOCKS)), text, name, ())
    heads = _heads(parsed, name)
    setup = tea_house()
    if heads is not None:
        setup = replace(setup, flashes=(Flash(),) * len(heads))
    changes = {}
    for names, rows in BLOCKS:
        changes |= _block_changes(table_in(parsed, names, name), names, rows, text, name)
    for number, table in enumerate(heads or ()):
        changes |= _block_changes(table, *head_block(number), text, name)
    try:
        return change_all(setup, changes)
    except ValueError as error:
        raise ValueError(f"{_places(str(error), text, name)}: {error}") from None


def _places(said, text, name):
    """The file, and the lines of the settings that a message names at its end, in brackets."""
    paths = re.findall(r"[a-z_]+(?:\.\w+)+", said.rsplit("(", 1)[-1]) if said.endswith(")") else []
    found = (place_of(text, name, *_key_of(path)).rpartition(", line ")[2] for path in paths)
    lines = sorted({int(each) for each in found if each.isdecimal()})
    if not lines:
        return name
    return f"{name}, line{'s' if len(lines) > 1 else ''} {' and '.join(map(str, lines))}"


def _key_of(path):
    """The block and the key of a setting; those of a whole part, such as flashes.0, are not on one line."""
    try:
        return tuple(path.split(".")[:-1]), field(path).key
    except ValueError:
        return (), ""


def _heads(parsed, name):
    """The tables of the flash heads; None when the file says nothing about them."""
    if "flashes" not in parsed:
        return None
    heads = parsed["flashes"]
    if not isinstance(heads, list) or not 1 <= len(heads) <= MOST_HEADS:
        raise ValueError(
            f"{name}: flashes must be one to {MOST_HEADS} blocks, each under a line [[flashes]] of its own"
        )
    return heads


def table_in(parsed, names, name):
    """Return the block with these names, an empty one where the file has none."""
    table = parsed
    for part in names:
        table = table.get(part, {})
        if not isinstance(table, dict):
            raise ValueError(f"{name}: {'.'.join(names)} must be a block under a line [{'.'.join(names)}]")
    return table


def _block_changes(table, names, rows, text, name):
    """The settings in one block, as changes [SI]."""
    if not isinstance(table, dict):
        raise ValueError(f"{name}: flashes must be blocks, each under a line [[flashes]] of its own")
    inner = {block[1] for block, _ in BLOCKS if len(block) == 2 and block[:1] == names}
    by_key = {row.key: row for row in rows}
    require_names(table, (*by_key, *inner), text, name, names)
    keys = [key for key in table if key not in inner]
    return {by_key[key].path: _read(by_key[key], table[key], text, name, names) for key in keys}


def _read(row, value, text, name, names):
    try:
        return read_value(row, value)
    except SettingError as error:
        where, said = place_of(text, name, names, row.key), said_value(value)
        advice = mend(row, said) if isinstance(value, str) else ""
        mended = f"; {advice}" if advice else ""
        allowed = f"{row.key} = {said} in {title_of(names)}; it must be {error.allowed}"
        raise ValueError(f"{where}: {allowed}{mended}") from None
