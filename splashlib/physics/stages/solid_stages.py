"""The stages of a solid body's splash, put together from crown, dome, cavity and jet."""

import math

from splashlib.physics.checks import warn_outside
from splashlib.physics.droplets.landing import highest
from splashlib.physics.droplets.spray import throwing_chance
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.crown import crown_fall, crown_peak
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import Band, Stage, solid_impact
from splashlib.physics.water.jet import jet_chance, pinch_jet, sheath_meets, spout
from splashlib.physics.water.real_vessel import widening
from splashlib.physics.water.sinking import bottom_time, deepest_time, surfacing_time
from splashlib.physics.water.threshold import splash_chance

# Below this a stage is left out: it hardly ever happens.
RARE = 0.03

RIM = "rim with mass held back by tension (Roisman and Tropea 2002); plates of Worthington (1908)"
SOURCES = {
    "body_under": "way of the body, drag after May (1975)",
    "crown_peak": RIM,
    "crown_falls": RIM,
    "dome_closes": "t U/D = 4.3 (Kiyama et al. 2022; plates of Worthington 1908); threshold Mansoor et al. (2014)",
    "cavity_seals": "1.73 sqrt(R/g): Truscott and Techet (2009), Gilbarg and Anderson (1948)",
    "jet_rises": "from the depth of the seal, column speed after Worthington (1908)",
    "jet_peak": "growth as the root of time, then flight; heights after Worthington (1908)",
    "droplets_highest": "free flight with drag of air; speed that of the sheet",
    "film_closes": "water meets over a body that slipped in (Worthington 1908)",
    "spout_rises": "column over a body that slipped in (Worthington 1908)",
    "spout_peak": "free flight, to a share of the height of the fall",
    "meets_bottom": "way of the body, drag after May (1975)",
    "deepest": "way of the body, drag after May (1975), Clift and Gauvin (1971)",
    "surfaces": "way of the body, drag after Clift and Gauvin (1971)",
}
# Pairs of which the second cannot come before the first.
FOLLOWS = (
    ("crown_peak", "crown_falls"),
    ("crown_peak", "dome_closes"),
    ("cavity_seals", "jet_rises"),
    ("jet_rises", "jet_peak"),
)
PUBLISHED = ("cavity_seals", "dome_closes")


def splash_stages(*, diameter, density, speed, surface, **room):
    """List what the water does after a solid body meets it, in the order of the likely times.

    Parameters
    ----------
    diameter : float
        Diameter of the body as seen from below [m]; of an oval one lying down use `frontal_diameter`.
    density : float
        Density of the body [kg/m3].
    speed : float
        Speed at the water [m/s].
    surface : str
        "rough" (also dusty or water-repelling), "wet" or "smooth_dry" (clean and polished).
    room : optional
        length (upright axis of an oval body [m]), liquid ("water" or "milk"), water_depth and vessel_width [m].

    Returns
    -------
    list of Stage
        Times in s after first contact. Names: body_under, crown_peak, crown_falls, dome_closes, cavity_seals,
        jet_rises, jet_peak, droplets_highest; film_closes, spout_rises, spout_peak for a body that slips in;
        meets_bottom, deepest, surfaces. What does not happen is absent; what may happen has a chance below 1.

    Notes
    -----
    Each time is described where it is computed: `crown_peak`, `dome_time`, `seal_time`, `jet`, `highest`. The
    Froude number here is U^2/(gR). Ranges: 5 to 60 mm, Fr 3 to 400, Bond number rho g R^2/sigma above 1,
    density above 0.3 of the liquid's, axes within 0.6 to 1.8; outside it warns and gives the model's value.

    Sources
    -------
    Named in each stage.
    """
    body = solid_impact(diameter=diameter, density=density, speed=speed, surface=surface, **room)
    outside = _outside(body)
    if outside:
        warn_outside("the stages of a splash are described for " + "; ".join(outside))
    return stages_of(body)


