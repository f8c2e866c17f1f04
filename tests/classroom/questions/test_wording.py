"""Printed numbers, and Markdown that can never become markup of a learner's own."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.classroom.questions.variants import Values
from splashlib.classroom.questions.wording import digits_of, quoted, said, say, sentence, show, to_html, with_unit


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ("", ""),
        ("the beam is too high (beam.height, drop.release_height)", "The beam is too high."),
        ("its lag is too short (camera.mirror_up.lag)", "Its lag is too short."),
        ("the head gives nothing (flashes.0.power)", "The head gives nothing."),
        ("it is 10 mm (or less)", "It is 10 mm (or less)."),
        ("Black.", "Black."),
    ],
)
def test_an_error_reads_as_a_sentence(line, text):
    assert sentence(line) == text


@pytest.mark.parametrize(
    ("value", "unit", "digits", "text"),
    [
        (0.303, "ms", 3, "303 ms"),
        (0.30288, "s", 3, "0.303 s"),
        (0.1, "cm", 3, "10.0 cm"),
        (0.00999, "m", 1, "0.01 m"),
        (0.000031, "µs", 2, "31 µs"),
        (11, "f/", 2, "f/11"),
        (400, "ISO", 3, "ISO 400"),
        (-3, "stops", 1, "-3 stops"),
        (0, "m", 3, "0 m"),
        (1 / 32, "", 3, "0.0312"),
        (123456, "", 3, "123000"),
    ],
)
def test_show(value, unit, digits, text):
    assert show(value, unit, digits) == text


@settings(deadline=None, max_examples=300)
@given(st.floats(1e-12, 1e12), st.integers(1, 6))
def test_digits_keep_the_value(value, digits):
    assert float(digits_of(value, digits)) == pytest.approx(value, rel=0.51 * 10.0 ** (1 - digits))


def test_say():
    values = Values({"a": 3})
    assert say("{a} and {b}", values, b=4) == "3 and 4"
    assert say(lambda v, more: f"{v.a}{more}", values, "!") == "3!"


def test_markdown():
    assert to_html("one\ntwo\n\n**three** *four* `a*b*c`") == (
        "<p>one two</p>\n<p><strong>three</strong> <em>four</em> <code>a*b*c</code></p>"
    )
    assert to_html("- a\n- b\n  c") == "<ul><li>a</li><li>b c</li></ul>"
    assert to_html("1. a\n2. b") == "<ol><li>a</li><li>b</li></ol>"
    assert to_html("```python\nx < 1\n\n**y**\n```") == "<pre><code>x &lt; 1\n\n**y**\n</code></pre>"
    assert to_html("see [Why](#Why)") == '<p>see <a href="#Why">Why</a></p>'
    assert to_html("2*h*g is not emphasis; h = ½·g·t²") == "<p>2*h*g is not emphasis; h = ½·g·t²</p>"


@settings(deadline=None, max_examples=500)
@given(
    st.text(max_size=60),
    st.sampled_from(["<script>", "</div>", "<img onerror=x>", "[a](javascript:x)", '" onx="', "`", ""]),
)
def test_nothing_typed_becomes_markup(text, spice):
    html = to_html(f"You typed {quoted(text + spice)}.")
    for allowed in ("<p>", "</p>", "<code>", "</code>"):
        html = html.replace(allowed, "")
    assert "<" not in html
    assert ">" not in html


def test_links_lead_nowhere_else():
    assert "<a" not in to_html("[a](javascript:alert(1)) [b](https://example.org) [c](//x)")


def test_one_stop_two_stops_and_numbers_as_people_write_them():
    assert [show(n, "stops") for n in (1, -1, 2, 1.5)] == ["1.00 stop", "-1.00 stop", "2.00 stops", "1.50 stops"]
    assert with_unit("1", "doublings") == "1 doubling"
    assert with_unit("21", "stops") == "21 stops"
    assert said(5.734e7, 4) == "5.734·10^7"
    assert said(2.35e-8) == "2.35·10^-8"
    assert said(-0.0) == "0"
    assert said(0.3, 4) == "0.3"
    assert show(1e-9, "s") == "1.00·10^-9 s"
