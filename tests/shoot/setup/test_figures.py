"""Numbers in words: never a power of ten, a minus before nothing, or the word for no number."""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from splashlib.shoot.setup.figures import UNKNOWN, figures, fixed

ANY = st.floats(allow_nan=True, allow_infinity=True)


@pytest.mark.parametrize(
    ("value", "decimals", "sign", "said"),
    [
        (-0.04, 1, False, "0.0"),
        (-0.04, 1, True, "+0.0"),
        (-0.05, 2, False, "-0.05"),
        (1234.5, 1, True, "+1234.5"),
        (-0.0, 0, False, "0"),
        (math.nan, 1, False, UNKNOWN),
        (math.inf, 1, True, UNKNOWN),
    ],
)
def test_so_many_decimals(value, decimals, sign, said):
    assert fixed(value, decimals, sign=sign) == said


@pytest.mark.parametrize(
    ("value", "digits", "said"),
    [
        (1643.2, 3, "1640"),
        (1e22, 2, "10000000000000000000000"),
        (0.000123, 2, "0.00012"),
        (11.0, 3, "11"),
        (-2.5, 2, "-2.5"),
        (-1e-300, 2, "0"),
        (math.inf, 2, UNKNOWN),
    ],
)
def test_so_many_digits(value, digits, said):
    assert figures(value, digits) == said


@given(value=ANY, count=st.integers(0, 4), sign=st.booleans())
def test_every_number_is_plain(value, count, sign):
    for said in (fixed(value, count, sign=sign), figures(value, count + 1)):
        assert re.fullmatch(r"-|[+-]?\d+(\.\d+)?", said)
        assert not re.fullmatch(r"-0(\.0+)?", said)
    if abs(value) < 1e300:  # rounded up, the largest are no longer finite
        assert float(figures(value, count + 1)) == pytest.approx(value, rel=0.5 * 10.0**-count, abs=1e-9)
