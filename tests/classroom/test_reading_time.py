"""How long a lesson takes: counted by hand on a small one, and what each part of a text counts for."""

import pytest

from splashlib.classroom.prose.reading_time import Work, work_in

TEXT = """## Drag

One two [[lead to 1 ms]] five, [six seven](lesson:beam) and $v = \\sqrt{2gh}$.

```python
exercises.predict("a")
exercises.ask("b")  # these words are not read
```

1. Drag it up.
2. Drag it **down** to 25.5 cm.

### Extra: more of it

3. Drag on.

```python
exercises.ask("c")
```

### The kept heading

Eight.

## In code

Two words.

```
## At the set
```

## At the set

- Take a towel.
"""


def test_words_steps_and_questions_counted_by_hand():
    found = work_in(TEXT)
    # Drag | One two 44 ms five six seven and (formula) | 1 Drag it up | 2 Drag it down to 25.5 cm
    # | The kept heading | Eight
    assert found["core"] == Work(words=1 + 9 + 4 + 7 + 3 + 1, steps=2, questions=1, predictions=1)
    # Extra more of it | 3 Drag on | In code | Two words
    assert found["extra"] == Work(words=4 + 3 + 2 + 2, steps=1, questions=1)
    assert found["set"] == Work(words=3 + 3)


def test_the_minutes_of_known_work():
    """360 words at 180 a minute, 4 steps of half a minute, 3 questions of two, a prediction of one: 2 + 2 + 6 + 1."""
    work = Work(words=360, steps=4, questions=3, predictions=1)
    assert work.exact == pytest.approx(11)
    assert work.minutes == 11
    assert Work(words=450).minutes == 3, "two and a half goes up"
    assert Work(words=3).minutes == 1


def test_parts_add_up_to_the_whole():
    found = work_in(TEXT)
    whole = found["core"] + found["extra"] + found["set"]
    plain = work_in(
        TEXT.replace("### Extra", "### More").replace("## In code", "## The code").replace("## At", "## On")
    )
    assert plain["core"] == whole
    assert plain["extra"] == plain["set"] == Work()


def test_a_text_without_headings_is_all_core():
    assert work_in("Four words, and more.")["core"] == Work(words=4)
    assert work_in("")["core"] == Work()
