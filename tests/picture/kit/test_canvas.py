"""The layered canvas: the same pixels as a full redraw, and what it costs to keep them."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from matplotlib.patches import Rectangle
from PIL import Image

from splashlib.picture.kit.canvas import Description, Layered, Pixels, jpeg, png
from tests.effort import cases


class Scene(Layered):
    """Two panels with all that is easily drawn in the wrong order: spines, legend, grid, bands, notes."""

    size = (420, 200)

    def build(self, figure):
        left = figure.add_axes([0.12, 0.2, 0.45, 0.7])
        right = figure.add_axes([0.66, 0.2, 0.3, 0.7])
        x = np.linspace(0, 1, 50)
        left.plot(x, np.sin(6 * x), label="way")
        left.set(title="Fall", xlim=(0, 1), ylim=(-1.2, 1.2))
        left.grid()
        left.legend(loc="upper right")
        right.set(xticks=[], yticks=[])
        self.left = left
        self.image = Pixels(right, np.zeros((10, 10, 3), np.uint8))
        # Not axvspan: in the oldest matplotlib that gives a Polygon, which has no set_x.
        place = left.get_xaxis_transform()
        self.band = left.add_patch(Rectangle((0.2, 0), 0.1, 1, alpha=0.3, color="orange", transform=place))
        (self.dot,) = left.plot([0.5], [0.0], "o", ms=10, zorder=5)
        (self.mark,) = left.plot([0.5], [0.0], "v", ms=14, zorder=1)
        self.note = left.text(0.5, 0.5, "12 ms", bbox={"facecolor": "white"})
        self.arrow = left.annotate("here", (0.2, 0.2), (0.4, 0.4), arrowprops={"arrowstyle": "->"})
        self.name = figure.text(0.3, 0.5, "over all", color="red")
        return self.dot, self.mark, self.band, self.note, self.arrow, self.image, self.name

    def update(self, setup, **extras):
        x, y = setup
        self.dot.set_data([x], [y])
        self.mark.set_data([x + 0.01], [y])
        self.band.set_x(x / 2)
        self.note.set(x=x, text=f"{1000 * x:.0f} ms")
        self.arrow.xy = (1 - x, y)
        self.image.show(np.full((12, 9, 3), int(100 * x) + 50, np.uint8))
        return Description((("x", f"{x}"),), "a dot")


@pytest.fixture(scope="module")
def scene():
    return Scene()


@settings(deadline=None, max_examples=cases(15))
@given(x=st.floats(0.05, 0.7), y=st.floats(-1, 1))
def test_layers_give_the_pixels_of_a_full_redraw(x, y):
    scene = Scene()
    scene.update((0.1, 0.1))
    scene.pixels()
    scene.update((x, y))
    layered = scene.pixels().copy()
    assert np.array_equal(layered, scene.redrawn())


def test_the_picture_follows_what_moves(scene):
    scene.update((0.2, 0.0))
    before = scene.pixels().copy()
    scene.update((0.8, 0.0))
    after = scene.pixels().copy()
    scene.update((0.2, 0.0))
    assert not np.array_equal(before, after)
    assert np.array_equal(before, scene.pixels())


def test_lower_zorder_is_drawn_first(scene):
    scene.update((0.5, 0.0))
    scene.dot.set_data([0.51], [0.0])
    scene.dot.set_color("#ff0000")
    scene.mark.set_color("#0000ff")
    x, y = scene.left.transData.transform((0.51, 0.0))
    assert tuple(scene.pixels()[scene.size[1] - 1 - round(y), round(x), :3]) == (255, 0, 0)


def test_the_resting_layer_is_drawn_once_and_again_only_when_it_changes():
    scene = Scene()
    for step in range(10):
        scene.update((step / 10, 0.0))
        scene.frame(moving=True)
    assert scene.static_draws == 1
    scene.left.set_xlim(0, 2)
    changed = scene.pixels().copy()
    assert scene.static_draws == 2
    assert np.array_equal(changed, scene.redrawn())


def test_invalidate_draws_the_resting_layer_again():
    scene = Scene()
    scene.pixels()
    scene.invalidate()
    scene.pixels()
    assert scene.static_draws == 2


def test_png_loses_nothing(scene):
    scene.update((0.3, 0.4))
    image = np.asarray(Image.open(io.BytesIO(scene.frame(moving=False))))
    assert np.array_equal(image, scene.pixels()[:, :, :3])


def test_jpeg_keeps_full_colour_and_stays_close(scene):
    scene.update((0.3, 0.4))
    coded = Image.open(io.BytesIO(scene.frame(moving=True)))
    assert coded.format == "JPEG"
    assert {layer[1:3] for layer in coded.layer} == {(1, 1)}
    apart = np.abs(np.asarray(coded).astype(int) - scene.pixels()[:, :, :3])
    assert apart.mean() < 2


def test_jpeg_takes_three_or_four_channels_alike():
    array = np.random.default_rng(1).integers(0, 255, (16, 24, 4), dtype=np.uint8)
    assert jpeg(array) == jpeg(array[:, :, :3])


def test_png_takes_a_slice_of_a_larger_array():
    array = np.random.default_rng(1).integers(0, 255, (16, 24, 4), dtype=np.uint8)
    part = array[2:9, 3:11]
    assert np.array_equal(np.asarray(Image.open(io.BytesIO(png(part)))), part[:, :, :3])


def test_a_finer_frame_has_more_pixels_and_leaves_the_plain_one_alone():
    scene = Scene()
    scene.update((0.3, 0.4))
    plain = scene.pixels().copy()
    fine = Image.open(io.BytesIO(scene.frame(moving=False, scale=2)))
    assert fine.size == (2 * scene.size[0], 2 * scene.size[1])
    assert np.array_equal(scene.pixels(), plain)
    shrunk = np.asarray(fine.resize(scene.size, Image.Resampling.BOX)).astype(int)
    assert np.abs(shrunk - plain[:, :, :3]).mean() < 6


def test_an_array_of_the_right_size_is_copied_pixel_by_pixel():
    scene = Scene()
    width, height = scene.image.size()
    array = np.random.default_rng(2).integers(0, 255, (height, width, 3), dtype=np.uint8)
    scene.name.set_visible(False)
    scene.image.show(array)
    left, _, _, top = (round(edge) for edge in scene.image.axes.bbox.extents)
    row = scene.size[1] - top
    assert np.array_equal(scene.pixels()[row : row + height, left : left + width, :3], array)


def test_no_array_shows_what_lies_under_it():
    scene = Scene()
    scene.image.show(np.zeros((5, 5, 3), np.uint8))
    dark = scene.pixels().copy()
    scene.image.show(None)
    assert scene.pixels().sum() > dark.sum()


OTHERS = [np.zeros((3, 3)), np.zeros((3, 3, 3)), np.zeros((3, 3, 4), np.uint8)]


@pytest.mark.parametrize("array", OTHERS, ids=["flat", "float", "four"])
def test_other_arrays_are_refused(scene, array):
    with pytest.raises(ValueError, match="must be uint8"):
        scene.image.show(array)


def test_a_learners_own_style_does_not_reach_the_picture():
    import matplotlib

    plain = Scene().pixels().copy()
    with matplotlib.rc_context({"font.size": 25, "axes.facecolor": "black", "lines.linewidth": 9}):
        assert np.array_equal(Scene().pixels(), plain)


def test_told_needs_an_alternative_text():
    with pytest.raises(ValueError, match="alt is empty"):
        Description((), "  ")


def test_told_knows_its_tones():
    with pytest.raises(ValueError, match="tone is 'loud'"):
        Description((), "a dot", "fine", "loud")
