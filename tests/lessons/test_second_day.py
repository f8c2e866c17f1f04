"""The second day: every panel begins from the scene, which the steps speak of, or from the learner's own set-up."""

from importlib import import_module

import pytest

from splashlib.desk.house import written
from splashlib.shoot import change_all, load_setup, save_setup, tea_house, value_at

MINE = {"drop.release_height": 0.52, "beam.height": 0.2, "room.lux": 0.3, "flashes.0.power": 1 / 64, "camera.iso": 1600}
LESSONS = [lesson.name for lesson in written() if lesson.number < 90]
SHOWS = [(name, "show") for name in LESSONS] + [("splash", "show_vessel"), ("camera", "curtains")]


@pytest.fixture
def file(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    save_setup(change_all(tea_house(), MINE), tmp_path / "my_setup.toml")
    return tmp_path / "my_setup.toml"


def said(panel):
    """All that a panel tells and offers."""
    return panel.setup, panel.values, panel.told, panel.image, panel._front.spec


@pytest.mark.parametrize(("lesson", "show"), SHOWS)
def test_it_begins_from_the_scene_and_goes_to_the_one_chosen(lesson, show, file, tmp_path, monkeypatch):
    module = import_module(f"lessons.{lesson}.panel")
    panel = getattr(module, show)()
    scene = said(panel)
    assert panel.origin == "scene"
    assert panel._front.origin == {"now": "scene", "file": "my_setup.toml"}
    assert "It shows the scene of the course." in panel._repr_mimebundle_()[0]["text/html"]

    panel._front.chosen = "mine"
    assert panel.origin == panel._front.origin["now"] == "mine"
    mine = said(panel)
    assert panel._front.spec["controls"] == mine[4]["controls"]
    if show != "curtains":  # the room of its own light, in which nothing falls
        assert mine[2] != scene[2]
    name = next(name for name, each in panel._handles.items() if each.kind == "range" and each.is_setting)
    for origin, begun in (("mine", mine), ("scene", scene), ("mine", mine)):
        panel.begin_from(origin)
        assert said(panel) == begun
        each = panel._handles[name]
        panel.set(name, each.values[each.at(panel.values[name]) - 1])
        assert panel.setup != begun[0]
        panel.reset()
        assert said(panel) == begun

    # Without a file of one's own there is no choice, and the same scene.
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path / "none"))
    plain = getattr(module, show)()
    assert said(plain) == scene
    assert (plain.origin, plain._front.origin) == ("", {})


@pytest.mark.parametrize("lesson", LESSONS)
def test_the_card_takes_from_the_scene_only_what_was_moved(lesson, file):
    module = import_module(f"lessons.{lesson}.panel")
    panel = module.show()
    card, before = module.keep(), load_setup(file)
    assert not any(row.new for row in card.rows)
    assert card._front.state["changed"].startswith("The panel shows the scene of the course.")
    card.write()
    assert load_setup(file) == before
    decided = [name for name in panel._handles if name in module.DECIDED and panel._handles[name].kind == "range"]
    for name in decided[:1]:
        each = panel._handles[name]
        value = each.values[each.at(panel.values[name]) - 1]
        panel.set(name, value)
        assert any(row.new for row in card.rows)
        card.write()
        assert value_at(load_setup(file), name) == pytest.approx(value)
        others = {path: value_at(before, path) for path in MINE if path not in module.DECIDED}
        assert {path: value_at(load_setup(file), path) for path in others} == others


def test_the_card_follows_the_switch(file):
    from lessons.start import panel as module

    panel = module.show()
    card = module.keep()
    panel.begin_from("mine")
    assert card._front.state["changed"] == ""
    assert not any(row.new for row in card.rows)
    panel.set("drop.release_height", 0.6)
    card.write()
    found = load_setup(file)
    assert found.drop.release_height == 0.6
    assert found.beam.height == MINE["beam.height"]


def test_an_unknown_origin_changes_nothing(file):
    from lessons.start import panel as module

    panel = module.show()
    before = said(panel)
    panel._front.chosen = "yours"
    panel.begin_from("scene")
    assert said(panel) == before
