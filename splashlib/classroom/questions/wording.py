"""Prompts and replies: filled with a variant's numbers, and turned from a little Markdown into HTML.

Everything is escaped first, so that what a learner typed can never become markup of its own.
"""

import html
import math
import re

from splashlib.classroom.questions.units import UNITS

LONGEST_QUOTE = 60


def say(text, values, *more, **extra):
    """A text of a question: a string with {names} of the variant's numbers, or a function of them."""
    if callable(text):
        return str(text(values, *more))
    return text.format_map({**values, **extra})


def digits_of(value, digits=3):
    """A number as it is printed: so many significant digits, no exponent in the everyday range."""
    value = float(value)
    if value == 0 or not math.isfinite(value):
        return f"{abs(value) if value == 0 else value:g}"
    size = math.floor(math.log10(abs(float(f"{value:.{digits - 1}e}"))))
    if -5 < size < 7:
        return f"{round(value, digits - 1 - size):.{max(digits - 1 - size, 0)}f}"
    return f"{value:.{digits - 1}e}"


def said(value, digits=3):
    """As `digits_of`, for people: 5.7·10^7 where a computer writes 5.7e+07, and no zeros at its end."""
    number, _, power = digits_of(value, digits).partition("e")
    return _raised(number.rstrip("0").rstrip(".") if "." in number else number, power)


def _raised(number, power):
    return f"{number}·10^{int(power)}" if power else number


def show(value, unit="", digits=3):
    """A value in SI, printed in `unit`: show(0.303, "ms") is "303 ms".

    Parameters
    ----------
    value : number [SI]
    unit : name of a unit, see `splashlib.classroom.questions.units`
    digits : significant digits
    """
    known = UNITS[unit]
    printed, _, power = digits_of(float(value) / known.size, digits).partition("e")
    number = _raised(printed, power)
    if known.before:
        return f"{known.before}{number}"
    return with_unit(number, unit)


ONE = {"stops": "stop", "doublings": "doubling", "drops": "drop", "pictures": "picture"}
"""Units that are counted, by ones."""
ALONE = re.compile(r"[-−]?1(\.0+)?")


def with_unit(number, unit):
    """A printed number and its unit: 2 stops, -1 stop, 303 ms."""
    return f"{number} {ONE.get(unit, unit) if ALONE.fullmatch(str(number)) else unit}".strip()


def quoted(text, longest=LONGEST_QUOTE):
    """What a learner typed, as a short code span."""
    text = " ".join(str(text).replace("`", "'").split())
    text = "".join(c if c.isprintable() else "?" for c in text)
    return f"`{text[:longest]}{'…' if len(text) > longest else ''}`"


def sentence(line):
    """A line of an error as people who drag read it: a capital, no paths of settings at its end, a full stop."""
    line = re.sub(r" \((?:[a-z_]+\.[a-z_.0-9]+(?:, )?)+\)$", "", line)
    if not line:
        return ""
    return f"{line[:1].upper()}{line[1:]}{'' if line.endswith(('.', '!', '?')) else '.'}"


def listed(names):
    """Names in a row: a; a and b; a, b and c."""
    *first, last = names
    return f"{', '.join(first)} and {last}" if first else last


INLINE = (
    (re.compile(r"\*\*(.+?)\*\*"), r"<strong>\1</strong>"),
    (re.compile(r"(?<![\w*])\*([^*\s][^*]*?)\*(?![\w*])"), r"<em>\1</em>"),
    # Links lead to headings of the same notebook and nowhere else.
    (re.compile(r"\[([^\]]+)\]\((#[\w.,?!-]+)\)"), r'<a href="\2">\1</a>'),
)


def _inline(text):
    """Escape a line; mark code spans, strong, emphasis and links to headings."""
    pieces = []
    for number, piece in enumerate(re.split(r"`([^`]+)`", text)):
        piece = html.escape(piece)
        if number % 2:
            pieces.append(f"<code>{piece}</code>")
            continue
        for pattern, made in INLINE:
            piece = pattern.sub(made, piece)
        pieces.append(piece)
    return "".join(pieces)


def to_html(text):
    """A little Markdown as HTML: paragraphs, lists, fenced code, strong, emphasis, code, own links."""
    blocks = []
    for number, block in enumerate(re.split(r"^```\w*\n(.*?)^```\s*$", text.strip(), flags=re.S | re.M)):
        if number % 2:
            blocks.append(f"<pre><code>{html.escape(block)}</code></pre>")
        else:
            blocks.extend(_block(part) for part in re.split(r"\n\s*\n", block) if part.strip())
    return "\n".join(blocks)


def _block(part):
    lines = part.strip().splitlines()
    for mark, tag in (("[-*]", "ul"), (r"\d+[.)]", "ol")):
        if re.match(rf"{mark} ", lines[0].lstrip()):
            joined = re.split(rf"^\s*{mark} ", part.strip(), flags=re.M)[1:]
            items = "".join(f"<li>{_inline(' '.join(item.split()))}</li>" for item in joined)
            return f"<{tag}>{items}</{tag}>"
    return f"<p>{_inline(' '.join(' '.join(lines).split()))}</p>"
