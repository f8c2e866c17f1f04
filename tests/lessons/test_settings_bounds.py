"""Each question about settings: every bound that its words state lies where they say, tried from both sides."""

import importlib

import pytest

from lessons import COURSE
from splashlib.classroom.judges import judge
from splashlib.classroom.judges.settings import start
from splashlib.physics.fall import fall_time
from splashlib.shoot import (
    change,
    change_all,
    delay_for,
    framed,
    hold_off_advice,
    lead,
    sees,
    splash,
    stands,
    streak_in,
    vessel_advice,
)
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops
from splashlib.shoot.decide.spread import aim, hand_too_high
from tests.lessons.by_hand import check_edges, variant_with

NUMBERS = {
    "first_plan": ("start", {"style": "mirror_up", "height_cm": 45}),
    "faster": ("fall", {"height_cm": 20, "times": 2.0, "lead_ms": 30}),
    "place": ("beam", {"style": "held_open", "height_cm": 45}),
    "bright": ("room", {"lux": 10, "time": 2, "part": 30}),
    "crown": ("splash", {"height_cm": 45, "open_s": 2.0}),
    "mend": ("freeze", {"part": 4, "height_cm": 45}),
    "pay": ("stops", {"distance_cm": 100, "part": 64}),
}


def found(setup, path, ends, measured, goal):
    """The value of a setting between two ends for which something that is measured reaches a goal."""
    low, high = ends
    rising = measured(change(setup, path, high)) > measured(change(setup, path, low))
    for _ in range(40):
        middle = (low + high) / 2
        below = measured(change(setup, path, middle)) < goal
        low, high = (middle, high) if below is rising else (low, middle)
    return {path: (low + high) / 2}


def waits(setup, *instants, **fixed):
    """The delays for several heights over the water [m], or times after the contact [s]."""
    word = fixed.get("word", "height")
    return [{"trigger.delay": delay_for(setup, **{word: each}).value} for each in instants]


def metered(setup, *stops):
    """The guide number that brings the flash so many stops over a good exposure: light goes as its square."""
    number = setup.flashes[0].guide_number
    return [{"flashes.0.guide_number": number * 2 ** ((each - flash_over_metered(setup)) / 2)} for each in stops]


def lux_under(setup, *stops):
    """The light of a room that lies so many stops under the flash."""
    return [{"room.lux": setup.room.lux * 2 ** (ghost_stops(setup) - each)} for each in stops]


def first_plan(setup):
    powers = [found(setup, "flashes.0.power", (1 / 256, 1), lambda s: sees(s).moved, mm / 1000) for mm in (0.49, 0.51)]
    yield "the fruit is at least 1 cm above the water", *waits(setup, 0.0102, 0.0098)
    yield "the fruit is at most 3 cm above the water", *waits(setup, 0.0298, 0.0302)
    yield "the streak is at most 0.5 mm", *powers


def faster(setup):
    """From 20 cm to twice the speed is from 80 cm, and the speed goes as the root of the height."""
    slow, fast = (
        [{"drop.release_height": 0.8 * share**2} for share in shares] for shares in ((0.975, 0.965), (1.025, 1.035))
    )
    needed = found(setup, "beam.height", (0.02, 0.6), lead, 0.030)["beam.height"]
    assert needed == pytest.approx(0.1144, abs=0.002)  # 0.8 − ½ · 9.81 · (√(1.6 / 9.81) − 0.030)², without air
    yield "the kumquat is fast enough", *slow
    yield "the kumquat is not too fast", *fast
    yield (
        "from the beam to the water there is time enough",
        {"beam.height": needed + 5e-4},
        {"beam.height": needed - 5e-4},
    )


