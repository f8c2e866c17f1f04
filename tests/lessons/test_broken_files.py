"""A notebook in a real kernel, over a learner's file that is broken, or odd: every cell runs, and it is said.

Many more files go through the lessons' cells in `tests/hard/lessons.py`, without a kernel.
"""

import pytest

from tests.hard.lessons import BROKEN, ODD, put_text
from tests.lessons.test_notebooks import NOTEBOOKS, cells, empty_rooms, lesson_of, run, said

KERNELS = (("start", "a decimal comma"), ("splash", "a beam at 70 cm"))


@pytest.mark.parametrize(("lesson", "what"), KERNELS)
def test_every_cell_runs_over_a_broken_or_odd_file(lesson, what, tmp_path, monkeypatch):
    from splashlib.shoot import change_all, save_setup, tea_house

    room = empty_rooms(tmp_path, monkeypatch)
    file = tmp_path / "home" / "my_setup.toml"
    put_text(BROKEN[what], file) if what in BROKEN else save_setup(change_all(tea_house(), ODD[what]), file)
    before = file.read_bytes()
    node = run(next(path for path in NOTEBOOKS if lesson_of(path) == lesson), room)
    errors = [output for cell in node.cells for output in cell.get("outputs", []) if output.output_type == "error"]
    assert errors == []
    assert file.read_bytes() == before
    if what in BROKEN:
        for cell in cells(node, tag="panel"):
            assert "55,5: write 55.5. Until that is mended, this panel starts from the scene." in said(cell)
    (code,) = (cell for cell in node.cells if cell.get("id") == f"{lesson}-code")
    assert "my_setup.toml" in said(code)
