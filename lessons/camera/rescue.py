"""Two ways out of the empty frame: how high the beam must be for a lag, and a set-up to be mended."""

from lessons.camera.numbers import NUMBERS
from splashlib.classroom.questions.question_kinds import BadSetting, Condition, Function, Settings, Slip
from splashlib.classroom.questions.wording import show
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import distance_fallen, fall_speed, fall_time
from splashlib.shoot import change_all, delay_for, framed, lead, light_lag, sees, tea_house
from splashlib.shoot.decide.style_comparison import in_styles

STEADY = 0.004
"""So much may the light move from drop to drop, early or late [s]: a little over a centimetre of fall."""


def _lowest_beam(*, height, lag):
    """Where the body is a lag before contact [m]."""
    return height - distance_fallen(fall_time(height) - lag)


LOWEST_BEAM = Function(
    name="lowest_beam",
    prompt="Write a function `lowest_beam(height, lag)`. It takes the release height over the water in metres and the "
    "lag from the beam to the flash in seconds. It returns the height over the water, in metres, of the lowest beam "
    "from which the light still catches the contact. Leave the air out; g is 9.81 m/s².",
    reference=_lowest_beam,
    inputs={"height": (0.30, 0.45, 0.60, 0.80), "lag": (0.040, 0.050, 0.070, 0.100, 0.120)},
    unit="m",
    slips=(
        Slip(
            name="from rest",
            value=lambda *, height, lag: GRAVITY * lag**2 / 2,
            reply="With {height} m and {lag} s you get {given}: the way of a body that is let go at the beam. Yours "
            "passes the beam at full speed, and so gets much farther in that time.",
        ),
        Slip(
            name="final speed all the way",
            value=lambda *, height, lag: fall_speed(height) * lag,
            reply="With {height} m and {lag} s you get {given}: speed at the water times lag. Higher up the body was "
            "slower, so it needs a little less room.",
        ),
        Slip(
            name="from the hand",
            value=lambda *, height, lag: distance_fallen(fall_time(height) - lag),
            reply="With {height} m and {lag} s you get {given}: how far it has fallen from the hand by then. What is "
            "asked for is how far it still is above the water.",
        ),
        Slip(
            name="in centimetres",
            value=lambda *, height, lag: 100 * _lowest_beam(height=height, lag=lag),
            reply="With {height} m and {lag} s you get {given}: a hundred times too much. The height is wanted in "
            "metres, not in centimetres.",
        ),
        Slip(
            name="sign of gravity",
            value=lambda *, height, lag: fall_speed(height) * lag + GRAVITY * lag**2 / 2,
            reply="With {height} m and {lag} s you get {given}. You go back in time from the water, and there the "
            "body was slower: the term with g takes something away.",
        ),
    ),
    hints=(
        "How long does the whole fall take? And how much of it is over when the body is at the beam?",
        "At the beam it has been falling for √(2·height/g) − lag. How far has it come by then?",
    ),
    worked=NUMBERS.fill(
        "The whole fall takes t = √(2·height/g). At the beam, one lag before the contact, it has lasted t − lag, "
        "so the body has fallen g·(t − lag)²/2. The rest of the height is the answer:\n\n"
        "```python\n"
        "def lowest_beam(height, lag):\n"
        "    t = (2 * height / 9.81) ** 0.5\n"
        "    return height - 9.81 * (t - lag) ** 2 / 2\n"
        "```\n\n"
        "For 45 cm and [[mirror.lag to 1 ms]] that is [[mirror.beam to 0.1 cm]]. A slow camera needs more than half "
        "of the fall."
    ),
    meaning="Add what your lag scatters, two scatters of it, before you fix the lamp of the beam.",
    see="Why",
)


def _begun(v):
    return {
        "camera.style": "mirror",
        "camera.mirror.lag": v.lag_ms / 1000,
        "drop.release_height": v.height_cm / 100,
        "beam.height": v.beam_cm / 100,
    }


def _shot(setup):
    return next(shot for shot in in_styles(setup) if shot.style == setup.camera.style)


def _over(setup):
    """How far over the water the body is at the light; far below when nothing is lit [m]."""
    return sees(setup).height if sees(setup).lit > 0 else -1.0


def _late_words(setup):
    """Why the body is not over the water at the light."""
    seen = sees(setup)
    if not seen.lit > 0:
        return "The flash fires while the shutter is closed: the frame is black. A delay that long is of no use."
    late = f"The light comes {show(seen.after_contact, 'ms', 2)} after the contact. It must come sooner:"
    if setup.trigger.delay >= seen.after_contact:
        return f"{late} less delay."
    return f"{late} a higher beam, or a quicker camera. No delay makes up for that."


def _off(setup):
    """How far early or late the light may be, as words: in time and as a way of the fall."""
    spread = _shot(setup).spread
    return f"{show(spread, 'ms', 2)}, or {show(spread * sees(setup).speed, 'cm', 2)} of fall"


