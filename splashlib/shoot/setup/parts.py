"""One set-up of the shoot as plain data: what falls, beam, trigger, camera, light, room, vessel.

Everything is SI (metres, seconds, kilograms, lux); units for people live in the table of fields.
Height zero is the resting water surface, up is positive; a body's height is that of its lowest point.
Every part checks itself when it is made, so a set-up that exists is a possible one.
"""

from dataclasses import dataclass, field
from typing import ClassVar

from splashlib.shoot.setup.constraints import require_possible
from splashlib.shoot.setup.field_rows import STYLES
from splashlib.shoot.setup.fields import require_parts, tidy


class _Part:
    """A part of a set-up: checks its values against the table of fields when it is made."""

    section: ClassVar[str]

    def __post_init__(self):
        tidy(self, self.section)


@dataclass(frozen=True, kw_only=True)
class Drop(_Part):
    """What falls, and how it is let go [m, kg/m3].

    `length` is the long axis, along the beam when `hang` is "lying"; None means as long as wide: round.
    """

    section: ClassVar[str] = "drop"
    name: str = "kumquat"
    form: str = "solid"
    diameter: float = 0.035
    length: float | None = None
    hang: str = "upright"
    density: float = 1000.0
    surface: str = "wet"
    release_height: float = 0.45
    release_scatter: float = 0.003
    sideways_scatter: float = 0.004

    def __post_init__(self):
        if self.length is None:
            object.__setattr__(self, "length", self.diameter)
        super().__post_init__()

    @property
    def round(self):
        """True when the body is as long as it is wide."""
        return self.length == self.diameter

    @property
    def liquid(self):
        """True when the body itself is a drop of liquid (then it counts as round)."""
        return self.form != "solid"

    @property
    def height(self):
        """How tall the falling body stands [m]."""
        return self.length if self.hang == "upright" and not self.liquid else self.diameter

    @property
    def breadth(self):
        """How broad the falling body is, left to right along the beam [m]."""
        return self.length if self.hang == "lying" and not self.liquid else self.diameter


@dataclass(frozen=True, kw_only=True)
class Beam(_Part):
    """The light beam that the body breaks [m]; it runs level, left to right across the picture."""

    section: ClassVar[str] = "beam"
    height: float = 0.12
    width: float = 0.003
    blocked_share: float = 0.5
    light: str = "visible"

    @property
    def top(self):
        """Height of the upper edge over the water [m]."""
        return self.height + self.width / 2

    @property
    def bottom(self):
        """Height of the lower edge over the water [m]."""
        return self.height - self.width / 2


@dataclass(frozen=True, kw_only=True)
class Trigger(_Part):
    """The box between beam and camera or flash [s]: the delay that is set, its own lag, and the hold-off."""

    section: ClassVar[str] = "trigger"
    delay: float = 0.0
    lag: float = 0.0005
    scatter: float = 0.0001
    hold_off: float = 2.0


@dataclass(frozen=True, kw_only=True)
class Release(_Part):
    """What one camera style does between the release signal and the frame fully open.

    `scatter` is one standard deviation when `shape` is "normal", and the full width of the spread (one
    viewfinder frame) when it is "uniform"; `lag` is the middle of the spread [s].
    """

    section: ClassVar[str] = "release"
    first_curtain: str = "mechanical"
    lag: float = 0.0
    scatter: float = 0.0
    shape: str = "normal"


_MIRROR = Release(lag=0.100, scatter=0.0015)
_MIRROR_UP = Release(lag=0.040, scatter=0.0005)
_NO_MIRROR = Release(first_curtain="electronic", lag=0.050, scatter=0.0167, shape="uniform")
_HELD_OPEN = Release()


