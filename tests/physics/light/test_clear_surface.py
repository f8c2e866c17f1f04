"""Light on clear surfaces, and how bright a lamp looks beside what it lights."""

import numpy as np
import pytest

from splashlib.physics.light.clear_surface import fresnel_reflectance, lamp_over_card


@pytest.mark.parametrize(("index", "share"), [(1.333, 0.0204), (1.52, 0.0426)])
def test_head_on_a_surface_mirrors_the_square_of_the_index_step(index, share):
    """((n - 1)/(n + 1))^2: 2.0 % for water, 4.3 % for glass."""
    assert fresnel_reflectance(1.0, index=index) == pytest.approx(((index - 1) / (index + 1)) ** 2, rel=1e-12)
    assert fresnel_reflectance(1.0, index=index) == pytest.approx(share, abs=5e-5)


def test_grazing_light_is_mirrored_whole():
    assert fresnel_reflectance(0.0, index=1.333) == pytest.approx(1, abs=1e-12)


def test_the_share_is_that_of_the_angles():
    """The slow form in sines and tangents of the two angles (Born and Wolf, 1.5.2, equations 21 and 33)."""
    for angle in np.radians([5, 20, 45, 53.12, 70, 88]):
        inside = np.arcsin(np.sin(angle) / 1.333)
        across = (np.sin(angle - inside) / np.sin(angle + inside)) ** 2
        along = (np.tan(angle - inside) / np.tan(angle + inside)) ** 2
        assert fresnel_reflectance(np.cos(angle), index=1.333) == pytest.approx((across + along) / 2, rel=1e-9)


def test_at_brewsters_angle_one_half_of_the_light_is_not_mirrored():
    """tan b = n: only light that swings along the surface is mirrored, ((n^2 - 1)/(n^2 + 1))^2 of it."""
    n = 1.52
    share = fresnel_reflectance(np.cos(np.arctan(n)), index=n)
    assert share == pytest.approx(((n**2 - 1) / (n**2 + 1)) ** 2 / 2, rel=1e-12)


def test_light_from_behind_beats_the_front_by_the_published_stops():
    """Front reflection 2 %, light that passes 98 %: 5.6 stops (class figure of the course, from Fresnel)."""
    share = fresnel_reflectance(1.0, index=1.333)
    assert np.log2((1 - share) / share) == pytest.approx(5.6, abs=0.05)


def test_a_lamp_is_brighter_than_its_card_by_its_distance_in_radii():
    """Touching, lamp and card are alike; at the distance of one radius twice; far away the square of the distance."""
    assert lamp_over_card(distance=1e-9, size=0.3) == pytest.approx(1)
    assert lamp_over_card(distance=0.15, size=0.3) == pytest.approx(2)
    assert lamp_over_card(distance=30, size=0.3) == pytest.approx((30 / 0.15) ** 2, rel=1e-4)


def test_the_card_is_lit_by_the_sum_over_the_lamp():
    """Slow form: the lamp's face cut into rings, each with its own cosines; E = L sum cos^2 dA/r^2, card L' = E/pi."""
    distance, size = 0.4, 0.6
    edges = np.linspace(0, size / 2, 4001)
    radius = (edges[1:] + edges[:-1]) / 2
    area = np.pi * np.diff(edges**2)
    square = distance**2 + radius**2
    lit = (distance**2 / square * area / square).sum() / np.pi
    assert lamp_over_card(distance=distance, size=size) == pytest.approx(1 / lit, rel=1e-6)


@pytest.mark.parametrize("cosine", [-0.1, 1.1, float("nan")])
def test_a_cosine_that_is_none_is_refused(cosine):
    with pytest.raises(ValueError, match="cosine is"):
        fresnel_reflectance(cosine, index=1.333)


@pytest.mark.parametrize("index", [1.0, 0.7, float("nan")])
def test_light_must_come_from_the_thinner_side(index):
    with pytest.raises(ValueError, match="index is"):
        fresnel_reflectance(0.5, index=index)


def test_a_lamp_without_size_is_refused():
    with pytest.raises(ValueError, match="size is 0 m; it must be above 0 m"):
        lamp_over_card(distance=0.4, size=0)
