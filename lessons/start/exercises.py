"""The questions of the lesson `start`: the lead, a streak, an empty frame, a first plan."""

from lessons.start.numbers import NUMBERS
from splashlib.classroom.exercises import Exercises
from splashlib.classroom.questions.question_kinds import BadSetting, Choice, Condition, Number, Option, Settings, Slip
from splashlib.classroom.questions.slips import thousandth
from splashlib.classroom.questions.wording import show
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_time
from splashlib.shoot import sees


def _lead(v):
    """Beam to water without drag, from the displayed heights [s]."""
    return fall_time(v.height_cm / 100) - fall_time((v.height_cm - v.beam_cm) / 100)


def _worked_lead(v):
    down, to_beam = fall_time(v.height_cm / 100), fall_time((v.height_cm - v.beam_cm) / 100)
    return (
        f"Down to the water: √(2 · {v.height_cm / 100:.2f} / 9.81) = {show(down, 'ms', 4)}.\n\n"
        f"Down to the beam it is {v.height_cm - v.beam_cm} cm: √(2 · {(v.height_cm - v.beam_cm) / 100:.2f} / 9.81) "
        f"= {show(to_beam, 'ms', 4)}.\n\nThe difference, {show(down - to_beam, 'ms')}, is the lead: all the time "
        "that camera, delay and flash have together."
    )


LEAD = Number(
    name="lead",
    prompt="A kumquat is let go {height_cm} cm above the water; the beam is {beam_cm} cm above the water. "
    "How long after the beam is broken does the fruit touch the water? Leave the air out.",
    draw={"height_cm": (30, 40, 45, 50, 60, 70), "beam_cm": (5, 8, 10, 12, 15, 20)},
    answer=_lead,
    unit="ms",
    slips=(
        Slip(
            name="from the hand",
            value=lambda v: fall_time(v.height_cm / 100),
            reply="{given} is the whole fall from the hand. The clock starts at the beam, {beam_cm} cm above the "
            "water; take away the time that the fruit needs to get there.",
        ),
        Slip(
            name="from rest",
            value=lambda v: fall_time(v.beam_cm / 100),
            reply="{given} would be right for a fruit let go at the beam. At the beam yours is already falling fast. "
            "Work out two times from the hand and subtract.",
        ),
        Slip(
            name="down to the beam",
            value=lambda v: fall_time((v.height_cm - v.beam_cm) / 100),
            reply="{given} is the time from the hand down to the beam. You want what is left of the fall after that.",
        ),
        Slip(
            name="no root",
            value=lambda v: 2 * v.beam_cm / 100 / GRAVITY,
            reply="{given} is 2·b/g without the root; its unit is s², not s. Each time is the root of 2·height/g, "
            "and you need two of them.",
        ),
        thousandth(),
    ),
    hints=(
        "Work out two times, both from the hand: down to the water, and down to the beam.",
        "A fall through a height h takes √(2·h/g). The fruit falls {height_cm} cm to the water. How far to the beam?",
    ),
    worked=_worked_lead,
    meaning="That is your lead. A camera whose lag is longer than this cannot catch the contact, whatever the delay.",
    see="Why",
)

STREAK = Number(
    name="streak",
    prompt="A droplet flies at {speed} m/s through the light of a flash that lasts 1/{part} s. How long is its "
    "streak on the set?",
    draw={"speed": (2.0, 2.5, 3.0, 4.0), "part": (1000, 2000, 5000, 8000, 10000, 20000)},
    answer=lambda v: v.speed / v.part,
    unit="mm",
    slips=(
        thousandth("mm", "m"),
        Slip(
            name="half",
            times=0.5,
            reply="{given} is half of it. The droplet does not start from rest: it moves at {speed} m/s for the "
            "whole time.",
        ),
        Slip(
            name="turned round",
            value=lambda v: 1 / (v.speed * v.part),
            reply="You divided by the speed. A faster droplet draws a longer streak, so the speed multiplies.",
        ),
    ),
    hints=("Streak = speed times the time for which the light lasts.", "1/1000 s at 1 m/s is 1 mm."),
    worked=lambda v: (
        f"{v.speed:g} m/s · 1/{v.part} s = {show(v.speed / v.part, 'm')} = {show(v.speed / v.part, 'mm')}. "
        "A droplet of 1 mm looks like a point as long as its streak stays well under its own size."
    ),
    meaning="Compare it with the size of the droplets: up to a fifth of a droplet it still looks round.",
    see="Why",
)

