"""Lessons to notebooks: the same bytes each time, folded cells, links that lead somewhere, clear words."""

import builtins
import json

import nbformat
import pytest

from lessons import COURSE
from splashlib.desk import build as builder
from splashlib.desk.house import checkout, lessons_folder
from splashlib.desk.trouble import Trouble

BY_NAME = {lesson.name: lesson for lesson in COURSE}

FALL = """## What you will be able to decide

Prose. See [the beam](lesson:beam) and the drop.

## Drag

1. Drag it up.
2. Drag it down.

```python jupyter={"source_hidden": true} tags=["panel"] id="fall-panel"
print("panel")
```

## In code

```python
height = 0.45
```

```bash .noeval
ls
```

## At the set

Take a towel.
"""


@pytest.fixture
def house(tmp_path):
    """A small checkout with two lessons and a README."""
    for name, text in {"fall": FALL, "beam": "## What you will be able to decide\n\nBeam.\n"}.items():
        folder = tmp_path / "lessons" / name
        folder.mkdir(parents=True)
        (folder / "text.md").write_text(text, encoding="utf-8")
    marks = f"before\n{builder.LIST_STARTS}\nold\n{builder.LIST_ENDS}\nafter\n"
    (tmp_path / "README.md").write_text(marks, encoding="utf-8")
    return tmp_path


def run(house, *, check=False):
    return builder.build(house, house / "lessons", check=check)


def built(house, name="02_fall"):
    return nbformat.read(house / "notebooks" / f"{name}.ipynb", as_version=4)


def taught(text):
    """What a lesson says in a notebook: prose and folded cells. Where a learner works in it, these stay."""
    cells = nbformat.reads(text, as_version=4).cells
    folded = [cell for cell in cells if cell.cell_type == "markdown" or "jupyter" in cell.metadata]
    return [(cell.id, cell.cell_type, cell.source) for cell in folded]


def test_notebooks_of_this_checkout_are_in_step():
    """Also after a learner has opened and saved them; CI compares every byte (build --check)."""
    for path, text in builder.built(checkout(), lessons_folder()).items():
        found = builder.contents(path)
        assert found is not None, f"{path.name} is missing; build it"
        if path.suffix == ".ipynb":
            found, text = taught(found), taught(text)
        assert found == text, f"{path.name} is out of step with lessons/; build it"


def test_two_builds_give_the_same_bytes(house, tmp_path):
    run(house)
    first = {path.name: path.read_bytes() for path in (house / "notebooks").iterdir()}
    for path in (house / "notebooks").iterdir():
        path.unlink()
    run(house)
    assert first == {path.name: path.read_bytes() for path in (house / "notebooks").iterdir()}
    assert set(first) == {"02_fall.ipynb", "03_beam.ipynb"}


def test_a_notebook_holds_its_lesson_and_nothing_of_a_run(house):
    run(house)
    raw = json.loads((house / "notebooks" / "02_fall.ipynb").read_text(encoding="utf-8"))
    assert set(raw["metadata"]) == {"kernelspec", "language_info"}
    code = [cell for cell in raw["cells"] if cell["cell_type"] == "code"]
    assert [cell["source"] for cell in code] == [['print("panel")'], ["height = 0.45"]]
    assert all(cell["outputs"] == [] and cell["execution_count"] is None for cell in code)
    assert code[0]["metadata"] == {"jupyter": {"source_hidden": True}, "tags": ["panel"]}
    assert [cell["id"] for cell in raw["cells"]] == [
        "fall-head", "fall-01", "fall-panel", "fall-03", "fall-04", "fall-05", "fall-06", "fall-foot"
    ]  # fmt: skip


def test_the_head_tells_the_title_the_minutes_and_how_to_run(house):
    run(house)
    head = built(house).cells[0].source
    assert head.startswith("# 2 · How fast it falls\n")
    # 28 words of headings and prose, 2 steps of half a minute: 1.2 minutes.
    assert "1 minutes" not in head
    assert "*1 minute. You decide" in head
    assert "For another day: *In code* and what is headed *Extra*: 1 minute more; *At the set*: 1 minute" in head
    assert BY_NAME["fall"].decides in head
    assert "Run All Cells" in head
    assert "two-hour path" not in head
    assert "Step 1 of 1 on the two-hour path" in built(house, "03_beam").cells[0].source


def test_links_lead_to_lessons_that_are_written_and_to_no_others(house):
    run(house)
    assert "See [the beam](03_beam.ipynb) and the drop." in built(house).cells[1].source


def test_a_link_to_a_lesson_that_is_not_written_is_refused(house):
    (house / "lessons" / "beam" / "text.md").write_text("## What\n\nSee [the plan](lesson:plan).\n", encoding="utf-8")
    with pytest.raises(Trouble, match='link to "lesson:plan" leads to a lesson that is not written'):
        run(house)


