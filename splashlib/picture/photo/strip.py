"""Strips of photographs, one instant after the other; and the strip that README shows.

To draw README's picture anew, after a change of the photograph or of the physics:

    from splashlib.picture.photo.strip import course_strip, save
    save(course_strip(), "lessons/pictures/strip.png")
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from splashlib.picture.photo.photograph import photograph
from splashlib.shoot import change_all, tea_house, with_body
from splashlib.shoot.chain.events import events

GROUND, WORDS = (11, 17, 23), (196, 203, 208)
GAP, LINE, FONT = 3, 22, 13  # between pictures, height of a line of words, size of its letters [pixels]


def strip(setup, instants, *, size=(140, 210), finer=2):
    """Photograph one drop at several instants, side by side, the time under each.

    Parameters
    ----------
    setup : shoot.Setup
        Its delay is set for each picture; the shutter should be held open, so that every instant is in reach.
    instants : sequence of float
        Times of the first head's light after the contact with the water [s], negative before it.
    size : (int, int)
        Width and height of one picture [pixels].
    finer : int
        Pictures are drawn so many times as large, and then made smaller.

    Returns
    -------
    uint8 array (height, width, 3)
    """
    width, height = size
    sheet = Image.new("RGB", ((width + GAP) * len(instants) - GAP, height + LINE), GROUND)
    draw, font = ImageDraw.Draw(sheet), ImageFont.load_default(FONT)
    for number, after in enumerate(instants):
        picture = photograph(lit_after(setup, after), size=(width * finer, height * finer))
        left = number * (width + GAP)
        sheet.paste(Image.fromarray(picture).resize(size, Image.Resampling.BOX), (left, 0))
        draw.text((left + width / 2, height + LINE / 2), said(after), WORDS, font, "mm")
    return np.asarray(sheet)


def lit_after(setup, after):
    """The set-up with the delay that brings the first head's light a time after contact [s]."""
    when = events(setup)
    delay = setup.trigger.delay + float(when.contact[0] - when.light[0]) + after
    if not delay >= 0:
        raise ValueError(f"the light comes {-1000 * delay:.3g} ms too late for {said(after)}; raise the beam")
    return change_all(setup, {"trigger.delay": delay})


def said(after):
    """A time after contact [s] in words."""
    return f"{1000 * after:+.3g} ms"


def course_strip():
    """The fruit, the marble and the drop of milk of the tea house, ten instants each.

    Returns
    -------
    uint8 array (height, width, 3)
    """
    rows = [strip(setup, instants) for setup, instants in _scenes()]
    sheet = Image.fromarray(np.vstack(rows))
    draw, font = ImageDraw.Draw(sheet), ImageFont.load_default(FONT - 1)
    draw.text((sheet.width - 8, 6), "simulated", WORDS, font, "ra")
    return np.asarray(sheet)


def _scenes():
    key = replace(tea_house().flashes[0], power=1 / 64, rise=20e-6, guide_number=42.0)
    behind = replace(key, name="rim", position="behind", guide_number=15.0)
    fruit = _portrait(tea_house(), wide=0.15, centre=0.012, heads=(key, behind))
    marble = change_all(with_body(tea_house(), "glass marble"), {"drop.surface": "rough", "vessel.rim": 0.09})
    marble = _portrait(marble, wide=0.085, centre=0.006, heads=(key, behind))
    front = replace(key, position="front", guide_number=48.0)
    milk = change_all(with_body(tea_house(), "drop of milk"), {"vessel.width": 0.08, "vessel.rim": 0.001})
    milk = _portrait(milk, wide=0.031, centre=0.012, heads=(front,))
    ms = 0.001
    yield fruit, [ms * t for t in (-8, 4, 12, 22, 34, 50, 68, 85, 110, 150)]
    yield marble, [ms * t for t in (-4, 2, 6, 12, 20, 30, 38, 50, 75, 100)]
    yield milk, [ms * t for t in (-3, 0.8, 2, 4, 7, 11, 18, 30, 45, 70)]


def _portrait(setup, *, wide, centre, heads):
    """A camera held upright, so near that the frame is `wide` [m] across, in a dark room."""
    focal_length = setup.camera.focal_length
    distance = focal_length * (1 + wide / 0.024)
    camera = {
        "camera.sensor_width": 0.024,
        "camera.sensor_height": 0.036,
        "camera.distance": distance,
        "camera.focus_distance": distance,
        "camera.frame_centre": centre,
        "camera.aperture": 16.0,
        "camera.iso": 800.0,
        "room.lux": 0.0,
        "beam.light": "infrared",
    }
    return change_all(replace(setup, flashes=heads), camera)


def save(picture, path):
    """Write a strip as a PNG; the old file stays until the new one is whole.

    Parameters
    ----------
    picture : uint8 array (height, width, 3)
    path : str or Path
    """
    path = Path(path)
    part = path.with_name(path.name + ".part")
    Image.fromarray(picture).save(part, "PNG", optimize=True)
    part.replace(path)
