"""Malformed answers to each kind of question: one plain reply within its time, and the same from its stored record.

python -m tests.hard.answers 20000 [SEED] [KIND ...]
"""

import json
import math
import random
import re
import signal
import sys
import time
from contextlib import contextmanager
from pathlib import Path

from splashlib.classroom.judges.judge import record, rejudge, verdict
from splashlib.classroom.judges.replies import OUTCOMES
from tests.classroom.samples import EMPTY_FRAME, IN_TIME, QUICK, TIME, TIME_FORMULA
from tests.proof.hostile_answers import HOSTILE, UNTOUCHED

LIMIT = 0.2
"""So much of a processor's time one answer may take [s]."""
HANGS = 5.0
"""After so long an answer is given up [s]."""
PATH = re.compile(r"\b(?:beam|trigger|camera|flashes|vessel)\.[a-z_]+")
# fmt: off
SCRAPS = (
    *"0123456789.,+-−*/^()[]{}=<>!~@%&|;:'\"\\#_ \n\t`$", "ms", "s", "cm", "µs", "stops", "1/32", "1 1/3", "f/",
    "ISO ", "e5", "e-400", "10^", "×10⁻³", "nan", "inf", "½", "²", "√(", "sqrt(", "exp(", "ln(", "abs(", "asin(", "h",
    "g", "gh", "2g", "pi", "**", "//", "lambda ", "__class__", "import os", "a", "b)", "late", "\x00", "\u200b",
    "\u202e", "\ud800", "🍊", "ｈ", "һ", "١", "</div>", "{0}", "%s", "303", "0,5",
)
# fmt: on
FUNCTIONS = ("sqrt", "exp", "log", "ln", "log2", "log10", "sin", "cos", "tan", "asin", "acos", "atan", "abs")
PATHS = (
    "beam.height",
    "trigger.delay",
    "drop.release_height",
    "camera.style",
    "beam",
    "",
    "flashes.0.power",
    "x.y.z",
    "🍊",
)


def scraps(rng):
    """A text of scraps, now and then a long one."""
    return "".join(rng.choices(SCRAPS, k=rng.choice((1, 2, 3, 5, 8, 13, 40, 400 if rng.random() < 0.02 else 6))))


def grown(rng, depth=None):
    """A formula that can be read more often than not, deep and costly."""
    depth = rng.randint(1, 6) if depth is None else depth
    if depth == 0 or rng.random() < 0.15:
        return rng.choice(("h", "g", "2", "5", "0.5", "0", "1", "pi", "0.71", "9.81", "1e-9", "2h"))
    if rng.random() < 0.45:
        return f"{rng.choice(FUNCTIONS)}({grown(rng, depth - 1)})"
    if rng.random() < 0.3:
        return f"({grown(rng, depth - 1)})^({rng.choice(('2', '0.5', '-1', 'h', '1/3', '50', 'pi', '7'))})"
    return f"({grown(rng, depth - 1)}){rng.choice('+-*/ ')}({grown(rng, depth - 1)})"


def changed(rng, text):
    """A text with a few characters changed, dropped or doubled."""
    for _ in range(rng.randint(1, 3)):
        at = rng.randrange(len(text) + 1)
        text = text[:at] + rng.choice(("", rng.choice(SCRAPS), text[at : at + 1] * 2)) + text[at + rng.randint(0, 2) :]
    return text


def odd(rng):
    """An object, or a text that is long or strange in its own way."""
    return rng.choice(HOSTILE + UNTOUCHED)


def number_answer(rng):
    """A malformed number."""
    return rng.choice((scraps, scraps, odd, lambda rng: changed(rng, rng.choice(("202 ms", "0,202 s", "2.02e-1 s")))))(
        rng
    )


def choice_answer(rng):
    """A malformed choice."""
    return rng.choice((scraps, odd, lambda rng: changed(rng, rng.choice(("a", "late", "b)")))))(rng)


