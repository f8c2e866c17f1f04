"""The numbers that the lesson `stops` states beside those of the scene: the account, what pays, noise."""

import math

from splashlib.classroom.prose.numbers import Numbers
from splashlib.classroom.prose.scene_numbers import FULL, SCENE, SCENE_NUMBERS
from splashlib.physics.light.exposure import pane_loss, size_loss
from splashlib.physics.stops import stops_between
from splashlib.shoot import change, payments
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops, room_over_metered

SHORT = change(SCENE, "flashes.0.power", 1 / 128)
"""The scene with its flash two stops shorter."""


def _pays(name):
    """What one handle alone would have to be for the short flash [SI]."""
    return next(way.value for way in payments(SHORT) if way.name == name)


def _nearer(far, near):
    """Stops that a diffuser 30 cm across gains from one distance to another."""
    gain = float(stops_between(far, near, kind="distance"))
    return gain + size_loss(distance=far, size=0.3) - size_loss(distance=near, size=0.3)


def _noise(iso):
    """Noise of a middle grey, as a share of it [-]."""
    from splashlib.picture.stops.stops_picture import grey_noise  # draws pictures: loaded only when it is asked for

    return grey_noise(iso)


NUMBERS = Numbers(
    also=SCENE_NUMBERS,
    number_of_stops={
        "frame": lambda: flash_over_metered(SCENE),
        "room": lambda: room_over_metered(SCENE),
        "full.frame": lambda: flash_over_metered(FULL),
        "short.missing": lambda: -flash_over_metered(SHORT),
        "short.ghost": lambda: ghost_stops(SHORT),
        "paid.iso": lambda: float(stops_between(SCENE.camera.iso, _pays("iso"), kind="iso")),
        "paid.room": lambda: room_over_metered(change(SHORT, "camera.iso", _pays("iso"))),
        "near.from_80": lambda: _nearer(0.8, 0.4),
        "near.from_40": lambda: _nearer(0.4, 0.2),
        "sheet": lambda: pane_loss(),
        "three_heads": lambda: math.log2(3),
    },
    length={"pay.distance": lambda: _pays("distance")},
    f_number={"pay.aperture": lambda: _pays("aperture")},
    ISO={"pay.iso": lambda: _pays("iso")},
    share={
        **{f"noise.at_{iso}": lambda iso=iso: _noise(iso) for iso in (200, 800, 3200)},
        "distance_of_a_stop": lambda: math.sqrt(0.5),
    },
)
