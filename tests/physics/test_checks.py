"""The refusals: one line that names argument, value, unit and what is allowed; good values pass."""

from fractions import Fraction

import numpy as np
import pytest

from splashlib.physics import checks


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (lambda: checks.not_negative("height", -0.3, "m"), "height is -0.3 m; it must be 0 m or more"),
        (lambda: checks.positive("diameter", 0, "m"), "diameter is 0 m; it must be above 0 m"),
        (lambda: checks.positive("diameter", float("nan"), "m"), "diameter is nan m; it must be above 0 m"),
        (lambda: checks.positive("speed", float("inf"), "m/s"), "speed is inf m/s; it must be above 0 m/s"),
        (
            lambda: checks.positive("d", [1, -2, np.nan], "m"),
            "d is -2 m at place 1; it must be above 0 m",
        ),
        (lambda: checks.between("share", 3, 0, 1), "share is 3; it must be between 0 and 1"),
        (
            lambda: checks.between("power", 0, 0, 1, open_low=True),
            "power is 0; it must be above 0 and at most 1",
        ),
        (
            lambda: checks.between("level", 1, 0, 1, open_low=True, open_high=True),
            "level is 1; it must be above 0 and below 1",
        ),
        (lambda: checks.finite("ev", np.inf), "ev is inf; it must be a finite number"),
        (lambda: checks.whole("n", 2.5), "n is 2.5; it must be a whole number, 1 or more"),
        (lambda: checks.whole("n", float("nan")), "n is nan; it must be a whole number, 1 or more"),
        (lambda: checks.whole("n", 0), "n is 0; it must be a whole number, 1 or more"),
        (
            lambda: checks.one_of("kind", "disk", ("iso", "power")),
            "kind is 'disk'; it must be one of iso, power",
        ),
        (lambda: checks.one_of("kind", ["iso"], ("iso",)), "kind is ['iso']; it must be one of iso"),
        (
            lambda: checks.positive("d", "3 cm", "m"),
            "d is '3 cm'; it must be a number in m or an array of them",
        ),
        (lambda: checks.positive("d", True), "d is True; it must be a number or an array of them"),
        (lambda: checks.positive("d", 10**400, "m"), "d is too large for a number in m"),
    ],
)
def test_a_refusal_is_one_line(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line


@pytest.mark.parametrize("bad", [None, 1j, [[1], [1, 2]], {"a": 1}, np.array([True]), object(), "x" * 1000])
def test_what_is_no_number_is_refused_shortly(bad):
    with pytest.raises(ValueError, match="must be a number") as caught:
        checks.positive("height", bad, "m")
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 120


def test_numbers_come_back_as_floats_and_arrays_as_float_arrays():
    for value in (3, 3.0, np.float32(3), np.array(3), Fraction(3)):
        got = checks.positive("x", value)
        assert type(got) is float
        assert got == 3.0
    got = checks.not_negative("x", [0, 1])
    assert got.dtype == float
    assert got.tolist() == [0.0, 1.0]
    assert checks.positive("x", float("inf"), infinite=True) == float("inf")
    assert checks.not_negative("x", float("inf"), infinite=True) == float("inf")
    with pytest.raises(ValueError, match="x is -1; it must be 0 or more"):
        checks.not_negative("x", -1, infinite=True)
    assert type(checks.whole("n", 4.0)) is int
    assert type(checks.plain(np.float64(2))) is float
    assert checks.plain(np.array([1.0, 2.0])).shape == (2,)


def test_an_array_given_is_not_changed():
    given = np.array([1.0, 2.0])
    checks.positive("x", given)[0] = 9.0
    assert given.tolist() == [1.0, 2.0]


def test_warnings_have_a_class_of_their_own():
    with pytest.warns(checks.OutOfRange, match="outside"):
        checks.warn_outside("outside the range")
