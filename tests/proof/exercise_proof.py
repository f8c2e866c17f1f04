"""The proof of a lesson's exercises: what an author's test calls, so that no wrong answer passes.

def test_exercises():
    check_exercises(exercises)
"""

import json
import random
import re
import time

from splashlib.classroom.judges import judge
from splashlib.classroom.judges.judging import plain_word
from splashlib.classroom.judges.number import accepted, slip_reach, tolerance, two_digits
from splashlib.classroom.judges.replies import OUTCOMES
from splashlib.classroom.questions.units import UNITS, find_unit, units_of
from splashlib.classroom.questions.variants import drawn_inputs, order
from splashlib.classroom.questions.wording import say, show
from splashlib.shoot import field
from splashlib.shoot.setup import fields
from tests.proof.hostile_answers import HOSTILE, UNTOUCHED

NUMBER = r"(?<![\w.])([-−]?\d+(?:\.\d+)?(?:e-?\d+)?) ?([^\s.,;:)]*)"
"""A number in a text, and the word behind it."""


class Findings(list):
    """What is wrong, line by line."""

    def expect(self, holds, text):
        if not holds:
            self.append(text)


def check_exercises(exercises, variants=500, *, seconds=0.2):
    """Assert that all exercises of a lesson judge as they should, over many variants.

    Parameters
    ----------
    exercises : Exercises
    variants : how many
    seconds : how long a reply to rubbish may take [s]

    Notes
    -----
    In each variant the right answer passes, in several spellings; each slip gets its own reply and no other's; a
    value just outside the tolerance fails; a stored answer is judged as it was. Untouched is "not attempted", and
    rubbish gets a short plain reply. No reply tells the right value. The worked solution shows the right answer: a
    number with its unit and all digits asked for, a formula letter by letter, code that passes when it is answered,
    settings as they are displayed. Raises AssertionError with all that was found.
    """
    found, state = Findings(), random.getstate()
    for question in exercises.questions.values():
        _check_texts(found, question)
        _check_variants(found, question, variants)
        _check_rubbish(found, question, seconds)
        _check_leaks(found, question, min(variants, 60))
    found.expect(random.getstate() == state, "the random state was disturbed")
    if found:
        raise AssertionError("\n".join([f"{exercises!r}:", *list(dict.fromkeys(found))[:40]]))


def _check_texts(found, question):
    name, values = question.name, judge.numbers(question)
    found.expect(say(question.prompt, values).strip(), f"{name}: there is no prompt")
    found.expect(say(question.worked, values).strip(), f"{name}: there is no worked solution")
    found.expect(len(question.slips) >= 2, f"{name}: two or more slips are needed")
    found.expect(question.hints, f"{name}: there is no hint")
    found.expect(all(say(hint, values).strip() for hint in question.hints), f"{name}: a hint is empty")
    names = [slip.name for slip in question.slips]
    found.expect(len(set(names)) == len(names), f"{name}: two slips have the same name")


def _key(question, variant):
    """What a judgement depends on; variants that share it are looked at once."""
    extra = ()
    if question.kind == "choice":
        extra = tuple(option.key for option in order(question, variant))
    elif question.kind == "function":
        extra = tuple(tuple(case.items()) for case in drawn_inputs(question, variant))
    return (*judge.numbers(question, variant).items(), extra)


def _check_variants(found, question, variants):
    seen, met = set(), set()
    for variant in range(1, variants + 1):
        key = _key(question, variant)
        if key not in seen:
            seen.add(key)
            met |= _check_variant(found, question, variant)
    never = {slip.name for slip in question.slips} - met
    found.expect(not never, f"{question.name}: no variant shows the slip {', '.join(sorted(never))}")


def _reply(question, answer, variant, unit=None):
    """The reply, by way of a stored record, as a later report judges it."""
    stored = json.loads(json.dumps(judge.record(question, answer, unit, variant=variant)))
    return judge.verdict(question, stored, variant=variant)


def _reply_in_si(question, answer, variant):
    """As `_reply`, to an answer in SI."""
    given, unit = _given(question, answer)
    return _reply(question, given, variant, unit)


