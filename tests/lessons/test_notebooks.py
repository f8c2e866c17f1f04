"""Every notebook as a learner gets it: run untouched, and run with all answers given.

They are built afresh, so that it makes no difference whether somebody has worked in those of this checkout.
"""

import ast
import importlib
import re
import time
from html import unescape
from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

from splashlib.desk.build import built
from splashlib.desk.house import checkout, lessons_folder

BUILT = built(checkout(), lessons_folder())
NOTEBOOKS = sorted(path for path in BUILT if path.suffix == ".ipynb")
CELL_TIMEOUT = 60  # s; only to end a notebook that hangs


def lesson_of(path: Path) -> str:
    return path.stem[3:]


def empty_rooms(place: Path, patch: pytest.MonkeyPatch) -> Path:
    """An empty folder to run in, with an empty home beside it and no settings of whoever runs the tests."""
    for name in ("home", "room", "settings"):
        (place / name).mkdir()
    patch.setenv("SPLASH_HOME", str(place / "home"))
    patch.setenv("IPYTHONDIR", str(place / "settings"))
    patch.setenv("JUPYTER_PREFER_ENV_PATH", "1")
    return place / "room"


def run(path: Path, room: Path, *, answers: bool = False):
    """A notebook after running it from top to bottom, with or without answers in its answer cells."""
    node = nbformat.reads(BUILT[path], as_version=4)
    if answers:
        for cell in cells(node, tag="answer"):
            cell.source = answered(lesson_of(path), cell.source)
    start = time.perf_counter()
    resources = {"metadata": {"path": str(room)}}
    NotebookClient(node, timeout=CELL_TIMEOUT, kernel_name="python3", resources=resources).execute()
    print(f"{path.name}: {time.perf_counter() - start:.1f} s of the 20 s that a lesson may take")
    return node


def cells(node, *, tag: str):
    return [cell for cell in node.cells if tag in cell.metadata.get("tags", [])]


def answered(lesson: str, source: str) -> str:
    """The source of an answer cell with its one `...` replaced by an answer that passes."""
    calls = [node for node in ast.walk(ast.parse(source)) if isinstance(node, ast.Call)]
    check = next(call for call in calls if getattr(call.func, "attr", "") == "check")
    name, dots, *unit = (ast.literal_eval(argument) for argument in check.args)
    assert dots is ..., f"{lesson}: the answer cell of {name!r} must hold ... for the learner's answer"
    before, after = source.split("...")
    return before + in_code(lesson, name, *unit) + after


def in_code(lesson: str, name: str, unit: str | None = None) -> str:
    """An answer that passes, as it is typed in code."""
    from splashlib.classroom.judges import judge
    from splashlib.classroom.questions.units import UNITS

    exercises = importlib.import_module(f"lessons.{lesson}.exercises").exercises
    question = exercises[name]
    if question.kind == "function":
        # Written as the worked solution shows it; our own function is not taken for an answer.
        written = re.search(r"```(?:python)?\n(.*?)```", question.worked, re.S).group(1)
        defined = re.search(r"def (\w+)", written).group(1)
        return f"(lambda made: exec({written!r}, made) or made[{defined!r}])({{}})"
    # A fresh kernel asks variant 1, whatever other tests have gone on to here.
    answer = judge.kind_of(question).right_answer(question, judge.numbers(question, 1), 1)
    if question.kind != "number":
        return repr(answer)
    unit = unit or question.unit
    value = repr(answer / UNITS[unit].size)
    return f"{value}, {unit!r}" if unit else value


def said(cell) -> str:
    """Everything that a cell shows as text or HTML."""
    parts = [output.get("text", "") for output in cell.outputs]
    for output in cell.outputs:
        parts += [text for kind, text in output.get("data", {}).items() if kind.startswith("text/")]
    return "\n".join(parts)


def verdicts(node) -> dict[str, list[str]]:
    """What the judge said in each answer cell."""
    found = {cell.id: re.findall(r'data-outcome="(\w+)"', said(cell)) for cell in cells(node, tag="answer")}
    assert found, "the notebook has no answer cells"
    return found


def test_there_are_notebooks():
    assert NOTEBOOKS


@pytest.fixture(scope="module", params=NOTEBOOKS, ids=lesson_of)
def untouched(request, tmp_path_factory):
    """A notebook that was run as it is, and the place where it ran."""
    place = tmp_path_factory.mktemp(lesson_of(request.param))
    with pytest.MonkeyPatch.context() as patch:
        yield run(request.param, empty_rooms(place, patch)), place


def test_untouched_it_runs_without_errors_or_warnings(untouched):
    node, _ = untouched
    for cell in node.cells:
        if cell.cell_type == "code":
            assert cell.execution_count is not None, cell.source
            assert [output for output in cell.outputs if output.output_type == "error"] == []
            assert [output.text for output in cell.outputs if output.get("name") == "stderr"] == []
            assert "Traceback" not in said(cell)


def test_untouched_it_writes_nothing(untouched):
    _, place = untouched
    assert list((place / "home").iterdir()) == []
    assert list((place / "room").iterdir()) == []


def test_untouched_no_exercise_is_attempted(untouched):
    node, _ = untouched
    assert set(map(tuple, verdicts(node).values())) == {("not_attempted",)}


def test_untouched_answer_cells_are_folded_and_give_nothing_away(untouched):
    """Under a right answer in the form no open words say "Not answered yet", and no unit stands that the form hides."""
    node, _ = untouched
    for cell in cells(node, tag="answer"):
        assert cell.metadata["jupyter"]["source_hidden"], cell.id
        (html,) = (output.data["text/html"] for output in cell.outputs)
        opened = re.sub(r"<details>.*?</details>", "", html, flags=re.S)
        assert re.sub(r"<[^>]+>", "", opened).strip() == "", cell.id
        assert "<summary>Answer in code</summary>" in html
        name = re.search(r'exercises\.check\("(\w+)", \.\.\.\)', cell.source)[1]
        assert f'exercises.check("{name}", ' in unescape(html), cell.id


def test_panels_show_a_picture_in_words_where_nothing_runs(untouched):
    """The display carries the widget, and an image with its text for viewers that cannot run it."""
    node, _ = untouched
    panels = cells(node, tag="panel")
    assert panels
    for cell in panels:
        data = [output.data for output in cell.outputs if "data" in output]
        assert any("application/vnd.jupyter.widget-view+json" in bundle for bundle in data), cell.id
        images = re.findall(r"<img [^>]*>", "".join(bundle.get("text/html", "") for bundle in data))
        assert images, cell.id
        for image in images:
            assert len(re.search(r'alt="([^"]*)"', image)[1]) > 20
            assert 'src="data:image/' in image


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lesson_of)
def test_with_answers_given_every_exercise_passes(path, tmp_path, monkeypatch):
    node = run(path, empty_rooms(tmp_path, monkeypatch), answers=True)
    assert set(map(tuple, verdicts(node).values())) == {("right",)}
    exercises = importlib.import_module(f"lessons.{lesson_of(path)}.exercises").exercises
    assert named(node, "check") | named(node, "predict") == set(exercises.questions)


def named(node, what: str) -> set[str]:
    """The questions that a notebook names in calls of exercises.check, or of exercises.predict."""
    code = "\n".join(cell.source for cell in node.cells if cell.cell_type == "code")
    return set(re.findall(rf'exercises\.{what}\(\s*"([^"]+)"', code))