def stages_of(body):
    """The stages of a `SolidImpact`, sorted by their likely times; see `splash_stages`."""
    entry = splash_chance(body)
    found = [_under(body), *_way(body)]
    if entry > RARE:
        # Rare among the splashes, that is: where only few bodies splash, what they do is told all the same.
        found += [stage for stage in _splash(body, entry) if stage.chance > RARE * entry]
    if entry < 1 - RARE and body.surface == "smooth_dry":
        found += _slip(body, 1 - entry)
    return sorted(found, key=lambda stage: stage.likely)


def _splash(body, chance):
    factor = widening(body)
    dome = dome_chance(body)
    seal = _seal(body)
    column = pinch_jet(body)
    rising = chance * jet_chance(body)
    bands = {
        "crown_peak": (crown_peak(body), chance),
        "crown_falls": (crown_fall(body), chance * (1 - dome)),
        "dome_closes": (dome_time(body), chance * dome),
        "cavity_seals": (seal, chance * _room_to_seal(body)),
        "jet_rises": (column.rises, rising),
        "jet_peak": (column.peak, rising),
        "droplets_highest": (highest(body).time, chance * throwing_chance(body)),
    }
    wide = _in_order({name: _wider(name, band, factor) for name, (band, _) in bands.items()})
    return [_stage(name, wide[name], share) for name, (_, share) in bands.items()]


def _in_order(bands):
    """Widening must not let a stage's limit pass that of the stage which follows it."""
    for first, second in FOLLOWS:
        bands[second] = bands[second].after(bands[first])
    return bands


def _seal(body):
    """The seal under a dome may come later: the air above is spent, the cavity is drawn down (C)."""
    band = seal_time(body)
    dome = dome_chance(body)
    return Band(band.early * (1 - 0.05 * dome), band.likely, band.late * (1 + 0.1 * dome))


def _room_to_seal(body):
    """A body that lies on the bottom long before the seal may not get a cavity to close."""
    share = bottom_time(body) / seal_time(body).likely
    return 1.0 if share >= 1 else 0.4 + 0.6 * share


def _slip(body, chance):
    column = spout(body)
    bands = [("film_closes", sheath_meets(body)), ("spout_rises", column.rises), ("spout_peak", column.peak)]
    return [_stage(name, band, chance) for name, band in bands]


def _under(body):
    time = body.length / body.speed
    return _stage("body_under", Band(0.95 * time, 1.05 * time, 1.3 * time), 1.0)


def _way(body):
    """Bottom, deepest point and return of the body: where it happens, within a quarter."""
    times = {"meets_bottom": bottom_time(body), "surfaces": surfacing_time(body)}
    if times["meets_bottom"] == math.inf:
        times["deepest"] = deepest_time(body)
    return [_stage(name, Band(0.75 * time, time, 1.35 * time), 1.0) for name, time in times.items() if time < math.inf]


def _wider(name, band, factor):
    """Widen for the vessel, but not into limits that say nothing: at most 2.5-fold by a law, 4-fold without."""
    most = 2.5 if name in PUBLISHED else 4.0
    factor = min(factor, math.sqrt(max(most * band.early / band.late, 1.0)))
    return Band(band.early / factor, band.likely, band.late * factor)


def _stage(name, band, chance):
    grade = "B" if name in PUBLISHED else "C"
    return Stage(name, *band, chance=min(chance, 1.0), source=SOURCES[name], grade=grade)


def _outside(body):
    found = []
    if not 0.005 <= body.diameter <= 0.06:
        found.append(f"diameters of 5 to 60 mm, not {body.diameter * 1e3:.3g} mm")
    if not 3 <= body.froude <= 400:
        found.append(f"Froude numbers U^2/(gR) of 3 to 400, not {body.froude:.3g}")
    if body.bond < 1:
        found.append(f"Bond numbers above 1, not {body.bond:.2g}: surface tension shapes the cavity here")
    if body.relative_density < 0.3:
        found.append(f"bodies heavier than 0.3 of the liquid, not {body.relative_density:.2g}")
    if not 0.6 <= body.slenderness <= 1.8:
        found.append(f"upright axes of 0.6 to 1.8 diameters, not {body.slenderness:.2g}")
    return found
