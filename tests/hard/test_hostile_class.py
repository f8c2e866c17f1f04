"""A report over everything that has ever stopped one."""

from tests.hard import hostile_class


def test_the_page_is_written_and_each_file_read_in_bounds_or_named(tmp_path):
    folder = tmp_path / "class"
    folder.mkdir()
    assert hostile_class.run(folder) < 60  # s; it was without end
