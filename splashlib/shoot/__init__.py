"""One set-up of the shoot as plain data: its fields, its file, the events of a drop, and what to change."""

from splashlib.shoot.chain.arrival import arrival
from splashlib.shoot.chain.body_motion import body_terminal_speed, breaks_beam, contact_speed, impact_of
from splashlib.shoot.chain.events import Events, body_height, lit_share, open_rows, simulate
from splashlib.shoot.chain.framing import Frame, Seen, framed, lead, light_lag, sees
from splashlib.shoot.chain.instants import instant_names
from splashlib.shoot.chain.scatter import Draw, draw_scatters, nominal_draw, two_scatters
from splashlib.shoot.chain.stages import splash
from splashlib.shoot.chain.timeline import Event, timeline
from splashlib.shoot.decide.advice import HoldOff, VesselAdvice, hold_off_advice, vessel_advice
from splashlib.shoot.decide.beam_height import beam_bounds, best_beam_height, delay_for, late_lag
from splashlib.shoot.decide.delays import Delay, Remedy
from splashlib.shoot.decide.dry import Stand, in_the_spray, stands, wet_zone
from splashlib.shoot.decide.exposure_account import account, payments
from splashlib.shoot.decide.flash_duration import streak_in
from splashlib.shoot.decide.room_light import dark_enough, ghosts
from splashlib.shoot.files.learner_files import home, my_setup, my_setup_path
from splashlib.shoot.files.reading import load_setup
from splashlib.shoot.files.writing import save_setup
from splashlib.shoot.setup.default_scene import BODIES, tea_house, with_body
from splashlib.shoot.setup.field_rows import Field, SettingError
from splashlib.shoot.setup.fields import change, change_all, field, show, value_at
from splashlib.shoot.setup.parts import Beam, Camera, Drop, Flash, Release, Room, Setup, Trigger, Vessel
from splashlib.shoot.setup.pulses import pulse_of
from splashlib.shoot.setup.table import FIELDS

__all__ = [
    "BODIES",
    "FIELDS",
    "Beam",
    "Camera",
    "Delay",
    "Draw",
    "Drop",
    "Event",
    "Events",
    "Field",
    "Flash",
    "Frame",
    "HoldOff",
    "Release",
    "Remedy",
    "Room",
    "Seen",
    "SettingError",
    "Setup",
    "Stand",
    "Trigger",
    "Vessel",
    "VesselAdvice",
    "account",
    "arrival",
    "beam_bounds",
    "best_beam_height",
    "body_height",
    "body_terminal_speed",
    "breaks_beam",
    "change",
    "change_all",
    "contact_speed",
    "dark_enough",
    "delay_for",
    "draw_scatters",
    "field",
    "framed",
    "ghosts",
    "hold_off_advice",
    "home",
    "impact_of",
    "in_the_spray",
    "instant_names",
    "late_lag",
    "lead",
    "light_lag",
    "lit_share",
    "load_setup",
    "my_setup",
    "my_setup_path",
    "nominal_draw",
    "open_rows",
    "payments",
    "pulse_of",
    "save_setup",
    "sees",
    "show",
    "simulate",
    "splash",
    "stands",
    "streak_in",
    "tea_house",
    "timeline",
    "two_scatters",
    "value_at",
    "vessel_advice",
    "wet_zone",
    "with_body",
]
