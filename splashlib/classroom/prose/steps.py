"""What to try at a panel, step by step: the lines that stand under it in the lesson's text, for the panel itself."""

import re

_ITEM = re.compile(r"^\d+\. +")
_ROW = re.compile(r"^\| *(?P<drag>.+?) *\| *(?P<say>.+?) *\|$")
_PLAIN = ((re.compile(r"\[([^\[\]]+)\]\([^()]*\)"), r"\1"), (re.compile(r"\*\*?([^*]+)\*\*?"), r"\1"))
"""Links, bold and italic words of Markdown, and what is left of them."""


def steps(text, *, panel, numbers):
    """Find the steps that belong to a panel.

    Parameters
    ----------
    text : pathlib.Path, of a lesson's text.md
    panel : str
        The id of the cell that shows the panel. Its steps are the first numbered list, or the first table of what
        to drag and what to say, between that cell and the next heading or the next panel.
    numbers : splashlib.classroom.prose.numbers.Numbers
        What fills the numbers of the steps.

    Returns
    -------
    tuple of str, plain text
        ValueError where the text has no such panel or no steps for it.
    """
    source = text.read_text(encoding="utf-8")
    found = re.search(rf'^```python [^\n]*id="{re.escape(panel)}"$.*?^```$', source, re.DOTALL | re.MULTILINE)
    if not found:
        raise ValueError(f"{text.parent.name}/{text.name} has no cell {panel}")
    after = re.split(r'^#|^```python [^\n]*tags=\["panel"\]', source[found.end() :], maxsplit=1, flags=re.MULTILINE)[0]
    lines = _items(after.splitlines()) or _rows(after.splitlines())
    if not lines:
        raise ValueError(f"{text.parent.name}/{text.name} has no steps for {panel}")
    return tuple(_plain(numbers.fill(line, where=f"{text.parent.name}/{text.name}")) for line in lines)


def _items(lines):
    """The items of the first numbered list, each on one line."""
    items = []
    for line in lines:
        if _ITEM.match(line):
            items.append(_ITEM.sub("", line))
        elif items and line.startswith("   "):
            items[-1] += f" {line.strip()}"
        elif items and line.strip():
            break
    return items


def _rows(lines):
    """The rows of the first table of what to drag and what to say."""
    rows = [match for match in map(_ROW.match, lines) if match and not set(match["drag"]) <= set("-: ")]
    if not rows or rows[0]["drag"] != "drag":
        return []
    return [f"{row['drag'][:1].upper()}{row['drag'][1:]}. {row['say']}" for row in rows[1:]]


def _plain(line):
    for pattern, left in _PLAIN:
        line = pattern.sub(left, line)
    return line
