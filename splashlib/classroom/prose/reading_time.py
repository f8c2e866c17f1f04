"""How long a lesson takes: measured from its words, the steps at its panels, and its questions.

A lesson has three parts. *Core* is what everybody does. *Extra* is what stands under a heading that begins so, and the
lines of code; a first reader may leave it out. *At the set* is the list that is read there, on the day of the shoot.
"""

import re
from dataclasses import dataclass

WORDS_A_MINUTE = 180  # a text with numbers in it, read with care
STEP = 0.5  # min; to move a handle and look
QUESTION = 2.0  # min; to read it, work it out, answer, and read the reply
PREDICTION = 1.0  # min; to read it and choose

EXTRA, SET = "Extra", "At the set"
EXTRA_SECTIONS = ("In code",)
PARTS = ("core", "extra", "set")

_FENCE = re.compile(r"^ *```.*?^ *``` *$", re.DOTALL | re.MULTILINE)
_HEADING = re.compile(r"^(#{2,}) +(.+?) *$", re.MULTILINE)
_NUMBER = re.compile(r"\[\[[^\]\n]*\]\]")
_FORMULA = re.compile(r"\$\$.*?\$\$|\$[^$\n]+\$", re.DOTALL)
_LINK = re.compile(r"\]\([^)]*\)")
_STEP = re.compile(r"^\d+[.)] ", re.MULTILINE)
_ASKED = re.compile(r"exercises\.ask\(")
_FORETOLD = re.compile(r"exercises\.predict\(")


@dataclass(frozen=True, kw_only=True)
class Work:
    """What a part of a lesson asks of a learner."""

    words: int = 0
    steps: int = 0
    questions: int = 0
    predictions: int = 0

    def __add__(self, other):
        return Work(**{name: getattr(self, name) + getattr(other, name) for name in self.__dataclass_fields__})

    @property
    def exact(self):
        """How long it takes [min]."""
        done = STEP * self.steps + QUESTION * self.questions + PREDICTION * self.predictions
        return self.words / WORDS_A_MINUTE + done

    @property
    def minutes(self):
        """The same to the nearest minute, as it is shown: a half goes up, and nothing takes less than one."""
        return max(1, int(self.exact + 0.5))


def work_in(text):
    """What each of PARTS asks for, as a dict of Work.

    Parameters: text, a lesson's text.md as it stands, its numbers not filled in: each counts as two words, the number
    and its unit.
    """
    found = dict.fromkeys(PARTS, Work())
    for part, piece in _pieces(text):
        found[part] += _work(piece)
    return found


def _pieces(text):
    """The text from heading to heading, each with the part that it belongs to."""
    marks = list(_headings(text))
    ends = [start for start, _, _ in marks[1:]] + [len(text)]
    section = ""
    for (start, level, heading), end in zip(marks, ends, strict=True):
        section = heading if level == 2 else section
        yield _part(section, heading), text[start:end]


def _headings(text):
    """Start, level and words of each heading; the text before the first one counts as one without words."""
    fences = [found.span() for found in _FENCE.finditer(text)]
    yield 0, 2, ""
    for found in _HEADING.finditer(text):
        if not any(start <= found.start() < end for start, end in fences):
            yield found.start(), len(found[1]), found[2]


def _part(section, heading):
    if section == SET:
        return "set"
    return "extra" if section in EXTRA_SECTIONS or heading.startswith(EXTRA) else "core"


def _work(piece):
    prose = _FENCE.sub("", piece)
    return Work(
        words=len(_spoken(prose)),
        steps=len(_STEP.findall(prose)),
        questions=len(_ASKED.findall(piece)),
        predictions=len(_FORETOLD.findall(piece)),
    )


def _spoken(prose):
    """The words that are read: a formula counts as one, signs of Markdown as none."""
    for pattern, put in ((_NUMBER, " 1 ms "), (_FORMULA, " 1 "), (_LINK, "")):
        prose = pattern.sub(put, prose)
    return re.findall(r"[^\W_]+(?:['’.,-][^\W_]+)*", prose)
