"""The account of a shorter flash: every stop of the set-up on a line of its own, and what would pay a debt."""

import math
from dataclasses import dataclass, replace

from splashlib.physics.stops import APERTURES, ISOS, nearest_mark, shifted, stops_between
from splashlib.shoot.decide.exposure_balance import Entry, flash_over_metered, ledger
from splashlib.shoot.setup.fields import change, field
from splashlib.shoot.setup.figures import figures

FIRST_APERTURE = 8.0
"""The f-number that the account begins with, so that the aperture has a line of its own."""
HEADS = (1, 2, 4)
"""So many heads alike as are whole stops apart."""


def alike(setup, heads):
    """Return the set-up with so many heads, all like its first one.

    Parameters
    ----------
    setup : Setup
    heads : int, 1 or more

    Returns
    -------
    Setup
    """
    if isinstance(heads, bool) or not isinstance(heads, int) or heads < 1:
        raise ValueError(f"heads is {heads!r}; it must be a whole number of 1 or more")
    first = setup.flashes[0]
    more = (replace(first, name=f"{first.name[:50]} {number}") for number in range(2, heads + 1))
    return replace(setup, flashes=(first, *more))


def account(setup):
    """Count the light of a set-up, the aperture on a line of its own.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of Entry
        start (bare head, full power, 1 m, f/8, ISO 100), power, distance, diffuser, heads, aperture, iso, closeness;
        their sum is `flash_over_metered(setup)` [stops]. The last three count for the room's light as well.
    """
    lines = {entry.name: entry for entry in ledger(change(setup, "camera.aperture", FIRST_APERTURE))}
    aperture = setup.camera.aperture
    cost = float(stops_between(FIRST_APERTURE, aperture, kind="aperture"))
    lines["aperture"] = Entry("aperture", f"aperture f/{figures(aperture, 3)}", cost)
    order = ("start", "power", "distance", "diffuser", "heads", "aperture", "iso", "closeness")
    return tuple(lines[name] for name in order)


@dataclass(frozen=True)
class Payment:
    """What one handle alone would have to be, so that the frame is well exposed; None where it cannot pay.

    name: "distance", "diffuser", "heads", "aperture" or "iso"; value [SI]; room: stops by which it lifts the room.
    """

    name: str
    value: float | None
    room: float


def payments(setup):
    """Say what would bring the flash to a well exposed frame, each handle alone.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of Payment
        In the order that keeps things dry: heads, diffuser, iso, aperture, distance. Light that is too
        much is paid back the same way.

    Notes
    -----
    The distance solves d^2 + R^2 = (d0^2 + R^2) 2^-debt: near a large diffuser it pays less than inverse square and
    may not pay at all. Distance is for all heads alike; heads are counted as if all were like the mean of those
    there. Aperture and ISO are the nearest marks, so within a sixth of a stop.
    """
    debt = -flash_over_metered(setup)
    camera, head = setup.camera, setup.flashes[0]
    loss = head.diffuser_loss - debt
    heads = math.ceil(len(setup.flashes) * 2**debt - 1e-9)
    return (
        Payment("heads", heads if heads > len(setup.flashes) else None, 0.0),
        Payment("diffuser", _possible("flashes.0.diffuser_loss", loss), 0.0),
        Payment("iso", _mark(camera.iso, debt, "iso"), debt),
        Payment("aperture", _mark(camera.aperture, debt, "aperture"), debt),
        Payment("distance", _possible("flashes.0.distance", _distance(head, debt)), 0.0),
    )


def _distance(head, debt):
    radius = head.size / 2
    square = (head.distance**2 + radius**2) * 2**-debt - radius**2
    return math.sqrt(max(square, 0.0))


def _possible(path, value):
    """The value, or None where no set-up can have it."""
    least, most = field(path).limits
    return value if least <= value <= most else None


def _mark(value, debt, kind):
    """The mark that pays, or None beyond the ends of the dial."""
    marks = {"aperture": APERTURES, "iso": ISOS}[kind]
    wanted = shifted(value, debt, kind=kind)
    edge = 2 ** (1 / 12) if kind == "aperture" else 2 ** (1 / 6)
    if not marks[0].exact / edge <= wanted <= marks[-1].exact * edge:
        return None
    return nearest_mark(wanted, kind=kind).marked