def place(setup):
    top = framed(setup).top + setup.beam.width / 2

    def moved(each):
        return hand_too_high(aim(each, height=0.02).setup, 0.003)

    beams = [found(setup, "beam.height", (0.1, 0.4), moved, mm / 1000) for mm in (0.98, 1.02)]
    delays = [{"trigger.delay": aim(change_all(setup, beam), height=0.02).setup.trigger.delay} for beam in beams]
    yield "the beam is outside the frame", {"beam.height": top + 2e-4}, {"beam.height": top - 2e-4}
    yield "the fruit is at least 1 cm above the water", *waits(setup, 0.0102, 0.0098)
    yield "the fruit is at most 3 cm above the water", *waits(setup, 0.0298, 0.0302)
    yield (
        "a hand 3 mm too high moves the fruit by no more than is allowed",
        *(beam | delay for beam, delay in zip(beams, delays, strict=True)),
    )


def bright(setup):
    yield "the flash lights the whole frame", {}, {"camera.shutter": 1 / 500}
    yield "the room lies at least ten stops under the flash", *lux_under(setup, 10.01, 9.99)


def crown(setup):
    likely = next(stage for stage in splash(setup) if stage.name == "crown_peak").likely
    for away in (-1, 1):
        delays = waits(setup, likely + away * 0.0098, likely + away * 0.0102, word="after_contact")
        yield "the light comes within 10 ms of the likely crown", *delays
    needed, rim = hold_off_advice(setup).needed, vessel_advice(setup).rim_needed
    yield (
        "the hold-off is long enough",
        {"trigger.hold_off": needed + 1e-3},
        {"trigger.hold_off": needed - 1e-3},
    )
    bare = {"vessel.tray": "none"}
    yield (
        "the water stays in the vase, or in its tray",
        bare | {"vessel.rim": rim + 1e-4},
        bare | {"vessel.rim": rim - 1e-4},
    )
    yield (
        "the water stays in the vase, or in its tray",
        {"vessel.tray": "tray", "vessel.rim": 0.0},
        bare | {"vessel.rim": 0.0},
    )


def mend(setup):
    def streak(each):
        return streak_in(each).on_object

    yield (
        "droplets are points",
        *(found(setup, "flashes.0.power", (1 / 256, 1), streak, mm / 1000) for mm in (0.199, 0.201)),
    )
    yield "the frame is not too dark", *metered(setup, -0.49, -0.51)
    yield "the frame is not too bright", *metered(setup, 0.49, 0.51)
    yield "the ISO is 6400 or below", {"camera.iso": 6400.0}, {"camera.iso": 6401.0}


def pay(setup):
    yield "the flash is at 1/{part} or lower", {"flashes.0.power": 1 / 64}, {"flashes.0.power": 1 / 63}
    yield "the frame is not too dark", *metered(setup, -0.49, -0.51)
    yield "the frame is not too bright", *metered(setup, 0.49, 0.51)
    yield "the room lies at least seven stops under the flash", *lux_under(setup, 7.01, 6.99)
    wet = stands(setup)[0].fastest
    yield "the flash stands dry", {"flashes.0.distance": wet + 1e-3}, {"flashes.0.distance": wet - 1e-3}
    # Held open from half a second before the release; the fall takes a third of one.
    light = 0.5 + fall_time(setup.drop.release_height)
    yield (
        "the shutter is open when the flash fires",
        {"camera.open_time": light + 0.05},
        {"camera.open_time": light - 0.1},
    )


EDGES = {each.__name__: each for each in (first_plan, faster, place, bright, crown, mend, pay)}


def asked(lesson):
    return importlib.import_module(f"lessons.{lesson}.exercises").exercises


@pytest.mark.parametrize("name", NUMBERS, ids=lambda name: f"{NUMBERS[name][0]}-{name}")
def test_bounds_lie_where_the_words_say(name):
    lesson, numbers = NUMBERS[name]
    question = asked(lesson)[name]
    values = judge.numbers(question, variant_with(question, numbers))
    right = question.answer(values)
    edges = list(EDGES[name](change_all(start(question, values), right)))
    check_edges(question, numbers, right, edges)


def test_every_question_about_settings_has_its_bounds_tried():
    lessons = [lesson.name for lesson in COURSE if importlib.util.find_spec(f"lessons.{lesson.name}")]
    settings = {name for lesson in lessons for name, each in asked(lesson).questions.items() if each.kind == "settings"}
    assert settings == {*NUMBERS, "rescue"}, "in tests/lessons/test_camera.py: rescue"
