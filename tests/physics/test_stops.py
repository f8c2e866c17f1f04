"""Stops: exact steps between marks, published series, limits, and a slow count along the series."""

import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics import stops
from splashlib.physics.stops import stops_between
from tests.reference import rows

SERIES = {
    "power": stops.POWERS,
    "iso": stops.ISOS,
    "aperture": stops.APERTURES,
    "shutter": stops.SHUTTERS,
}


@pytest.mark.parametrize(
    ("a", "b", "kind", "answer"),
    [
        (1, 1 / 8, "power", -3),  # count the steps between the marks, not the marks
        (1, Fraction(1, 8), "power", -3),
        (Fraction(1, 128), 1, "power", 7),
        ("1/32", "1/32 +1/3", "power", Fraction(1, 3)),
        (2 ** (-14 / 3), 1 / 32, "power", Fraction(-1, 3)),
        (100, 800, "iso", 3),
        (100, 125, "iso", Fraction(1, 3)),
        (6400, 320, "iso", Fraction(-13, 3)),
        (8, 11, "aperture", -1),
        (11, 8, "aperture", 1),
        (5.6, 22, "aperture", -4),
        (2.8, 3.5, "aperture", Fraction(-2, 3)),
        (8, 2**3.5, "aperture", -1),
        (1 / 60, 1 / 125, "shutter", -1),
        ("1/60", "1/125", "shutter", -1),
        (1 / 64, 1 / 128, "shutter", -1),
        (1 / 200, 1 / 250, "shutter", Fraction(-1, 3)),
        (1 / 250, 30, "shutter", 13),
        (1, 2, "distance", -2),
        (0.8, 0.4, "distance", 2),
        (0.3, 0.15, "distance", 2),
        (1, math.sqrt(2), "distance", -1),
        (1, 1, "distance", 0),
    ],
)
def test_exact_steps(a, b, kind, answer):
    step = stops_between(a, b, kind=kind)
    assert step == answer
    assert type(step) is type(answer)


@pytest.mark.parametrize("row", rows("marks.csv"), ids=lambda r: f"{r['kind']} {r['label']}")
def test_published_marks(row):
    label = row["label"] if isinstance(row["label"], str) else None
    mark = next(
        m for m in SERIES[row["kind"]] if (m.label == label if label else m.marked == pytest.approx(row["label"]))
    )
    assert mark.exact == pytest.approx(2 ** (row["log2_of_exact_times_6"] / 6), rel=1e-14)
    assert stops.exact(mark.marked, kind=row["kind"]) == mark.exact


@pytest.mark.parametrize("kind", SERIES)
def test_counting_along_the_series_is_the_slow_way(kind):
    """Each mark is a third from the next, over the whole series, and the label is near what it stands for."""
    marks = SERIES[kind]
    sign = 1 if kind == "iso" else -1
    for i, first in enumerate(marks):
        for j, second in enumerate(marks):
            assert stops_between(first.marked, second.marked, kind=kind) == Fraction(sign * (j - i), 3)
            assert stops_between(first.label, second.exact, kind=kind) == Fraction(sign * (j - i), 3)
        # Marks are rounded by up to a ninth of a stop in the light.
        assert abs(math.log2(first.marked / first.exact)) < 0.1
    assert len({m.label for m in marks}) == len({m.marked for m in marks}) == len(marks)


def test_ends_of_the_series():
    assert (stops.POWERS[0].label, stops.POWERS[-1].label) == ("1/1", "1/256")
    assert [m.label for m in stops.POWERS[13:17]] == ["1/32 +2/3", "1/32 +1/3", "1/32", "1/64 +2/3"]
    assert stops.POWERS[-1].exact == 1 / 256
    assert (stops.APERTURES[0].exact, stops.APERTURES[-1].exact) == (1, pytest.approx(32))
    assert (stops.SHUTTERS[0].exact, stops.SHUTTERS[-1].exact) == (32, pytest.approx(1 / 8192))
    assert (stops.ISOS[0].exact, stops.ISOS[-1].exact) == (pytest.approx(50), pytest.approx(25600))


