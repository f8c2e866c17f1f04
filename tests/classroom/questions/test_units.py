"""Reading a number and its unit: many spellings of one value, and plain words for what cannot be read."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.classroom.questions.units import UNITS, find_unit, may_be_bare, read_quantity, units_of


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("303 ms", 303, "ms"),
        ("0.303 s", 0.303, "s"),
        ("0,303 s", 0.303, "s"),
        ("  303ms ", 303, "ms"),
        ("303 milliseconds", 303, "ms"),
        ("3.03e-1 s", 0.303, "s"),
        ("3.03·10⁻¹ s", 0.303, "s"),
        ("3,03 x 10^-1 s", 0.303, "s"),
        (".303 s", 0.303, "s"),
        ("−5 mm", -5, "mm"),
        ("+5 mm", 5, "mm"),
        ("1/200 s", 0.005, "s"),
        ("1/32", 1 / 32, None),
        ("1 1/3 stops", 4 / 3, "stops"),
        ("-1 1/3 stop", -4 / 3, "stops"),
        ("20 µs", 20, "µs"),
        ("20 us", 20, "µs"),
        ("20 μs", 20, "µs"),  # the Greek letter, another character than the micro sign
        ("9,81 m/s^2", 9.81, "m/s²"),
        ("12 in", 12, "in"),
        ('12"', 12, "in"),
        ("50 %", 50, "%"),
        ("f/11", 11, "f/"),
        ("f11", 11, "f/"),
        ("F/5.6", 5.6, "f/"),
        ("ISO 400", 400, "ISO"),
        ("1,234.5 m", None, None),
        ("12.0", 12, None),
        ("1,25", 1.25, None),
        ("1234,5", 1234.5, None),
        ("0,250", 0.25, None),
    ],
)
def test_reads(text, value, unit):
    if value is None:
        with pytest.raises(ValueError, match="mark"):
            read_quantity(text)
        return
    number, found = read_quantity(text)
    assert number == pytest.approx(value, rel=1e-15)
    assert (found.name if found else None) == unit


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("303 parsecs", "no unit"),
        ("about 5", "one number"),
        ("five", "one number"),
        ("nan", "one number"),
        ("inf", "one number"),
        ("1e999", "too large"),
        ("1/0", "divides by zero"),
        ("1 1/0", "divides by zero"),
        ("1,234", "two ways"),
        ("1,2,3", "mark"),
        ("1.2.3", "one number"),
        ("--5", "one number"),
        ("5 mm 3", "one number"),
        ("١٢٣", "one number"),
        ("9" * 61, "61 characters"),
        ("5 m\x00m", "one number"),
    ],
)
def test_refuses_in_one_plain_line(text, word):
    with pytest.raises(ValueError, match=re.escape(word)) as caught:
        read_quantity(text)
    assert "\n" not in str(caught.value)


def test_each_unit_is_found_by_its_name_and_in_capitals():
    for name, unit in UNITS.items():
        if name:
            assert find_unit(name) is unit
            assert find_unit(f" {name} ") is unit
    assert find_unit("MS").name == "ms"
    assert find_unit("") is None
    assert find_unit("furlong") is None


def test_sizes_of_the_units():
    # Independent of the table: how many of the one make the other.
    for small, big, times in [
        ("ms", "s", 1000),
        ("mm", "cm", 10),
        ("in", "ft", 12),
        ("cm", "m", 100),
        ("ml", "l", 1000),
    ]:
        assert UNITS[big].size / UNITS[small].size == pytest.approx(times, rel=1e-12)
    assert UNITS["km/h"].size * 3.6 == pytest.approx(UNITS["m/s"].size)
    assert UNITS["mm/ms"].size == UNITS["m/s"].size
    assert UNITS["in"].size == 0.0254
    assert UNITS["°"].size * 180 == pytest.approx(math.pi)


def test_the_si_unit_comes_first_and_only_single_units_may_be_left_out():
    for measures in {unit.measures for unit in UNITS.values()}:
        first = units_of(measures)[0]
        assert UNITS[first].size == (1000 if measures == "resolution" else 1)
    assert not may_be_bare("time")
    assert may_be_bare("number of stops")
    assert may_be_bare("share")


@settings(deadline=None, max_examples=300)
@given(st.floats(1e-6, 1e6), st.sampled_from(["s", "ms", "m", "cm", "m/s", "lx", "stops"]), st.booleans())
def test_what_is_printed_is_read_again(value, unit, comma):
    text = f"{value:.7g} {unit}"
    if comma and not re.search(r"(?<!\d)[1-9]\d{0,2}\.\d{3}(?!\d)", text):
        text = text.replace(".", ",")
    number, found = read_quantity(text)
    assert number == pytest.approx(value, rel=1e-6)
    assert found.name == unit


@settings(deadline=None, max_examples=1500)
@given(st.one_of(st.text(max_size=80), st.text(alphabet="0123456789.,+-eE/ ×·^msf⁻¹\"'%", max_size=25)))
def test_any_text_is_a_finite_number_or_one_plain_line(text):
    said = ""
    try:
        number, unit = read_quantity(text)
    except ValueError as error:
        said = str(error)
    if said:
        assert said.endswith(".")
        assert "\n" not in said.replace(text, "")
    else:
        assert math.isfinite(number)
        assert unit is None or unit in UNITS.values()
