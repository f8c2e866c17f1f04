"""The numbers that the page for teachers states beside those of the scene."""

from lessons import COURSE
from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import HAND, SCENE, SCENE_NUMBERS, lower
from splashlib.shoot.decide.flash_duration import heads_apart, in_four_lights

NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    count={"lessons": lambda: sum(lesson.number < 90 for lesson in COURSE)},
    length={
        "lower.under_hand": lambda: lower(HAND),
        "two_heads": lambda: heads_apart(in_four_lights(SCENE, apart=0.001)[3]),
    },
)
