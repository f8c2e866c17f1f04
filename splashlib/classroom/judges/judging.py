"""What the judges of all kinds share: untouched answers, plain words for odd objects, replies to slips.

A judge of a kind is a module with
    record(question, answer, unit, variant)      what was answered, as plain data that JSON can hold
    verdict(question, record, variant, values)   the Reply, from that data alone
    apart(question, values, variant)             whether the right answer and all slips tell apart
    right_answer(question, values, variant)      an answer that passes
    slip_answer(question, slip, values, variant) the answer of someone who makes that slip, or None
"""

import math

from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.wording import say

LONGEST_STORED = 2000
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
    return isinstance(answer, str) and len(answer) < 200 and not answer.strip(" .…_?\t\r\n\u00a0")


def plain_word(answer):
    """What kind of thing an answer is, in words. Looks at its type only: nothing of the answer is run."""
    if type(answer) in (int, float):
        return _number_word(answer)
    name = type(answer).__name__
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


def right(question, values):
    """The reply to a right answer."""
    return Reply("right", say(question.meaning, values))


def slipped(question, slip, values, value, /, **words):
    """The reply to a recognised slip."""
    text = say(slip.reply, values, value, **words)
    return Reply("slip", text, slip=slip.name, see=slip.see or question.see)
