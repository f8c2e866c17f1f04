"""The table of fields: every setting of the shoot, one row each, in the order in which a file lists them.

Numbers in a row are in the shown unit: (slider from, to, step), then (least, most) that is possible at all.
"""

from dataclasses import replace

from splashlib.physics import stops
from splashlib.shoot.setup.field_rows import STYLES, Field

# How a unit ends a key in the file; settings without one are pure numbers or words.
SUFFIX = {"cm": "cm", "mm": "mm", "m": "m", "ms": "ms", "µs": "us", "s": "s", "%": "percent", "lx": ""}
SUFFIX |= {"kg/m3": "kg_m3", "stops": "stops", "": ""}
PER_SI = {"cm": 100, "mm": 1000, "ms": 1000, "µs": 1_000_000, "%": 100}


def _number(path, label, unit, slider, limits, *, whole=False):
    low, high, step = slider
    least, most = limits
    name = path.rsplit(".", 1)[1]
    key = f"{name}_{SUFFIX[unit]}".rstrip("_")
    return Field(
        path=path,
        label=label,
        unit=unit,
        per_si=PER_SI.get(unit, 1),
        low=low,
        high=high,
        step=step,
        least=least,
        most=most,
        whole=whole,
        key=key,
    )


def _marks(path, label, unit, dial, marks, limits):
    least, most = limits
    name = path.rsplit(".", 1)[1]
    key = f"{name}_{SUFFIX[unit]}".rstrip("_")
    low, high = min(v for _, v in marks), max(v for _, v in marks)
    return Field(
        path=path,
        label=label,
        unit=unit,
        kind="marks",
        dial=dial,
        marks=marks,
        low=low,
        high=high,
        least=least,
        most=most,
        key=key,
    )


def _choice(path, label, **choices):
    pairs = tuple((said, value) for value, said in choices.items())
    return Field(path=path, label=label, kind="choice", choices=pairs, key=path.rsplit(".", 1)[1])


def _text(path, label):
    return Field(path=path, label=label, kind="text", key=path.rsplit(".", 1)[1])


def _dial(series, least, most, prefix=""):
    """Labels and marked values of the part of a series that a slider offers."""
    return tuple((prefix + mark.label, mark.marked) for mark in series if least <= mark.marked <= most)


_APERTURES = _dial(stops.APERTURES, 2.8, 32, "f/")
_SHUTTERS = _dial(stops.SHUTTERS, 1 / 1000, 1)
_SYNC_SPEEDS = _dial(stops.SHUTTERS, 1 / 500, 1 / 60)
_ISOS = _dial(stops.ISOS, 50, 12800)
_POWERS = _dial(stops.POWERS, 0, 1)

