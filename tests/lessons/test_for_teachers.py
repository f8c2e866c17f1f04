"""The page for teachers: its script comes true in its panels, its plans add up, its slips are those of the course."""

import importlib
import re
from pathlib import Path

import pytest

from lessons import BREAK, COURSE, TWO_HOURS
from lessons.for_teachers import panel
from lessons.for_teachers.exercises import exercises
from splashlib.classroom.judges.replies import heading_anchor
from splashlib.desk.house import written
from splashlib.shoot import change, tea_house
from splashlib.shoot.decide.style_comparison import in_styles
from tests.lessons.by_hand import check_by_hand
from tests.lessons.words import words_of
from tests.proof.exercise_proof import check_exercises

SOURCE = words_of("for_teachers")
TEXT = " ".join(SOURCE.split())
MINUTES = {lesson.name: lesson.minutes for lesson in COURSE if lesson.written and lesson.number < 90}
LESSONS = [lesson for lesson in written() if lesson.number < 90]


def rows(heading):
    """The body of the first table under a heading, as lists of cells."""
    part = re.split(r"^##+ ", SOURCE.split(heading + "\n", 1)[1], maxsplit=1, flags=re.M)[0]
    lines = [line for line in part.splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


def minute(clock):
    hours, minutes = clock.split(":")
    return 60 * int(hours) + int(minutes)


BY_HAND = {
    # 4 flashes in 3 s
    "flashes": ({"rigs": 4, "seconds": 3}, "1.33 Hz"),
    "say": "ask_lag",
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


@pytest.fixture(scope="module")
def cameras():
    return panel.cameras()


def caught(shown):
    return [dict(shown.told.readout)[name].split(": ")[1] for name in FOUR]


FOUR = ("1 Mirror down", "2 Mirror up", "3 No mirror", "4 Held open")


def test_first_demonstration(cameras):
    cameras.reset()
    assert caught(cameras)[0] == "gone"
    light = dict(cameras.told.readout)[FOUR[0]].split(" ms")[0]
    assert f"With this camera the light comes after {float(light):.0f} ms" in TEXT
    late = float(re.search(r"comes (\d+) ms after contact", cameras.told.line)[1])
    assert f"It comes {late:.0f} ms late" in TEXT
    cameras.set("trigger.delay", 0.05)
    assert caught(cameras)[0] == "gone"
    cameras.set("trigger.delay", 0.0)
    cameras.set("aim", "contact")
    assert caught(cameras)[0] == "gone"
    assert (caught(cameras)[1], caught(cameras)[3]) == ("caught", "caught")
    cameras.set("beam.height", 0.255)
    assert "**Beam height** to 25.5 cm" in TEXT
    assert caught(cameras) == ["caught"] * 4


def test_second_demonstration():
    beams = panel.beams()

    def at(height):
        beams.set("beam.height", height)
        return dict(beams.told.readout)

    assert "**Beam height** slowly up to 42 cm" in TEXT
    high = at(0.42)
    assert float(high["Thirty drops, your beam"].split()[0]) > 25
    assert high["Thirty drops, beam under the hand"] == "50.1 mm apart"
    assert "They lie within 50 mm" in TEXT
    assert high["The same, beam under the hand"].startswith("10.5 mm")
    assert "by 10.5 mm with the beam under the hand" in TEXT
    low = at(0.12)
    assert low["Thirty drops, your beam"] == "2.7 mm apart"
    assert "Now they lie within 2.7 mm" in TEXT
    assert low["A hand 3.0 mm too high"].startswith("0.4 mm")
    assert "by 0.4 mm with the beam at 12 cm" in TEXT
    at(0.05)
    assert beams.told.line == "Too low to stay out of the frame: that needs 11.7 cm."
    assert "It needs 11.7 cm to stay out" in TEXT


def test_third_demonstration():
    lights = panel.lights()
    assert dict(lights.told.readout)["Streak on the set"] == "0.27 mm"
    assert "one thirty-second only 0.27 mm" in TEXT
    assert "1 Full power: streaks, droplets 9.7 mm long" in lights.told.alt
    assert "streaks of 9.7 mm" in TEXT
    assert "edges 2.3 mm apart" in lights.told.alt
    assert "there twice, 2.3 mm apart" in TEXT
    lights.set("apart", 0.0)
    assert "edges" not in lights.told.alt


def test_the_panels_start_from_the_scene_whatever_the_learners_file_says(tmp_path, monkeypatch):
    from splashlib.shoot import save_setup

    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    save_setup(change(tea_house(), "drop.release_height", 0.8), tmp_path / "my_setup.toml")
    for built in (panel.cameras(), panel.beams(), panel.lights()):
        assert built.setup.drop.release_height == 0.45
    assert in_styles(panel.cameras().setup)


def test_two_hours_are_the_path_with_a_break():
    table = rows("## Two hours")
    there = [name for name in TWO_HOURS if name in MINUTES]
    assert [row[2] for row in table if not row[2].startswith("(")] == there
    clock = 0
    for start, minutes, lesson, _ in table:
        assert int(start) == clock
        assert int(minutes) == {"(break)": BREAK, "(last round)": 120 - clock}.get(lesson, MINUTES.get(lesson))
        clock += int(minutes)
    assert clock == 120
    assert int(table[-1][1]) >= 5
    assert 40 <= int(next(row[0] for row in table if row[2] == "(break)")) <= 80


def test_the_day_adds_up_and_leaves_time_for_its_lessons():
    table, done = rows("## A day"), []
    clock = minute("9:00")
    for start, minutes, what in table:
        assert minute(start) == clock
        clock += int(minutes)
        named = [name for name in MINUTES if re.search(rf"\b{name}\b", what.split(", with")[0])]
        if len(named) > 1:
            assert 0 <= int(minutes) - sum(MINUTES[name] for name in named) <= 10
            done += named
    assert clock == minute("17:00")
    assert done == list(MINUTES)
    assert f"The eight lessons take {sum(MINUTES.values())} min in all" in TEXT


def test_no_sentence_speaks_of_a_lesson_that_is_not_there():
    for lesson in LESSONS:
        words = (Path(panel.__file__).parents[1] / lesson.name / "text.md").read_text(encoding="utf-8")
        assert not re.search(r"still to come|not there yet|lesson on (?!the|stops)", words), lesson.name
    for lesson in COURSE:
        if not lesson.written:
            assert f"*{lesson.name}*" not in SOURCE
            assert lesson.title not in SOURCE


def slips_of(name):
    questions = importlib.import_module(f"lessons.{name}.exercises").exercises.questions.values()
    return {slip.name for question in questions for slip in question.slips}


def test_the_slips_named_are_made_where_the_page_says():
    table = rows("## What learners get wrong, and why")
    assert len(table) >= 6
    there = {lesson.name for lesson in LESSONS}
    for slip, where, *_ in table:
        for name in set(where.split(", ")) & there:
            assert slip in slips_of(name), (slip, name)


def test_the_course_knows_many_kinds_of_slip():
    """At least six kinds that are shared by name between lessons; options of a choice do not count."""
    homes = {}
    for lesson in LESSONS:
        questions = importlib.import_module(f"lessons.{lesson.name}.exercises").exercises.questions.values()
        for slip in {slip.name for q in questions if q.kind != "choice" for slip in q.slips}:
            homes.setdefault(slip, set()).add(lesson.name)
    shared = {slip for slip, lessons in homes.items() if len(lessons) > 1}
    assert len(shared) >= 6, shared


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_every_lesson_has_forms_predictions_and_slips_that_point_somewhere(lesson):
    text = (Path(panel.__file__).parents[1] / lesson.name / "text.md").read_text(encoding="utf-8")
    questions = importlib.import_module(f"lessons.{lesson.name}.exercises").exercises.questions
    foretold = set(re.findall(r'exercises\.predict\(\s*"([^"]+)"', text))
    assert foretold
    assert foretold == set(re.findall(r'exercises\.look_back\(\s*"([^"]+)"', text))
    assert text.index("exercises.predict(") < text.index("panel.show(") < text.index("exercises.look_back(")
    asked = set(re.findall(r'exercises\.ask\(\s*"([^"]+)"', text))
    assert asked | foretold == set(questions)
    assert asked == set(re.findall(r'exercises\.check\(\s*"([^"]+)"', text))
    headings = {heading_anchor(heading) for heading in re.findall(r"^#+ (.+)$", text, flags=re.M)}
    for name in asked:
        question = questions[name]
        assert len(question.slips) >= 2, name
        for place in {question.see, *(slip.see for slip in question.slips)} - {""}:
            assert heading_anchor(place) in headings, (name, place)
        assert question.see or all(slip.see for slip in question.slips), name


def test_safety_of_a_full_room():
    for words in ("not more than three flashes a second", "seizures", "slip", "Local codes", "30 mA"):
        assert words in TEXT
