"""Strips of photographs, and the one that README shows."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from splashlib.picture import photograph
from splashlib.picture.photo.strip import GAP, LINE, course_strip, lit_after, save, strip
from splashlib.shoot import change, tea_house
from splashlib.shoot.chain.events import events

SHOWN = Path(__file__).parents[3] / "lessons" / "pictures" / "strip.png"


def test_the_strip_in_the_readme_is_what_the_library_draws():
    """Whoever changes how photographs look draws it anew, as the docstring of the module says."""
    shown = np.asarray(Image.open(SHOWN).convert("RGB")).astype(int)
    drawn = course_strip().astype(int)
    assert shown.shape == drawn.shape
    assert np.abs(shown - drawn).mean() < 1.0
    assert SHOWN.stat().st_size < 400_000


def test_a_strip_shows_each_instant_in_turn():
    made = strip(tea_house(), [-0.004, 0.02], size=(60, 40), finer=1)
    assert made.shape == (40 + LINE, 2 * 60 + GAP, 3)
    for number, after in enumerate([-0.004, 0.02]):
        told = photograph(lit_after(tea_house(), after), size=(60, 40))
        left = number * (60 + GAP)
        assert (made[:40, left : left + 60] == told).all()
    assert made[40:].max() > 100  # the times, written under the pictures


@pytest.mark.parametrize("after", [-0.01, 0.0, 0.05])
def test_the_light_comes_when_it_is_asked_for(after):
    when = events(lit_after(tea_house(), after))
    assert float(when.light[0] - when.contact[0]) == pytest.approx(after, abs=1e-9)


def test_an_instant_that_is_over_before_the_light_can_come_is_refused():
    slow = change(tea_house(), "camera.style", "mirror")
    with pytest.raises(ValueError, match="too late for -4 ms; raise the beam"):
        lit_after(slow, -0.004)


def test_saving_leaves_a_whole_file_and_nothing_else(tmp_path):
    picture = np.arange(48, dtype=np.uint8).reshape(4, 4, 3)
    save(picture, tmp_path / "strip.png")
    assert (np.asarray(Image.open(tmp_path / "strip.png")) == picture).all()
    assert [path.name for path in tmp_path.iterdir()] == ["strip.png"]
