"""Numbers in prose: how [[lead to 1 ms]] is read, rounded and said, and what is told when it cannot be."""

import math

import pytest

from splashlib.classroom.prose.numbers import Numbers, band, named_in
from splashlib.classroom.prose.placeholder import ProseError
from splashlib.physics.water_entry import Stage

CROWN = Stage(name="crown_peak", early=0.022, likely=0.0504, late=0.0789, chance=0.92, source="a test")
NUMBERS = Numbers(
    time={
        "fall": lambda: 0.3029,
        "lead": lambda: 0.0168,
        "half": lambda: 0.0025,
        "late": lambda: -0.0033,
        "light": lambda: 1 / 11234.5,
        "shutter": lambda: 1 / 200,
        "lost": lambda: math.nan,
        "broken": lambda: 1 / 0,
        "zero": lambda: 0.0,
        **band("crown", lambda: CROWN),
    },
    length={
        "wet": lambda: 0.0304,
        "wide": lambda: 0.1752,
        **band("rise", lambda: (0.0, 0.0151, 0.0209), "likely", "late"),
    },
    share={"power": lambda: 1 / 32, "noise": lambda: 0.0139, "odd": lambda: 1 / 102.4},
    count={"lessons": lambda: 16, "heads": lambda: 1, "drops": lambda: 30, "most": lambda: 12000},
    number_of_stops={"one": lambda: 1.0, "over": lambda: 0.23, "under": lambda: -5.16},
    f_number={"aperture": lambda: 6.3},
    ISO={"iso": lambda: 25600.0},
)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("[[fall to 0.01 s]]", "0.30 s"),
        ("[[lead to 1 ms]]", "17 ms"),
        ("[[wet to 1 cm]]", "3 cm"),
        ("[[wide to 0.5 cm]]", "17.5 cm"),
        ("[[fall to 10 ms]]", "300 ms"),
        ("[[half to 1 ms]]", "3 ms"),  # a half goes up, as people round
        ("[[zero to 1 ms]]", "0 ms"),
        ("[[lead up to 1 ms]]", "17 ms"),
        ("[[fall up to 0.1 s]], [[half up to 0.5 ms]]", "0.4 s, 2.5 ms"),
        ("[[late to 1 ms]]", "\N{MINUS SIGN}3 ms"),
        ("[[power as 1/n]]", "1/32"),
        ("[[odd as 1/n]]", "1/100"),
        ("[[shutter as 1/n s]]", "1/200 s"),
        ("[[light as 1/n s]]", "1/11 000 s"),
        ("[[noise to 0.1 %]]", "1.4 %"),
        ("[[crown.early to 1 (ms)]], [[crown.likely to 1 (ms)]], [[crown.late to 1 ms]]", "22, 50, 79 ms"),
        ("[[rise.likely to 1 mm]], at most [[rise.late to 1 mm]]", "15 mm, at most 21 mm"),
        ("[[over to +0.1 stops]]", "+0.2 stops"),
        ("[[under to +0.1 stops]]", "\N{MINUS SIGN}5.2 stops"),
        ("[[aperture to 0.1 f/]]", "f/6.3"),
        ("[[iso to 1 ISO]]", "ISO 25 600"),
        ("[[lessons as word]] lessons", "sixteen lessons"),
        ("[[lessons as Word]] lessons", "Sixteen lessons"),
        ("[[most to 1]] pictures", "12 000 pictures"),
    ],
)
def test_a_number_is_said_as_asked(asked, said):
    assert NUMBERS.fill(asked) == said


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ("[[one to 1 stops]]", "1 stop"),
        ("[[one to 0.1 stops]]", "1.0 stops"),
        ("[[heads to 1 heads]]", "1 head"),
        ("[[drops to 1 drops]]", "30 drops"),
    ],
)
def test_one_of_a_kind_is_not_called_many(asked, said):
    assert NUMBERS.fill(asked) == said


