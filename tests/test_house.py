"""The house: no circle of imports, no name twice, no drawer too full, one door for each public name."""

import ast
import re
from collections import Counter
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
MOST = 14
"""Modules in one folder."""

DOORS = {
    "splashlib.shoot": "splashlib.shoot",
    "splashlib.physics.water_entry": "splashlib.physics",
    "splashlib.physics.droplets": "splashlib.physics",
    "splashlib.physics.fall": "splashlib.physics",
    "splashlib.physics.pulse": "splashlib.physics",
    "splashlib.physics.light.lens": "splashlib.physics.light",
    "splashlib.physics.light.exposure": "splashlib.physics.light",
}
"""Door to the rooms behind it: from outside those, what the door names comes from the door alone."""


def module_of(path: Path) -> str:
    return ".".join(path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__")


FILES = {module_of(path): path for floor in ("splashlib", "lessons") for path in (TOP / floor).rglob("*.py")}
TREES = {module: ast.parse(path.read_text(encoding="utf-8")) for module, path in FILES.items()}


def taken(module: str):
    """Every (home, name) that a module imports from the house, also inside its functions."""
    for node in ast.walk(TREES[module]):
        if isinstance(node, ast.ImportFrom) and node.module in FILES:
            yield from ((node.module, alias.name) for alias in node.names)
        elif isinstance(node, ast.Import):
            yield from ((alias.name, "") for alias in node.names if alias.name in FILES)


def imported(module: str) -> set[str]:
    """The modules that a module imports: `from package import module` means the module, not the package."""
    return {f"{home}.{name}" if f"{home}.{name}" in FILES else home for home, name in taken(module)}


def public(module: str) -> set[str]:
    lists = [
        node.value
        for node in TREES[module].body
        if isinstance(node, ast.Assign) and getattr(node.targets[0], "id", "") == "__all__"
    ]
    return {name.value for each in lists if isinstance(each, ast.List) for name in each.elts}


def test_no_circle():
    TopologicalSorter({module: imported(module) for module in FILES}).prepare()


def test_a_circle_would_be_found():
    with pytest.raises(ValueError, match="cycle"):
        TopologicalSorter({"a": {"b"}, "b": {"a"}}).prepare()


def test_no_module_name_twice():
    names = Counter(path.stem for module, path in FILES.items() if module.startswith("splashlib."))
    assert {name for name, times in names.items() if times > 1} <= {"__init__"}


def test_no_drawer_too_full():
    full = Counter(path.parent for path in FILES.values() if path.stem != "__init__")
    assert {str(folder.relative_to(TOP)): many for folder, many in full.items() if many > MOST} == {}


@pytest.mark.parametrize("door", DOORS)
def test_what_a_door_names_comes_from_the_door(door):
    room, names = f"{DOORS[door]}.", public(door)
    assert names
    beside = [
        f"{module} takes {name} from {home}"
        for module in FILES
        if not f"{module}.".startswith(room)
        for home, name in taken(module)
        if name in names and home.startswith(room) and home not in DOORS
    ]
    assert beside == []


def defined(module: str) -> set[str]:
    """The names that a module makes itself."""
    made = {node.name for node in TREES[module].body if isinstance(node, ast.FunctionDef | ast.ClassDef)}
    targets = [each for node in TREES[module].body if isinstance(node, ast.Assign) for each in node.targets]
    return made | {name.id for each in targets for name in ast.walk(each) if isinstance(name, ast.Name)}


def test_only_a_door_hands_on_what_it_did_not_make():
    doors = {*DOORS, "splashlib.picture"}
    handed_on = {module: public(module) - defined(module) for module in FILES if module not in doors}
    assert {module: sorted(names) for module, names in handed_on.items() if names} == {}


def test_no_function_hides_a_module():
    hidden = [f"{package}.{name}" for package in FILES for name in public(package) if f"{package}.{name}" in FILES]
    assert hidden == []


@pytest.mark.parametrize("number", ["1.333", "1.52", "0.0254", "0.3048", "0.618", "2.54"])
def test_a_constant_is_typed_once(number):
    typed = {
        module: node.value
        for module, tree in TREES.items()
        if module != "splashlib.physics.constants"
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant) and isinstance(node.value, float) and str(node.value).startswith(number)
    }
    assert typed == {}


def test_pictures_and_page_show_a_verdict_in_the_same_colours():
    from splashlib.picture.kit import style

    sheet = (TOP / "splashlib" / "classroom" / "widgets" / "house.css").read_text(encoding="utf-8")
    for role in ("good", "warning", "bad"):
        assert f"--{role}: {getattr(style, role.upper())};" in sheet


def test_no_class_is_named_in_what_a_learner_reads():
    """A sentence that begins with "Wait" is no place for the name of a chart."""
    classes = {node.name for tree in TREES.values() for node in ast.walk(tree) if isinstance(node, ast.ClassDef)}
    names = re.compile(rf"\b(?:{'|'.join(name for name in classes if re.search('[a-z][A-Z]', name))})\b")
    named = []
    for module, tree in TREES.items():
        plain = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
        named += [
            f"{module}:{node.lineno} {node.value!r}"
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in plain
            if " " in node.value and names.search(node.value)
        ]
    assert named == []
