"""The stages of a drop's splash, put together from crown, crater, column and dome."""

from splashlib.physics.checks import warn_outside
from splashlib.physics.droplets.landing import highest
from splashlib.physics.droplets.spray import throwing_chance
from splashlib.physics.water.crater import crater_room, crater_time
from splashlib.physics.water.crown import crown_fall, crown_peak
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import Band, Stage, drop_impact, ramp
from splashlib.physics.water.jet import jet, jet_chance

RARE = 0.03
# H. C. Pumphrey, P. A. Elmore, J. Fluid Mech. 220 (1990) 539; H. N. Oguz, A. Prosperetti, J. Fluid Mech. 219
# (1990) 143: a bubble is shut in each time between these two Weber numbers, Fr = U^2/(gD).
BUBBLE_LOW, BUBBLE_HIGH = (41.3, 0.179), (48.3, 0.247)

RIM = "rim with mass held back by tension (Roisman and Tropea 2002); plates of Worthington (1908)"
SOURCES = {
    "crown_peak": RIM,
    "crown_falls": RIM,
    "crater_deepest": "energy of a half sphere (Engel 1967, Lherm et al. 2022); early limit Bisighini et al. (2010)",
    "bubble_pinched": "window of Pumphrey and Elmore (1990), Oguz and Prosperetti (1990)",
    "dome_closes": "ring drawn together by tension and air; seen at We 2900, not at 750 (Worthington 1908)",
    "jet_starts": "crater coming back in 0.7 of the time that it took",
    "jet_peak": "a column fed while it flies, 1.3 to 2.9 crater radii high",
    "droplets_highest": "free flight with drag of air; threshold Cossali, Coghe and Marengo (1997)",
}
PUBLISHED = ("crater_deepest",)


def drop_stages(*, diameter, speed, film_depth=float("inf"), liquid="water"):
    """List what happens after a drop meets a pool or film of its own liquid, in the order of the likely times.

    Parameters
    ----------
    diameter : float
        Diameter of the sphere of equal volume [m].
    speed : float
        Speed at the surface [m/s].
    film_depth : float
        Depth of the liquid it meets [m]; infinite for a deep pool.
    liquid : str
        "water" or "milk".

    Returns
    -------
    list of Stage
        Times in s after first contact. Names: crown_peak, crown_falls, crater_deepest, bubble_pinched,
        dome_closes, jet_starts (the head of the column passes the surface), jet_peak, droplets_highest.
        What does not happen is absent; what may happen has a chance below 1.

    Notes
    -----
    Each time is described where it is computed: `crown_peak`, `crater_time`, `jet`, `dome_time`. Fr = U^2/(gD)
    and We = rho U^2 D/sigma use the diameter. Crown: from We 64 (below, the drop goes in as a vortex ring) to
    200, or on a film by the threshold of Cossali et al. Crater and column need depth: see `crater_room`.
    Ranges: 2 to 6 mm (larger drops swing, and arrive flat or long), We 100 to 4000; outside it warns.

    Sources
    -------
    Named in each stage.
    """
    drop = drop_impact(diameter=diameter, speed=speed, film_depth=film_depth, liquid=liquid)
    outside = _outside(drop)
    if outside:
        warn_outside("the stages of a drop's splash are described for " + "; ".join(outside))
    return drop_stages_of(drop)


def drop_stages_of(drop):
    """The stages of a `DropImpact`, sorted by their likely times; see `drop_stages`."""
    found = [_stage(*row) for row in _rows(drop)]
    return sorted((stage for stage in found if stage.chance > RARE), key=lambda stage: stage.likely)


def crown_chance(drop):
    """Chance of a crown: from We = rho U^2 D/sigma of 64 to 200 (Hsiao et al. 1988 for the lower), 0 to 1."""
    return ramp(drop.weber, low=64, high=200)


def bubble_window(froude):
    """The two Weber numbers between which a drop shuts in a bubble each time.

    Parameters
    ----------
    froude : float
        U^2/(gD) [-].

    Returns
    -------
    tuple of float
        Lower and upper Weber number, rho U^2 D/sigma [-].

    Notes
    -----
    41.3 Fr^0.179 < We < 48.3 Fr^0.247; a drop that swings can do without, or do it outside.

    Sources
    -------
    H. C. Pumphrey, P. A. Elmore, J. Fluid Mech. 220 (1990) 539; H. N. Oguz, A. Prosperetti, J. Fluid Mech. 219
    (1990) 143.
    """
    return tuple(factor * froude**power for factor, power in (BUBBLE_LOW, BUBBLE_HIGH))


def _rows(drop):
    crown, dome, hollow = crown_chance(drop), dome_chance(drop), crater_room(drop)
    peak = crown_peak(drop)
    column, deepest = jet(drop), crater_time(drop)
    rising = jet_chance(drop)
    pinch = Band(1.05 * deepest.early, 1.3 * deepest.likely, 1.2 * deepest.late)
    return [
        ("crown_peak", peak, crown),
        ("crown_falls", crown_fall(drop), crown * (1 - dome)),
        ("dome_closes", dome_time(drop).after(peak), crown * dome),
        ("crater_deepest", deepest, 1.0 if hollow > 0 else 0.0),
        ("bubble_pinched", pinch, _bubble_chance(drop) * hollow),
        ("jet_starts", column.rises, rising),
        ("jet_peak", column.peak, rising),
        ("droplets_highest", highest(drop).time, crown * throwing_chance(drop)),
    ]


def _bubble_chance(drop):
    low, high = bubble_window(drop.froude)
    return 0.9 if low < drop.weber < high else 0.0


def _stage(name, band, chance):
    grade = "B" if name in PUBLISHED else "C"
    return Stage(name, *band, chance=min(chance, 1.0), source=SOURCES[name], grade=grade)


def _outside(drop):
    found = []
    if not 0.002 <= drop.diameter <= 0.006:
        found.append(f"drops of 2 to 6 mm, not {drop.diameter * 1e3:.3g} mm")
    if not 100 <= drop.weber <= 4000:
        found.append(f"Weber numbers of 100 to 4000, not {drop.weber:.3g}")
    return found