@pytest.mark.parametrize(
    "text",
    [
        "```python\nm = [[fall to 1 ms]]\n```",
        "````\n```\n[[fall to 1 ms]]\n```\n````",
        '```python\nprint("```")\nm = [[fall to 1 ms]]\n```',
        "- a list\n\n  ```bash .noeval\n  [[ -f x ]] && echo `[[y]]`\n  ```",
        "`[[flashes]]` and ``[[a]`]``",
        "$[[x]] = 1$ and $$\n[[fall to 1 ms]]\n$$",
        "{height_cm} cm, {open_s:g} s, [the beam](lesson:beam), [x] and a[0]",
    ],
)
def test_code_formulas_and_fields_are_left_alone(text):
    assert NUMBERS.fill(text) == text


def test_words_around_code_are_filled():
    text = "`a` [[lead to 1 ms]] `b`\n```\n[[x]]\n```\n$t$ is [[fall to 0.01 s]].\n"
    assert NUMBERS.fill(text) == "`a` 17 ms `b`\n```\n[[x]]\n```\n$t$ is 0.30 s.\n"


def test_a_lone_tick_or_dollar_swallows_nothing():
    text = "A ` and 5 $ here.\n\nIt takes [[lead to 1 ms]]; 5 $ more, and a `."
    assert NUMBERS.fill(text) == text.replace("[[lead to 1 ms]]", "17 ms")


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("[[laed to 1 ms]]", "there is no number laed; the nearest is lead"),
        ("[[lead to 1 cm]]", "the number is a time, but cm is a unit of length"),
        ("[[lead to 1]]", "the number is a time, but it has no unit"),
        ("[[lead to 1 msec]]", 'there is no unit "msec"'),
        ("[[lost to 1 ms]]", "its value is nan"),
        ("[[broken to 1 ms]]", "it cannot be computed: ZeroDivisionError"),
        ("[[wet to 1 m]]", "0.0304 would be printed as 0; round it less"),
        ("[[lead to 0 ms]]", "rounded to steps of 0"),
        ("[[late as 1/n s]]", "is not one over a number"),
        ("[[drops as word]]", "there is no word for 30"),
        ("[[lead]]", "it cannot be read; write [[name to 1 ms]]"),
        ("[[lead to 1 ms]", "it cannot be read"),
        ("[[lead to\n1 ms]]", "it cannot be read"),
    ],
)
def test_a_mistake_gets_one_line_with_file_line_and_placeholder(asked, told):
    with pytest.raises(ProseError) as error:
        NUMBERS.fill(f"First.\n\nThird {asked} line.", where="lessons/fall/text.md")
    line = str(error.value)
    assert line.startswith(f"lessons/fall/text.md:3: {asked.splitlines()[0]}")
    assert told in line
    assert "\n" not in line


def test_a_name_is_looked_up_at_home_and_then_in_the_shared_numbers():
    mine = Numbers(also=NUMBERS, time={"own": lambda: 0.001})
    assert mine.fill("[[own to 1 ms]] [[lead to 1 ms]]") == "1 ms 17 ms"
    assert mine.names == ("own",)
    with pytest.raises(ProseError, match="the nearest is lead"):
        mine.fill("[[leaf to 1 ms]]")


def test_a_name_has_one_home_and_one_kind():
    with pytest.raises(ValueError, match="lead is named twice"):
        Numbers(also=NUMBERS, time={"lead": lambda: 1.0})
    with pytest.raises(ValueError, match="fall is named twice"):
        Numbers(time={"fall": lambda: 1.0}, length={"fall": lambda: 1.0})
    with pytest.raises(ValueError, match='no kind of number "weight"'):
        Numbers(weight={"fruit": lambda: 0.022})


def test_a_value_is_computed_when_asked_for_and_once():
    asked = []
    lazy = Numbers(time={"lead": lambda: asked.append(1) or 0.044, "never": lambda: 1 / 0})
    assert asked == []
    assert lazy.fill("[[lead to 1 ms]], [[lead to 0.1 ms]]") == "44 ms, 44.0 ms"
    assert asked == [1]


def test_names_are_found_in_prose_and_in_python():
    assert named_in('say("[[fall to 0.01 s]]")  # [[crown.likely to 1 ms]], x = y[[0, 1]]') == {"fall", "crown.likely"}
