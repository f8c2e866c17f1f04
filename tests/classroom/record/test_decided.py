"""What was decided, at the end of the path: the learner's numbers beside the scene's; nothing is written or raised."""

import pytest

from splashlib.classroom import decided
from splashlib.shoot import change_all, save_setup, tea_house


@pytest.fixture
def file(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    return tmp_path / "my_setup.toml"


def test_without_a_file_it_is_the_scene_and_says_so(file):
    shown = decided()
    assert "written nothing" in shown.said
    assert ("release height", "45.0 cm", "") in shown.rows
    assert ("flash power", "1/32", "") in shown.rows
    assert not file.exists()


def test_own_numbers_stand_beside_those_of_the_scene(file):
    mine = change_all(tea_house(), {"drop.release_height": 0.6, "beam.height": 0.2, "flashes.0.power": 1 / 64})
    save_setup(mine, file)
    shown = decided()
    assert ("release height", "60.0 cm", "45.0 cm") in shown.rows
    assert ("flash power", "1/64", "1/32") in shown.rows
    assert ("flash heads", "1", "") in shown.rows
    assert shown.said.startswith("3 of these 18 you have set otherwise than our scene: release height, beam height,")
    assert "<td>60.0 cm</td><td>45.0 cm</td>" in shown._repr_html_()


def test_a_file_with_a_mistake_is_told_in_one_line(file):
    file.write_text("[drop]\nrelease_height_cm = 55,5\n")
    shown = decided()
    assert "55.5" in shown.said
    assert "\n" not in shown.said
    assert ("release height", "45.0 cm", "") in shown.rows


def test_a_name_from_the_file_cannot_become_markup(file):
    save_setup(change_all(tea_house(), {"drop.name": "<b>plum</b>"}), file)
    assert "<b>" not in decided()._repr_html_()


def test_every_column_has_a_head_to_be_read_out():
    assert '<th scope="col"></th>' not in decided()._repr_html_()
