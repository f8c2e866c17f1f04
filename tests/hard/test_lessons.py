"""The short form of `lessons`: what learners have really run into."""

import os

from tests.hard import lessons

# What a lesson's own change made impossible, and the lessons that broke then.
ODD = {"a beam at 70 cm": ("splash",), "the lowest power": ("stops",), "a low hand": ("beam",)}


def test_a_mistake_in_the_learners_file_takes_nothing_away_from_any_lesson():
    found = lessons.run(1)
    panels = 10  # eight lessons, two of which have two panels that start from the learner's own set-up
    assert found == {"a decimal comma": panels}


def test_what_a_lesson_changes_never_ends_a_cell():
    for name, among in ODD.items():
        assert set(lessons.run(len(lessons.BROKEN) + len(lessons.ODD), among, (name,))) == {name}


if os.environ.get("SPLASH_LONG"):  # half an hour

    def test_two_hundred_files_under_every_lesson():
        assert len(lessons.run(200)) == 200
