"""The form without a browser: what it is given to show, and what its buttons do."""

import re
from itertools import pairwise

import pytest

from splashlib.classroom.judges import judge
from splashlib.classroom.questions.question_kinds import Number
from splashlib.classroom.record.progress_file import Progress
from splashlib.classroom.widgets.form_card import card, still_html
from tests.classroom.samples import EMPTY_FRAME, IN_TIME, LEAD, QUESTIONS, STOPS, TIME, TIME_FORMULA, sample_exercises


@pytest.fixture
def exercises(tmp_path):
    return sample_exercises(progress=Progress(tmp_path / "p.sqlite"))


def text_of(form):
    return re.sub(r"<[^>]+>", "", form.reply["html"])


def test_fields_fit_the_kind():
    assert card(TIME, 1)["field"]["units"] == ["s", "ms", "µs"]
    stops = card(STOPS, 1)["field"]
    assert (stops["units"], stops["suffix"]) == ([], "stops")
    assert card(TIME_FORMULA, 1)["field"]["label"] == "t ="
    assert "g: gravity" in card(TIME_FORMULA, 1)["field"]["help"]
    assert [o["letter"] for o in card(EMPTY_FRAME, 1)["field"]["options"]] == ["a", "b", "c"]
    rows = {row["path"]: row for row in card(IN_TIME, 1)["field"]["rows"]}
    assert (rows["beam.height"]["value"], rows["beam.height"]["unit"]) == ("3", "cm")
    assert card(LEAD, 1)["field"]["kind"] == "code"


def test_the_unit_asked_for_is_in_the_menu():
    odd = Number(name="x", prompt="", answer=lambda v: 3600.0, unit="h")
    assert "h" in card(odd, 1)["field"]["units"]


def test_buttons_are_those_that_make_sense():
    assert list(card(TIME, 1)["buttons"]) == ["check", "hint", "worked", "fresh"]
    assert list(card(EMPTY_FRAME, 1)["buttons"]) == ["check", "hint", "worked"]
    assert list(card(LEAD, 1)["buttons"]) == ["hint", "worked", "fresh"]
    assert list(card(TIME, 1, mode="predict")["buttons"]) == ["note"]
    assert card(TIME, 1, mode="look_back")["buttons"] == {}


def test_right_wrong_and_empty_answers(exercises):
    form = exercises.ask("time")
    form.act("check", {"text": "", "unit": ""})
    assert form.reply["outcome"] == "not_attempted"
    form.act("check", {"text": "1", "unit": ""})
    assert form.reply["outcome"] == "wrong_unit"
    value = TIME.answer(judge.numbers(TIME)) * 1000
    form.act("check", {"text": f"{value:.1f}", "unit": "ms"})
    assert form.reply["outcome"] == "right"
    assert TIME.meaning in text_of(form)
    choice = exercises.ask("empty frame")
    choice.act("check", {"option": ""})
    assert choice.reply["outcome"] == "not_attempted"
    choice.act("check", {"option": "weak"})
    assert choice.reply["outcome"] == "slip"
    setting = exercises.ask("in time")
    setting.act("check", {"settings": {}})
    assert setting.reply["outcome"] == "not_attempted"
    setting.act("check", {"settings": {"beam.height": "30"}})
    assert setting.reply["outcome"] == "right"


def test_the_same_reply_twice_is_told_twice(exercises):
    form = exercises.ask("time")
    form.act("check", {"text": "1", "unit": "s"})
    first = dict(form.reply)
    form.act("check", {"text": "1", "unit": "s"})
    assert form.reply["html"] == first["html"]
    assert form.reply["number"] == first["number"] + 1


def test_hints_come_one_by_one_and_stay_beside_the_reply(exercises):
    form = exercises.ask("time")
    form.act("check", {"text": "1", "unit": "s"})
    for _ in range(4):
        form.act("hint", {})
    form.act("worked", {})
    helps = [each["html"] for each in form.reply["helps"]]
    assert len(helps) == 4
    assert "Hint 1 of 2" in helps[0]
    assert "Hint 2 of 2" in helps[1]
    assert "no more hints" in helps[2]
    assert "<strong>Worked solution.</strong>" in helps[3]
    assert form.reply["outcome"] == "high"
    acts = [each.act for each in exercises.progress.attempts()]
    assert acts == ["answer", "hint", "hint", "worked"]


def test_new_numbers_change_the_question_and_clear_the_help(exercises):
    form = exercises.ask("time")
    before = form._front.card["prompt"]
    form.act("hint", {})
    form.act("fresh", {})
    assert form._front.card["prompt"] != before
    assert form.variant == 2
    assert form.reply["helps"] == []
    # The form and the code below it speak of the same numbers.
    assert exercises.variant("time") == 2
    value = TIME.answer(exercises.numbers("time"))
    assert exercises.check("time", value, "s").right


def test_new_numbers_pass_over_variants_that_look_alike(exercises):
    prompts = []
    for _ in range(12):
        exercises.fresh("stops")
        prompts.append(exercises["stops"].prompt.format_map(exercises.numbers("stops")))
    assert all(a != b for a, b in pairwise(prompts))


def test_what_is_typed_is_escaped(exercises):
    form = exercises.ask("time")
    form.act("check", {"text": "<img src=x onerror=alert(1)>", "unit": ""})
    assert "<img" not in form.reply["html"]
    assert "&lt;img" in form.reply["html"]


def test_a_mistake_of_ours_is_told_in_the_form(exercises):
    form = exercises.ask("time")
    exercises.questions["time"] = Number(name="time", prompt="?", answer=lambda v: 1 / 0, unit="s")
    form._received(None, {"act": "check", "answer": {"text": "1"}}, [])
    assert "not in your answer" in text_of(form)
    assert "ZeroDivisionError" in form.reply["trace"]
    form._received(None, {"act": "explode"}, [])
    assert "explode" in text_of(form)


def test_a_saved_notebook_shows_the_question(exercises):
    for question in QUESTIONS:
        data, _ = exercises.ask(question.name)._repr_mimebundle_()
        html = data["text/html"]
        words = re.sub(r"<[^>]+>", "", card(question, 1)["prompt"])
        assert words in re.sub(r"<[^>]+>", "", html)
        assert "application/vnd.jupyter.widget-view+json" in data
        assert "Run the notebook" in html
    assert "too weak" in still_html(card(EMPTY_FRAME, 1))
    assert "3 cm" in still_html(card(IN_TIME, 1))
    assert "Run the notebook" not in still_html(card(EMPTY_FRAME, 1, mode="look_back"))


def test_a_reply_in_code_is_readable_as_text_and_as_html(exercises):
    reply = exercises.check("time", "1 s")
    assert str(reply).startswith("▼ Too high.")
    assert 'data-outcome="high"' in reply._repr_html_()
    assert "**" not in str(reply)


def test_unknown_names_are_refused_with_the_known_ones(exercises):
    for call in (
        exercises.ask,
        exercises.check,
        exercises.hint,
        exercises.worked,
        exercises.variant,
        exercises.look_back,
    ):
        with pytest.raises(ValueError, match="no exercise of 'sample'; there are time, stops"):
            call("tme")
