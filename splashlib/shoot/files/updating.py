"""Bring the text of a set-up file up to date: only values that changed are touched, new keys go to their block."""

import re

import tomlkit
from tomlkit.items import AoT, InlineTable, Table

from splashlib.shoot.files.keys import BLOCKS, head_block
from splashlib.shoot.files.reading import table_in, understood
from splashlib.shoot.files.template import fresh_text
from splashlib.shoot.files.toml_values import read_value, written
from splashlib.shoot.setup.default_scene import scene_value, tea_house
from splashlib.shoot.setup.fields import value_at

# The time that the editing of a text takes grows with the square of its length: 0.4 s for so many characters.
MOST_TEXT = 100_000


def updated(old, setup, name):
    """Return the text of a file that says `setup`.

    Parameters
    ----------
    old : str
        The text of a file that can be read.
    setup : Setup
    name : str
        The file's name, for messages.

    Returns
    -------
    str
        With the comments, the order and the spelling of the old one. A layout that cannot be edited is replaced
        by a fresh one with the old comments at its end. ValueError for a text that is far longer than a set-up.
    """
    if len(old) > MOST_TEXT:
        raise ValueError(f"{name} is longer than {MOST_TEXT} characters; shorten its comments. It was not changed")
    # One kind of line end while it is worked on, and one after the last line: what is added starts a new one.
    text = old.replace("\r\n", "\n").rstrip("\n") + "\n"
    new = _edited(text, setup)
    if new is None:
        new = "\n".join([fresh_text(setup), *_comments(text)]) + "\n"
    return new.replace("\n", "\r\n") if "\r\n" in old else new


def _comments(text):
    """The comments of a text, line by line; what only looks like one is kept as well."""
    found = ["#" + line.split("#", 1)[1] for line in text.splitlines() if "#" in line]
    return ["# Comments from the file as it was before:", *found] if found else []


def _edited(text, setup):
    """The text with its values changed in place; None when that does not come out right."""
    parsed, _ = understood(text, "the old text")
    try:
        document = tomlkit.parse(text)
        for names, rows in BLOCKS:
            _update_block(document, names, _news(table_in(parsed, names, ""), rows, setup))
        if "flashes" in parsed or setup.flashes != tea_house().flashes:
            _update_heads(document, parsed.get("flashes", []), setup)
        new = document.as_string()
        return new if understood(new, "the new text")[1] == setup else None
    except Exception:  # the library is not at home in every layout; what it gives is checked, or not used
        return None


# What a file does not say of a further head is as with the first.
_FIRST_HEAD = re.compile(r"^flashes\.\d+\.")


def _news(table, rows, setup):
    """Key to TOML text of what the file does not say yet."""
    news = {}
    for row in rows:
        value = value_at(setup, row.path)
        absent = (
            setup.drop.diameter if row.path == "drop.length" else scene_value(_FIRST_HEAD.sub("flashes.0.", row.path))
        )
        before = read_value(row, table[row.key]) if row.key in table else absent
        if before != value:
            news[row.key] = written(row, value)
    return news


def _update_block(document, names, news):
    """Change values where they stand, for a block may stand in pieces; what is new goes to its first piece."""
    pieces = list(_pieces(document, names))
    fresh = {}
    for key, text in news.items():
        home = next((piece for piece in pieces if key in piece), None)
        if home is None:
            fresh[key] = text
        else:
            home[key] = tomlkit.value(text)
    if fresh:
        _append(_block(document, pieces, names), fresh)


def _pieces(container, names):
    """Every table of the document with these names, in the order of the file."""
    if not names:
        yield container
        return
    body = container.value.body if isinstance(container, Table | InlineTable) else container.body
    for key, item in body:
        if key is not None and key.key == names[0] and isinstance(item, Table | InlineTable):
            yield from _pieces(item, names[1:])


def _block(document, pieces, names):
    """The table for new keys: one with a header of its own rather than one that only holds others."""
    headed = [each for each in pieces if isinstance(each, InlineTable) or not each.is_super_table()]
    if headed or pieces:
        return (headed or pieces)[0]
    place = document
    for depth in range(1, len(names) + 1):
        there = list(_pieces(document, names[:depth]))
        if not there:
            place.append(names[depth - 1], tomlkit.table())
            there = list(_pieces(document, names[:depth]))
        place = there[-1]
    return place


def _update_heads(document, said, setup):
    if not said:
        document.append("flashes", tomlkit.aot())
    heads = document["flashes"]
    while len(heads) > len(setup.flashes):
        del heads[-1]
    for number in range(len(setup.flashes)):
        if number == len(heads):
            _add_head(heads, number)
        _, rows = head_block(number)
        news = _news(said[number] if number < len(said) else {}, rows, setup)
        old = {key: text for key, text in news.items() if key in heads[number]}
        for key, text in old.items():
            heads[number][key] = tomlkit.value(text)
        _append(heads[number], {key: text for key, text in news.items() if key not in old})


def _add_head(heads, number):
    if isinstance(heads, AoT):
        heads.append(tomlkit.table())
        heads[number].add(tomlkit.nl())
    else:
        heads.append(tomlkit.inline_table())


def _append(table, news):
    """Add keys at the end of a block's own, before blank lines and comments that lead to the next block."""
    body = table.value.body if isinstance(table, Table) else []
    for key, text in news.items():
        tail = []
        while body and body[-1][0] is None:
            tail.insert(0, body.pop()[1])
        table.append(key, tomlkit.value(text))
        for each in tail:
            table.add(each)
