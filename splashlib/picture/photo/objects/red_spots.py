"""What a visible beam writes into the frame while the shutter is open: red spots where it meets something."""

import numpy as np

from splashlib.physics.light.exposure import stops_over_metered
from splashlib.shoot import framed

POWER = 0.001
"""Power of the beam's lamp [W]: the most of class 2 (IEC 60825-1)."""

LUMENS = 73.0
"""Lumens in a watt of red light of 650 nm: 683 x V(650 nm) = 683 x 0.107 (CIE photopic)."""

RED = np.array([1.0, 0.05, 0.03], np.float32)
ON_BODY, ON_GLASS, IN_AIR = 0.30, 0.02, 5e-5
"""Share of the beam's light that comes to the camera, as from a white card: from the body's flank, from the faces of
the glass, from the dust and mist in the air (class values)."""


def beam_light(total, scene, view, *, body=True):
    """Add the beam's spots to the light on the sensor, in place.

    Parameters
    ----------
    total : float32 array (3, height, width)
    scene : Scene
    view : View
    body : bool
        False: as before the drop, without the spot on the body that falls through.
    """
    beam, row = scene.setup.beam, float(view.row(scene.setup.beam.height))
    thick = max(beam.width * view.scale / 2, 0.5)
    opens, closes = float(scene.when.shutter_open[0]), float(scene.when.shutter_closes[0])
    if beam.light != "visible" or not -3 * thick < row < view.size[1] + 3 * thick or not closes > opens:
        return
    along = _along(scene, view, opens, closes, body)
    across = np.exp(-(((np.arange(view.size[1]) + 0.5 - row) / thick) ** 2))
    total += (across[:, None] * along).astype(np.float32) * RED[:, None, None]


def _along(scene, view, opens, closes, body):
    """Exposure along the beam, column by column, 1 a white card as metered."""
    vessel, open_for = scene.setup.vessel, closes - opens
    columns = np.arange(view.size[0]) + 0.5
    spot = max(scene.setup.beam.width * view.scale / 2, 0.7)
    unit = _exposure(scene.setup)
    line = np.full(len(columns), IN_AIR * open_for * unit)
    if scene.setup.beam.height < vessel.rim:
        for side in (-1, 1):
            wall = view.column(side * (vessel.width + vessel.glass) / 2)
            line += ON_GLASS * open_for * unit * np.exp(-(((columns - wall) / spot) ** 2))
    return line + (ON_BODY * unit * _on_body(scene, view, opens, closes, columns) if body else 0)


def _exposure(setup):
    """Exposure of a white card in the beam's light for one second, 1 as metered."""
    camera = setup.camera
    lux = POWER * LUMENS / (np.pi / 4 * setup.beam.width**2)
    size = framed(setup).magnification
    return 2.0 ** float(stops_over_metered(lux, aperture=camera.aperture, iso=camera.iso, magnification=size))


def _on_body(scene, view, opens, closes, columns):
    """Seconds that the beam lies on the body's near end, spread over the columns where it does."""
    drop, beam = scene.setup.drop, scene.setup.beam
    times = np.linspace(-0.05, 0.10, 1501)
    step = times[1] - times[0]
    up = (beam.height - scene.heights(times)) / drop.height
    inside = (up > 0) & (up < 1) & (times >= opens) & (times <= closes)
    if not inside.any():
        return np.zeros(len(columns))
    chord = np.sqrt(1 - (2 * up[inside] - 1) ** 2) * drop.breadth / 2
    place = view.column(scene.across - chord)
    # The beam is as wide across the body as it is high.
    reach = max(beam.width * view.scale / 2, 1.0)
    if reach > len(columns) / 8:
        return step * _bells(columns, place, reach)
    share, _ = np.histogram(place, bins=np.arange(len(columns) + 1))
    reach = int(reach)
    kernel = np.exp(-((np.arange(-2 * reach, 2 * reach + 1) / reach) ** 2))
    return np.convolve(share * step, kernel, mode="same")


def _bells(columns, places, reach):
    """Sum over places of a spot's light, column by column: also of wide spots whose middle is out of the frame."""
    away = (columns - places[:, None]) / reach
    return np.where(np.abs(away) <= 2, np.exp(-np.minimum(away * away, 9)), 0).sum(0)
