"""A draw of everything that scatters from drop to drop. The nominal draw is the drop without any scatter."""

from dataclasses import dataclass, fields

import numpy as np


@dataclass(frozen=True, kw_only=True)
class Draw:
    """How n drops differ from the nominal one; arrays of length n (`route`: n by number of heads).

    release, across, toward [m]: release height; sideways along the beam, and square to it towards the camera.
    trigger, camera, route [s]: lags. pace: where in its band the splash falls, -1 early, 0 likely, 1 late.
    luck: between 0 and 1; it chooses among what the splash may do, see `stages`.
    """

    release: np.ndarray
    across: np.ndarray
    toward: np.ndarray
    trigger: np.ndarray
    camera: np.ndarray
    route: np.ndarray
    pace: np.ndarray
    luck: np.ndarray

    def __len__(self):
        return len(self.release)

    def take(self, index):
        """Return the draw of one drop, or of several, by index."""
        index = np.atleast_1d(index)
        return Draw(**{each.name: getattr(self, each.name)[index] for each in fields(self)})


def nominal_draw(setup, n=1):
    """Return the draw in which nothing scatters.

    Parameters
    ----------
    setup : Setup
    n : int
        How many times over.

    Returns
    -------
    Draw
    """
    zero = np.zeros(n)
    return Draw(
        release=zero,
        across=zero,
        toward=zero,
        trigger=zero,
        camera=zero,
        route=np.zeros((n, len(setup.flashes))),
        pace=zero,
        # What is more likely than not happens in the nominal drop.
        luck=np.full(n, 0.5),
    )


def draw_scatters(setup, n, rng):
    """Draw n drops.

    Parameters
    ----------
    setup : Setup
    n : int
        Number of drops, 1 or more.
    rng : numpy.random.Generator
        Where the chance comes from. The same generator drops the same bodies whatever the camera style, so
        that styles can be compared on the same drops.

    Returns
    -------
    Draw

    Notes
    -----
    All scatters are normal but a camera's that waits for the next viewfinder frame: that one is uniform.
    `pace` is normal with the ends of the band at two standard deviations, and stays inside the band.
    """
    if not isinstance(rng, np.random.Generator):
        raise ValueError(f"rng is {rng!r:.40}; it must be a numpy.random.Generator")
    if isinstance(n, bool) or not isinstance(n, int | np.integer) or not 1 <= n <= 10_000_000:
        raise ValueError(f"the number of drops is {n!r:.40}; it must be a whole number from 1 to 10000000")
    drop, camera = setup.drop, setup.camera
    release, across, toward, trigger, bell, pace = rng.standard_normal((6, n))
    even, luck = rng.uniform(size=(2, n))
    uniform = camera.scatter_shape == "uniform"
    return Draw(
        release=drop.release_scatter * release,
        across=drop.sideways_scatter * across,
        toward=drop.sideways_scatter * toward,
        trigger=setup.trigger.scatter * trigger,
        camera=camera.lag_scatter * (even - 0.5 if uniform else bell),
        route=_route_scatters(setup) * rng.standard_normal((n, len(setup.flashes))),
        pace=np.clip(pace / 2, -1, 1),
        luck=luck,
    )


def _route_scatters(setup):
    return np.array([head.route_scatter for head in setup.flashes])


def two_scatters(setup):
    """How far each scatter reaches: two standard deviations, or all of a uniform one.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    dict
        Name in `Draw` to size [m or s], `pace` and `luck` left out; `route` has one size for each head.
    """
    drop, camera = setup.drop, setup.camera
    return {
        "release": 2 * drop.release_scatter,
        "across": 2 * drop.sideways_scatter,
        "toward": 2 * drop.sideways_scatter,
        "trigger": 2 * setup.trigger.scatter,
        "camera": camera.lag_scatter * (0.5 if camera.scatter_shape == "uniform" else 2),
        "route": 2 * _route_scatters(setup),
    }
