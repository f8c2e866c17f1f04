"""The ledger's lines add up to what the light physics says of the whole set-up."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.shoot import Flash, change, tea_house
from splashlib.shoot.decide.exposure_balance import (
    flash_light,
    flash_over_metered,
    ghost_stops,
    ledger,
    room_over_metered,
)
from tests.effort import cases


def total(setup):
    return sum(entry.stops for entry in ledger(setup))


@settings(deadline=None, max_examples=cases(60))
@given(
    power=st.sampled_from([1, 1 / 2, 1 / 8, 1 / 32, 1 / 128]),
    distance=st.floats(0.2, 3),
    size=st.floats(0.001, 1),
    aperture=st.sampled_from([2.8, 5.6, 8, 11, 22]),
    iso=st.sampled_from([100, 200, 800, 3200]),
    heads=st.integers(1, 4),
)
def test_lines_add_up(power, distance, size, aperture, iso, heads):
    head = Flash(power=power, distance=distance, size=size, diffuser_loss=1.5)
    setup = replace(tea_house(), flashes=(head,) * heads)
    setup = change(change(setup, "camera.aperture", aperture), "camera.iso", iso)
    assert total(setup) == pytest.approx(flash_over_metered(setup), abs=1e-9)


def test_two_heads_are_one_stop_and_four_are_two():
    head = tea_house().flashes[0]
    by_heads = [total(replace(tea_house(), flashes=(head,) * n)) for n in (1, 2, 4)]
    assert np.diff(by_heads) == pytest.approx([1, 1])


def test_guide_number_gives_a_well_exposed_frame():
    """A guide number is the product of distance and f-number: 36 m at f/9 means 4 m (ISO 1230:2007)."""
    head = Flash(guide_number=36, power=1, distance=4, size=0.001, diffuser_loss=0)
    setup = replace(tea_house(), flashes=(head,))
    setup = change(change(setup, "camera.aperture", 9.0), "camera.iso", 100)
    closeness = next(entry.stops for entry in ledger(setup) if entry.name == "closeness")
    assert total(setup) - closeness == pytest.approx(0, abs=0.02)


def test_iso_lets_the_room_in_by_the_same_stops():
    before, after = (change(tea_house(), "camera.iso", iso) for iso in (200, 1600))
    assert total(after) - total(before) == pytest.approx(3)
    assert room_over_metered(after) - room_over_metered(before) == pytest.approx(3)
    assert ghost_stops(after) == pytest.approx(ghost_stops(before))


def test_room_and_flash_by_hand():
    setup = change(tea_house(), "room.lux", 1.0)
    by_hand = np.log2(flash_light(setup) / (1.0 * setup.camera.exposure_time))
    assert ghost_stops(setup) == pytest.approx(by_hand)
    assert ghost_stops(change(setup, "room.lux", 0.0)) == np.inf
