"""What the water does when something falls into it: every stage with its time, its limits and its source.

The names of this module stay put; the work is done in ``water``, one topic a module: ``impact`` (what falls),
``threshold`` (splash or none), ``cavity_time`` and ``cavity``, ``crown`` on ``rim`` and ``mouth``, ``dome``, ``jet``,
``crater`` (drops), ``sinking`` (the body under water), ``real_vessel``; and in ``stages``, which puts it together.
"""

from splashlib.physics.stages.drop_stages import bubble_window, drop_stages, drop_stages_of
from splashlib.physics.stages.solid_stages import splash_stages, stages_of
from splashlib.physics.water.cavity import cavity_outline, cavity_seal, cavity_volume, seal_depth
from splashlib.physics.water.cavity_time import seal_time
from splashlib.physics.water.crater import crater_bound, crater_depth, crater_radius, crater_time
from splashlib.physics.water.crater_shape import crater_outline
from splashlib.physics.water.crown import crown_fall, crown_height, crown_outline, crown_peak, rim_height
from splashlib.physics.water.dome import dome_chance, dome_time
from splashlib.physics.water.impact import (
    Band,
    DropImpact,
    SolidImpact,
    Stage,
    drop_impact,
    frontal_diameter,
    solid_impact,
)
from splashlib.physics.water.jet import jet, jet_height, jet_outline
from splashlib.physics.water.mouth import mouth_radius
from splashlib.physics.water.real_vessel import level_rise, vessel_effects
from splashlib.physics.water.sinking import body_depth, body_speed, bottom_time, deepest_time, surfacing_time
from splashlib.physics.water.threshold import critical_speed, splash_chance

__all__ = [
    "Band",
    "DropImpact",
    "SolidImpact",
    "Stage",
    "body_depth",
    "body_speed",
    "bottom_time",
    "bubble_window",
    "cavity_outline",
    "cavity_seal",
    "cavity_volume",
    "crater_bound",
    "crater_depth",
    "crater_outline",
    "crater_radius",
    "crater_time",
    "critical_speed",
    "crown_fall",
    "crown_height",
    "crown_outline",
    "crown_peak",
    "deepest_time",
    "dome_chance",
    "dome_time",
    "drop_impact",
    "drop_stages",
    "drop_stages_of",
    "frontal_diameter",
    "jet",
    "jet_height",
    "jet_outline",
    "level_rise",
    "mouth_radius",
    "rim_height",
    "seal_depth",
    "seal_time",
    "solid_impact",
    "splash_chance",
    "splash_stages",
    "stages_of",
    "surfacing_time",
    "vessel_effects",
]