def test_the_path_ends_in_what_was_decided(house):
    run(house)
    cells = built(house, "03_beam").cells
    assert [cell.id for cell in cells[-3:]] == ["beam-end", "beam-decided", "beam-foot"]
    assert cells[-2].source.endswith("decided()")
    assert cells[-2].metadata == {"jupyter": {"source_hidden": True}, "tags": ["decided"]}
    assert "decided()" not in built(house).cells[-2].source


def test_the_foot_leads_on_and_back(house):
    run(house)
    assert "[3 · Where the beam goes](03_beam.ipynb)" in built(house).cells[-1].source
    assert "Before: [2 · How fast it falls](02_fall.ipynb)" in built(house, "03_beam").cells[-1].source
    assert "Next" not in built(house, "03_beam").cells[-1].source


def test_the_foot_shows_the_two_hour_path(house):
    for name in ("start", "camera"):
        (house / "lessons" / name).mkdir()
        (house / "lessons" / name / "text.md").write_text("## What\n", encoding="utf-8")
    run(house)
    foot = built(house, "01_start").cells[-1].source
    assert "Next: [2 · How fast it falls](02_fall.ipynb)" in foot
    assert "Next on the two-hour path: [3 · Where the beam goes](03_beam.ipynb)" in foot
    assert "Next: [4 · Is the camera fast enough?]" in built(house, "03_beam").cells[-1].source
    assert "Next" not in built(house, "04_camera").cells[-1].source
    assert "Step 3 of 3 on the two-hour path" in built(house, "04_camera").cells[0].source
    assert "two-hour path" not in built(house, "02_fall").cells[-1].source


def test_readme_gets_its_list(house):
    run(house)
    text = (house / "README.md").read_text(encoding="utf-8")
    assert text.startswith("before\n")
    assert text.endswith("after\n")
    assert "old" not in text
    assert "| [2 · How fast it falls](notebooks/02_fall.ipynb) | 1 |" in text
    assert "| [3 · Where the beam goes](notebooks/03_beam.ipynb) ★ | 1 |" in text
    assert "The two-hour path, for one evening: 1 minute of work and a break of 10, in this order." in text


def test_check_writes_nothing_and_names_each_file(house, capsys):
    with pytest.raises(Trouble, match="not in step"):
        run(house, check=True)
    told = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in told] == [
        "notebooks/02_fall.ipynb",
        "notebooks/03_beam.ipynb",
        "README.md",
    ]
    assert not (house / "notebooks").exists()
    run(house)
    assert run(house, check=True) == 0


@pytest.mark.parametrize("change", ["cell", "output", "left over", "text"])
def test_check_sees_every_difference(house, change, capsys):
    run(house)
    path = house / "notebooks" / "02_fall.ipynb"
    node = nbformat.read(path, as_version=4)
    if change == "cell":
        node.cells[3].source = "height = 0.46"
    elif change == "output":
        node.cells[2].outputs = [nbformat.v4.new_output("stream", text="panel\n")]
    nbformat.write(node, path)
    if change == "left over":
        (house / "notebooks" / "17_gone.ipynb").write_text("{}")
    if change == "text":
        (house / "lessons" / "fall" / "text.md").write_text(FALL + "\nMore.\n", encoding="utf-8")
    capsys.readouterr()
    with pytest.raises(Trouble, match="not in step"):
        run(house, check=True)
    named = "notebooks/17_gone.ipynb" if change == "left over" else "notebooks/02_fall.ipynb"
    assert [line.split()[0] for line in capsys.readouterr().out.splitlines()] == [named]


def test_line_ends_of_the_system_do_not_count(house):
    run(house)
    for path in [house / "README.md", *(house / "notebooks").iterdir()]:
        path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert run(house, check=True) == 0


def test_a_copy_that_a_learner_made_is_left_alone(house):
    run(house)
    copy = house / "notebooks" / "02_fall-Copy1.ipynb"
    copy.write_text("{}")
    assert run(house, check=True) == 0
    run(house)
    assert copy.read_text() == "{}"


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("fall", "# A title\n", "line 1: leave the title out"),
        ("fall", '```python id="a"\n1\n```\n\n```python id="a"\n2\n```\n', '"a" stands 2 times'),
        ("fall", '```python id="a b"\n1\n```\n', '"a b" may hold letters'),
        ("fall", "[x](lesson:bean)\n", "lesson:bean"),
        ("fall", "```bash\nls\n```\n", "bash .noeval"),
        ("orchard", "Words.\n", "lessons/orchard stands in no row of COURSE"),
    ],
)
def test_a_mistake_in_a_lesson_gets_one_line_and_nothing_is_written(house, name, text, told):
    (house / "lessons" / name).mkdir(exist_ok=True)
    (house / "lessons" / name / "text.md").write_text(text, encoding="utf-8")
    with pytest.raises(Trouble) as trouble:
        run(house)
    assert told in str(trouble.value)
    assert "\n" not in str(trouble.value)
    assert not (house / "notebooks").exists()


