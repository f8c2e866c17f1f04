"""The numbers that the page for teachers states beside those of the scene."""

from functools import partial

from lessons import BREAK, COURSE, TWO_HOURS
from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import HAND, SCENE, SCENE_NUMBERS, lower
from splashlib.shoot.decide.flash_duration import heads_apart, in_four_lights

WRITTEN = {lesson.name: lesson for lesson in COURSE if lesson.written and lesson.number < 90}
PATH = [name for name in TWO_HOURS if name in WRITTEN]
AFTER = "camera"
"""The break of the two hours comes after this lesson."""
EVENING = 120  # min


def _starts():
    """When each lesson of the path begins [min]."""
    clock, found = 0, {}
    for name in PATH:
        found[name] = clock
        clock += WRITTEN[name].minutes + (BREAK if name == AFTER else 0)
    return found | {"end": clock}


def _times():
    """Start and length of each lesson of the path, of the break and of the last round [s]."""
    starts = _starts()
    lengths = {name: WRITTEN[name].minutes for name in PATH} | {"end": EVENING - starts["end"]}
    pause = starts[AFTER] + lengths[AFTER]
    named = {f"{name}.from": 60 * start for name, start in starts.items()} | {"break.from": 60 * pause}
    return named | {f"{name}.takes": 60 * length for name, length in lengths.items()} | {"break.takes": 60 * BREAK}


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    count={"lessons": lambda: len(WRITTEN)},
    time={name: partial(float, value) for name, value in _times().items()}
    | {"lessons.take": lambda: 60 * sum(lesson.minutes for lesson in WRITTEN.values())},
    length={
        "lower.under_hand": lambda: lower(HAND),
        "two_heads": lambda: heads_apart(in_four_lights(SCENE, apart=0.001)[3]),
    },
)