EMPTY = Choice(
    name="empty_frame",
    prompt=NUMBERS.fill(
        "The first frame is well lit. It shows splashing water and no kumquat. The beam is 12 cm above the water, the "
        "mirror has to rise first and takes [[mirror.lag to 1 ms]], the delay is at zero. What do you change?"
    ),
    options=(
        Option(
            key="raise the beam",
            text="Raise the beam to about 25 cm",
            right=True,
            reply=NUMBERS.fill(
                "Yes. From 25 cm the fruit needs [[high.lead to 1 ms]] to the water, and the mirror just gets out of "
                "the way in time."
            ),
        ),
        Option(
            key="longer delay",
            text="Set a delay of 56 ms",
            reply=NUMBERS.fill(
                "A delay makes the light later, and it is too late already: the fruit passed the water "
                "[[lead to 1 ms]] after the beam, the shutter opened after [[mirror.lag to 1 ms]]."
            ),
        ),
        Option(
            key="more flash",
            text="Turn the flash up",
            reply="The water is well lit. There is enough light; it comes when the fruit has gone.",
        ),
        Option(
            key="lower beam",
            text="Lower the beam to 5 cm, so that it is nearer to the water",
            reply=NUMBERS.fill(
                "That takes time away. From 5 cm the fruit needs only [[low.lead to 1 ms]] to the water."
            ),
        ),
        Option(
            key="faster shutter",
            text="Set a faster shutter speed",
            reply="The shutter speed says how long the shutter stays open, not how soon it opens. The mirror comes "
            "first.",
        ),
    ),
    hints=("Is the light too early or too late? Which change moves it the other way?",),
    worked=NUMBERS.fill(
        "The fruit reaches the water [[lead to 1 ms]] after the beam, the light comes after more than "
        "[[mirror.lag to 1 ms]]. A delay only adds to that. Either the fruit must need longer (a higher beam: 25 cm "
        "gives [[high.lead to 1 ms]]), or the camera less (mirror up, or shutter held open)."
    ),
    see="Drag",
)


def _start(v):
    return {
        "camera.style": v.style,
        "drop.release_height": v.height_cm / 100,
        "trigger.delay": 0.0,
        "flashes.0.power": 0.25,
    }


def _height(setup):
    return sees(setup).height


def _over(setup):
    """How far above the water the fruit is at the light; far below when nothing is lit [m]."""
    return _height(setup) if sees(setup).lit else -1.0


def _streak(setup):
    return sees(setup).moved


def _late_words(setup):
    """Why the fruit is not far enough above the water at the light."""
    if not sees(setup).lit:
        return "The flash fires while the shutter is closed: the frame is black. Take delay away."
    height = _height(setup)
    place = f"{show(height, 'cm')} above" if height >= 0 else f"{show(-height, 'cm')} under"
    return f"The light comes too late: the fruit is {place} the water. Less delay, or a higher beam."


