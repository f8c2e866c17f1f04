"""A set-up as a TOML file that a person can edit: units in the keys, comments kept, mistakes named."""

import os
import re
import tempfile
from dataclasses import replace
from pathlib import Path

import tomlkit
from tomlkit.exceptions import TOMLKitError

from splashlib.shoot.fields import change_all, value_at
from splashlib.shoot.fresh import fresh_text
from splashlib.shoot.keys import BLOCKS, head_block, place_of, require_names, title_of
from splashlib.shoot.rows import SettingError
from splashlib.shoot.setup import Flash, tea_house
from splashlib.shoot.toml_values import read_value, written

MOST_HEADS = 20


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
    return _understood(_text_of(path), path.name)[1]


def _text_of(path):
    try:
        return path.read_bytes().decode("utf-8-sig")
    except FileNotFoundError:
        raise ValueError(f"{path}: there is no such file") from None
    except UnicodeDecodeError:
        raise ValueError(f"{path.name} is not a text file in UTF-8") from None
    except OSError as error:
        raise ValueError(f"{path}: the file cannot be read ({error.strerror})") from None


def _understood(text, name):
    """Return the parsed file and its set-up."""
    try:
        parsed = tomlkit.parse(text)
    except TOMLKitError as error:
        raise ValueError(_not_toml(error, text, name)) from None
    except RecursionError:
        raise ValueError(f"{name}: this is not a set-up; it is nested too deeply") from None
    return parsed, _setup_in(parsed, text, name)


def _not_toml(error, text, name):
    """One line about a file that is no TOML; a key that stands twice is looked for, the parser keeps its line."""
    line = getattr(error, "line", None)
    said = " ".join(str(error).split(" at line ")[0].split())
    if line is None and (twice := re.fullmatch(r'Key "(.*)" already exists\.', said)):
        places = [n for n, each in enumerate(text.splitlines(), 1) if twice[1] in re.split(r"[\s=\[\].\"']+", each)]
        line = places[-1] if places else None
    return f"{name}{f', line {line}' if line else ''}: this is not TOML ({said})"


def _setup_in(parsed, text, name):
    require_names(parsed, ("flashes", *(names[0] for names, _ in BLOCKS)), text, name, ())
    heads = _heads(parsed, name)
    setup = tea_house()
    if heads is not None:
        setup = replace(setup, flashes=(Flash(),) * len(heads))
    changes = {}
    for names, rows in BLOCKS:
        changes |= _block_changes(_table(parsed, names, name), names, rows, text, name)
    for number, table in enumerate(heads or ()):
        changes |= _block_changes(table, *head_block(number), text, name)
    try:
        return change_all(setup, changes)
    except ValueError as error:
        raise ValueError(f"{name}: {error}") from None


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


def _table(parsed, names, name):
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


def _read(row, item, text, name, names):
    try:
        return read_value(row, item)
    except SettingError as error:
        said = item.as_string() if hasattr(item, "as_string") else str(item).lower()
        said = " ".join(said.split())
        said = said if len(said) <= 60 else said[:57] + "..."
        where = place_of(text, name, names, row.key)
        raise ValueError(f"{where}: {row.key} = {said} in {title_of(names)}; it must be {error.allowed}") from None


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
    if not path.exists():
        _replace_file(path, fresh_text(setup))
        return
    old = _text_of(path)
    # One kind of line end while it is worked on, and one after the last line: what is added starts a new one.
    text = old.replace("\r\n", "\n").rstrip("\n") + "\n"
    try:
        parsed, before = _understood(text, path.name)
    except ValueError as error:
        raise ValueError(f"{error}; the file was not changed") from None
    if before == setup:
        return
    _update(parsed, setup)
    new = parsed.as_string()
    if not _says(new, setup):
        raise ValueError(f"{path.name} is laid out in a way that cannot be updated; it was not changed")
    _replace_file(path, new.replace("\n", "\r\n") if "\r\n" in old else new)


def _says(text, setup):
    try:
        return _understood(text, "the new text")[1] == setup
    except ValueError:
        return False


def _update(parsed, setup):
    for names, rows in BLOCKS:
        _update_block(parsed, names, rows, setup)
    if "flashes" in parsed or setup.flashes != tea_house().flashes:
        _update_heads(parsed, setup)


def _update_block(parsed, names, rows, setup):
    table = _table(parsed, names, "")
    news = _news(table, rows, setup)
    if not news:
        return
    for part in names:
        if part not in parsed:
            parsed.append(part, tomlkit.table())
        parsed = parsed[part]
    _write(parsed, news)


def _update_heads(parsed, setup):
    if "flashes" not in parsed:
        parsed.append("flashes", tomlkit.aot())
    heads = parsed["flashes"]
    while len(heads) > len(setup.flashes):
        del heads[-1]
    for number in range(len(setup.flashes)):
        if number == len(heads):
            heads.append(tomlkit.table())
            heads[number].add(tomlkit.nl())
        _, rows = head_block(number)
        _write(heads[number], _news(heads[number], rows, setup))


def _news(table, rows, setup):
    """Key to TOML text of what the file does not say yet."""
    news = {}
    for row in rows:
        value = value_at(setup, row.path)
        absent = setup.drop.diameter if row.path == "drop.length" else row.default
        before = read_value(row, table[row.key]) if row.key in table else absent
        if before != value:
            news[row.key] = written(row, value)
    return news


def _write(table, news):
    for key, text in news.items():
        if key in table:
            table[key] = tomlkit.value(text)
        else:
            _append(table, key, tomlkit.value(text))


def _append(table, key, item):
    """Add a key at the end of a block's keys, before blank lines and comments that lead to the next block."""
    body = table.value.body if hasattr(table, "value") and hasattr(table.value, "body") else []
    tail = []
    while body and body[-1][0] is None:
        tail.insert(0, body.pop()[1])
    table.append(key, item)
    for each in tail:
        table.add(each)


def _replace_file(path, text):
    path = path.resolve()
    try:
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=path.name, suffix=".new")
    except OSError as error:
        raise ValueError(f"{path}: the file cannot be written ({error.strerror})") from None
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, path.stat().st_mode & 0o777 if path.exists() else 0o644)
        os.replace(temporary, path)
    except BaseException:
        Path(temporary).unlink(missing_ok=True)
        raise
