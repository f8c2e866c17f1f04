"""Kept words look like matplotlib's own, stand where theirs stand, and stay inside the picture."""

import warnings

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from splashlib.picture.kit import lettering
from splashlib.picture.kit.lettering import drawable, write

PLACES = [("left", "top"), ("center", "center"), ("right", "bottom"), ("left", "baseline"), ("center", "top")]


def drawn(put, **kwargs):
    """Pixels of a sheet of 300 x 120 with one text on it."""
    figure = Figure(figsize=(3, 1.2), dpi=100)
    canvas = FigureCanvasAgg(figure)
    axes = figure.add_axes((0, 0, 1, 1))
    axes.set(xlim=(0, 300), ylim=(0, 120))
    axes.axis("off")
    put(axes, **kwargs)
    canvas.draw()
    return np.array(canvas.buffer_rgba()).astype(int)


def own(axes, x=150, y=60, text="44 ± 1 ms ✓", **kwargs):
    axes.text(x, y, text, **kwargs)


def kept(axes, x=150, y=60, text="44 ± 1 ms ✓", **kwargs):
    write(axes, x, y, text, **kwargs)


@pytest.mark.parametrize(("across", "upright"), PLACES)
@pytest.mark.parametrize("text", ["44 ± 1 ms ✓", "gjy|", "two\nlines"])
def test_it_looks_like_matplotlibs_own(across, upright, text):
    look = {"ha": across, "va": upright, "fontsize": 15, "color": "#00735a", "fontweight": "bold", "text": text}
    expected, found = drawn(own, **look), drawn(kept, **look)
    assert expected.min() < 100
    # The same letters, up to a pixel's shift by rounding; so compare what is inked, and where.
    ink = [(255 - image[:, :, 0]).astype(float) for image in (expected, found)]
    assert ink[1].sum() == pytest.approx(ink[0].sum(), rel=0.02)
    for axis in (0, 1):
        centre = [(image.sum(axis=axis) * np.arange(image.shape[1 - axis])).sum() / image.sum() for image in ink]
        assert centre[1] == pytest.approx(centre[0], abs=1.01)


def test_the_colour_is_the_texts_own_and_may_be_transparent():
    solid = drawn(kept, color="#ff0000", fontsize=40, text="█")
    assert tuple(solid[60, 150, :3]) == (255, 0, 0)
    pale = drawn(kept, color=(1, 0, 0, 0.5), fontsize=40, text="█")
    assert np.abs(pale[60, 150, :3] - (255, 128, 128)).max() <= 1


@pytest.mark.parametrize("place", [(-20, 60), (300, 60), (150, -5), (150, 120), (-500, -500)])
def test_words_at_the_edge_are_cut(place):
    found = drawn(kept, x=place[0], y=place[1])
    assert found.shape == (120, 300, 4)


def test_empty_and_hidden_words_leave_no_trace():
    assert drawn(kept, text="").min() == 255
    assert drawn(kept, visible=False).min() == 255


def test_a_new_number_costs_one_word():
    lettering._set.cache_clear()
    lettering._word.cache_clear()
    drawn(kept, text="44 cm over the water")
    assert lettering._word.cache_info().misses == 5
    drawn(kept, text="45 cm over the water")
    assert lettering._word.cache_info().misses == 6


@pytest.mark.parametrize("text", ["  two blanks  before", "13.8 cm over the water", "±", "Ågjp ²√"])
@pytest.mark.parametrize("upright", ["baseline", "bottom", "center", "top"])
def test_words_put_together_stand_where_whole_ones_do(text, upright):
    """To a pixel: left, right, upper and lower edge of the ink."""
    look = {"fontsize": 14, "ha": "center", "va": upright, "text": text}
    edges = []
    for put in (own, kept):
        ink = drawn(put, **look)[:, :, 0] < 160
        rows, columns = np.flatnonzero(ink.any(1)), np.flatnonzero(ink.any(0))
        edges.append([rows[0], rows[-1], columns[0], columns[-1]])
    assert np.abs(np.subtract(*edges)).max() <= 1


def test_the_same_words_are_set_once():
    lettering._set.cache_clear()
    for x in (20, 80, 140):
        drawn(kept, x=x)
    assert lettering._set.cache_info().misses == 1
    drawn(kept, text="45 ± 1 ms ✓")
    assert lettering._set.cache_info().misses == 2


@pytest.mark.parametrize("text", ["$x_{$", "金柑 🍊", "שלום", "a\u0301 👩\u200d🍳"])
def test_any_name_is_drawn_without_a_word(text):
    """No formula begins at a dollar sign; letters that the font lacks are boxes, and nobody is warned of them."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        found = drawn(kept, text=text, fontsize=20)
    assert found.min() < 100


def test_letters_that_the_font_lacks_are_boxes():
    assert drawable("$5 金柑!") == "$5 □□!"
    assert drawable("e\U000e0101") == "e", "what changes another letter has no box of its own"
