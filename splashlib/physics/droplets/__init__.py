"""Droplets that a crown throws: the door to `spray` (size, speed), `thrown` (one splash), `landing` (how far)."""

from splashlib.physics.droplets.landing import (
    Droplets,
    Highest,
    droplet_size,
    droplet_speed,
    falls_through,
    film_threshold,
    highest,
    places,
    reach,
    relax_time,
    speeds,
    throw,
    throwing_chance,
    usual_count,
    wall_threshold,
)

__all__ = [
    "Droplets",
    "Highest",
    "droplet_size",
    "droplet_speed",
    "falls_through",
    "film_threshold",
    "highest",
    "places",
    "reach",
    "relax_time",
    "speeds",
    "throw",
    "throwing_chance",
    "usual_count",
    "wall_threshold",
]
