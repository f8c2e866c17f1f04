"""One set-up of the shoot as plain data: its fields, its file, the events of a drop, and what to change."""

from splashlib.shoot.fields import FIELDS, Field, SettingError, change, change_all, field, show, value_at
from splashlib.shoot.setup import (
    BODIES,
    Beam,
    Camera,
    Drop,
    Flash,
    Release,
    Room,
    Setup,
    Trigger,
    Vessel,
    tea_house,
    with_body,
)

__all__ = [
    "BODIES",
    "FIELDS",
    "Beam",
    "Camera",
    "Drop",
    "Field",
    "Flash",
    "Release",
    "Room",
    "SettingError",
    "Setup",
    "Trigger",
    "Vessel",
    "change",
    "change_all",
    "field",
    "show",
    "tea_house",
    "value_at",
    "with_body",
]
