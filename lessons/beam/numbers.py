"""The numbers that the lesson `beam` states beside those of the scene: the hand, thirty drops, bounds, best heights."""

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import (
    HAND,
    LOOK,
    MIRROR,
    SCENE,
    SCENE_NUMBERS,
    beam_at,
    in_style,
    lower_at_contact,
    sooner,
    thirty,
    thirty_drops,
)
from splashlib.shoot import beam_bounds, best_beam_height, breaks_beam, change, lead, with_body
from splashlib.shoot.decide.spread import aim

CARELESS = change(SCENE, "drop.release_scatter", 0.010)
MILK = with_body(SCENE, "drop of milk")
STYLES = ("held_open", "mirror_up", "no_mirror", "mirror")


def _best(style):
    """The lowest beam that meets all bounds, in a camera style [m]."""
    return best_beam_height(in_style(style), height=LOOK)


def _thirty_at_best(style):
    """How far apart thirty drops lie there, with the beam on the panel's next half centimetre [m]."""
    return thirty(beam_at(round(200 * _best(style) + 0.499) / 200, in_style(style)))


def _off_centre(by):
    """How much later a kumquat breaks the beam when its middle passes beside that of the beam [m of fall]."""
    middle, beside = (breaks_beam(SCENE, off)[0] for off in (0.0, by))
    return middle - beside


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        **{f"at_{cm}.lead": lambda cm=cm: lead(beam_at(cm / 100)) for cm in (43, 30, 20)},
        **{f"at_{cm}.sooner": lambda cm=cm: sooner(cm / 100) for cm in (43, 30, 20, 12)},
        "mirror.short_by": lambda: aim(MIRROR, height=LOOK).short_by,
        "look.lead": lambda: aim(SCENE, height=LOOK).lead,
    },
    length={
        **{f"at_{cm}.lower": lambda cm=cm: lower_at_contact(cm / 100) for cm in (43, 30, 20)},
        **{f"{style}.best": lambda style=style: _best(style) for style in STYLES},
        **{f"{style}.thirty": lambda style=style: _thirty_at_best(style) for style in STYLES},
        "at_30.thirty": lambda: thirty(beam_at(0.30)),
        "careless.under_hand": lambda: thirty(beam_at(HAND, CARELESS)),
        "careless.thirty": lambda: thirty(CARELESS),
        "clear_of_rim": lambda: beam_bounds(SCENE)["rim"],
        "off_centre": lambda: _off_centre(0.008),
    },
    count={"milk.dark": lambda: thirty_drops(MILK).missed},
)
