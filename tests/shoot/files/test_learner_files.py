"""The learner's own files: where they are, and what holds while there are none."""

from pathlib import Path

import pytest

from splashlib.shoot import change, change_all, home, my_setup, my_setup_path, save_setup, tea_house
from splashlib.shoot.files.learner_files import is_own, own_setup, readable_setup


def test_home_is_the_named_folder_else_the_current_one(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert home() == tmp_path
    monkeypatch.delenv("SPLASH_HOME")
    assert home() == Path.cwd()


def test_my_setup_is_the_scene_until_there_is_a_file(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert my_setup() == tea_house()
    assert list(tmp_path.iterdir()) == []
    mine = change(tea_house(), "beam.height", 0.1)
    save_setup(mine, my_setup_path())
    assert my_setup_path() == tmp_path / "my_setup.toml"
    assert my_setup() == mine


def test_a_file_with_a_mistake_leaves_the_scene_to_begin_with(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert own_setup() == (tea_house(), "")
    assert not is_own(tea_house())
    save_setup(change(tea_house(), "beam.height", 0.1), my_setup_path())
    assert own_setup() == (my_setup(), "")
    assert is_own(my_setup())
    assert not is_own(tea_house())
    assert capsys.readouterr().out == ""
    my_setup_path().write_text("[drop]\nrelease_height_cm = 55,5\n")
    line = "my_setup.toml, line 2: release_height_cm = 55,5 in [drop] cannot be read; 55,5: write 55.5"
    assert own_setup() == (tea_house(), line)
    assert readable_setup() == my_setup() == tea_house()
    assert capsys.readouterr().out == f"{line}. Until that is mended, this is the scene of the course.\n"
    assert my_setup({"drop.release_height": 0.6}) == change(tea_house(), "drop.release_height", 0.6)


def test_a_change_that_the_file_makes_impossible_is_made_to_the_scene(tmp_path, monkeypatch, capsys):
    """Released at 120 cm, with a beam at 70 cm: a cell that lets go from 60 cm still runs, and says so."""
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    save_setup(change_all(tea_house(), {"drop.release_height": 1.2, "beam.height": 0.7}), my_setup_path())
    assert my_setup({"drop.release_height": 1.0}).beam.height == 0.7
    assert capsys.readouterr().out == ""
    assert my_setup({"drop.release_height": 0.6}) == change(tea_house(), "drop.release_height", 0.6)
    said = capsys.readouterr().out
    assert said.startswith("my_setup.toml and this change cannot both hold: the beam reaches up to 70.15 cm")
    assert said.count("\n") == 1
    with pytest.raises(ValueError, match="release height is -60 cm"):
        my_setup({"drop.release_height": -0.6})


def test_a_folder_that_has_been_deleted_leaves_the_scene(tmp_path, monkeypatch):
    monkeypatch.delenv("SPLASH_HOME", raising=False)
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()
    setup, line = own_setup()
    assert setup == tea_house()
    assert "No such file" in line
