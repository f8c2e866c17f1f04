"""One drop, four cameras: the same set-up in each camera style, dated, and what each one records of the body."""

import math
from dataclasses import dataclass, replace

from splashlib.shoot.chain.events import events
from splashlib.shoot.chain.instants import find_instant
from splashlib.shoot.chain.timeline import band, one_by_one
from splashlib.shoot.decide.delays import delay_to
from splashlib.shoot.decide.judgement import WHOLE, Judgement, judge
from splashlib.shoot.setup.field_rows import STYLES
from splashlib.shoot.setup.fields import change, field

CURTAINS = tuple(value for _, value in field("camera.mirror.first_curtain").choices)
OUTCOMES = ("caught", "late", "early", "band", "black", "no_light")


@dataclass(frozen=True, kw_only=True)
class Link:
    """One link of the chain of lags, from a date to a date [s after the beam is broken].

    `name` is "trigger", "delay", "camera" (mirror, waking up), "curtain" (its way across the frame), "flash"
    (route, and half of the pulse) or "open" (the frame is fully open; with the shutter held open, since before
    the release). The links before "open" end where the next one starts.
    """

    name: str
    start: float
    end: float

    @property
    def time(self):
        """How long it takes [s]."""
        return self.end - self.start


@dataclass(frozen=True, kw_only=True)
class Shot:
    """The drop of a set-up in one camera style.

    judged: the frame; its `setup` is the set-up in this style, with the delay that was used.
    early, late [s]: band of the light from drop to drop, two scatters. links: the chain of lags.
    outcome: one of `OUTCOMES`. short_by [s]: how much too late the light comes for the instant that was aimed
    at, even with no delay; 0 when there was no aim.
    """

    judged: Judgement
    early: float
    late: float
    links: tuple[Link, ...]
    outcome: str
    short_by: float = 0.0

    @property
    def setup(self):
        """The set-up in this style, with the delay that was used."""
        return self.judged.setup

    @property
    def seen(self):
        """Where the light finds the body."""
        return self.judged.seen

    @property
    def style(self):
        """The camera style."""
        return self.setup.camera.style

    @property
    def lag(self):
        """From the beam broken to the light, without the delay [s]; nan when nothing is fired."""
        return self.seen.light - self.setup.trigger.delay

    @property
    def spread(self):
        """Half of the band of the light [s]."""
        return (self.late - self.early) / 2


def in_styles(setup, *, aim=None):
    """Date one drop in all four camera styles.

    Parameters
    ----------
    setup : Setup
        Its own camera style plays no part.
    aim : str, optional
        Name of an instant, as for `delay_for`: each style then gets the best delay that there is for it.
        Without it all four have the delay of the set-up.

    Returns
    -------
    tuple of Shot
        In the order of `STYLES`.
    """
    instant = None if aim is None else find_instant(setup, event=aim)
    return tuple(_shot(change(setup, "camera.style", style), aim, instant) for style in STYLES)


def in_curtains(setup, *, height=0.0):
    """Photograph one drop through each kind of first curtain, with the same shutter speed.

    Parameters
    ----------
    setup : Setup
        A style in which the camera is released from the beam; with a shutter held open it is `mirror_up`.
    height : float
        Where the light should find the body's lowest point [m]: each curtain gets the best delay for that.

    Returns
    -------
    tuple of Shot
        In the order of `CURTAINS`. A lag shorter than the curtain's way across the frame is made as long as that.
    """
    if setup.camera.style == "held_open":
        setup = change(setup, "camera.style", "mirror_up")
    instant = find_instant(setup, height=height)
    return tuple(_shot(_behind(setup, curtain), "contact", instant) for curtain in CURTAINS)


def _behind(setup, curtain):
    """The set-up with another first curtain; its way across the frame must fit into the lag."""
    style, release = setup.camera.style, replace(setup.camera.release, first_curtain=curtain)
    way = replace(setup.camera, **{style: release}).sweep
    release = replace(release, lag=max(release.lag, way))
    return replace(setup, camera=replace(setup.camera, **{style: release}))


def _shot(setup, aim, instant):
    short_by = 0.0
    if instant is not None:
        best = delay_to(setup, instant)
        setup, short_by = change(setup, "trigger.delay", best.value), best.short_by
    when = events(setup, one_by_one(setup))
    judged = judge(setup)
    seen = judged.seen
    _, early, late = band(when.flash_half[:, judged.head])
    whole_splash = instant if aim not in (None, "contact") else None
    return Shot(
        judged=judged,
        early=early,
        late=late,
        links=_links(setup, when, judged.head),
        outcome=outcome(seen, whole_splash),
        short_by=short_by,
    )


def links(setup):
    """Return the chain of lags of the nominal drop; none of it when nothing is triggered.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of Link
    """
    return _links(setup, events(setup), 0)


def _links(setup, when, head):
    answers, starts, opens, closes = (
        float(each[0]) for each in (when.trigger_answers, when.curtain_starts, when.shutter_open, when.shutter_closes)
    )
    light = float(when.flash_half[0, head])
    if math.isnan(light):
        return ()
    signal = answers - setup.trigger.delay
    chain = [Link(name="trigger", start=0.0, end=signal), Link(name="delay", start=signal, end=answers)]
    if setup.camera.style != "held_open":
        chain += [Link(name="camera", start=answers, end=starts), Link(name="curtain", start=starts, end=opens)]
    return (*chain, Link(name="flash", start=chain[-1].end, end=light), Link(name="open", start=opens, end=closes))


def outcome(seen, stage=None):
    """Say in a word what the frame records.

    Parameters
    ----------
    seen : Seen
    stage : Instant, optional
        The stage of the splash that is wanted, with its band; without it the body is wanted in the frame.

    Returns
    -------
    str
        Of `OUTCOMES`: "caught"; "late" and "early" for what has gone or is still to come; "band" when part of
        the frame is covered, "black" when all of it is; "no_light" when nothing is fired.
    """
    if not math.isfinite(seen.light):
        return "no_light"
    if seen.lit < WHOLE:
        return "band" if seen.lit > 0 else "black"
    if stage is not None:
        if stage.early <= seen.light <= stage.late:
            return "caught"
        return "late" if seen.light > stage.late else "early"
    if seen.in_frame:
        return "caught"
    return "early" if seen.where == "above" else "late"
