"""The numbers that the lesson `start` states beside those of the scene."""

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import MIRROR, SCENE_NUMBERS, beam_at, in_style
from splashlib.shoot import lead, sees

NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        "high.lead": lambda: lead(beam_at(0.25)),
        "low.lead": lambda: lead(beam_at(0.05)),
        "mirror_up.early": lambda: -sees(in_style("mirror_up")).after_contact,
    },
    length={"mirror.depth": lambda: -sees(MIRROR).height},
)
