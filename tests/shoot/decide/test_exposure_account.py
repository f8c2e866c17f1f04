"""The account of the light and what would pay a debt, against the ledger and the plain laws."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.stops import APERTURES, ISOS, POWERS
from splashlib.shoot import account, change, change_all, payments, tea_house
from splashlib.shoot.decide.exposure_account import alike
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops, room_over_metered
from tests.effort import cases

SCENE = tea_house()
SETUPS = st.builds(
    lambda power, distance, loss, aperture, iso, heads: alike(
        change_all(
            SCENE,
            {
                "flashes.0.power": power.exact,
                "flashes.0.distance": distance,
                "flashes.0.diffuser_loss": loss,
                "camera.aperture": aperture.marked,
                "camera.iso": iso.marked,
            },
        ),
        heads,
    ),
    st.sampled_from(POWERS),
    st.floats(0.15, 2.0),
    st.floats(0, 3),
    st.sampled_from(APERTURES[9:]),
    st.sampled_from(ISOS),
    st.sampled_from([1, 2, 3, 4]),
)


@settings(deadline=None, max_examples=cases(200))
@given(setup=SETUPS)
def test_the_lines_add_up_to_the_frame(setup):
    assert sum(line.stops for line in account(setup)) == pytest.approx(flash_over_metered(setup), abs=1e-9)


def test_the_scenes_lines():
    lines = {line.name: line.stops for line in account(SCENE)}
    assert lines["power"] == -5
    assert lines["aperture"] == -1
    assert lines["iso"] == 3
    assert lines["heads"] == 0
    # N = GN / d: a guide number of 40 at f/8 and 1 m is 2 log2(40/8) over.
    assert lines["start"] == pytest.approx(2 * math.log2(40 / 8), abs=1e-9)
    assert lines["distance"] == pytest.approx(-math.log2(1.0**2 + 0.3**2), abs=1e-9)


@pytest.mark.parametrize(("heads", "stops"), [(1, 0), (2, 1), (4, 2), (8, 3)])
def test_two_heads_are_one_stop_and_four_are_two(heads, stops):
    more = alike(SCENE, heads)
    assert len({head.name for head in more.flashes}) == heads
    assert flash_over_metered(more) - flash_over_metered(SCENE) == pytest.approx(stops)
    assert room_over_metered(more) == room_over_metered(SCENE)


@pytest.mark.parametrize("heads", [0, -1, 1.5, True, "two"])
def test_heads_that_cannot_be(heads):
    with pytest.raises(ValueError, match=r"heads is .* whole number"):
        alike(SCENE, heads)


PATHS = {
    "distance": "flashes.0.distance",
    "diffuser": "flashes.0.diffuser_loss",
    "aperture": "camera.aperture",
    "iso": "camera.iso",
}


@settings(deadline=None, max_examples=cases(200))
@given(setup=SETUPS.filter(lambda setup: len(setup.flashes) == 1))
def test_whatever_pays_makes_the_frame_right(setup):
    """Exactly on the flash's side; to the nearest mark, a sixth of a stop, on the camera's."""
    for way in payments(setup):
        if way.value is None or way.name == "heads":
            continue
        paid = change(setup, PATHS[way.name], way.value)
        assert abs(flash_over_metered(paid)) <= (1e-6 if way.name in ("distance", "diffuser") else 1 / 6 + 1e-6)
        lifted = room_over_metered(paid) - room_over_metered(setup)
        assert lifted == pytest.approx(way.room, abs=1 / 6 + 1e-6)


@settings(deadline=None, max_examples=cases(100))
@given(setup=SETUPS)
def test_as_many_heads_as_are_needed_and_not_one_more(setup):
    way = next(each for each in payments(setup) if each.name == "heads")
    if way.value is None:
        assert flash_over_metered(setup) >= -1e-6
        return
    assert flash_over_metered(alike(setup, way.value)) >= -1e-6
    assert flash_over_metered(alike(setup, way.value - 1)) < 0


@settings(deadline=None, max_examples=cases(100))
@given(setup=SETUPS)
def test_what_cannot_pay_is_not_offered(setup):
    setup = alike(setup, 1)
    ways = {way.name: way for way in payments(setup)}
    for name, nearest, farthest in (("distance", 0.01, 100.0), ("diffuser", 0, 20)):
        if ways[name].value is None:
            brightest, darkest = (
                flash_over_metered(change(setup, PATHS[name], value)) for value in (nearest, farthest)
            )
            assert brightest <= 1e-9 or darkest >= -1e-9


def test_iso_lets_the_room_in_by_the_stops_that_it_pays():
    shorter = change(SCENE, "flashes.0.power", 1 / 128)
    paid = change(shorter, "camera.iso", 3200)
    assert flash_over_metered(paid) == pytest.approx(flash_over_metered(SCENE))
    assert room_over_metered(paid) - room_over_metered(SCENE) == pytest.approx(2)
    assert ghost_stops(paid) - ghost_stops(SCENE) == pytest.approx(-2)
