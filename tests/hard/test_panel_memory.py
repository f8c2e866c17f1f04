"""The short form of `panel_memory`: the same 20 changes six times over leave nothing behind."""

import pytest

from tests.hard import panel_memory


@pytest.mark.parametrize("name", ["start.panel", "room.panel"])
def test_changes_that_come_again_cost_no_memory(name):
    # The first look, after a fifth of them, comes when each has been made once, at rest and moving as ever after.
    seen = panel_memory.run(name, 120, again=20)
    assert panel_memory.growth(seen) <= panel_memory.FLAT


def test_what_grows_is_seen():
    assert panel_memory.growth([100.0, 101.0, 104.0, 109.0, 112.0]) > panel_memory.FLAT
    assert panel_memory.growth([100.0, 140.0, 101.0, 102.0, 100.0]) <= panel_memory.FLAT


def test_every_panel_of_the_course_is_tried():
    assert {name.split(".")[0] for name in panel_memory.names()} == set(panel_memory.PANELS)
