"""The ground: the same packages everywhere, floors kept apart, cheap imports, lists that are true."""

import ast
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
import yaml

import lessons

TOP = Path(__file__).parents[1]
SLOW_TO_IMPORT = (
    "sympy",
    "matplotlib",
    "ipywidgets",
    "IPython",
    "anywidget",
    "PIL",
    "jupytext",
    "jupyterlab",
)


def bounds(lines) -> dict[str, str]:
    """Package names with their lower bounds, from lines like "numpy>=2.0"."""
    return dict(re.fullmatch(r"([A-Za-z0-9_-]+)>=([0-9.]+)", line).groups() for line in lines)


def pyproject() -> dict:
    return tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))


def test_conda_installs_what_pip_installs():
    project = pyproject()["project"]
    listed = yaml.safe_load((TOP / "environment.yml").read_text(encoding="utf-8"))["dependencies"]
    conda = bounds(line for line in listed if isinstance(line, str) and line != "pip")
    assert conda.pop("python") == project["requires-python"].removeprefix(">=")
    assert conda == bounds(project["dependencies"])
    assert [line for line in listed if isinstance(line, dict)] == [{"pip": ["-e ."]}]


def test_every_tool_has_a_lower_bound():
    for group in pyproject()["dependency-groups"].values():
        assert bounds(group)


def test_the_running_packages_are_those_that_open_looks_for():
    from splashlib.desk.open_course import NEEDED

    names = {"pillow": "PIL"}
    assert sorted(NEEDED) == sorted(names.get(name, name) for name in bounds(pyproject()["project"]["dependencies"]))


def test_floors_are_kept_apart():
    command = shutil.which("lint-imports", path=str(Path(sys.executable).parent))
    told = subprocess.run([command, "--no-cache"], cwd=TOP, capture_output=True, text=True, stdin=subprocess.DEVNULL)
    assert told.returncode == 0, told.stdout + told.stderr
    assert re.search(r"\d+ kept, 0 broken", told.stdout)


def modules(floor: str) -> list[str]:
    """Every module of a floor."""
    paths = sorted((TOP / "splashlib" / floor).rglob("*.py"))
    return [".".join(path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__") for path in paths]


@pytest.mark.parametrize("names", [["splashlib"], modules("physics"), modules("shoot"), ["splashlib.desk.commands"]])
def test_importing_is_cheap(names):
    code = f"import sys, {', '.join(names)}; print([n for n in {SLOW_TO_IMPORT} if n in sys.modules])"
    told = subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True, text=True, check=True)
    assert ast.literal_eval(told.stdout) == []


def test_the_course_is_in_order():
    numbers = [lesson.number for lesson in lessons.COURSE]
    names = [lesson.name for lesson in lessons.COURSE]
    assert numbers == [*range(1, 17), 90]
    assert len(set(names)) == len(names) == 17
    assert set(lessons.TWO_HOURS) <= set(names)
    path = [lesson for lesson in lessons.COURSE if lesson.name in lessons.TWO_HOURS]
    assert [lesson.name for lesson in path] == list(lessons.TWO_HOURS), "the path goes up with the numbers"
    assert sum(lesson.minutes for lesson in path) + lessons.BREAK <= 120


def test_readme_lists_the_lessons_that_are_there():
    """README against the folders and the table, without the builder that wrote it."""
    text = (TOP / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| \[(.+?)\]\(notebooks/(\d\d)_(\w+)\.ipynb\)( ★)? \| (\d+) \| (.+) \|$", text, re.MULTILINE)
    told = [(int(number), name, int(minutes), decides, bool(star)) for _, number, name, star, minutes, decides in rows]
    there = {path.parent.name for path in (TOP / "lessons").glob("*/text.md")}
    assert there
    assert told == [
        (lesson.number, lesson.name, lesson.minutes, lesson.decides, lesson.name in lessons.TWO_HOURS)
        for lesson in lessons.COURSE
        if lesson.name in there
    ]
    assert [title.removeprefix(f"{int(number)} · ") for title, number, *_ in rows] == [
        lesson.title for lesson in lessons.COURSE if lesson.name in there
    ]


def test_readme_leads_to_files_that_are_there():
    for page in ("README.md", "DEVELOPERS.md"):
        text = (TOP / page).read_text(encoding="utf-8")
        for target in re.findall(r"\]\(([^)#:]+)\)", text):
            assert (TOP / target).is_file(), f"{page} leads to {target}, which is not there"


def test_changelog_tells_of_this_version():
    changes = (TOP / "CHANGELOG.md").read_text(encoding="utf-8")
    assert f"## {pyproject()['project']['version']}" in changes
