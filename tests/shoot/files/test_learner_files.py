"""The learner's own files: where they are, and what holds while there are none."""

from pathlib import Path

import pytest

from splashlib.shoot import change, home, my_setup, my_setup_path, save_setup, tea_house
from splashlib.shoot.files.learner_files import readable_setup


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


def test_a_file_with_a_mistake_leaves_the_scene_to_begin_with(tmp_path, monkeypatch):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert readable_setup() == tea_house()
    save_setup(change(tea_house(), "beam.height", 0.1), my_setup_path())
    assert readable_setup() == my_setup()
    my_setup_path().write_text("[drop]\nrelease_height_cm = 'high'\n")
    assert readable_setup() == tea_house()
    with pytest.raises(ValueError, match="release_height_cm"):
        my_setup()
