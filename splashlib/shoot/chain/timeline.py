"""The timeline: the dated events of the nominal drop, each with its band from drop to drop.

The chain itself stands in `events`.
"""

import math
from dataclasses import dataclass

import numpy as np

from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.scatter import Draw, nominal_draw, two_scatters
from splashlib.shoot.chain.stages import back_through_beam, column_in_beam, splash

__all__ = ["Event", "timeline"]

LABELS = {
    "released": "body released",
    "beam_broken": "beam broken",
    "trigger_answers": "trigger answers",
    "mirror_up": "mirror is up",
    "curtain_starts": "first curtain starts",
    "shutter_open": "frame fully open",
    "flash_starts": "flash starts",
    "flash_peak": "flash at its peak",
    "flash_half": "half of the light is out",
    "flash_fades": "flash has faded",
    "contact": "body touches the water",
    "shutter_closes": "frame closed",
}
OF_THE_FLASH = ("flash_starts", "flash_peak", "flash_half", "flash_fades")


@dataclass(frozen=True, kw_only=True)
class Event:
    """One dated event [s after the beam is broken], with the band in which it falls.

    `head` is the number of the flash head, None for what is not the flash's; `chance` is below 1 for a stage
    of the splash that may stay away; `source` says where a stage's time comes from.
    """

    name: str
    time: float
    label: str
    early: float
    late: float
    head: int | None = None
    chance: float = 1.0
    source: str = ""


def timeline(setup):
    """Return the dated events of the nominal drop, in the order in which they happen.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    list of Event
        Names as in `LABELS`, and of each stage of the splash its own. What does not happen is absent: after a
        beam that the body misses neither trigger nor light.

    Notes
    -----
    The band is what two scatters do, each alone, added as the root of the sum of squares, early and late
    apart; a stage's own band is added the same way. Two scatters are two standard deviations, or all of a
    uniform one; they hold some nineteen drops of twenty.
    """
    when = events(setup, one_by_one(setup))
    dated = [*_chain(setup, when), *_stages(when, (*splash(setup), *back_through_beam(setup), *column_in_beam(setup)))]
    return sorted((event for event in dated if math.isfinite(event.time)), key=lambda event: event.time)


def one_by_one(setup):
    """Draw the nominal drop, then drops in which one thing alone is off by two scatters, down and up."""
    shifts = []
    for name, size in two_scatters(setup).items():
        for column, reach in enumerate(np.atleast_1d(size)):
            shifts += [(name, column, -reach), (name, column, reach)]
    draw = nominal_draw(setup, len(shifts) + 1)
    moved = {name: np.array(getattr(draw, name)) for name in two_scatters(setup)}
    for row, (name, column, size) in enumerate(shifts, start=1):
        where = (row, column) if name == "route" else row
        moved[name][where] = size
    return Draw(**moved, pace=draw.pace, luck=draw.luck)


def band(times):
    """Return time, early and late end of an event [s] from its times over the drops of `one_by_one`."""
    # One row for each scatter: what it does when it is off downwards, and upwards.
    off = np.nan_to_num(times[1:] - times[0]).reshape(-1, 2)
    early, late = np.minimum(off.min(axis=1), 0), np.maximum(off.max(axis=1), 0)
    return float(times[0]), float(times[0] - np.hypot.reduce(early)), float(times[0] + np.hypot.reduce(late))


def _chain(setup, when):
    for name, label in LABELS.items():
        times = getattr(when, name)
        for head in range(len(setup.flashes)) if name in OF_THE_FLASH else (None,):
            said = f"{label} ({setup.flashes[head].name})" if head is not None and len(setup.flashes) > 1 else label
            time, early, late = band(times if head is None else times[:, head])
            yield Event(name=name, time=time, label=said, early=early, late=late, head=head)


def _stages(when, stages):
    contact, early, late = band(when.contact)
    for stage in stages:
        yield Event(
            name=stage.name,
            time=contact + stage.likely,
            label=stage.name.replace("_", " "),
            early=contact + stage.likely - math.hypot(contact - early, stage.likely - stage.early),
            late=contact + stage.likely + math.hypot(late - contact, stage.late - stage.likely),
            chance=stage.chance,
            source=stage.source,
        )