def test_what_is_no_third_is_a_float():
    assert stops_between(1, 0.3, kind="power") == pytest.approx(math.log2(0.3), rel=1e-14)
    assert stops_between(1, 3, kind="distance") == pytest.approx(-3.1699250014, abs=1e-9)
    assert type(stops_between(1, 0.3, kind="power")) is float
    # A hair beside a mark is not the mark.
    assert type(stops_between(1, 1.000001, kind="distance")) is float


ANY = st.floats(1e-3, 1e3)


@settings(deadline=None, max_examples=200)
@given(ANY, ANY, ANY, st.sampled_from(["power", "iso", "aperture", "shutter", "distance"]))
def test_steps_add_up_and_turn_round(a, b, c, kind):
    there = stops_between(a, b, kind=kind)
    assert there == pytest.approx(-stops_between(b, a, kind=kind), abs=1e-11)
    on = stops_between(b, c, kind=kind)
    assert stops_between(a, c, kind=kind) == pytest.approx(float(there + on), abs=1e-11)


@settings(deadline=None, max_examples=200)
@given(ANY, st.floats(-8, 8), st.sampled_from(["power", "iso", "aperture", "shutter", "distance"]))
def test_shifted_is_the_inverse(value, by, kind):
    new = stops.shifted(value, by, kind=kind)
    # If the new value happens to be a mark it stands for another number: compare the exact values.
    if stops.exact(new, kind=kind) == new:
        assert stops_between(value, new, kind=kind) == pytest.approx(by, abs=1e-9)


def test_against_the_light_itself():
    """Energy through the opening, by areas and spheres, without the word stop."""
    assert 2.0 ** stops_between(4, 4 * 1.3, kind="distance") == pytest.approx((4 / 5.2) ** 2)
    area = lambda n: math.pi / 4 * (50 / n) ** 2  # noqa: E731
    assert 2.0 ** stops_between(3, 12, kind="aperture") == pytest.approx(area(12) / area(3))


def test_nearest_mark():
    assert stops.nearest_mark(11.3, kind="aperture").label == "11"
    assert stops.nearest_mark(0.03, kind="power").label == "1/32"
    assert stops.nearest_mark(1 / 190, kind="shutter").label == "1/200"
    assert stops.nearest_mark(1e9, kind="iso").label == "25600"
    assert stops.nearest_mark("1/60", kind="shutter").label == "1/60"


def test_exact_of_arrays_and_numbers():
    got = stops.exact(np.array([[8, 11.0], [12, 5.6]]), kind="aperture")
    assert got == pytest.approx(np.array([[8, 2**3.5], [12, 2**2.5]]))
    assert stops.exact(0.4, kind="distance") == 0.4
    assert stops.exact(1 / 3, kind="power") == 1 / 3


def test_stops_of_ratios():
    assert stops.stops_of(8) == 3
    assert stops.stops_of(np.array([0, 0.5])).tolist() == [-math.inf, -1]
    with pytest.raises(ValueError, match="ratio is -1; it must be 0 or more"):
        stops.stops_of([1, -1])
    with pytest.raises(ValueError, match="ratio is nan"):
        stops.stops_of(float("nan"))


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (
            lambda: stops_between(1, 2, kind="light"),
            "kind is 'light'; it must be one of power, iso, aperture, shutter, distance",
        ),
        (lambda: stops_between(0, 2, kind="power"), "power is 0; it must be above 0"),
        (lambda: stops_between(1, -2, kind="distance"), "distance is -2 m; it must be above 0 m"),
        (lambda: stops_between(1, float("nan"), kind="shutter"), "shutter is nan s; it must be above 0 s"),
        (
            lambda: stops_between("wide", 2, kind="aperture"),
            "aperture is 'wide'; it must be a number, or a mark such as 1/60",
        ),
        (
            lambda: stops_between("1/0", 2, kind="power"),
            "power is '1/0'; it must be a number, or a mark such as 1/60",
        ),
        (
            lambda: stops.nearest_mark(1, kind="distance"),
            "kind is 'distance'; it must be one of power, iso, aperture, shutter",
        ),
        (
            lambda: stops_between(np.array([1, 2]), 2, kind="power"),
            "power is an array; it must be one number",
        ),
    ],
)
def test_refusals(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line