PLAN = Settings(
    name="first_plan",
    prompt="Make a first plan. The kumquat is let go {height_cm} cm above the water, the camera style is "
    "*{style_name}*. "
    "Catch the fruit between 1 and 3 cm above the water, with a streak of at most half a millimetre.",
    draw={"style": ("mirror_up", "no_mirror", "held_open"), "height_cm": (40, 45, 50, 60)},
    also=lambda v: {
        "style_name": {"mirror_up": "mirror already up", "no_mirror": "no mirror", "held_open": "shutter held open"}[
            v.style
        ]
    },
    start=_start,
    asked=("beam.height", "trigger.delay", "flashes.0.power"),
    conditions=(
        Condition(
            text="the fruit is at least 1 cm above the water",
            test=lambda v, s: _over(s) - 0.01,
            reply=lambda v, s: _late_words(s),
        ),
        Condition(
            text="the fruit is at most 3 cm above the water",
            test=lambda v, s: 0.03 - _over(s),
            reply=lambda v, s: (
                f"The light comes too early: the fruit is still {show(_height(s), 'cm')} above the water. More delay."
            ),
        ),
        Condition(
            text="the streak is at most 0.5 mm",
            test=lambda v, s: 0.0005 - _streak(s),
            reply=lambda v, s: (
                f"The flash is too long: the fruit moves {show(_streak(s), 'mm')} while it lasts. Less power."
            ),
        ),
    ),
    answer=lambda v: _answer(v),
    slips=(
        BadSetting(
            name="delay to repair lateness",
            # With the shutter held open only a beam right at the water is too late.
            example=lambda v: {
                "beam.height": 0.005 if v.style == "held_open" else 0.05,
                "trigger.delay": 0.08,
                "flashes.0.power": 1 / 64,
            },
            test=lambda v, s: s.trigger.delay > 0 and _height(_without_delay(s)) < 0.01,
            reply=lambda v, s: (
                "Without any delay the light is too late already; a delay makes it later still. "
                f"Raise the beam above {show(s.beam.height, 'cm')} first."
            ),
        ),
        BadSetting(
            name="full power",
            example=lambda v: _answer(v) | {"flashes.0.power": 1.0},
            test=lambda v, s: s.flashes[0].power >= 0.5,
            reply="At this power the flash lasts longest. Turned down it ends sooner; the ledger tells you what "
            "that costs.",
        ),
    ),
    hints=(
        "Start with the beam: is it high enough that the light with no delay would still find the fruit in the air?",
        "Then add delay until the fruit is low enough. Power last.",
    ),
    worked=lambda v: _worked_plan(v),
    meaning="A first plan has three numbers: the beam buys the time, the delay spends it, the power keeps the streak "
    "short. Now look at what the power costs in light.",
    see="Drag",
)


def _without_delay(setup):
    from splashlib.shoot import change

    return change(setup, "trigger.delay", 0.0)


def _plan_setup(v, beam):
    from splashlib.shoot import change, tea_house

    setup = tea_house()
    for path, value in (_start(v) | {"beam.height": beam, "flashes.0.power": 1 / 32}).items():
        setup = change(setup, path, value)
    return setup


def _answer(v):
    """A plan that works: the lag paid for by the beam, the rest waited for, the flash at 1/32."""
    from splashlib.shoot import delay_for

    beam = {"held_open": 0.12, "mirror_up": 0.2, "no_mirror": 0.22}[v.style]
    delay = delay_for(_plan_setup(v, beam), height=0.02)
    return {"beam.height": beam, "trigger.delay": round(delay.value, 4), "flashes.0.power": 1 / 32}


def _worked_plan(v):
    plan = _answer(v)
    return (
        f"One of many: beam at {show(plan['beam.height'], 'cm')}, delay {show(plan['trigger.delay'], 'ms')}, power "
        f"1/32. "
        "The beam is high enough for the lag, the delay waits for the rest of the way, and the flash is short enough."
    )


FIRST_FRAME = Choice(
    name="first_frame",
    prompt=NUMBERS.fill(
        "The kumquat is let go 45 cm above the water, the beam is 12 cm above the water, the mirror takes "
        "[[mirror.lag to 1 ms]]. The delay is at zero. Where is the fruit when the shutter is open and the flash fires?"
    ),
    options=(
        Option(key="under", text="Under the water, out of the picture", right=True,
               reply=NUMBERS.fill(
                   "It passed the water [[lead to 1 ms]] after the beam; the shutter opened after "
                   "[[mirror.lag to 1 ms]]."
               )),
        Option(key="at", text="Just at the water", reply="For that the beam would have to be at 25 cm."),
        Option(key="above", text="Still in the air",
               reply=NUMBERS.fill(
                   "The fall from the beam takes [[lead to 1 ms]]; the mirror takes more than twice as long."
               )),
    ),
    hints=("How long does the fruit need for the last 12 cm? It is falling at almost 3 m/s by then.",),
    worked=NUMBERS.fill(
        "The fruit met the water [[lead to 1 ms]] after it broke the beam and was [[mirror.depth to 1 cm]] deep, out "
        "of the frame, when the light came after [[mirror.light to 1 ms]]. The mirror alone took "
        "[[mirror.lag to 1 ms]] of that."
    ),
    see="Drag",
)  # fmt: skip

exercises = Exercises("start", (FIRST_FRAME, LEAD, STREAK, EMPTY, PLAN))