def _check_variant(found, question, variant):
    values, kind = judge.numbers(question, variant), judge.kind_of(question)
    where = f"{question.name}, variant {variant}"
    for answer, unit in _spellings(question, kind.right_answer(question, values, variant)):
        reply = _reply(question, answer, variant, unit)
        found.expect(reply.right, f"{where}: the right answer {_shown(answer)} {unit or ''} gets: {reply}")
    met = set()
    for slip in question.slips:
        answer = kind.slip_answer(question, slip, values, variant)
        if answer is None:
            continue
        met.add(slip.name)
        reply = _reply_in_si(question, answer, variant)
        good = (reply.outcome, reply.slip) == ("slip", slip.name) and reply.text.strip()
        found.expect(good, f"{where}: the slip {slip.name!r} ({_shown(answer)}) gets: {reply.slip!r} {reply}")
        if question.kind == "number":
            rounded = two_digits(question, answer)
            told = _reply_in_si(question, rounded, variant).slip == slip.name
            sure = abs(rounded - answer) <= slip_reach(question, answer)
            found.expect(
                told or not sure, f"{where}: the slip {slip.name!r}, rounded to {_shown(rounded)}, is not told"
            )
    worked = say(question.worked, values)
    found.expect(_solved(question, values, worked, variant), f"{where}: the worked solution shows another answer")
    for answer in _outside(question, values):
        reply = _reply_in_si(question, answer, variant)
        found.expect(not reply.right, f"{where}: {answer} is outside the tolerance and passes")
    return met


def _shown(answer):
    return repr(answer)[:80]


def _given(question, answer):
    """An answer in SI as a learner would give it: with a unit that has a name; other kinds as they are."""
    if question.kind != "number":
        return answer, None
    unit = units_of(UNITS[question.unit].measures)[0] or question.unit
    return answer / UNITS[unit].size, unit


def _spellings(question, answer):
    """The right answer as different learners give it."""
    yield _given(question, answer)
    if question.kind == "number":
        printed = show(answer, question.unit, question.digits)
        yield printed, None
        yield show(two_digits(question, answer), question.unit, 6), None
        # 1.234 with a comma can be read in two ways, and is asked about.
        if not re.search(r"(?<!\d)[1-9]\d{0,2}\.\d{3}(?!\d)", printed):
            yield printed.replace(".", ",", 1), None
    elif question.kind == "choice":
        yield f" {answer.upper()}) ", None
    elif question.kind == "formula":
        yield f"{question.gives} = ({answer})" if question.gives else f"({answer})", None


def _solved(question, values, text, variant):
    """Whether a worked solution shows the right answer. A choice is argued in words, which no program reads."""
    if question.kind == "number":
        return _shows(float(question.answer(values)), UNITS[question.unit], question.digits, text)
    right = judge.kind_of(question).right_answer(question, values, variant)
    if question.kind == "formula":
        return _typed(f"{question.gives}={right}") in _typed(text)
    if question.kind == "function":
        return _reply(question, _function_in(text), variant).right
    if question.kind == "settings":
        return all(_shows_setting(field(path), value, text) for path, value in right.items())
    return True


def _shows(answer, asked, digits, text):
    """Whether a number in a text, with its unit, is the answer [SI] to so many digits."""
    for number, word in re.findall(NUMBER, text):
        unit = find_unit(word) if word else asked
        if unit is None or unit.measures != asked.measures or not (word or not asked.name):
            continue
        off = abs(float(number.replace("−", "-")) - answer / unit.size)
        enough = len(re.sub(r"^[-−0.]+|\.", "", number)) >= digits
        rounding = 0.5 * 10.0 ** -len(number.partition(".")[2]) if enough else 0
        if off <= rounding + 1e-9 * abs(answer / unit.size):
            return True
    return show(answer, asked.name, digits) in text


def _shows_setting(row, value, text):
    """As `_shows`, for a setting as it is displayed. A choice such as the camera style is told in words."""
    if row.kind == "choice":
        return True
    label = fields.show(row.path, value)
    return any(said in text for said in (label, f"ISO {label}")) or (
        row.kind == "number" and _shows(value, UNITS[row.unit], 2, text)
    )


