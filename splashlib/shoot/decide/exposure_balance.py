"""The stops ledger of a set-up: what each setting adds to the light, counted from a well exposed frame."""

from dataclasses import dataclass

from splashlib.physics.light.exposure import (
    flash_lux_seconds,
    pane_loss,
    room_lux_seconds,
    room_under_flash,
    size_loss,
    stops_over_metered,
)
from splashlib.physics.stops import stops_between, stops_of
from splashlib.shoot.chain.framing import framed
from splashlib.shoot.setup.field_rows import fraction_text
from splashlib.shoot.setup.figures import figures


@dataclass(frozen=True)
class Entry:
    """One line of the ledger: its name, the setting in words, what it adds [stops]."""

    name: str
    label: str
    stops: float


def ledger(setup):
    """Count the light of the first head, then what the other heads, the ISO and the closeness of the lens do.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of Entry
        Their sum is `flash_over_metered(setup)`. With one head the line for further heads is zero.

    Notes
    -----
    The first line is the bare head at full power, 1 m away, at ISO 100 and at this aperture; each further line is
    one change from there. The lines are exact to rounding, since stops of factors add.
    """
    camera, head = setup.camera, setup.flashes[0]
    bare = flash_lux_seconds(head.guide_number, distance=1.0)
    near = stops_between(1.0, head.distance, kind="distance")
    near -= size_loss(distance=head.distance, size=head.size)
    closeness = -2 * stops_of(1 + framed(setup).magnification) - sheet_loss(camera)
    added = stops_of(flash_light(setup) / head_light(head))
    first = stops_over_metered(bare, aperture=camera.aperture, iso=100)
    return (
        Entry("start", f"full power, 1 m, f/{figures(camera.aperture, 3)}", float(first)),
        Entry("power", f"power {fraction_text(head.power)}", float(stops_between(1.0, head.power, kind="power"))),
        Entry("distance", f"distance {figures(100 * head.distance, 3)} cm", float(near)),
        Entry("diffuser", "diffuser" if head.shield == "none" else "diffuser, sheet", -cloth_and_sheet(head)),
        Entry("heads", _heads_label(len(setup.flashes)), float(added)),
        Entry("iso", f"ISO {camera.iso:.0f}", float(stops_between(100, camera.iso, kind="iso"))),
        Entry("closeness", "close-up" if camera.shield == "none" else "close-up, sheet", float(closeness)),
    )


def _heads_label(count):
    return "one head" if count == 1 else f"{count} heads"


def head_light(head):
    """Light of one head on the body [lx s]."""
    return flash_lux_seconds(
        head.guide_number,
        distance=head.distance,
        power=head.power,
        size=head.size,
        diffuser_loss=cloth_and_sheet(head),
    )


def sheet_loss(thing):
    """What the clear sheet before a flash head or before the camera costs [stops], 0 without one."""
    return 0.0 if thing.shield == "none" else pane_loss()


def cloth_and_sheet(head):
    """What the diffuser and a clear sheet before a head cost together [stops]."""
    return head.diffuser_loss + sheet_loss(head)


def flash_light(setup):
    """Light of all heads together on the body [lx s]."""
    return sum(head_light(head) for head in setup.flashes)


def room_light(setup):
    """Light of the room on the set while the shutter is open [lx s]."""
    return room_lux_seconds(setup.room.lux, shutter=setup.camera.exposure_time)


def flash_over_metered(setup):
    """Stops by which the flash is above a well exposed frame."""
    return over_metered(setup, flash_light(setup))


def room_over_metered(setup):
    """Stops by which the room alone is above a well exposed frame; in a dark studio far below zero."""
    return over_metered(setup, room_light(setup))


def ghost_stops(setup):
    """Stops by which the room's light lies under the flash's; a ghost is hardly seen from seven on."""
    return float(room_under_flash(room=room_light(setup), flash=flash_light(setup)))


def over_metered(setup, lux_seconds):
    """Stops by which so much light on the subject [lx s] is above a well exposed frame; minus infinity without any."""
    camera = setup.camera
    over = stops_over_metered(
        lux_seconds, aperture=camera.aperture, iso=camera.iso, magnification=framed(setup).magnification
    )
    return float(over) - sheet_loss(camera)
