"""The numbers that the lesson `fall` states beside those of the scene: four bodies, three heights, the air."""

import math

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import SCENE, SCENE_NUMBERS
from splashlib.physics.air.carried_air import distance_in_air, gravity_in_air, time_in_air
from splashlib.physics.constants import GRAVITY
from splashlib.physics.fall import fall_speed, fall_time
from splashlib.shoot import arrival, body_terminal_speed, change, lead
from splashlib.shoot.chain.arrival import fallers, mass

_FALLERS = fallers(SCENE.drop)
BODIES = {
    "fruit": _FALLERS["kumquat"],
    "marble": _FALLERS["glass marble"],
    "milk": _FALLERS["drop of milk"],
    "ball": _FALLERS["table-tennis ball"],
}
HEIGHT, HIGH = 0.45, 1.0
STROBE = 0.020
"""From flash to flash of the strobe [s]."""
SHORT = 1e-4
"""The flash whose streak the table gives [s]."""


def _air(body):
    return {"density": body.density, "terminal_speed": body_terminal_speed(body)}


def _last_step(body):
    """How far it falls from the last picture of the strobe but one to the last [m]."""
    last = STROBE * int(arrival(body, HEIGHT).time / STROBE)
    return distance_in_air(last, **_air(body)) - distance_in_air(last - STROBE, **_air(body))


def _late_from_beam(body):
    """How much later than without air the contact is, counted from the beam of the scene [s]."""
    to_beam = HEIGHT - SCENE.beam.height
    with_air = time_in_air(HEIGHT, **_air(body)) - time_in_air(to_beam, **_air(body))
    return with_air - (fall_time(HEIGHT) - fall_time(to_beam))


def _hand_late(height):
    """How much later the contact is from a hand 1 cm too high [s]."""
    return arrival(BODIES["fruit"], height + 0.01).time - arrival(BODIES["fruit"], height).time


def _pushed(speed):
    """How much earlier a body comes that is already falling when it is let go [s]."""
    down = (-speed + math.sqrt(speed**2 + 2 * GRAVITY * HEIGHT)) / GRAVITY
    return fall_time(HEIGHT) - down


def _ball_later():
    """How much later than the kumquat the ball is down [s]."""
    return arrival(BODIES["ball"], HEIGHT).time - arrival(BODIES["fruit"], HEIGHT).time


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    time={
        **{f"from_{cm}.time": lambda cm=cm: fall_time(cm / 100) for cm in (20, 45, 80)},
        "high.lead": lambda: lead(change(SCENE, "drop.release_height", HIGH)),
        "hand.late": lambda: _hand_late(HEIGHT),
        "high.hand.late": lambda: _hand_late(HIGH),
        "pushed": lambda: _pushed(0.1),
        "fruit.late": lambda: arrival(BODIES["fruit"], HEIGHT).late,
        "milk.late": lambda: arrival(BODIES["milk"], HEIGHT).late,
        "fruit.late_from_beam": lambda: _late_from_beam(BODIES["fruit"]),
        "milk.late_from_beam": lambda: _late_from_beam(BODIES["milk"]),
        "fruit.time": lambda: arrival(BODIES["fruit"], HEIGHT).time,
        "ball.later": _ball_later,
    },
    speed={
        **{f"from_{cm}.speed": lambda cm=cm: fall_speed(cm / 100) for cm in (20, 45, 80)},
        **{f"{name}.terminal": lambda body=body: body_terminal_speed(body) for name, body in BODIES.items()},
    },
    length={
        **{f"from_{cm}.streak": lambda cm=cm: SHORT * fall_speed(cm / 100) for cm in (20, 45, 80)},
        **{f"{name}.behind": lambda body=body: arrival(body, HEIGHT).behind for name, body in BODIES.items()},
        **{f"high.{name}.behind": lambda body=body: arrival(body, HIGH).behind for name, body in BODIES.items()},
        "last_step": lambda: _last_step(BODIES["fruit"]),
        "ball.up": lambda: _ball_later() * arrival(BODIES["ball"], HEIGHT).speed,
    },
    mass={
        "fruit.mass": lambda: mass(BODIES["fruit"]),
        "ball.mass": lambda: mass(BODIES["ball"]),
    },
    energy={
        f"{name}.energy": lambda name=name: arrival(BODIES[name], HEIGHT).energy for name in ("fruit", "marble", "milk")
    },
    share={
        "fruit.air": lambda: 1 - gravity_in_air(BODIES["fruit"].density) / GRAVITY,
        "ball.air": lambda: 1 - gravity_in_air(BODIES["ball"].density) / GRAVITY,
    },
)
