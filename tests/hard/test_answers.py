"""The short form of `answers`."""

import pytest

from tests.hard import how_many
from tests.hard.answers import KINDS, tried

SHORT = {"number": 1500, "choice": 1000, "formula": 1500, "function": 60, "settings": 600}


@pytest.mark.parametrize("kind", KINDS)
def test_malformed_answers_get_one_plain_reply_in_time(kind):
    assert tried(kind, how_many(SHORT[kind], 20_000), seed=how_many(7, 1)) == []
