"""Settings by their path: one row each, exact units, impossible values refused in one line."""

import dataclasses
import math
from fractions import Fraction

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from splashlib.shoot import FIELDS, Flash, SettingError, Setup, change, change_all, field, show, tea_house, value_at
from splashlib.shoot.setup.default_scene import scene_value
from tests.effort import cases
from tests.shoot.random_setups import values


def leaves(part, path=""):
    """Every setting that the dataclasses hold, by path."""
    if isinstance(part, tuple):
        yield from leaves(part[0], f"{path}.0")
    elif dataclasses.is_dataclass(part):
        for each in dataclasses.fields(part):
            yield from leaves(getattr(part, each.name), f"{path}.{each.name}")
    else:
        yield path[1:]


def test_small_values_are_not_rounded_to_something_else():
    assert [show("room.lux", lux) for lux in (0, 0.05, 0.3, 1, 1.5, 15, 499.7)] == [
        "0 lx", "0.05 lx", "0.3 lx", "1 lx", "1.5 lx", "15 lx", "500 lx"
    ]  # fmt: skip
    assert show("trigger.delay", 0.04303) == "43.0 ms"
    assert show("trigger.delay", 0.00002) == "0.02 ms"


def test_every_setting_has_one_row_and_every_row_a_setting():
    # A shutter that is held open has a first curtain; its lag is none and no setting.
    none = {f"camera.held_open.{name}" for name in ("lag", "scatter", "shape")}
    paths = [row.path for row in FIELDS]
    assert len(set(paths)) == len(paths)
    assert set(paths) == set(leaves(tea_house())) - none


def test_rows_are_complete_and_hold_the_scene():
    for row in FIELDS:
        assert row.label, row.path
        assert row.key, row.path
        assert row.check(scene_value(row.path)) == scene_value(row.path)
        if row.kind == "number":
            assert row.least <= row.low < row.high <= row.most
            assert 0 < row.step < row.high - row.low
        if row.kind == "marks":
            assert row.least <= min(v for _, v in row.marks)
            assert any(math.isclose(scene_value(row.path), value) for _, value in row.marks)


def test_the_unit_of_a_number_stands_in_its_key():
    ends = {"cm": "_cm", "mm": "_mm", "m": "_m", "ms": "_ms", "s": "_s", "µs": "_us", "%": "_percent"}
    for row in FIELDS:
        if row.unit in ends:
            assert row.key.endswith(ends[row.unit]), row.path


def test_keys_are_unique_in_their_block():
    blocks = [(row.path.rpartition(".")[0], row.key) for row in FIELDS]
    assert len(set(blocks)) == len(blocks)


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("drop.release_height", 0.45, "45.0 cm"),
        ("drop.diameter", 0.035, "35.0 mm"),
        ("trigger.delay", 0.0432, "43.2 ms"),
        ("beam.blocked_share", 0.5, "50 %"),
        ("camera.style", "held_open", "shutter held open"),
        ("camera.shutter", 1 / 200, "1/200 s"),
        ("camera.shutter", 2**-6, "1/60 s"),
        ("camera.shutter", 1 / 190, "1/190 s"),
        ("camera.aperture", 11, "f/11"),
        ("flashes.0.power", 1 / 32, "1/32"),
        ("flashes.2.power", 2 ** (-14 / 3), "1/32 +1/3"),
        ("camera.lag", 0.1, "100 ms"),
    ],
)
def test_values_are_said_as_people_do(path, value, said):
    assert show(path, value) == said


def test_inches_and_feet_are_a_choice():
    assert show("drop.release_height", 0.4572, "imperial") == "18.00 in"
    assert show("drop.diameter", 0.0254, "imperial") == "1.000 in"
    assert show("flashes.0.guide_number", 36, "imperial") == "118.1 ft"
    assert show("trigger.delay", 0.0432, "imperial") == "43.2 ms"
    with pytest.raises(ValueError, match="metric or imperial"):
        show("drop.diameter", 0.02, "nautical")


@given(st.data())
@settings(deadline=None, max_examples=cases(200))
def test_units_turn_round_without_losing_a_digit(data):
    row = data.draw(st.sampled_from([row for row in FIELDS if row.kind == "number" and not row.whole]))
    steps = data.draw(st.integers(math.ceil(row.low / row.step), math.floor(row.high / row.step)))
    shown = float(f"{steps * row.step:.10g}")
    assert row.from_si(row.to_si(shown)) == shown
    # The shortest decimal, as a person would write it: 45.1 cm are 0.451 m.
    assert row.to_si(shown) == float(Fraction(repr(shown)) / row.per_si)


@given(st.data())
@settings(deadline=None, max_examples=cases(100))
def test_change_changes_one_setting_and_leaves_the_scene_alone(data):
    row = data.draw(st.sampled_from(FIELDS))
    value = data.draw(values(row, wild=False))
    before = tea_house()
    try:
        after = change(before, row.path, value)
    except ValueError:
        assume(False)  # impossible with the rest of the scene: see test_setup
    assert value_at(after, row.path) == value
    assert before == tea_house()
    others = [each.path for each in FIELDS if each.path not in (row.path, "drop.length")]
    assert all(value_at(after, path) == value_at(before, path) for path in others)