RESCUE = Settings(
    name="rescue",
    prompt="Mend this set-up. The frames are empty: the mirror must rise first, and from the signal to the open frame "
    "that takes {lag_ms} ms. The kumquat is let go {height_cm} cm above the water, the beam is {beam_cm} cm above the "
    "water. Bring the kumquat into the picture, between the water and 3 cm over it. The beam must stay out of the "
    f"frame, and from drop to drop the light must not be more than {show(STEADY, 'ms', 1)} early or late. You may "
    "change camera style, beam and delay.",
    draw={"lag_ms": (100, 90, 110, 120), "height_cm": (45, 40, 50, 60), "beam_cm": (12, 10, 9)},
    start=_begun,
    asked=("camera.style", "beam.height", "trigger.delay"),
    conditions=(
        Condition(
            text="the light does not come after the contact",
            test=lambda v, s: _over(s),
            reply=lambda v, s: _late_words(s),
        ),
        Condition(
            text="the kumquat is at most 3 cm over the water",
            test=lambda v, s: 0.03 - _over(s),
            reply=lambda v, s: (
                f"The light comes too early: the kumquat is still {show(_over(s), 'cm', 2)} up. Now a delay helps."
            ),
        ),
        Condition(
            text="the beam stays out of the frame",
            test=lambda v, s: s.beam.bottom - framed(s).top,
            reply=lambda v, s: (
                f"The beam is at {show(s.beam.height, 'cm')}, and the frame reaches up to {show(framed(s).top, 'cm')}: "
                "its spot would be in the picture."
            ),
        ),
        Condition(
            text=f"the light is at most {show(STEADY, 'ms', 1)} early or late from drop to drop",
            test=lambda v, s: STEADY - _shot(s).spread,
            reply=lambda v, s: (
                f"From drop to drop the light is up to {_off(s)}, early or late. A camera that waits for its "
                "viewfinder cannot do better. Choose another style."
            ),
        ),
    ),
    answer=lambda v: _mended(v),
    slips=(
        BadSetting(
            name="delay to repair lateness",
            example=lambda v: {"trigger.delay": 0.05},
            test=lambda v, s: s.trigger.delay > 0 and light_lag(s) > lead(s),
            reply=lambda v, s: (
                f"Without any delay the light is {show(light_lag(s) - lead(s), 'ms', 2)} too late already. Your delay "
                f"adds {show(s.trigger.delay, 'ms')} to that. Gain time first; then there is something to delay."
            ),
        ),
        BadSetting(
            name="beam the wrong way",
            example=lambda v: {"beam.height": v.beam_cm / 100 - 0.02},
            test=lambda v, s: s.camera.style != "held_open" and s.beam.height < v.beam_cm / 100 - 1e-9,
            reply=lambda v, s: (
                f"You lowered the beam to {show(s.beam.height, 'cm')}. The kumquat then needs only "
                f"{show(lead(s), 'ms')} to the water: less time for the camera, not more."
            ),
        ),
        BadSetting(
            name="open shutter without delay",
            example=lambda v: {"camera.style": "held_open"},
            test=lambda v, s: s.camera.style == "held_open" and s.trigger.delay < 0.001,
            reply=lambda v, s: (
                f"The shutter is open, so the flash fires at once: the kumquat is still at the beam, "
                f"{show(_over(s), 'cm')} up. This is the case for which the delay is made."
            ),
        ),
    ),
    hints=(
        "The camera needs {lag_ms} ms. How long does the kumquat need from the beam? Only one of the two can wait.",
        "Four ways out: a higher beam, the mirror up, the shutter held open, a later instant. The last one is not "
        "asked for here.",
        "When the camera is quick enough, set the delay so that the kumquat is 1 or 2 cm over the water.",
    ),
    worked=lambda v: _worked(v),
    meaning="How the shutter is started comes first; beam and delay follow from it.",
    see="Why",
)


def _mended(v):
    """One of many: the shutter held open, the delay for 1.5 cm over the water."""
    open_shutter = change_all(tea_house(), _begun(v) | {"camera.style": "held_open"})
    delay = delay_for(open_shutter, height=0.015).value
    return {"camera.style": "held_open", "trigger.delay": round(delay, 4)}


def _high_beam(v):
    """The other way: mirror down, the beam as high as its lag needs, in half centimetres [m]."""
    lag = light_lag(change_all(tea_house(), _begun(v))) + 0.003
    needed = _lowest_beam(height=v.height_cm / 100, lag=lag)
    return (int(200 * needed) + 1) / 200


def _worked(v):
    beam, found = _high_beam(v), _mended(v)
    return (
        f"Without any delay the light comes after {v.lag_ms} ms and a little; the kumquat has gone by then. One way: "
        f"hold the shutter open, leave the beam at {v.beam_cm} cm, and set a delay of "
        f"{show(found['trigger.delay'], 'ms')}. Another one, if the room cannot be made dark: leave the mirror as it "
        f"is and raise the beam to {show(beam, 'cm')}; the camera then uses up nearly all the time, and hardly any "
        "delay is left. The camera without a mirror would be quick enough from a higher beam, but it waits for its "
        "viewfinder, up to 8 ms early or late."
    )