def test_a_hash_inside_code_is_no_title(house):
    (house / "lessons" / "fall" / "text.md").write_text("```python\n# why\nx = 1\n```\n", encoding="utf-8")
    assert run(house) == 0


def test_a_readme_without_marks_is_left_alone(house):
    (house / "README.md").write_text("mine\n")
    with pytest.raises(Trouble, match="marks of the list"):
        run(house)
    assert (house / "README.md").read_text() == "mine\n"


@pytest.mark.parametrize("missing", ["jupytext", "nbformat"])
def test_without_its_tools_the_build_says_which_and_how(house, missing, monkeypatch):
    real = builtins.__import__

    def without(name, *args, **kwargs):
        if name == missing:
            raise ImportError(f"No module named {name!r}", name=name)
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without)
    with pytest.raises(Trouble, match=f"^{missing} is not installed here.*--group dev"):
        run(house)


def test_each_lesson_shows_at_its_head_where_the_learner_stands():
    for path, text in builder.built(checkout(), lessons_folder()).items():
        if path.suffix == ".ipynb" and not path.name.startswith("90_"):
            cells = json.loads(text)["cells"]
            source = ["".join(cell["source"]) for cell in cells]
            assert [place for place, code in enumerate(source) if "exercises.standing()" in code] == [1], path.name
            assert "standing" in cells[1]["metadata"]["tags"]
            assert not any("progress(" in code for code in source), path.name


NUMBERS = """from splashlib.classroom.prose.numbers import Numbers

NUMBERS = Numbers(time={"fall": lambda: 0.3029, "lost": lambda: float("nan")})
"""
ONE_NUMBER = NUMBERS.replace(', "lost": lambda: float("nan")', "")


@pytest.fixture
def counted(house):
    """The small checkout, with a number in a lesson's words."""

    def write(text, numbers=ONE_NUMBER):
        (house / "lessons" / "fall" / "text.md").write_text(text, encoding="utf-8")
        (house / "lessons" / "fall" / "numbers.py").write_text(numbers, encoding="utf-8")
        return house

    return write


SAID = "It falls for [[fall to 0.01 s]].\n\n```python\nx = [[1, 2], [3, 4]]\n```\n"


def test_a_number_in_prose_is_computed_at_the_build(counted):
    house = counted(SAID)
    run(house)
    cells = built(house).cells
    assert cells[1].source == "It falls for 0.30 s."
    assert cells[2].source == "x = [[1, 2], [3, 4]]"


def test_check_fails_when_the_library_gives_another_number(counted, capsys):
    house = counted(SAID)
    run(house)
    assert run(house, check=True) == 0
    numbers = house / "lessons" / "fall" / "numbers.py"
    numbers.write_text(numbers.read_text().replace("0.3029", "0.3129"))
    capsys.readouterr()
    with pytest.raises(Trouble, match="not in step"):
        run(house, check=True)
    assert [line.split()[0] for line in capsys.readouterr().out.splitlines()] == ["notebooks/02_fall.ipynb"]


@pytest.mark.parametrize(
    ("text", "numbers", "told"),
    [
        ("\n[[fal to 1 s]]\n", NUMBERS, "lessons/fall/text.md:2: [[fal to 1 s]]: there is no number fal"),
        ("[[lost to 1 s]]\n", NUMBERS, "lessons/fall/text.md:1: [[lost to 1 s]]: its value is nan"),
        (SAID, NUMBERS, "lessons/fall/numbers.py: lost is stated nowhere in the lesson"),
        (SAID, "NUMBERS = nothing", "lessons/fall/numbers.py: NameError: name 'nothing' is not defined"),
        (SAID, "", "lessons/fall/numbers.py: it has no NUMBERS"),
    ],
)
def test_a_number_that_cannot_be_stated_stops_the_build_in_one_line(counted, text, numbers, told):
    house = counted(text, numbers)
    with pytest.raises(Trouble) as trouble:
        run(house)
    assert str(trouble.value).startswith(told)
    assert "\n" not in str(trouble.value)
    assert not (house / "notebooks").exists()


def test_a_number_that_only_an_exercise_states_is_not_idle(counted):
    house = counted(SAID, NUMBERS.replace('float("nan")', "1.0"))
    (house / "lessons" / "fall" / "exercises.py").write_text('HINT = "[[lost to 1 s]]"\n', encoding="utf-8")
    assert run(house) == 0
