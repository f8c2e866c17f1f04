"""What the judges of all kinds share: untouched answers, plain words for odd objects, replies to slips.

A judge of a kind is a module with
    record(question, answer, unit, variant, values)  what was answered, as plain data that JSON can hold
    verdict(question, record, variant, values)   the Reply, from that data alone
    apart(question, values, variant)             whether the right answer and all slips tell apart
    right_answer(question, values, variant)      an answer that passes
    slip_answer(question, slip, values, variant) the answer of someone who makes that slip, or None
"""

import json
import math
from fractions import Fraction

from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.wording import say

LONGEST_STORED = 2000
LONGEST_WORD = 120  # for a kind of thing, as plain_word says it
LONGEST_REST = 4000
MOST_OTHERS = 5
PLAIN = (int, float, Fraction)
PLAIN_WORDS = {
    "bool": "a yes or no",
    "complex": "a complex number",
    "complex128": "a complex number",
    "list": "a list",
    "tuple": "a list of several values",
    "set": "a set of several values",
    "dict": "a table of values (dict)",
    "ndarray": "an array of values",
    "function": "a function",
    "builtin_function_or_method": "a function; call it with ()",
    "str": "a text",
    "type": "a type",
    "module": "a module",
}


def untouched(answer):
    """Whether nothing was answered: None, ..., blank text, or text of dots only."""
    if answer is None or answer is Ellipsis:
        return True
    return type(answer) is str and len(answer) < 200 and not answer.strip(" .…_?\t\r\n\u00a0")


def stripped(answer):
    """A text or a number of a class of its own as plain text or number, so that nothing of that class is run."""
    kind = type(answer)
    if issubclass(kind, str) and kind is not str:
        return str.__str__(answer)
    if issubclass(kind, float) and kind is not float:
        return float.__float__(answer)
    if issubclass(kind, int) and kind is not int and kind is not bool:
        return int.__int__(answer)
    return answer


def safely(read, answer):
    """The record that reading an answer gives; where an odd object raises on being looked at, its kind."""
    try:
        return read()
    except Exception:
        return {"other": plain_word(answer)}


def comes_from(answer, *packages):
    """Whether the class of an answer was made in one of these packages, as its own name says."""
    home = _own(type(answer), "__module__")
    return isinstance(home, str) and home.split(".")[0] in packages


def _own(kind, name):
    """What a class itself says, past any metaclass."""
    return type.__dict__[name].__get__(kind)


def real_number(answer):
    """The value of a number as a float, or None if it is no real number; nan and inf are numbers here.

    Numbers are those of Python, numpy and sympy; what only says that it is one is not asked for its value.
    """
    if comes_from(answer, "numpy") and getattr(answer, "shape", None) == ():
        answer = answer.item()
    # A comparison of classes with == would ask a metaclass.
    plain = any(type(answer) is kind for kind in PLAIN)
    known = plain or _own(type(answer), "__module__") == "sympy.core.numbers"
    try:
        return float(answer) if known else None
    except (OverflowError, TypeError):
        return None


def plain_word(answer):
    """What kind of thing an answer is, in words. Looks at its type only: nothing of the answer is run."""
    if any(type(answer) is kind for kind in PLAIN):
        return _number_word(answer)
    name = _own(type(answer), "__name__")
    return PLAIN_WORDS.get(name, f"something of the kind {name[:40]}")


def _number_word(answer):
    try:
        return "a number" if math.isfinite(answer) else "not a finite number"
    except OverflowError:
        return "a number too large to work with"


def stored_text(text):
    """A typed text as it is kept."""
    text = str.__str__(text).encode("utf-8", "replace").decode("utf-8")
    if len(text) > LONGEST_STORED:
        return {"text": text[:LONGEST_STORED], "length": len(text)}
    return {"text": text}


def check_sound(record):
    """Raise ValueError for a stored record that is longer or shaped otherwise than any that was ever stored.

    What is no record at all is left to the judge, who takes it for no answer.
    """
    if not isinstance(record, dict):
        return
    rest = {key: value for key, value in record.items() if key != "text"}
    sizes = len(str(record.get("text", ""))), len(str(record.get("other", ""))), len(json.dumps(rest))
    others = record.get("others", [])
    fits = all(size <= most for size, most in zip(sizes, (LONGEST_STORED, LONGEST_WORD, LONGEST_REST), strict=True))
    if not fits or not isinstance(others, list) or len(others) > MOST_OTHERS:
        raise ValueError("a record is shorter")


def right(question, values):
    """The reply to a right answer."""
    return Reply("right", say(question.meaning, values))


def slipped(question, slip, values, value, /, **words):
    """The reply to a recognised slip."""
    text = say(slip.reply, values, value, **words)
    return Reply("slip", text, slip=slip.name, see=slip.see or question.see)