@dataclass(frozen=True, kw_only=True)
class Camera(_Part):
    """The camera: how its shutter is started, exposure, sensor, lens and where it stands [SI].

    Each style keeps its own measured lag; `lag`, `lag_scatter`, `scatter_shape` and `first_curtain` read the
    record of the style in use. Lags are class values: your own rig is measured, not looked up.
    """

    section: ClassVar[str] = "camera"
    style: str = "held_open"
    mirror: Release = _MIRROR
    mirror_up: Release = _MIRROR_UP
    no_mirror: Release = _NO_MIRROR
    held_open: Release = _HELD_OPEN
    shutter: float = 1 / 200
    open_time: float = 2.0
    open_before: float = 0.5
    aperture: float = 11.0
    iso: float = 800.0
    sensor_width: float = 0.036
    sensor_height: float = 0.024
    pixels_wide: int = 6000
    focal_length: float = 0.150
    distance: float = 1.05
    focus_distance: float = 1.05
    frame_centre: float = 0.043
    shield: str = "none"
    sync_speed: float = 1 / 200
    curtain_travel: float = 0.003
    readout: float = 0.020

    def __post_init__(self):
        super().__post_init__()
        require_parts(self, dict.fromkeys(STYLES, Release))

    @property
    def release(self):
        """The record of the style in use."""
        return getattr(self, self.style)

    @property
    def lag(self):
        """Release signal to frame fully open, in the style in use [s]; none when the shutter is held open."""
        return self.release.lag

    @property
    def lag_scatter(self):
        """Scatter of the lag in the style in use [s]."""
        return self.release.scatter

    @property
    def scatter_shape(self):
        """ "normal" or "uniform": the shape of the scatter in the style in use."""
        return self.release.shape

    @property
    def first_curtain(self):
        """What opens the frame in the style in use: mechanical, electronic, rolling or leaf."""
        return self.release.first_curtain

    @property
    def exposure_time(self):
        """How long each point of the frame gathers light [s]."""
        return self.open_time if self.style == "held_open" else self.shutter

    @property
    def sweep(self):
        """Time between the first and the last row of the frame, in the style in use [s]: none for a leaf shutter."""
        return self.sweep_of(self.style)

    def sweep_of(self, style):
        """Time between the first and the last row of the frame in any style [s]."""
        curtain = getattr(self, style).first_curtain
        return {"rolling": self.readout, "leaf": 0.0}.get(curtain, self.curtain_travel)


@dataclass(frozen=True, kw_only=True)
class Flash(_Part):
    """One flash head: its pulse, its strength, where it stands and the route by which it is fired [SI]."""

    section: ClassVar[str] = "flashes"
    name: str = "key"
    kind: str = "quenched"
    full_t05: float = 0.001
    rise: float = 60e-6
    tail: float = 17e-6
    guide_number: float = 40.0
    power: float = 1 / 32
    distance: float = 1.0
    size: float = 0.6
    diffuser_loss: float = 1.0
    position: str = "side"
    shield: str = "none"
    route: str = "cable"
    route_lag: float = 50e-6
    route_scatter: float = 10e-6


@dataclass(frozen=True, kw_only=True)
class Room(_Part):
    """The room light at the set [lx]; the scene's is darkened, as bright as under a full moon."""

    section: ClassVar[str] = "room"
    lux: float = 0.2


@dataclass(frozen=True, kw_only=True)
class Vessel(_Part):
    """The square glass vase [m]: inner width, depth of the water, rim over the water, glass thickness; its tray."""

    section: ClassVar[str] = "vessel"
    width: float = 0.12
    depth: float = 0.18
    rim: float = 0.0
    glass: float = 0.005
    tray: str = "tray"


@dataclass(frozen=True, kw_only=True)
class Setup:
    """The whole shoot. Everything has the value of the tea-house scene until it is changed."""

    drop: Drop = field(default_factory=Drop)
    beam: Beam = field(default_factory=Beam)
    trigger: Trigger = field(default_factory=Trigger)
    camera: Camera = field(default_factory=Camera)
    flashes: tuple[Flash, ...] = field(default_factory=lambda: (Flash(),))
    room: Room = field(default_factory=Room)
    vessel: Vessel = field(default_factory=Vessel)

    def __post_init__(self):
        kinds = {
            "drop": Drop,
            "beam": Beam,
            "trigger": Trigger,
            "camera": Camera,
            "room": Room,
            "vessel": Vessel,
        }
        require_parts(self, kinds)
        object.__setattr__(self, "flashes", _heads(self.flashes))
        require_possible(self)


def _heads(flashes):
    """Return the heads as a tuple; no head at all, or something else among them, is refused."""
    if not isinstance(flashes, tuple | list) or not flashes:
        raise ValueError("flashes must be one flash head or more; the set-up has none")
    for head in flashes:
        if not isinstance(head, Flash):
            raise ValueError(f"flashes holds {head!r}; each must be a Flash")
    return tuple(flashes)
