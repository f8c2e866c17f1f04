"""Droplets that a crown throws: the door to `spray` (size, speed), `thrown` (one splash), `landing` (how far)."""

from splashlib.physics.air.flight import height_at, relax_time, straight_up
from splashlib.physics.droplets.landing import Highest, falls_through, highest, paths, reach
from splashlib.physics.droplets.spray import (
    droplet_size,
    droplet_speed,
    film_threshold,
    throwing_chance,
    usual_count,
    wall_threshold,
)
from splashlib.physics.droplets.thrown import Droplets, places, speeds, throw

__all__ = [
    "Droplets",
    "Highest",
    "droplet_size",
    "droplet_speed",
    "falls_through",
    "film_threshold",
    "height_at",
    "highest",
    "paths",
    "places",
    "reach",
    "relax_time",
    "speeds",
    "straight_up",
    "throw",
    "throwing_chance",
    "usual_count",
    "wall_threshold",
]
