"""The lesson `stops`: its exercises, its panel, and what its text says beside the numbers that the build puts in."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from lessons.stops import panel
from lessons.stops.exercises import exercises
from splashlib.classroom.judges import judge
from splashlib.physics.light.exposure import size_loss, stops_over_metered
from splashlib.physics.stops import stops_between
from splashlib.shoot import change, change_all, my_setup, payments, save_setup, sees, tea_house
from splashlib.shoot.decide.exposure_account import alike
from splashlib.shoot.decide.exposure_balance import flash_over_metered, ghost_stops, room_over_metered
from tests.lessons.by_hand import check_by_hand
from tests.proof.exercise_proof import check_exercises

SOURCE = (Path(panel.__file__).parent / "text.md").read_text(encoding="utf-8")
TEXT = " ".join(SOURCE.split())
SCENE = tea_house()


def lit(power=1 / 32, **changes):
    names = {"distance": "flashes.0.distance", "iso": "camera.iso"}
    return change_all(SCENE, {"flashes.0.power": power, **{names[name]: value for name, value in changes.items()}})


def nearer(far, near):
    """Stops that a diffuser 30 cm across gains from one distance to another."""
    gain = stops_between(far, near, kind="distance")
    return float(gain) + size_loss(distance=far, size=0.3) - size_loss(distance=near, size=0.3)


def test_steps_and_marks():
    assert "three steps. Four marks are passed" in TEXT
    assert stops_between(1, "1/8", kind="power") == -3
    assert "From ISO 200 to ISO 640 there are five, so it is 1 2/3 stops" in TEXT
    assert 3 * stops_between(200, 640, kind="iso") == 5
    assert stops_between(11, 8, kind="aperture") == 1


def test_the_steps_to_try_do_what_they_say():
    assert "the frame is right" in TEXT.lower()
    assert abs(flash_over_metered(lit(1 / 128, iso=3200))) <= 0.5
    assert ghost_stops(lit(1 / 128, iso=3200)) < 7
    # A darker room, as the text says, and the ISO has cost nothing: a quarter of the light is two stops.
    assert "0.05 lx instead of 0.2 lx" in TEXT
    assert ghost_stops(change(lit(1 / 128, iso=3200), "room.lux", 0.05)) >= 7
    assert "**distance**: 43 cm, a little nearer than the line says, for a sheet is to come" in TEXT
    dark = panel.panel()
    dark.set("flashes.0.power", 1 / 128)
    assert "the lamp at 44 cm" in dark.told.line
    near = lit(1 / 128, distance=0.43)
    assert abs(flash_over_metered(near)) <= 0.5
    assert ghost_stops(near) >= 7
    assert room_over_metered(near) == room_over_metered(SCENE)
    shown = panel.panel()
    for path, value in (("flashes.0.power", 1 / 128), ("flashes.0.distance", 0.43)):
        shown.set(path, value)
    assert shown.told.tone == "warning"
    assert "The flash at 43 cm stands where the fastest drops land" in shown.told.line
    shown.set("flashes.0.shield", "sheet")
    assert shown.told.tone == "good"
    for heads, stops in ((2, 1), (4, 2)):
        more = alike(lit(1 / 128), heads)
        assert flash_over_metered(more) - flash_over_metered(lit(1 / 128)) == pytest.approx(stops)
    assert abs(flash_over_metered(alike(lit(1 / 128), 4))) <= 0.5
    assert "The third stop would take eight heads" in TEXT


def test_ten_centimetres_more():
    assert "more than half a stop at 40 cm" in TEXT
    assert 0.5 < -nearer(0.4, 0.5) < 0.7
    assert -nearer(1.0, 1.1) < 0.3


BY_HAND = {
    "eighth": "three",
    # three halvings, one doubling
    "owed": ({"start": 0, "down": 3, "iso": 200}, "-2.00 stops"),
    # two stops more: half as far
    "distance": ({"d": 1.0, "n": 2.0}, "0.500"),
    "without_room": "four heads",
    # 4 · 4 = 16 = 2^4
    "gained": ({"heads": 4, "iso": 400}, "4.00"),
}


def test_exercises():
    check_exercises(exercises)


def test_right_answers_are_those_worked_out_by_hand():
    check_by_hand(exercises, BY_HAND)


@pytest.fixture(scope="module")
def derived():
    """What the folded derivation ends with."""
    code = re.search(r'id="stops-derivation"\n(.*?)```', SOURCE, re.S)[1]
    shown = []
    found = {"display": shown.append}
    exec(compile(code, "text.md", "exec"), found)
    assert len(shown) == 5
    return found


@pytest.mark.parametrize(("distance", "size"), [(0.4, 0.3), (1.0, 0.6), (0.8, 0.1)])
@pytest.mark.parametrize("stops", [0.5, 1, 1.5])
def test_the_derivation_gives_the_librarys_distances(derived, distance, size, stops):
    letters = {derived["d"]: distance, derived["R"]: size / 2, derived["n"]: stops}
    head = replace(SCENE.flashes[0], distance=distance, size=size)
    before = replace(SCENE, flashes=(head,))
    after = change(before, "flashes.0.distance", float(derived["nearer"].subs(letters)))
    assert flash_over_metered(after) - flash_over_metered(before) == pytest.approx(stops)
    assert float(derived["small_lamp"].subs(letters)) == pytest.approx(distance / 2 ** (stops / 2))


def test_the_derivation_counts_heads_and_frames_as_the_library(derived):
    assert float(derived["more_heads"].subs(derived["heads"], 4)) == pytest.approx(
        flash_over_metered(alike(SCENE, 4)) - flash_over_metered(SCENE)
    )
    assert derived["frame_change"] == 0
    assert derived["room_change"] == derived["n"]
    over = derived["over"](3.0, 200).subs({derived["C"]: 250, derived["N"]: 8})
    assert float(over) == pytest.approx(stops_over_metered(3.0, aperture=8, iso=200))


@pytest.fixture
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    return tmp_path


def test_the_panel_starts_from_the_scene(home):
    shown = panel.panel()
    assert shown.values == {
        "flashes.0.power": 1 / 32,
        "flashes.0.distance": 1.0,
        "flashes.0.shield": "none",
        "flashes.0.diffuser_loss": 1.0,
        "heads": 1,
        "camera.aperture": 11.0,
        "camera.iso": 800.0,
    }
    assert shown.told.tone == "good"
    assert sees(shown.setup).height == pytest.approx(0.01, abs=0.001)


@pytest.mark.parametrize("style", ["mirror", "mirror_up", "no_mirror", "held_open"])
@pytest.mark.parametrize("height", [0.1, 0.45])
def test_the_body_is_seen_whatever_the_camera(style, height):
    own = change_all(SCENE, {"beam.height": 0.05, "drop.release_height": height, "camera.style": style})
    assert sees(panel.in_sight(own)).in_frame


def test_the_panel_takes_the_heads_of_the_file(home):
    save_setup(alike(SCENE, 3), home / "my_setup.toml")
    assert panel.panel().values["heads"] == 2


def test_the_card_writes_light_and_camera_when_asked(home):
    shown = panel.show()
    made = panel.keep()
    assert list(home.iterdir()) == []
    shown.set("flashes.0.power", 1 / 64)
    shown.set("flashes.0.distance", 0.25)
    shown.set("flashes.0.diffuser_loss", 0.5)
    shown.set("camera.aperture", 8.0)
    shown.set("camera.iso", 400)
    made.write()
    assert made.error == ""
    mine = my_setup()
    head = mine.flashes[0]
    assert (head.power, head.distance, head.diffuser_loss) == (1 / 64, 0.25, 0.5)
    assert (mine.camera.aperture, mine.camera.iso) == (8.0, 400)
    assert mine.trigger == SCENE.trigger
    assert mine.beam == SCENE.beam


def test_a_file_with_a_mistake_is_told(home):
    (home / "my_setup.toml").write_text("[camera]\niso = -5\n", encoding="utf-8")
    shown = panel.panel()
    assert shown.setup.camera.iso == SCENE.camera.iso
    assert shown.trouble.startswith("my_setup.toml, line 2: iso = -5 in [camera]")


def test_the_list_of_conditions_is_told_in_the_numbers_asked():
    reply = judge.judge(exercises["pay"], {"camera.iso": 640.0}, variant=1)
    assert reply.outcome == "wrong"
    assert "✗ the flash is at 1/64 or lower" in reply.text
    assert "{" not in reply.text


def test_the_short_flash_may_be_paid_for_in_every_dry_way():
    def tried(**answer):
        return judge.judge(
            exercises["pay"], {path.replace("__", "."): value for path, value in answer.items()}, variant=1
        )

    short = {"flashes__0__power": 1 / 64}
    assert tried(**short, flashes__0__diffuser_loss=0.0).right
    # ISO, as soon as a shorter open time has made it cheap; a shutter that closes before the light is no payment.
    assert tried(**short, camera__iso=1600.0, camera__open_time=1.0).right
    assert tried(**short, camera__iso=1600.0).slip == "iso pays"
    assert "has closed before the flash fires" in tried(**short, camera__iso=1600.0, camera__open_time=0.5).text
    # Nearer only behind a sheet.
    near = {"flashes__0__distance": 0.69}
    assert tried(**short, **near).slip == "into the spray"
    assert tried(**short, **near, flashes__0__shield="sheet").right


def test_what_pays_comes_in_the_order_that_keeps_things_dry():
    assert [way.name for way in payments(lit(1 / 128))] == ["heads", "diffuser", "iso", "aperture", "distance"]
    words = ("another head, less diffuser, a darker room that makes ISO cheap, ISO 400 to 800", "Nearer comes last")
    assert all(each in TEXT for each in words)
