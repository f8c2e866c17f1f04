"""What to try at a panel is taken from the lesson's own text."""

import importlib

import pytest

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.steps import steps

NUMBERS = Numbers(time={"lead": lambda: 0.0444})
TEXT = """## Drag

1. This list belongs to no panel.

```python tags=["panel"] id="one-panel"
panel.show()
```

Try this:

1. Drag **Delay** up. It takes [[lead to 1 ms]],
   *not* more.
2. See [Why](#Why).

After the list.

```python tags=["panel"] id="two-panel"
panel.other()
```

| drag | say |
|---|---|
| **Delay** to 50 ms | "Later." |
| nothing | "Still [[lead to 1 ms]]." |

```python tags=["panel"] id="bare-panel"
panel.bare()
```

## Why

1. This is no step.
"""


@pytest.fixture
def text(tmp_path):
    file = tmp_path / "text.md"
    file.write_text(TEXT, encoding="utf-8")
    return file


def test_a_list_gives_plain_lines_with_their_numbers(text):
    assert steps(text, panel="one-panel", numbers=NUMBERS) == (
        "Drag Delay up. It takes 44 ms, not more.",
        "See Why.",
    )


def test_a_script_gives_what_to_drag_and_what_to_say(text):
    found = steps(text, panel="two-panel", numbers=NUMBERS)
    assert found == ('Delay to 50 ms. "Later."', 'Nothing. "Still 44 ms."')


@pytest.mark.parametrize(("panel", "said"), [("bare-panel", "no steps for bare-panel"), ("lost", "no cell lost")])
def test_a_panel_without_steps_is_named(text, panel, said):
    with pytest.raises(ValueError, match=said):
        steps(text, panel=panel, numbers=NUMBERS)


@pytest.mark.parametrize(
    ("lesson", "build", "count"),
    [("start", "panel", 6), ("splash", "vessel_panel", 4), ("for_teachers", "cameras", 6)],
)
def test_the_panels_of_the_lessons_have_them(lesson, build, count):
    panel = getattr(importlib.import_module(f"lessons.{lesson}.panel"), build)()
    assert len(panel.steps) == count
    assert list(panel._spec()["steps"]) == list(panel.steps)
    assert not any(mark in line for line in panel.steps for mark in ("[[", "**", "]("))
