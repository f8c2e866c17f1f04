"""The short form of `set_ups`."""

import pytest

from tests.hard import how_many, set_ups
from tests.picture.panels import every_panel


def test_every_panel_draws_every_set_up_and_says_plain_words():
    assert set_ups.run(how_many(4, 5000)) == []


@pytest.mark.parametrize("text", ["-0.0 cm", "1.64e+03 s", "nan mm", "inf ms late", "\N{MINUS SIGN}0 stops"])
def test_what_is_no_number_is_found(text):
    setup = set_ups.setup_of(0)
    assert every_panel.not_plain(["0.0 cm, 1/32", text], setup) == [text]


def test_a_panel_that_breaks_is_told():
    class Broken:
        def update(self, setup):
            raise KeyError(setup.drop.name)

    (line,) = set_ups.faults({Broken(): [{}]}, 3)
    assert line.startswith("3 Broken: KeyError: ")