def test_a_round_body_stays_round_when_its_size_is_changed():
    assert change(tea_house(), "drop.diameter", 0.04).drop.length == 0.04
    oval = change(tea_house(), "drop.length", 0.05)
    assert change(oval, "drop.diameter", 0.04).drop.length == 0.05


def test_short_paths_write_the_record_of_the_style_in_use():
    setup = change(tea_house(), "camera.style", "mirror_up")
    changed = change(setup, "camera.lag", 0.04)
    assert changed.camera.mirror_up.lag == 0.04 == value_at(changed, "camera.lag")
    assert changed.camera.mirror == setup.camera.mirror
    assert change(setup, "camera.scatter_shape", "uniform").camera.mirror_up.shape == "uniform"
    assert change(setup, "camera.first_curtain", "leaf").camera.sweep == 0


def test_a_style_changed_along_with_its_lag_is_the_one_that_is_meant():
    changed = change_all(tea_house(), {"camera.style": "mirror", "camera.lag": 0.08})
    assert (changed.camera.style, changed.camera.lag, changed.camera.mirror.lag) == ("mirror", 0.08, 0.08)
    assert changed.camera.held_open == tea_house().camera.held_open


def test_several_changes_are_judged_together():
    setup = tea_house()
    with pytest.raises(ValueError, match="under the hand"):
        change(setup, "drop.release_height", 0.1)
    low = change_all(setup, {"drop.release_height": 0.1, "beam.height": 0.05})
    assert (low.drop.release_height, low.beam.height) == (0.1, 0.05)


NOT_NUMBERS = ["0.3", True, None, 1 + 0j, [0.3], np.array([0.3]), math.nan, math.inf, -math.inf, -0.3, {}]


@pytest.mark.parametrize("value", NOT_NUMBERS, ids=repr)
def test_what_is_no_possible_height_gets_one_line(value):
    with pytest.raises(SettingError) as caught:
        change(tea_house(), "drop.release_height", value)
    line = str(caught.value)
    assert "\n" not in line
    assert len(line) < 200
    for part in ("release height", "0.1 to 2000 cm", "drop.release_height"):
        assert part in line


@pytest.mark.parametrize("value", [3, None, "mirrors", "MIRROR", True, ["mirror"], np.str_("x")], ids=repr)
def test_what_is_no_style_gets_one_line(value):
    with pytest.raises(ValueError, match='"mirror", "mirror_up", "no_mirror", "held_open"'):
        change(tea_house(), "camera.style", value)


@pytest.mark.parametrize("value", ["", "  ", "a\nb", "a\u202eb", "a\u200db", "x" * 61, 3, None])
def test_what_is_no_name_gets_one_line(value):
    with pytest.raises(ValueError, match="1 to 60 characters"):
        change(tea_house(), "drop.name", value)


def test_numpy_numbers_become_plain_ones():
    setup = change(tea_house(), "drop.release_height", np.float64(0.5))
    assert type(setup.drop.release_height) is float
    assert type(change(setup, "camera.pixels_wide", np.int64(4000)).camera.pixels_wide) is int
    with pytest.raises(ValueError, match="whole number"):
        change(setup, "camera.pixels_wide", 4000.5)


@pytest.mark.parametrize(
    ("path", "meant"),
    [
        ("camera.stile", "camera.style"),
        ("drop.releaseheight", "drop.release_height"),
        ("flashes.0.powr", "flashes.0.power"),
        ("camera.mirror.lags", "camera.mirror.lag"),
        ("release.lag", ""),
        ("flashes.power", "flashes.0.power"),
        ("", "like drop.release_height"),
        (None, "like drop.release_height"),
        ("drop.__class__", ""),
    ],
)
def test_an_unknown_path_names_the_nearest(path, meant):
    with pytest.raises(ValueError, match="there is no setting") as caught:
        change(tea_house(), path, 1)
    assert meant in str(caught.value)


def test_a_head_that_is_not_there_is_named():
    with pytest.raises(ValueError, match="no flash head 2; the set-up has 1"):
        change(tea_house(), "flashes.2.power", 0.5)
    two = Setup(flashes=(Flash(), Flash(name="rim")))
    assert change(two, "flashes.1.power", 0.5).flashes[1].power == 0.5
    assert change(two, "flashes.1.power", 0.5).flashes[0] == two.flashes[0]


def test_whoever_makes_a_head_by_index_finds_its_row():
    assert field("flashes.7.power").path == "flashes.7.power"


def test_the_scene_has_a_value_for_its_own_head_and_for_no_other():
    assert scene_value("flashes.0.power") == 1 / 32
    with pytest.raises(ValueError, match="no flash head 1; the set-up has 1"):
        scene_value("flashes.1.power")


@pytest.mark.parametrize("number", [10**400, -(10**400), 10**5000], ids=["large", "small", "huge"])
def test_a_number_that_no_float_can_hold_gets_one_line(number):
    with pytest.raises(SettingError, match="it must be a number from 0 to 200000 lx"):
        change(tea_house(), "room.lux", number)
