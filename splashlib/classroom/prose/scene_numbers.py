"""The numbers of the tea-house scene that more than one lesson states. Lessons never import each other."""

from splashlib.classroom.prose.numbers import Numbers
from splashlib.shoot import contact_speed, lead, splash, tea_house

SCENE = tea_house()

SCENE_NUMBERS = Numbers(
    time={
        "lead": lambda: lead(SCENE),
        "crown": lambda: next(stage.likely for stage in splash(SCENE) if stage.name == "crown_peak"),
    },
    speed={
        "contact_speed": lambda: contact_speed(SCENE),
    },
)
