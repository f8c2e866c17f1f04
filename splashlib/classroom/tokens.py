"""Cutting a typed formula into tokens of our own: numbers, the given letters, known functions, signs.

Anything else is refused here, in words, before a parser sees it: attribute access, brackets of other kinds,
letters that only look like ours, products without a sign.
"""

import re
import unicodedata

TOKENS = 150
DEPTH = 30
_SPELLINGS = {"×": "*", "·": "*", "⋅": "*", "∙": "*", "÷": "/", "−": "-", "–": "-", "²": "^2", "³": "^3"}
_SPELLINGS |= {
    "½": "(1/2)",
    "¼": "(1/4)",
    "√": "sqrt ",
    "π": "pi",
    "\u00a0": " ",
    "\u2009": " ",
    "\u202f": " ",
}
_TOKEN = re.compile(
    r"\s*(?:(?P<number>(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)|(?P<name>[^\W\d]\w*)"
    r"|(?P<sign>\*\*|[-+*/^(),]))"
)


def cut(text, places, functions):
    """The tokens of a formula; ValueError with one plain line at the first thing that has no meaning here."""
    text = "".join(_SPELLINGS.get(character, character) for character in text)
    tokens, at, depth = [], 0, 0
    text = text.rstrip()
    while at < len(text):
        found = _TOKEN.match(text, at)
        if not found:
            raise ValueError(_odd_character(text[at:].lstrip()[0]))
        token = found.group(found.lastgroup)
        if found.lastgroup == "name":
            _check_name(token, places, functions)
        elif found.lastgroup == "number":
            _check_number(token)
        depth += (token == "(") - (token == ")")
        if depth < 0 or depth > DEPTH:
            raise ValueError("there is a ) too many." if depth < 0 else "the brackets are nested too deeply.")
        tokens.append("**" if token == "^" else token)
        at = found.end()
    if depth:
        raise ValueError("a ( is never closed.")
    if len(tokens) > TOKENS:
        raise ValueError("the formula has too many parts.")
    _check_neighbours(tokens, functions)
    return tokens


def _odd_character(character):
    if character == "=":
        return "write only what stands right of the = sign."
    if character in ".[]{}'\"":
        return f"the character {character} has no meaning here; brackets are ( ) and numbers look like 0.5."
    name = unicodedata.name(character, "a character without a name").lower()
    return f"the character {character!r} ({name}) has no meaning here."


def _check_name(name, places, functions):
    if name in places or name in functions or name == "pi":
        return
    for character in name:
        if not character.isascii():
            what = unicodedata.name(character, "a character without a name").lower()
            raise ValueError(f"{character!r} is {what}, not the letter it looks like; type it again.")
    if set(name) <= set(places):
        raise ValueError(f"write {'*'.join(name[:20])} with a * between the letters.")
    known = ", ".join(places) or "none"
    raise ValueError(f"I do not know {name[:20]}; the letters here are {known}.")


def _check_number(number):
    digits, _, exponent = number.lower().partition("e")
    if len(digits) > 16 or abs(int(exponent or 0)) > 30:
        raise ValueError(f"the number {number[:20]} is longer or larger than a formula here needs.")


def _check_neighbours(tokens, functions):
    """Refuse products without a sign and functions without brackets: people read them in different ways."""
    for token, follower in zip(tokens, [*tokens[1:], ""], strict=True):
        ends = token == ")" or token[0].isalnum() or token[0] in "._"
        starts = follower == "(" or follower[:1].isalnum() or follower[:1] in ("_", ".")
        if token in functions and follower != "(":
            raise ValueError(f"{token} needs brackets: {token}(...).")
        if ends and starts and not (token in functions and follower == "("):
            raise ValueError(f"write a * between {token[:20]} and {follower[:20]}.")