_DROP = (
    _text("drop.name", "what falls"),
    _choice("drop.form", "solid or liquid", solid="a solid body", water="a drop of water", milk="a drop of milk"),
    _number("drop.diameter", "diameter of the body", "mm", (2, 60, 0.5), (0.1, 300)),
    _number("drop.length", "length along its long axis", "mm", (2, 80, 0.5), (0.1, 300)),
    _choice("drop.hang", "how an oval body hangs", upright="long axis upright", lying="long axis lying"),
    _number("drop.density", "density of the body", "kg/m3", (100, 8000, 50), (20, 20000)),
    _choice("drop.surface", "surface of the body", rough="rough", wet="wet", smooth_dry="smooth and dry"),
    _number("drop.release_height", "release height", "cm", (5, 150, 0.5), (0.1, 2000)),
    _number("drop.release_scatter", "scatter of the release height", "mm", (0, 20, 0.5), (0, 500)),
    _number("drop.sideways_scatter", "sideways scatter", "mm", (0, 20, 0.5), (0, 500)),
)
_BEAM = (
    _number("beam.height", "beam height", "cm", (1, 60, 0.5), (0, 2000)),
    _number("beam.width", "width of the beam", "mm", (0.5, 10, 0.5), (0.01, 100)),
    _number("beam.blocked_share", "share of the beam that must be blocked", "%", (10, 100, 5), (1, 100)),
    _choice("beam.light", "light of the beam", visible="visible", infrared="infrared"),
)
_TRIGGER = (
    _number("trigger.delay", "delay", "ms", (0, 300, 0.5), (0, 10000)),
    _number("trigger.lag", "lag of the trigger", "ms", (0, 5, 0.1), (0, 1000)),
    _number("trigger.scatter", "scatter of the trigger", "ms", (0, 2, 0.05), (0, 1000)),
    _number("trigger.hold_off", "hold-off after a picture", "s", (0, 10, 0.5), (0, 600)),
)
_CAMERA = (
    _choice(
        "camera.style",
        "camera style",
        mirror="mirror must rise first",
        mirror_up="mirror already up",
        no_mirror="no mirror",
        held_open="shutter held open",
    ),
    _marks("camera.shutter", "shutter", "s", "shutter", _SHUTTERS, (1e-5, 60)),
    _number("camera.open_time", "how long the shutter is held open", "s", (0.5, 10, 0.5), (0.001, 600)),
    _number("camera.open_before", "held open before the release", "s", (0, 5, 0.1), (0, 600)),
    _marks("camera.aperture", "aperture", "", "aperture", _APERTURES, (0.7, 128)),
    _marks("camera.iso", "ISO", "", "iso", _ISOS, (1, 1_000_000)),
    _number("camera.sensor_width", "width of the sensor", "mm", (6, 54, 0.1), (1, 300)),
    _number("camera.sensor_height", "height of the sensor", "mm", (4, 40, 0.1), (1, 300)),
    _number("camera.pixels_wide", "pixels across the picture", "", (1000, 12000, 100), (16, 100000), whole=True),
    _number("camera.focal_length", "focal length", "mm", (20, 300, 1), (1, 2000)),
    _number("camera.distance", "camera to the falling body", "cm", (15, 200, 1), (1, 10000)),
    _number("camera.focus_distance", "camera to the plane in focus", "cm", (15, 200, 1), (1, 10000)),
    _number("camera.frame_centre", "middle of the frame over the water", "cm", (-10, 20, 0.5), (-500, 500)),
    _choice("camera.shield", "shield before the camera", none="nothing", sheet="a clear sheet"),
    _marks("camera.sync_speed", "sync speed", "s", "shutter", _SYNC_SPEEDS, (1e-5, 1)),
    _number("camera.curtain_travel", "travel time of a curtain", "ms", (1, 20, 0.1), (0, 1000)),
    _number("camera.readout", "readout time of a rolling shutter", "ms", (1, 60, 1), (0, 1000)),
)
_RELEASE = (
    _choice(
        "release.first_curtain",
        "first curtain",
        mechanical="mechanical",
        electronic="electronic",
        rolling="rolling readout",
        leaf="leaf shutter",
    ),
    _number("release.lag", "camera lag", "ms", (0, 200, 1), (0, 5000)),
    _number("release.scatter", "scatter of the camera lag", "ms", (0, 20, 0.1), (0, 5000)),
    _choice(
        "release.shape",
        "shape of the scatter",
        normal="bell-shaped",
        uniform="even over one viewfinder frame",
    ),
)
_FLASH = (
    _text("flashes.0.name", "name of the flash head"),
    _choice(
        "flashes.0.kind",
        "kind of flash",
        quenched="quenched",
        capacitor_switched="capacitor-switched",
        voltage_controlled="voltage-controlled",
        high_speed_sync="high-speed sync",
    ),
    _number("flashes.0.full_t05", "flash duration t0.5 at full power", "µs", (100, 5000, 50), (1, 100_000)),
    _number("flashes.0.rise", "rise of the light", "µs", (0, 100, 1), (0, 10_000)),
    _number("flashes.0.tail", "afterglow once it is cut", "µs", (0, 100, 1), (0, 10_000)),
    _number("flashes.0.guide_number", "guide number at ISO 100", "m", (5, 80, 1), (0.1, 1000)),
    _marks("flashes.0.power", "flash power", "", "power", _POWERS, (1e-4, 1)),
    _number("flashes.0.distance", "flash to the falling body", "cm", (10, 200, 1), (1, 10000)),
    _number("flashes.0.size", "size of the light", "cm", (2, 120, 1), (0.1, 1000)),
    _number("flashes.0.diffuser_loss", "loss in the diffuser", "stops", (0, 4, 0.1), (0, 20)),
    _choice("flashes.0.position", "position of the flash", front="in front", side="at the side", behind="behind"),
    _choice("flashes.0.shield", "shield before the flash", none="nothing", sheet="a clear sheet"),
    _choice("flashes.0.route", "route to the flash", cable="cable", radio="radio", optical="optical slave"),
    _number("flashes.0.route_lag", "lag of the route", "ms", (0, 3, 0.01), (0, 1000)),
    _number("flashes.0.route_scatter", "scatter of the route", "ms", (0, 1, 0.01), (0, 1000)),
)
_ROOM = (_number("room.lux", "room light at the set", "lx", (0, 500, 1), (0, 200_000)),)
_VESSEL = (
    _number("vessel.width", "inner width of the vessel", "cm", (5, 60, 0.5), (0.5, 1000)),
    _number("vessel.depth", "depth of the water", "cm", (1, 60, 0.5), (0.1, 1000)),
    _number("vessel.rim", "rim over the water", "cm", (0, 20, 0.5), (0, 500)),
    _number("vessel.glass", "thickness of the glass", "mm", (1, 20, 0.5), (0.1, 200)),
    _choice("vessel.tray", "what the vessel stands in", none="on the table", tray="in a tray"),
)


def _by_name(rows):
    return {row.path.rsplit(".", 1)[1]: row for row in rows}


SECTIONS = {
    "drop": _by_name(_DROP),
    "beam": _by_name(_BEAM),
    "trigger": _by_name(_TRIGGER),
    "camera": _by_name(_CAMERA),
    "release": _by_name(_RELEASE),
    "flashes": _by_name(_FLASH),
    "room": _by_name(_ROOM),
    "vessel": _by_name(_VESSEL),
}

# Short paths that read and write the record of the camera style in use.
IN_USE = {"lag": "lag", "lag_scatter": "scatter", "scatter_shape": "shape", "first_curtain": "first_curtain"}

# Class values of the routes to a flash [s]: (lag, scatter). Soft ranges: cable or optical 0.02-0.1 ms, radio
# 0.2-2 ms (class figures of the trade, no single source); measure your own.
ROUTES = {"cable": (50e-6, 10e-6), "optical": (80e-6, 20e-6), "radio": (0.001, 0.0002)}


def _all_fields():
    for section, rows in SECTIONS.items():
        if section == "release":
            for style in STYLES:
                # A shutter that is held open has a first curtain but no lag to measure.
                names = ("first_curtain",) if style == "held_open" else tuple(rows)
                yield from (replace(rows[name], path=f"camera.{style}.{name}") for name in names)
        else:
            yield from rows.values()


FIELDS = tuple(_all_fields())
"""Every setting, one row each (of the flash heads: the first)."""
