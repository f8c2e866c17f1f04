"""Every panel's picture, all that it says of a set-up, and what no readout may say."""

import re

from matplotlib.text import Text

from splashlib.picture.beam.beam_picture import BeamPicture
from splashlib.picture.camera.camera_picture import CameraPicture
from splashlib.picture.camera.curtain_picture import CurtainPicture
from splashlib.picture.fall.fall_picture import FallPicture
from splashlib.picture.freeze.freeze_picture import FreezePicture
from splashlib.picture.room.room_picture import RoomPicture
from splashlib.picture.splash.splash_picture import SplashPicture
from splashlib.picture.splash.wet_zone_picture import WetZonePicture
from splashlib.picture.start.start_picture import StartPicture
from splashlib.picture.stops.stops_picture import StopsPicture
from splashlib.shoot import instant_names, tea_house
from splashlib.shoot.chain.arrival import fallers

SYSTEMS = ("metric", "imperial")
NO_NUMBER = re.compile(r"\b(nan|inf)\b|[-−]0(\.0+)?(?![.\d])|\d[eE][+-]?\d", re.I)


def every_panel():
    """Every panel's picture, with the extras that it is shown with; those of one panel in turn."""
    return {
        StartPicture(): [{}],
        FallPicture(fallers(tea_house().drop)): [{"body": "kumquat"}],
        CameraPicture(): [{"aim": None}, {"aim": "contact"}, {"aim": "crown_peak"}],
        CurtainPicture(): [{}],
        RoomPicture(): [{"other": None}, {"other": "modelling"}, {"other": "beam"}],
        SplashPicture(): [{"clock": -0.01}, {"clock": 0.05}],
        WetZonePicture(): [{}],
        FreezePicture(): [{"print_width": 0.1}],
        StopsPicture(): [{"heads": 4}],
        BeamPicture(): [{"wanted": 0.02, "seed": 1}],
    }


def said(picture, setup, extras, system="metric"):
    """All words of a panel: alternative text, verdict, readout, and what is written in the picture.

    None at all where the extras aim at an instant that this drop does not have.
    """
    if extras.get("aim") not in (None, *instant_names(setup)):
        return []
    if isinstance(picture, BeamPicture):
        extras = {**extras, "body": setup.drop.name}
    picture.system = system
    told = picture.update(setup, **extras)
    drawn = [text.get_text() for text in picture.figure.findobj(Text) if text.get_visible()]
    return [told.alt, told.line, *(f"{label}: {value}" for label, value in told.readout), *drawn]


def not_plain(texts, setup):
    """Those texts that hold what is no number as people write it."""
    return [text for text in texts if NO_NUMBER.search(text.replace(setup.drop.name, "it"))]
