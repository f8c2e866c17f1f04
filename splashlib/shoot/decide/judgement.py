"""What the frame of one drop holds: the one judgement that every panel's words and every picture's text come from."""

import math
from dataclasses import dataclass
from functools import lru_cache

from splashlib.physics.light.lens import blur_disc, circle_of_confusion
from splashlib.physics.stops import stops_of
from splashlib.shoot.chain.events import events, open_rows
from splashlib.shoot.chain.framing import SHOWN, Seen, framed, seen_in
from splashlib.shoot.decide.exposure_balance import head_light, over_metered, room_light
from splashlib.shoot.setup.parts import Setup
from splashlib.shoot.setup.pulses import pulse_of

BLACK = -8.0
"""Stops over metered below which even a white thing is lost in black."""
STILL_SEEN = -5.0
"""Stops over metered from which on the set at rest is made out in the light of the room alone."""
OFF, MUCH, BURNT = 0.5, 1.5, 2.0
"""Stops off up to which a frame is well exposed; a little off; and over which white things are nothing but white."""
WHITE = 4.5
"""Stops over metered above which a middle grey of 18 % is white as well: nothing is made out any more."""
PLAIN, HARDLY, GONE = 5.0, 7.0, 10.0
"""Stops under the flash at which the room's light is plain to see, hardly seen, gone (`room_under_flash`)."""
WHOLE = 0.995
"""Share of the frame that must be lit: a strip of half a percent at its edge is no band that anyone sees."""

EXPOSURES = (
    "black",
    "much too dark",
    "a little dark",
    "well exposed",
    "a little bright",
    "much too bright",
    "burnt out",
)
FAULTS = ("no_flash", "shut", "black", "drowned", "white", "burnt", "covered", "band", "bright", "dark")
"""What spoils a frame, the worst first: "white" is burnt out all over, "covered" is a band that hides the body."""


@dataclass(frozen=True, kw_only=True)
class Judgement:
    """What the frame of one drop holds.

    head: number of the first head that finds the shutter open, 0 where none does.
    seen: where its light shows the body. shutter: "no_flash" when
    nothing is triggered, "shut", "part" when some rows are covered at the light, "open". covered: whether the body
    lies in rows that are covered.
    flash, room: stops over metered, of the heads that find the shutter open and of the room; `total` of both.
    ghost: stops of the room under that flash, infinite in the dark; minus infinity without a flash.
    smear, sharp [m]: way of the body in the light, and the longest that still looks sharp. apart [m]: way of the body
    between the first and the last head. disc: blur of the body's plane, in circles of confusion.
    """

    setup: Setup
    head: int
    seen: Seen
    shutter: str
    covered: bool
    flash: float
    room: float
    total: float
    ghost: float
    smear: float
    sharp: float
    apart: float
    disc: float

    @property
    def lit(self):
        """Whether a flash is recorded at all."""
        return self.shutter in ("part", "open")

    @property
    def shows_body(self):
        """Whether the body itself is on the frame: in its area, in open rows, and neither black, drowned nor white."""
        return self.lit and self.seen.in_frame and self.fault not in ("black", "white", "drowned", "covered")

    @property
    def body(self):
        """Where the body is: as `Seen.where`; "covered" behind a curtain, "" when no flash is recorded."""
        if not self.lit:
            return ""
        return "covered" if self.covered else self.seen.where

    @property
    def exposure(self):
        """How bright the frame is: of `EXPOSURES`."""
        return exposure(self.total)

    @property
    def fault(self):
        """What spoils the frame most: of `FAULTS`, or "" when nothing does."""
        found = {
            "no_flash": self.shutter == "no_flash",
            "shut": self.shutter == "shut",
            "black": self.total < BLACK,
            "white": self.total > WHITE,
            "drowned": self.ghost < 0,
            "burnt": self.total > BURNT,
            "covered": self.covered,
            "band": self.shutter == "part",
            "bright": self.total > MUCH,
            "dark": self.total < -MUCH,
        }
        return next((name for name in FAULTS if found[name]), "")

    @property
    def room_seen(self):
        """How much of the room is seen: "none", "gone", "hardly", "trace", "plain", "drowned"."""
        if math.isinf(self.ghost) and self.ghost > 0:
            return "none"
        levels = ((GONE, "gone"), (HARDLY, "hardly"), (PLAIN, "trace"), (0.0, "plain"))
        return next((name for least, name in levels if self.ghost >= least), "drowned")


def exposure(stops):
    """Say in a word how bright a frame is, so many stops over metered."""
    edges = (BLACK, -MUCH, -OFF, OFF, MUCH, BURNT)
    # A frame that lies on an edge gets the better word.
    passed = sum(stops >= edge if edge < 0 else stops > edge for edge in edges)
    return EXPOSURES[passed]


def judge(setup, draw=None, *, behind=0.0):
    """Judge the frame that a set-up takes of one drop.

    Parameters
    ----------
    setup : Setup
    draw : Draw, optional
        One drop; without it the nominal one.
    behind : float
        How far behind the plane of fall the body falls [m]; it blurs the body.

    Returns
    -------
    Judgement
    """
    if draw is None and not behind:
        return _nominal(setup)
    return _judged(setup, events(setup, draw), behind)


@lru_cache(maxsize=64)
def _nominal(setup):
    """The nominal drop, which several words of one picture ask for."""
    return _judged(setup, events(setup), 0.0)


def _judged(setup, when, behind):
    open_heads = [number for number, lit in enumerate(when.lit[0]) if lit > 0]
    first = open_heads[0] if open_heads else 0
    seen = seen_in(setup, when, first)
    flash = sum(head_light(setup.flashes[number]) for number in open_heads)
    room = room_light(setup) if math.isfinite(float(when.shutter_open[0])) else 0.0
    camera, frame = setup.camera, framed(setup)
    lights = when.flash_half[0, open_heads or [0]]
    circle = circle_of_confusion(width=camera.sensor_width, height=camera.sensor_height)
    return Judgement(
        setup=setup,
        head=first,
        seen=seen,
        shutter=_shutter(seen),
        covered=_covered(setup, frame, seen, seen.light - float(when.curtain_starts[0])),
        flash=over_metered(setup, flash),
        room=over_metered(setup, room),
        total=over_metered(setup, flash + room),
        ghost=_ghost(flash, room),
        smear=seen.speed * pulse_of(setup.flashes[first]).t01,
        sharp=circle / frame.magnification,
        apart=seen.speed * float(lights.max() - lights.min()),
        disc=_blur(camera, behind) / circle,
    )


def _shutter(seen):
    if not math.isfinite(seen.light):
        return "no_flash"
    return "open" if seen.lit >= WHOLE else "part" if seen.lit > 0 else "shut"


def _covered(setup, frame, seen, since_curtain):
    """Whether the body is in the framed area, and none of it in rows that are open at the light."""
    if seen.where not in SHOWN or not 0 < seen.lit < WHOLE:
        return False
    tall = frame.top - frame.bottom
    # The picture stands upside down on the sensor: the edge that is uncovered first is the lower one.
    low, high = (frame.bottom + float(row) * tall for row in open_rows(setup, since_curtain))
    return not (seen.height < high and seen.height + setup.drop.height > low)


def _ghost(flash, room):
    if not flash:
        return -math.inf
    return math.inf if not room else float(stops_of(flash / room))


def _blur(camera, behind):
    return blur_disc(
        camera.distance + behind,
        focus_distance=camera.focus_distance,
        focal_length=camera.focal_length,
        aperture=camera.aperture,
    )
