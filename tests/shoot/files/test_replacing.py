"""Files take each other's place in one step, and what belongs to a file stays with it."""

import os
import time

import pytest

from splashlib.shoot.files.replacing import STALE, replace_file, replace_files


def test_all_or_none(tmp_path):
    """The second cannot be put in its place (a folder is there): the first is as it was, or not there."""
    one, two, new = tmp_path / "one", tmp_path / "two", tmp_path / "new"
    one.write_bytes(b"old")
    two.mkdir()
    with pytest.raises(OSError, match="two"):
        replace_files({one: b"fresh", new: b"fresh", two: b"fresh"})
    assert one.read_bytes() == b"old"
    assert sorted(os.listdir(tmp_path)) == ["one", "two"]
    two.rmdir()
    replace_files({one: b"fresh", new: b"fresh", two: b"fresh"})
    assert {path.read_bytes() for path in (one, two, new)} == {b"fresh"}


@pytest.mark.skipif(os.name != "posix", reason="needs rights and links")
def test_rights_links_and_second_names_stay(tmp_path):
    real, second, link = tmp_path / "real", tmp_path / "second", tmp_path / "link"
    real.write_bytes(b"a long old text\n")
    real.chmod(0o640)
    os.link(real, second)
    link.symlink_to(real)
    for text in (b"short", b"a text that is longer than the old one"):
        replace_file(link, text)
        assert link.is_symlink()
        assert real.read_bytes() == second.read_bytes() == text
        assert real.stat().st_ino == second.stat().st_ino
        assert real.stat().st_mode & 0o777 == 0o640
    assert sorted(os.listdir(tmp_path)) == ["link", "real", "second"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root may give a file away")
def test_the_owner_stays(tmp_path):
    path = tmp_path / "mine"
    path.write_bytes(b"old")
    os.chown(path, 12345, 54321)
    replace_file(path, b"new")
    assert (path.stat().st_uid, path.stat().st_gid) == (12345, 54321)


def test_what_a_kill_left_behind_goes_with_the_next_writing(tmp_path):
    left, under_way = tmp_path / ".splash-abc.new", tmp_path / ".splash-def.new"
    for each in (left, under_way):
        each.write_bytes(b"half")
    old = time.time() - 2 * STALE
    os.utime(left, (old, old))
    replace_file(tmp_path / "file", b"new")
    assert sorted(os.listdir(tmp_path)) == [".splash-def.new", "file"]
