"""What a learner did comes back: after a restart the same file is read by new exercises, as on the next day."""

import json
import sqlite3

import pytest

from splashlib.classroom.judges import judge
from splashlib.classroom.record.progress_file import Progress
from tests.classroom.samples import EMPTY_FRAME, QUESTIONS, TIME, sample_exercises


@pytest.fixture
def day(tmp_path):
    """Begin a day: exercises that know nothing but the learner's file."""
    return lambda: sample_exercises(progress=Progress(tmp_path / "p.sqlite"))


def milliseconds(exercises):
    """The right answer to TIME as it is asked now, to a tenth of a millisecond."""
    return f"{TIME.answer(exercises.numbers('time')) * 1000:.1f}"


def answers(exercises):
    return [(each.variant, each.outcome) for each in exercises.progress.attempts(act="answer")]


def test_the_numbers_the_answer_its_reply_and_the_mark_come_back(day):
    first = day()
    form = first.ask("time")
    form.act("fresh", {})
    typed = {"text": milliseconds(first), "unit": "ms"}
    form.act("check", typed)
    again = day().ask("time")
    assert again.variant == 2
    assert again._front.typed == {"variant": 2, "answer": typed}
    assert again.reply["outcome"] == "right"
    assert again.reply["solved"]
    assert TIME.meaning in again.reply["html"].replace("<p>", "")
    assert "That is your last answer" in again.reply["html"]


def test_new_numbers_come_back_without_an_answer(day):
    form = day().ask("time")
    form.act("check", {"text": "1", "unit": "s"})
    form.act("fresh", {})
    again = day().ask("time")
    assert again.variant == 2
    assert again.reply == {"number": 0, "solved": False}


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question.name)
def test_the_field_of_every_kind_is_filled_as_it_was(day, question):
    """What code answered stands in the form the next day, and is judged there as it was in code."""
    first, judging = day(), judge.kind_of(question)
    values = first.numbers(question.name)
    slips = [judging.slip_answer(question, slip, values, 1) for slip in question.slips]
    for given in [each for each in (judging.right_answer(question, values, 1), *slips) if each is not None]:
        said = first.check(question.name, given)
        again = day().ask(question.name)
        assert again.reply["outcome"] == said.outcome
        if question.kind != "function":
            again.act("check", again._front.typed["answer"])
            assert again.reply["outcome"] == said.outcome


def test_in_code_the_next_day_is_asked_with_the_same_numbers(day):
    first = day()
    first.fresh("time")
    given = milliseconds(first)
    assert first.check("time", given, "ms").right
    second = day()
    assert second.variant("time") == 2
    assert second.check("time", given, "ms").right
    # The untouched cell tells the last answer again.
    assert second.check("time", ...).right
    assert second.check("time", ...).note.startswith("That is your last answer")
    assert answers(second) == [(2, "right")]


def test_a_right_answer_is_not_judged_against_other_numbers(day):
    first = day()
    given = milliseconds(first)
    assert first.check("time", given, "ms").right
    first.fresh("time")
    second = day()
    reply = second.check("time", given, "ms")
    assert reply.outcome == "told"
    assert "Right with numbers no. 1" in reply.text
    assert answers(second) == [(1, "right")]
    assert not second.check("time", "1 s").right  # what was never right is judged as ever


def test_a_cell_that_runs_again_keeps_nothing_new(day):
    first = day()
    for given in ("1 s", "2 s", "1 s", "1 s", "2 s"):
        first.check("time", given)
    second = day()
    second.check("time", "1 s")
    assert len(answers(second)) == 2
    # In the form the last answer counts, also when it was given before.
    form = second.ask("time")
    form.act("check", {"text": "1 s", "unit": ""})
    form.act("check", {"text": "1 s", "unit": ""})
    assert len(answers(second)) == 3
    assert day().ask("time")._front.typed["answer"] == {"text": "1 s", "unit": ""}


def test_the_prediction_comes_back_and_is_noted_once(day):
    form = day().predict("empty frame")
    form.act("note", {"option": "weak"})
    second = day()
    again = second.predict("empty frame")
    assert again.reply["outcome"] == "noted"
    assert "You think" in again.reply["html"]
    assert again._front.typed["answer"] == {"option": "weak"}
    again.act("note", {"option": "weak"})
    assert len(second.progress.attempts(act="prediction")) == 1
    assert "You thought" in second.look_back("empty frame")._front.reply["html"]


def test_a_file_from_anywhere_leaves_the_question_standing(day, tmp_path):
    day().check("time", "1 s")
    day().note("empty frame", "weak")
    odd = ({"value": [1]}, {"text": 7}, {"option": {}}, {"settings": {"no.path": [1]}}, {"settings": 3}, {"unit": 3})
    for record in odd:
        for number in (3, 10**12):
            with sqlite3.connect(tmp_path / "p.sqlite") as connection:
                change = "UPDATE attempts SET answer = ?, variant = ?"
                connection.execute(change, (json.dumps(record), number))
            for question in QUESTIONS:
                with sqlite3.connect(tmp_path / "p.sqlite") as connection:
                    connection.execute("UPDATE attempts SET question = ?", (question.name,))
                form, again = day().ask(question.name), day().predict(question.name)
                assert form.variant in (1, 3)
                assert again.variant in (1, 3)
                day().look_back(question.name)
    # Whatever stood there, the question can be answered.
    assert day().check("empty frame", EMPTY_FRAME.options[0].key).outcome in ("right", "slip")


def test_the_standing_follows_by_itself(day):
    exercises = day()
    head = exercises.standing()
    assert f"0 of {len(QUESTIONS)} right" in head.html
    form = exercises.ask("time")
    form.act("check", {"text": "1", "unit": "s"})
    assert 'aria-label="time: not right yet"' in head.html
    form.act("check", {"text": milliseconds(exercises), "unit": "ms"})
    assert f"1 of {len(QUESTIONS)} right" in head.html
    assert 'aria-label="time: right"' in head.html
    # What is only predicted does not count.
    exercises.predict("empty frame")
    assert f"1 of {len(QUESTIONS) - 1} right" in head.html
    data, _ = day().standing()._repr_mimebundle_()
    assert f"1 of {len(QUESTIONS)} right" in data["text/html"]


def test_looking_writes_nothing(day, tmp_path):
    exercises = day()
    exercises.standing()
    for question in QUESTIONS:
        exercises.ask(question.name)
        exercises.predict(question.name)
        exercises.check(question.name, ...)
        exercises.look_back(question.name)
    assert list(tmp_path.iterdir()) == []
