"""The short form of `kills`."""

import os

import pytest

from tests.hard import how_many, kills


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork")
def test_what_was_acknowledged_is_there_and_no_file_is_half_of_anything():
    acknowledged = kills.run(how_many(12, 200))
    assert min(acknowledged.values()) > 0
