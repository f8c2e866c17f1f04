"""The lights of one drop's photograph: when each shines, how strongly, from where, and which rows are open then."""

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from splashlib.physics.light.clear_surface import lamp_over_card
from splashlib.physics.light.exposure import stops_over_metered
from splashlib.picture.photo.raster import optics
from splashlib.shoot import framed, open_rows, pulse_of
from splashlib.shoot.decide.exposure_balance import head_light, room_over_metered, sheet_loss

FLASH, LAMPLIGHT = (1.0, 1.0, 1.0), (1.0, 0.80, 0.58)
"""Colour of the light as the camera, balanced for flash, records it; a room's lamps look warm (class value)."""

FAINTEST = 4e-4
"""Radiance that makes about one step of the darkest grey in the finished picture."""

MOMENTS = 48
"""Instants that stand for one flash; the room's light has twice as many."""


@dataclass(frozen=True)
class Light:
    """One exposure: instants with equal or given shares of the light.

    times [s after the beam is broken]; shares, adding up to the light that an always open frame would get;
    strength: exposure of a white card that faces it, 1 as metered; lamp None is the even light of the room;
    opening: first and last open row at each instant, as shares of the frame from its lower edge, or None
    where all of the frame is open all the time.
    """

    times: np.ndarray
    shares: np.ndarray
    strength: float
    lamp: optics.Lamp | None
    tint: tuple[float, float, float]
    opening: tuple[np.ndarray, np.ndarray] | None

    @cached_property
    def _course(self):
        """Edges of the time slices that the instants stand for [s], and the share of the light given by each edge."""
        middles = (self.times[1:] + self.times[:-1]) / 2
        if not len(middles):
            return self.times.repeat(2), np.array([0.0, self.shares[0]])
        first, last = 2 * self.times[0] - middles[0], 2 * self.times[-1] - middles[-1]
        return np.concatenate([[first], middles, [last]]), np.concatenate([[0.0], np.cumsum(self.shares)])

    @cached_property
    def _mixed(self):
        """A measure that follows half the light and half the time, up to each edge, and the light in a step of it."""
        edges, given = self._course
        energy, lasts = given / given[-1], edges[-1] - edges[0]
        mixed = (energy + (edges - edges[0]) / lasts) / 2 if lasts > 0 else energy
        return mixed, np.diff(given) / np.maximum(np.diff(mixed), 1e-12)

    @property
    def span(self):
        """From when to when it shines [s]."""
        edges = self._course[0]
        return float(edges[0]), float(edges[-1])

    def at_middle(self, values):
        """Of values at its instants the one when half of its light is out."""
        return float(np.interp(0.5, np.cumsum(self.shares) / self.shares.sum(), values))

    def given_by(self, times):
        """Share of the light that is out by times [s]."""
        return np.interp(times, *self._course)

    def sampled(self, places):
        """Instants that stand for the light: half of them follow its strength, half lie evenly in time.

        Parameters
        ----------
        places : array, 0 to 1, evenly spread over the instants that are wanted

        Returns
        -------
        tuple of arrays
            Times [s]; weights, their mean the light's whole share; numbers of the nearest of its own instants.
        """
        mixed, weights = self._mixed
        number = np.minimum(np.searchsorted(mixed[1:], places), len(weights) - 1)
        return np.interp(places, mixed, self._course[0]), weights[number], number

    def open_at(self, rows, height):
        """Share of the light that each row gets in all, for `rows` (array of row numbers), or None for all of it."""
        if self.opening is None:
            return None
        return self.shares @ self.row_mask(rows, height)

    def row_mask(self, rows, height):
        """Which rows are open at which instant, 0 to 1: instants by rows."""
        first, last = self.opening
        # The picture stands upside down on the sensor: the edge uncovered first is the lower one.
        place = 1 - (np.asarray(rows) + 0.5) / height
        soft = 1.0 / height
        after = np.clip((place - first[:, None]) / soft + 0.5, 0, 1)
        before = np.clip((last[:, None] - place) / soft + 0.5, 0, 1)
        return np.where((last > first)[:, None], after * before, 0.0)


def lights_of(setup, when, busy):
    """The lights of one drop.

    Parameters
    ----------
    setup : Setup
    when : shoot Events of one drop
    busy : (float, float), when the body moves through the frame [s]

    Returns
    -------
    list of Light, the flash heads first, then the room
    """
    curtain = float(when.curtain_starts[0])
    found = [
        _flash(setup, number, float(when.flash_starts[0, number]), curtain)
        for number in range(len(setup.flashes))
        if math.isfinite(when.flash_starts[0, number])
    ]
    return found + _room(setup, curtain, busy)


def _flash(setup, number, starts, curtain):
    head = setup.flashes[number]
    times = starts + _moments(head)
    return Light(
        times=times,
        shares=np.full(MOMENTS, 1 / MOMENTS),
        strength=2.0 ** flash_stops(setup, head),
        lamp=lamp_of(head, number),
        tint=FLASH,
        opening=_opening(setup, times - curtain),
    )


def flash_stops(setup, head):
    """Stops of one head's light over a middling exposure, on a card that faces it."""
    camera = setup.camera
    size = framed(setup).magnification
    over = stops_over_metered(head_light(head), aperture=camera.aperture, iso=camera.iso, magnification=size)
    return over - sheet_loss(camera)


@lru_cache(maxsize=64)
def _moments(head):
    return pulse_of(head).moments(MOMENTS)


@lru_cache(maxsize=64)
def lamp_of(head, number):
    """The lamp of a flash head as the scene sees it; every second head stands on the other side."""
    x, y, z = optics.PLACES[head.position]
    return optics.Lamp(
        direction=optics.unit((-x if number % 2 else x, y, z)),
        half_angle=round(math.atan2(head.size / 2, head.distance), 4),
        radiance=round(min(lamp_over_card(distance=head.distance, size=head.size), 400.0), 3),
    )


def _opening(setup, since_curtain):
    first, last = open_rows(setup, since_curtain)
    if (first <= 0).all() and (last >= 1).all():
        return None
    return np.asarray(first, float), np.asarray(last, float)


def _room(setup, curtain, busy):
    """The room's light over the time that the shutter is open, denser while the body moves through the frame."""
    camera, strength = setup.camera, 2.0 ** room_over_metered(setup)
    if setup.room.lux == 0 or not math.isfinite(curtain):
        return []
    # A sweep that is short against the exposure only shifts its ends: then every row is open alike.
    sweep = camera.sweep if camera.sweep > 0.02 * camera.exposure_time else 0.0
    start, length = curtain + camera.sweep - sweep, sweep + camera.exposure_time
    times, shares = _spread(start, start + length, busy)
    opening = _opening(setup, times - curtain) if sweep else None
    return [Light(times, shares / camera.exposure_time, strength, None, LAMPLIGHT, opening)]


def _spread(start, end, busy):
    """Instants over a span and the time that each stands for; most of them while the body is on its way."""
    low, high = np.clip(busy, start, end)
    pieces = [(start, low, MOMENTS // 4), (low, high, 2 * MOMENTS), (high, end, MOMENTS // 4)]
    times, spans = [], []
    for first, last, count in pieces:
        if last > first:
            step = (last - first) / count
            times.append(first + step * (np.arange(count) + 0.5))
            spans.append(np.full(count, step))
    return np.concatenate(times), np.concatenate(spans)
