"""The numbers that lessons state: each has one home, and none is shown before it is filled in."""

import ast

import pytest

from splashlib.classroom.prose.numbers import named_in
from splashlib.classroom.prose.scene_numbers import SCENE_NUMBERS
from splashlib.desk.house import lessons_folder, written
from tests.lessons.words import words_of

SOURCES = {
    lesson.name: [path for path in sorted((lessons_folder() / lesson.name).glob("*")) if path.suffix in (".md", ".py")]
    for lesson in written()
}


def stated_by(name):
    return set().union(*(named_in(path.read_text(encoding="utf-8")) for path in SOURCES[name]))


def test_numbers_of_the_scene_are_stated_by_two_lessons_or_more():
    """One that a single lesson states belongs into that lesson's numbers.py."""
    homes = {name: [lesson for lesson in SOURCES if name in stated_by(lesson)] for name in SCENE_NUMBERS.names}
    assert {name: lessons for name, lessons in homes.items() if len(lessons) < 2} == {}


@pytest.mark.parametrize("lesson", SOURCES)
def test_no_placeholder_is_left_in_a_page(lesson):
    """One in a formula or in code would stay as it is."""
    assert named_in(words_of(lesson)) == set()


@pytest.mark.parametrize("lesson", SOURCES)
def test_what_an_exercise_or_a_panel_says_is_filled_in(lesson):
    """A placeholder in Python stands in a call of NUMBERS.fill; elsewhere a learner would read its brackets."""
    for path in SOURCES[lesson]:
        if path.suffix != ".py":
            continue
        tree = ast.parse(path.read_text(encoding="utf-8"))
        calls = [node for node in ast.walk(tree) if isinstance(node, ast.Call)]
        fills = [call for call in calls if ast.unparse(call.func) == "NUMBERS.fill"]
        filled = {id(part) for call in fills for part in ast.walk(call)}
        for node in ast.walk(tree):
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and named_in(node.value):
                assert id(node) in filled, f"{path.name}, line {node.lineno}: {node.value}"
