"""Light of flash and room: published values, limits, a lamp summed point by point, and sympy."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from splashlib.physics.light import exposure as ex
from splashlib.physics.stops import stops_between
from tests.reference import rows

PUBLISHED = {row["what"]: row["answer"] for row in rows("exposure.csv")}
FAST = settings(deadline=None, max_examples=100)


def test_published_exposure_values():
    for lux in (10, 100, 500):
        assert ex.ev_for_lux(lux) == pytest.approx(PUBLISHED[f"ev_of_{lux}_lux"], abs=0.005)
    assert ex.lux_for_ev(0) == 2.5
    assert ex.ev(aperture=11, shutter=1 / 125) == pytest.approx(14, abs=1e-12)
    assert ex.ev(aperture=1, shutter=1) == 0
    assert ex.ev(aperture=16, shutter=1 / 60) == pytest.approx(14, abs=1e-12)
    # f/16 at 1/ISO in the sun: 82 000 lx, the reading of a clear noon.
    assert ex.lux_for_ev(15) == pytest.approx(81920)


def test_a_scene_metered_three_ways_gives_one_exposure():
    """EV tables, lux seconds and the stops ledger have to agree."""
    lux, n, t, iso = ex.lux_for_ev(ex.ev(aperture=8, shutter=1 / 60), iso=100), 8, 1 / 60, 100
    light = ex.room_lux_seconds(lux, shutter=t)
    assert light == pytest.approx(ex.metered_lux_seconds(aperture=n, iso=iso), rel=1e-12)
    assert ex.stops_over_metered(light, aperture=n, iso=iso) == pytest.approx(0, abs=1e-12)
    for aperture, speed, time in ((11, 100, 1 / 60), (8, 400, 1 / 60), (8, 100, 1 / 15), (5.6, 200, 1 / 500)):
        counted = (
            stops_between(8, aperture, kind="aperture")
            + stops_between(100, speed, kind="iso")
            + stops_between(1 / 60, time, kind="shutter")
        )
        light = ex.room_lux_seconds(lux, shutter=time)
        over = ex.stops_over_metered(light, aperture=aperture, iso=speed)
        assert over == pytest.approx(float(counted), abs=1e-12)


@FAST
@given(st.floats(-6, 18), st.sampled_from([50, 100, 125, 3200, 77.0]))
def test_lux_and_exposure_value_are_inverses(value, iso):
    assert ex.ev_for_lux(ex.lux_for_ev(value, iso=iso), iso=iso) == pytest.approx(value, abs=1e-12)


def test_iso_moves_the_reading_by_its_stops():
    assert ex.ev_for_lux(10, iso=800) - ex.ev_for_lux(10, iso=100) == pytest.approx(3, abs=1e-12)
    assert ex.ev_for_lux(0) == -math.inf


def test_published_candela_seconds():
    """At a great distance the light is I/d^2 with I = 2.5 GN^2."""
    light = ex.flash_lux_seconds(1, distance=100)
    assert light * 100**2 == pytest.approx(PUBLISHED["candela_seconds_of_guide_number_1"], rel=1e-12)


@FAST
@given(
    st.floats(5, 80),
    st.floats(0.1, 10),
    st.floats(1 / 256, 1),
    st.sampled_from([50, 100, 125, 400, 3200]),
    st.floats(0, 1),
)
def test_the_guide_number_is_the_meter(gn, distance, power, iso, m):
    """At the f-number of the guide number a small lamp gives just the metered light: N d = GN sqrt(S P/100)."""
    n = ex.guide_aperture(gn, distance=distance, power=power, iso=iso, magnification=m)
    # An f-number that happens to be a mark counts as another one; step off it.
    n *= 1 + 1e-7
    light = ex.flash_lux_seconds(gn, distance=distance, power=power)
    assert ex.stops_over_metered(light, aperture=n, iso=iso, magnification=m) == pytest.approx(0, abs=1e-6)
    back = ex.guide_distance(gn, aperture=n, power=power, iso=iso, magnification=m)
    assert back == pytest.approx(distance, rel=1e-6)


def test_guide_number_by_hand():
    assert ex.guide_aperture(36, distance=4.5) == 8
    assert ex.guide_aperture(36, distance=4.5, power=1 / 4) == 4
    assert ex.guide_aperture(36, distance=4.5, iso=400) == pytest.approx(16)
    assert ex.guide_aperture(36, distance=4.5, magnification=1) == 4
    assert ex.guide_distance(36, aperture=8) == 4.5
    assert ex.guide_distance(36, aperture=11) == pytest.approx(36 / 2**3.5)


def test_published_loss_by_size():
    lost = ex.size_loss(distance=0.4, size=0.6)
    assert lost == pytest.approx(PUBLISHED["stops_lost_at_40_cm_from_a_60_cm_diffuser"], abs=0.005)
    assert ex.size_loss(distance=2, size=0.6) == pytest.approx(0.03, abs=0.005)
    assert ex.size_loss(distance=0.4, size=0) == 0
    # Close to a large one the light no longer rises: half of it at d = R, and pi L at d -> 0.
    assert ex.size_loss(distance=0.3, size=0.6) == 1
    near, nearer = (ex.flash_lux_seconds(36, distance=d, size=0.6) for d in (0.01, 0.001))
    assert nearer == pytest.approx(near, rel=2e-3)
    bare = ex.flash_lux_seconds(36, distance=0.4)
    soft = ex.flash_lux_seconds(36, distance=0.4, size=0.6)
    assert math.log2(bare / soft) == pytest.approx(lost, abs=1e-12)


def summed(points, distance):
    """Light on the axis of a lamp of unit intensity, made of many small flat lamps facing the subject."""
    squared = (points**2).sum(axis=1) + distance**2
    return (distance**2 / squared / squared).mean()


def test_a_disc_and_a_square_summed_point_by_point():
    radius = 0.3
    ring = np.sqrt((np.arange(400) + 0.5) / 400) * radius
    disc = np.column_stack([ring, np.zeros(400)])
    half = radius * math.sqrt(math.pi) / 2
    line = (np.arange(200) + 0.5) / 200 * 2 * half - half
    square = np.array(np.meshgrid(line, line)).reshape(2, -1).T
    for distance in (0.15, 0.3, 0.4, 1.0):
        light = 2.5 * summed(disc, distance)
        assert ex.flash_lux_seconds(1, distance=distance, size=0.6) == pytest.approx(light, rel=1e-4)
        assert abs(math.log2(summed(square, distance) / summed(disc, distance))) < 0.05


def test_the_disc_in_sympy():
    sympy = pytest.importorskip("sympy")
    r, d, radius = sympy.symbols("r d R", positive=True)
    # Radiance L: each ring gives L cos(theta)^2 / (r^2 + d^2), cos = d / sqrt(r^2 + d^2).
    light = sympy.integrate(2 * sympy.pi * r * d**2 / (r**2 + d**2) ** 2, (r, 0, radius))
    loss = sympy.simplify(sympy.pi * radius**2 / d**2 / light)
    assert sympy.simplify(loss - (1 + radius**2 / d**2)) == 0
    number = float(sympy.log(loss.subs({radius: 0.3, d: 0.4}), 2))
    assert ex.size_loss(distance=0.4, size=0.6) == pytest.approx(number, rel=1e-12)


def test_what_pays_for_a_shorter_flash():
    """Three stops of power come back by distance or ISO, two by four heads, one without the diffuser."""
    full = ex.flash_lux_seconds(36, distance=1.0, diffuser_loss=1)
    eighth = ex.flash_lux_seconds(36, distance=1.0, diffuser_loss=1, power=1 / 8)
    assert math.log2(full / eighth) == 3
    assert ex.flash_lux_seconds(36, distance=8**-0.5, diffuser_loss=1, power=1 / 8) == pytest.approx(full)
    assert math.log2(4 * eighth / eighth) == 2
    assert ex.flash_lux_seconds(36, distance=1.0, power=1 / 8) / eighth == 2
    over = [ex.stops_over_metered(eighth, aperture=11, iso=iso) for iso in (100, 800)]
    assert over[1] - over[0] == pytest.approx(3, abs=1e-12)


def test_close_up_factor():
    far = ex.metered_lux_seconds(aperture=8, iso=100)
    assert far == 250 * 64 / 100
    assert ex.metered_lux_seconds(aperture=8, iso=100, magnification=1) == 4 * far
    stops_lost = math.log2(ex.metered_lux_seconds(aperture=8, iso=100, magnification=0.25) / far)
    assert stops_lost == pytest.approx(0.644, abs=0.001)


def test_room_under_flash():
    flash = ex.flash_lux_seconds(36, distance=0.4, power=1 / 32, size=0.3, diffuser_loss=1)
    room = ex.room_lux_seconds(10, shutter=2)
    under = ex.room_under_flash(room=room, flash=flash)
    assert 2.0**-under == pytest.approx(room / flash)
    # A second head or a stop more of light part them by a stop, half the time as well; darkness by infinity.
    assert ex.room_under_flash(room=room, flash=2 * flash) == pytest.approx(under + 1)
    assert ex.room_under_flash(room=room / 2, flash=flash) == pytest.approx(under + 1)
    assert ex.room_under_flash(room=0, flash=flash) == math.inf
    assert ex.room_under_flash(room=flash, flash=flash) == 0
    # ISO and aperture lift both alike.
    gap = [
        ex.stops_over_metered(flash, aperture=n, iso=s) - ex.stops_over_metered(room, aperture=n, iso=s)
        for n, s in ((8, 100), (11, 1600))
    ]
    assert gap == pytest.approx([under, under], abs=1e-12)


@FAST
@given(st.floats(1, 1e4), st.floats(1e-3, 10), st.floats(-3, 14))
def test_room_lux_allowed_is_the_inverse(flash, shutter, wanted):
    lux = ex.room_lux_allowed(flash=flash, shutter=shutter, stops=wanted)
    room = ex.room_lux_seconds(lux, shutter=shutter)
    assert ex.room_under_flash(room=room, flash=flash) == pytest.approx(wanted, abs=1e-11)


def test_arrays():
    lux = np.array([0, 10, 500.0])
    assert ex.ev_for_lux(lux).tolist() == [ex.ev_for_lux(x) for x in lux]
    power = np.array([[1], [1 / 8]])
    distance = np.array([0.4, 0.8, 1.6])
    table = ex.flash_lux_seconds(36, distance=distance, power=power, size=0.3)
    assert table.shape == (2, 3)
    assert table[1, 2] == ex.flash_lux_seconds(36, distance=1.6, power=1 / 8, size=0.3)
    assert ex.ev(aperture=[8, 11], shutter=1 / 125) == pytest.approx([13, 14])
    assert type(ex.flash_lux_seconds(36, distance=1)) is float


@pytest.mark.parametrize(
    ("call", "line"),
    [
        (lambda: ex.ev(aperture=0, shutter=1), "aperture is 0; it must be above 0"),
        (lambda: ex.lux_for_ev(math.nan), "ev is nan; it must be a finite number"),
        (lambda: ex.ev_for_lux(-1), "lux is -1 lx; it must be 0 lx or more"),
        (lambda: ex.guide_aperture(36, distance=0), "distance is 0 m; it must be above 0 m"),
        (lambda: ex.guide_distance(-36, aperture=8), "guide_number is -36 m; it must be above 0 m"),
        (lambda: ex.flash_lux_seconds(36, distance=1, power=0), "power is 0; it must be above 0"),
        (lambda: ex.flash_lux_seconds(36, distance=1, size=-1), "size is -1 m; it must be 0 m or more"),
        (lambda: ex.size_loss(distance=-1, size=1), "distance is -1 m; it must be above 0 m"),
        (
            lambda: ex.metered_lux_seconds(aperture=8, iso=100, magnification=-0.5),
            "magnification is -0.5; it must be 0 or more",
        ),
        (lambda: ex.stops_over_metered(-1, aperture=8, iso=100), "lux_seconds is -1 lx s; it must be 0 lx s or more"),
        (lambda: ex.room_lux_seconds(1, shutter=-1), "shutter is -1 s; it must be above 0 s"),
        (lambda: ex.room_under_flash(room=1, flash=0), "flash is 0 lx s; it must be above 0 lx s"),
    ],
)
def test_refusals(call, line):
    with pytest.raises(ValueError, match=r"\A[^\n]*\Z") as caught:
        call()
    assert str(caught.value) == line