def _typed(formula):
    """A formula as it is typed, from one as it is printed."""
    for printed, typed in (("²", "^2"), ("³", "^3"), ("·", "*"), ("−", "-"), ("√", "sqrt"), (" ", "")):
        formula = formula.replace(printed, typed)
    return formula


def _function_in(text):
    """The last function that the code in a worked solution makes, or None."""
    made = {}
    for code in re.findall(r"^```\w*\n(.*?)^```", text, re.S | re.M):
        exec(compile(code, "worked", "exec"), made)
    functions = [each for name, each in made.items() if callable(each) and not name.startswith("__")]
    return functions[-1] if functions else None


def _outside(question, values):
    """Numbers just outside the tolerance."""
    if question.kind != "number":
        return ()
    low, high = accepted(question, values)
    step = 1.02 * tolerance(question, float(question.answer(values)))
    return low - step, high + step


def _check_rubbish(found, question, seconds):
    for answer in UNTOUCHED:
        reply = _reply(question, answer, 1)
        found.expect(reply.outcome == "not_attempted", f"{question.name}: untouched {answer!r} gets: {reply}")
    for answer in HOSTILE:
        reply, took = _timed_reply(question, answer, seconds)
        shown = plain_word(answer) if isinstance(answer, list) else _shown(answer)
        what = f"{question.name}: rubbish {shown}"
        found.expect(took < seconds, f"{what} took {took:.2f} s")
        found.expect(not reply.right and reply.outcome in OUTCOMES, f"{what} gets {reply.outcome}")
        found.expect(reply.text.strip() and len(reply.text) < 500, f"{what} gets no plain reply: {reply.text[:80]}")
        found.expect("Traceback" not in reply.text, f"{what} gets a traceback")
    if question.kind == "number":
        _check_units(found, question)


def _timed_reply(question, answer, seconds, tries=3):
    """The reply to the first variant, and its time; tried again where it was slow, since the machine may be busy."""
    began = time.perf_counter()
    reply = _reply(question, answer, 1)
    took = time.perf_counter() - began
    return (reply, took) if took < seconds or tries == 1 else _timed_reply(question, answer, seconds, tries - 1)


def _check_units(found, question):
    measures = UNITS[question.unit].measures
    for unit in UNITS.values():
        if unit.measures != measures and unit.name:
            reply = _reply(question, 3.0, 1, unit.name)
            found.expect(reply.outcome == "wrong_unit", f"{question.name}: 3 {unit.name} gets: {reply}")


def _values_in(text, unit):
    """The values that a text shows [SI]: with the unit behind them, or else in the unit asked for."""
    for number, word in re.findall(NUMBER, text):
        yield float(number.replace("−", "-")) * (find_unit(word) or UNITS[unit]).size


def _tells(question, values, text):
    """Whether a text shows the right value."""
    if question.kind == "formula":
        kind = judge.kind_of(question)
        return kind.right_answer(question, values).replace(" ", "") in text.replace(" ", "")
    answer = float(question.answer(values))
    return any(abs(value - answer) <= tolerance(question, answer) for value in _values_in(text, question.unit))


def _check_leaks(found, question, variants):
    """A reply that shows the right value by chance does so sometimes; one that gives it away does so always."""
    if question.kind not in ("number", "formula"):
        return
    told, differing = {}, {}
    kind = judge.kind_of(question)
    for variant in range(1, variants + 1):
        values = judge.numbers(question, variant)
        for slip in question.slips:
            answer = kind.slip_answer(question, slip, values, variant)
            if answer is not None:
                text = _reply_in_si(question, answer, variant).text
                told.setdefault(slip.name, []).append(_tells(question, values, text))
                differing.setdefault(slip.name, set()).add(kind.right_answer(question, values))
    for name, tells in told.items():
        if question.kind == "formula" or len(differing[name]) >= 3:
            found.expect(not all(tells), f"{question.name}: the reply to {name!r} tells the right value")