def formula_answer(rng):
    """A malformed or costly formula."""
    return rng.choice((scraps, grown, grown, odd, lambda rng: changed(rng, grown(rng)), lambda rng: "[" * 100_000))(rng)


def settings_answer(rng):
    """Malformed settings."""
    value = rng.choice((scraps, odd, lambda rng: rng.choice((-1, 0, 1e9, math.pi, "30 cm", "12 s", 10**400))))
    return rng.choice((odd, lambda rng: {rng.choice(PATHS): value(rng) for _ in range(rng.randint(0, 3))}))(rng)


def function_answer(rng):
    """A function that does not do what was asked, or no function."""
    thing, scale = odd(rng), rng.uniform(-3, 3)
    return rng.choice(
        (
            lambda x: thing,
            lambda x: scale * x,
            lambda: thing,
            lambda x, y: x,
            lambda x: thing(x),
            lambda x: x[0],
            lambda x: math.sqrt(-x * abs(scale)),
            lambda x: sys.exit(thing),
            lambda *given, **named: given,
            lambda x: {x: thing},
            thing,
        )
    )


KINDS = {
    "number": (TIME, number_answer),
    "choice": (EMPTY_FRAME, choice_answer),
    "formula": (TIME_FORMULA, formula_answer),
    "function": (QUICK, function_answer),
    "settings": (IN_TIME, settings_answer),
}


class Hangs(BaseException):
    """An answer took far too long."""


@contextmanager
def alarm(seconds):
    """Give up what takes longer; where the system has no such clock it is waited for."""
    if not hasattr(signal, "setitimer"):
        yield
        return

    def late(*_):
        raise Hangs

    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def faults(question, answer):
    """What is wrong with the reply to one answer, as a line; "" where nothing is."""
    began = time.process_time()
    try:
        with alarm(HANGS):
            stored = json.loads(json.dumps(record(question, answer)))
            reply = verdict(question, stored)
    except (Hangs, Exception) as problem:
        return f"{type(problem).__name__}: {problem}"
    took = time.process_time() - began
    if took > LIMIT:
        return f"took {took:.2f} s"
    if reply.outcome not in OUTCOMES or not (reply.right or reply.text.strip()):
        return f"no plain reply: {reply!r}"
    if len(reply.text) > 600 or "Traceback" in reply.text or PATH.search(re.sub(r"`[^`]*`", "", reply.text)):
        return f"not a plain reply: {reply!r}"
    return "" if rejudge(question, stored) == reply else "judged otherwise from its record"


def tried(kind, count, seed=0, told=None):
    """Faulty answers among so many: list of (answer, fault); after each thousand `told` is told of it."""
    question, draw = KINDS[kind]
    rng, found = random.Random(seed), []
    for number in range(count):
        if told and number % 1000 == 0:
            told(kind, number, len(found))
        answer = draw(rng)
        fault = faults(question, answer)
        if fault:
            found.append((repr(answer)[:200], fault))
    return found


def progress(kind, number, fell):
    """Say how far it has come: a run that is ended from outside leaves that behind."""
    held = int(Path("/proc/self/statm").read_text().split()[1]) * 4096 / 2**20 if Path("/proc/self").exists() else 0
    print(f"    {time.strftime('%H:%M:%S')} {kind}: {number} answers, {fell} fell, {held:.0f} MB", flush=True)


def main():
    """Try so many of each kind, and print what fell."""
    count, seed = (int(sys.argv[place]) if len(sys.argv) > place else usual for place, usual in ((1, 20_000), (2, 0)))
    for kind in sys.argv[3:] or KINDS:
        began = time.perf_counter()
        found = tried(kind, count, seed, progress)
        print(f"{kind}: {count} answers in {time.perf_counter() - began:.0f} s, {len(found)} fell", flush=True)
        for answer, fault in found[:20]:
            print(f"    {answer}\n        {fault}")


if __name__ == "__main__":
    main()
