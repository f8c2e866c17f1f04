"""Splash or none: whether a solid body takes air down with it."""

from splashlib.physics.water.impact import ramp

# C. Duez, C. Ybert, C. Clanet, L. Bocquet, Nature Physics 3 (2007) 180-183: a clean wettable sphere takes no
# air down below 0.1 sigma/mu.
PERFECT = 0.1
# A. M. Worthington, "A Study of Splashes" (1908): with ordinary polish the change comes at 5.55-5.65 m/s, three
# quarters of the 7.3 m/s of a perfect surface; polished spheres from 1.0 m (4.4 m/s) took no air down.
ORDINARY, SAFE = 0.77, 0.65
# From half of it on a grain of dust or a smear of grease now and then makes one splash: 1 in 10 to 20 (C).
FIRST, SMEARED = 0.5, 0.1


def critical_speed(liquid):
    """Speed below which a perfectly smooth, clean, wettable sphere takes no air down.

    Parameters
    ----------
    liquid : Liquid

    Returns
    -------
    float
        Speed [m/s], 7.3 m/s for water.

    Notes
    -----
    U* = 0.1 sigma/mu: the edge of the film that climbs the body cannot run faster than that. Holds for contact
    angles under 90 degrees; a repelling body has a much lower limit. Ordinary polish reaches 0.77 of it.

    Sources
    -------
    C. Duez, C. Ybert, C. Clanet, L. Bocquet, Nature Physics 3 (2007) 180-183.
    """
    return PERFECT * liquid.tension / liquid.viscosity


def splash_chance(body):
    """Chance that a solid body makes a cavity and a crown, and does not slip in.

    Parameters
    ----------
    body : SolidImpact

    Returns
    -------
    float
        0 to 1.

    Notes
    -----
    rough: 1. wet: 0.95 where seen (3.4 m/s and up), falling to 0.7 at 1 m/s, where a smooth body with a thin
    film may still slip in (C). smooth_dry: 0 up to 0.5 U*, up to 0.1 by 0.65 U* (dust, a smear), a half at
    ordinary polish (0.77 U*, 5.6 m/s in water), 1 from U* on; between them the polish decides, not this formula.

    Sources
    -------
    Duez et al. (2007) for U*; A. M. Worthington, "A Study of Splashes" (1908) for ordinary polish and for the
    wet sphere that splashed from 0.6 m.
    """
    if body.surface == "rough":
        return 1.0
    if body.surface == "wet":
        return 0.7 + 0.25 * ramp(body.speed, low=1.0, high=3.4)
    pace = body.speed / critical_speed(body.liquid)
    polish = (0.5 - SMEARED) * ramp(pace, low=SAFE, high=ORDINARY) + 0.5 * ramp(pace, low=ORDINARY, high=1.0)
    return SMEARED * ramp(pace, low=FIRST, high=SAFE) + polish
