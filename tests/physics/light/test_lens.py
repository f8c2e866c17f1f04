"""The lens: published values, limits, rays traced through a thin lens, and sympy."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.light import lens
from tests.reference import rows

PUBLISHED = {row["what"]: row["answer"] for row in rows("sharpness.csv")}
FOCAL = st.floats(0.02, 0.3)
FAST = settings(deadline=None, max_examples=100)


def test_published_circles():
    full = lens.circle_of_confusion(width=0.036, height=0.024)
    assert full == pytest.approx(PUBLISHED["circle_36x24"], abs=0.00005e-3)
    small = lens.circle_of_confusion(width=0.0235, height=0.0156)
    assert small == pytest.approx(PUBLISHED["circle_23.5x15.6"], abs=0.00005e-3)


def test_published_close_up_depth():
    depth = lens.close_up_depth(magnification=0.25, aperture=11, circle=0.0288e-3)
    assert depth == pytest.approx(PUBLISHED["close_up_depth_quarter_size_f11"], abs=0.05e-3)
    distance = lens.working_distance(focal_length=0.1, magnification=0.25)
    full = lens.depth_of_field(focus_distance=distance, focal_length=0.1, aperture=11, circle=0.0288e-3)
    assert full.total == pytest.approx(depth, rel=1e-3)
    near_field = [distance - full.near, full.far - distance]
    assert near_field == pytest.approx([depth / 2, depth / 2], rel=0.02)


def traced_disc(s, d, f, n):
    """Where two rays from a point, through both edges of the opening, cut the sensor: no magnification used."""
    sensor = 1 / (1 / f - 1 / d)
    image = 1 / (1 / f - 1 / s)
    edge = f / n / 2
    # Rays go straight from the edge (height +-edge at the lens) to the image point on the axis.
    return abs(2 * edge * (1 - sensor / image))


@FAST
@given(FOCAL, st.floats(1.2, 50), st.floats(1.2, 50), st.floats(1, 32))
def test_blur_disc_against_rays(f, point, focus, n):
    disc = lens.blur_disc(point * f, focus_distance=focus * f, focal_length=f, aperture=n)
    assert disc == pytest.approx(traced_disc(point * f, focus * f, f, n), rel=1e-9, abs=1e-15)


@FAST
@given(FOCAL, st.floats(1.5, 200), st.floats(1, 32), st.floats(5e-6, 5e-5))
def test_depth_of_field_ends_where_the_disc_reaches_the_circle(f, focus, n, circle):
    d = focus * f
    depth = lens.depth_of_field(focus_distance=d, focal_length=f, aperture=n, circle=circle)
    assert depth.near < d < depth.far
    near = lens.blur_disc(depth.near, focus_distance=d, focal_length=f, aperture=n)
    assert near == pytest.approx(circle, rel=1e-9)
    if math.isfinite(depth.far):
        far = lens.blur_disc(depth.far, focus_distance=d, focal_length=f, aperture=n)
        assert far == pytest.approx(circle, rel=1e-6)
        assert depth.total == pytest.approx(depth.far - depth.near, rel=1e-12)
    else:
        endless = lens.blur_disc(1e9, focus_distance=d, focal_length=f, aperture=n)
        assert endless <= circle * (1 + 1e-6)


def test_hyperfocal_distance():
    """Focused at f^2/(N c) + f all is sharp from half of it to infinity, just so."""
    f, n, c = 0.05, 8, 3e-5
    hyperfocal = f**2 / (n * c) + f
    at = lens.depth_of_field(focus_distance=hyperfocal * (1 + 1e-9), focal_length=f, aperture=n, circle=c)
    assert at.far == at.total == math.inf
    assert at.near == pytest.approx(hyperfocal / 2, rel=1e-8)
    below = lens.depth_of_field(focus_distance=hyperfocal * 0.99, focal_length=f, aperture=n, circle=c)
    assert 50 * hyperfocal < below.far < math.inf


def test_the_depth_of_field_in_sympy():
    sympy = pytest.importorskip("sympy")
    f, n, c, d, s = sympy.symbols("f N c d s", positive=True)
    disc = f / n * (f / (d - f)) * (s - d) / s
    near, far = (sympy.solve(sympy.Eq(disc, sign * c), s)[0] for sign in (-1, 1))
    numbers = {f: 0.1, n: 11, c: 2.88e-5, d: 0.55}
    depth = lens.depth_of_field(focus_distance=0.55, focal_length=0.1, aperture=11, circle=2.88e-5)
    assert depth.near == pytest.approx(float(near.subs(numbers)), rel=1e-12)
    assert depth.far == pytest.approx(float(far.subs(numbers)), rel=1e-12)
    # The close-up form is the leading term in c, whatever the focal length.
    m = sympy.symbols("m", positive=True)
    total = (far - near).subs(d, f * (1 + 1 / m))
    leading = sympy.simplify(sympy.diff(total, c).subs(c, 0) * c)
    assert sympy.simplify(leading - 2 * n * c * (1 + m) / m**2) == 0


@FAST
@given(FOCAL, st.floats(1.01, 1000))
def test_magnification_by_similar_triangles(f, focus):
    d = focus * f
    m = lens.magnification(focal_length=f, distance=d)
    image = 1 / (1 / f - 1 / d)
    assert m == pytest.approx(image / d, rel=1e-9)
    assert lens.working_distance(focal_length=f, magnification=m) == pytest.approx(d, rel=1e-9)


def test_life_size():
    assert lens.magnification(focal_length=0.1, distance=0.2) == pytest.approx(1)
    assert lens.working_distance(focal_length=0.1, magnification=1) == pytest.approx(0.2)
    assert lens.field_of_view(0.036, magnification=1) == pytest.approx(0.036)
    assert lens.field_of_view(0.036, magnification=0.25) == pytest.approx(0.144)
    assert lens.pixels_per_metre(pixels=6000, sensor=0.036, magnification=0.25) == pytest.approx(41_667, abs=1)
    assert lens.magnification(focal_length=0.1, distance=1e9) == pytest.approx(1e-10)


def test_angle_of_view():
    assert math.degrees(lens.angle_of_view(0.036, focal_length=0.05)) == pytest.approx(39.6, abs=0.05)
    near = lens.angle_of_view(0.036, focal_length=0.1, distance=0.55)
    m = lens.magnification(focal_length=0.1, distance=0.55)
    # The same field seen from the lens: half the width at the distance.
    assert near == pytest.approx(2 * math.atan(lens.field_of_view(0.036, magnification=m) / 2 / 0.55), rel=1e-12)
    assert near < lens.angle_of_view(0.036, focal_length=0.1)


def bessel_one(x):
    """J1 by its integral, summed: independent of any table."""
    angle = (np.arange(2000) + 0.5) / 2000 * math.pi
    return np.cos(angle - x * np.sin(angle)).mean()


def test_diffraction():
    """The first dark ring from the Bessel function itself, and the share of light within it and half of it."""
    low, high = 3.0, 4.5
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if bessel_one(middle) > 0 else (low, middle)
    ring = 2 * low / math.pi  # diameter in lambda N
    assert lens.airy_diameter(aperture=1, wavelength=1.0) == pytest.approx(ring, rel=1e-3)
    assert lens.airy_diameter(aperture=11, magnification=0.25) == pytest.approx(11 * 1.25 * 2.44 * 550e-9)
    steps = (np.arange(2000) + 0.5) / 2000 * low
    light = np.array([2 * bessel_one(x) ** 2 / x for x in steps]) * low / 2000
    assert light.sum() == pytest.approx(0.84, abs=0.005)
    assert light[:1000].sum() == pytest.approx(0.59, abs=0.005)


def test_blur_disc_limits():
    at = {"focus_distance": 0.55, "focal_length": 0.1, "aperture": 11}
    assert lens.blur_disc(0.55, **at) == 0
    # Far behind the plane the disc tends to that of infinity: f m / N.
    assert lens.blur_disc(1e9, **at) == pytest.approx(0.1 / 11 * 0.1 / 0.45, rel=1e-8)
    many = lens.blur_disc(np.array([0.5, 0.55, 0.6]), **at)
    assert many.tolist() == [lens.blur_disc(s, **at) for s in (0.5, 0.55, 0.6)]


def test_combined_disc_is_the_spread_of_both():
    """Standard deviations of the sum of two random displacements, which is what two blurs do to a point."""
    rng = np.random.default_rng(7)
    one, two = rng.uniform(-1.5, 1.5, 400_000), rng.uniform(-2, 2, 400_000)
    spread = lens.combined_disc(one.std(), two.std())
    assert (one + two).std() == pytest.approx(spread, rel=0.005)
    assert lens.combined_disc(3e-6, 4e-6) == pytest.approx(5e-6)
    assert lens.combined_disc(2e-6) == 2e-6


@pytest.mark.parametrize(("depth", "m"), [(0.01, 0.25), (0.05, 0.2), (0.02, 1.0)])
def test_best_aperture_by_trying_all(depth, m):
    f = 0.1
    d = lens.working_distance(focal_length=f, magnification=m)
    tried = np.geomspace(1, 64, 4000)
    focus = lens.blur_disc(d + depth / 2, focus_distance=d, focal_length=f, aperture=tried)
    front = lens.blur_disc(d - depth / 2, focus_distance=d, focal_length=f, aperture=tried)
    both = lens.combined_disc((focus + front) / 2, lens.airy_diameter(aperture=tried, magnification=m))
    best = lens.best_aperture(depth, magnification=m)
    assert tried[both.argmin()] == pytest.approx(best, rel=0.02)


def test_depth_arrays():
    focus = np.array([0.3, 0.55, 1e4])
    depth = lens.depth_of_field(focus_distance=focus, focal_length=0.1, aperture=11, circle=2.88e-5)
    one = lens.depth_of_field(focus_distance=0.55, focal_length=0.1, aperture=11, circle=2.88e-5)
    assert (depth.near[1], depth.far[1]) == (one.near, one.far)
    assert depth.far[2] == math.inf
    assert type(one.far) is float


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (
            lambda: lens.magnification(focal_length=0.1, distance=0.05),
            "distance is 0.05 m; it must be above the focal length, 0.1 m",
        ),
        (lambda: lens.magnification(focal_length=0, distance=1), "focal_length is 0 m; it must be above 0 m"),
        (lambda: lens.working_distance(focal_length=0.1, magnification=0), "magnification is 0; it must be above 0"),
        (lambda: lens.field_of_view(-1, magnification=1), "sensor is -1 m; it must be above 0 m"),
        (
            lambda: lens.pixels_per_metre(pixels=0, sensor=1, magnification=1),
            "pixels is 0; it must be above 0",
        ),
        (lambda: lens.circle_of_confusion(width=1, height=0), "height is 0 m; it must be above 0 m"),
        (
            lambda: lens.blur_disc(1, focus_distance=0.1, focal_length=0.1, aperture=8),
            "focus_distance is 0.1 m; it must be above the focal length, 0.1 m",
        ),
        (
            lambda: lens.blur_disc(math.nan, focus_distance=1, focal_length=0.1, aperture=8),
            "distance is nan m; it must be above 0 m",
        ),
        (lambda: lens.airy_diameter(aperture=0), "aperture is 0; it must be above 0"),
        (lambda: lens.combined_disc(1, -1), "diameter is -1 m; it must be 0 m or more"),
        (lambda: lens.best_aperture(0, magnification=1), "depth is 0 m; it must be above 0 m"),
        (
            lambda: lens.close_up_depth(magnification=1, aperture=8, circle=0),
            "circle is 0 m; it must be above 0 m",
        ),
    ],
)
def test_refusals(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line
