"""Cutting a typed formula into tokens of our own: numbers, the given letters, known functions, signs.

Anything else is refused here, in words, before a parser sees it: attribute access, brackets of other kinds,
letters that only look like ours. Products without a sign are read in `products`.
"""

import re
import unicodedata
from dataclasses import dataclass

from splashlib.classroom.formulas.products import with_signs

TOKENS = 150
DEPTH = 30
_SPELLINGS = {"×": "*", "·": "*", "⋅": "*", "∙": "*", "÷": "/", "⁄": "/", "∕": "/", "−": "-", "–": "-", "√": "sqrt "}
# A space on both sides keeps 2½ from becoming 20.5.
_SPELLINGS |= {"½": " 0.5 ", "¼": " 0.25 ", "¾": " 0.75 ", "π": "pi", "\u00a0": " ", "\u2009": " ", "\u202f": " "}
_RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻⁽⁾ⁿ"
_LOWERED = str.maketrans(_RAISED, "0123456789+-()n")
_NUMBER = r"(?:[0-9]+(?:\.[0-9]*|,[0-9]+)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
# √2 and √h are clear; where √2gh ends is not, and brackets are asked for.
_ROOT = re.compile(r"√\s*([0-9]+(?:[.,][0-9]+)?|[^\W\d_])(?![\w.,])(?!\s*[\w(√½¼¾])")
_TOKEN = re.compile(rf"\s*(?:(?P<number>{_NUMBER})|(?P<name>[^\W\d]\w*)|(?P<sign>\*\*|[-+*/^(),]))")


@dataclass(frozen=True)
class Token:
    """A piece of a formula: its text, what it is, and whether a space stood before it."""

    text: str
    kind: str
    gap: bool = False


def cut(text, places, functions):
    """The tokens of a formula; ValueError with one plain line at the first thing that has no meaning here."""
    text = re.sub(f"[{_RAISED}]+", lambda found: f"^({found.group().translate(_LOWERED)})", text)
    text = _ROOT.sub(r" sqrt(\1)", text)
    text = "".join(_SPELLINGS.get(character, character) for character in text).rstrip()
    tokens, at, depth = [], 0, 0
    while at < len(text):
        found = _TOKEN.match(text, at)
        if not found:
            raise ValueError(_odd_character(text[at:].lstrip()[0]))
        made = _tokens(found, places, functions)
        depth += (made[0].text == "(") - (made[0].text == ")")
        if depth < 0 or depth > DEPTH:
            raise ValueError("there is a ) too many." if depth < 0 else "the brackets are nested too deeply.")
        tokens += made
        at = found.end()
    if depth:
        raise ValueError("a ( is never closed.")
    if len(tokens) > TOKENS:
        raise ValueError("the formula has too many parts.")
    return with_signs(tokens)


def _tokens(found, places, functions):
    """What one match stands for: a token, or several letters that were written in a row."""
    text, kind, gap = found.group(found.lastgroup), found.lastgroup, found.group()[0].isspace()
    if kind == "number":
        return [Token(_number(text), kind, gap)]
    if kind == "sign":
        return [Token("**" if text == "^" else text, kind, gap)]
    if text in functions:
        return [Token(text, "function", gap)]
    letters = _letters(text, places)
    return [Token(letter, "letter", gap and not place) for place, letter in enumerate(letters)]


def _letters(name, places):
    """The letters that a name is made of: itself, or gh as g and h."""
    known = sorted({*places, "pi"}, key=len, reverse=True)
    if name in known:
        return [name]
    _refuse_lookalikes(name)
    if re.fullmatch("|".join(map(re.escape, known)).join(("(?:", ")+")), name):
        return re.findall("|".join(map(re.escape, known)), name)
    letters = ", ".join(places) or "none"
    raise ValueError(f"I do not know {name[:20]}; the letters here are {letters}.{_meant(name, known)}")


def _meant(name, known):
    """What somebody may have meant who wrote x for times, or v2 for a square."""
    if name in ("x", "X"):
        return " For times write *."
    letter, digit = name[:-1], name[-1]
    return f" For a power write {letter}^{digit}." if letter in known and digit in "0123456789" else ""


def _odd_character(character):
    if character == "=":
        return "write only what stands right of the = sign."
    if character in ".[]{}'\"":
        return f"the character {character} has no meaning here; brackets are ( ) and numbers look like 0.5."
    name = unicodedata.name(character, "a character without a name").lower()
    return f"the character {character!r} ({name}) has no meaning here."


def _refuse_lookalikes(name):
    for character in name:
        if not character.isascii():
            what = unicodedata.name(character, "a character without a name").lower()
            raise ValueError(f"{character!r} is {what}, not the letter it looks like; type it again.")


def _number(text):
    """A number with a point; a comma that may as well part thousands is asked about."""
    digits, _, exponent = text.lower().partition("e")
    if len(digits) > 16 or abs(int(exponent[:9] or 0)) > 30:
        raise ValueError(f"the number {text[:20]} is longer or larger than a formula here needs.")
    if re.fullmatch(r"[1-9]\d{0,2},\d{3}", digits):
        plain = text.replace(",", "")
        raise ValueError(f"{text} can be read in two ways; write {text.replace(',', '.')} or {plain}.")
    return text.replace(",", ".")
