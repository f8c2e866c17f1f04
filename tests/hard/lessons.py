"""A learner's file, broken or odd, under every lesson: each cell runs to its end, each panel shows a picture.

    python -m tests.hard.lessons 200

The cells run here, one lesson after the other, and not in a kernel; a few files go through real kernels in
`tests/lessons/test_broken_files.py`.
"""

import ast
import contextlib
import io
import os
import random
import sys
import tempfile
import time
import traceback
from functools import partial
from pathlib import Path

import nbformat
from ipywidgets import Widget

from splashlib.classroom.widgets.panel import Panel
from splashlib.desk.build import built
from splashlib.desk.house import checkout, lessons_folder, notebook_name, written
from splashlib.shoot import FIELDS, Flash, change, change_all, load_setup, save_setup, tea_house, with_body
from tests.hard.setup_files import value

BROKEN = {
    "a decimal comma": "[drop]\nrelease_height_cm = 55,5\n",
    "the unit behind it": "[beam]\nheight_cm = 14 cm\n",
    "a bare fraction": "[[flashes]]\npower = 1/32\n",
    "a bare word": "[camera]\nstyle = held_open\n",
    "a beam over the hand": "[beam]\nheight_cm = 60\n",
    "no text": "\udcff\udcfe",
    "an unknown key": "[drop]\nrelease_hieght_cm = 40\n",
}
ODD = {
    "a beam at 70 cm": {"drop.release_height": 1.2, "beam.height": 0.7},
    "the lowest power": {"flashes.0.power": 1 / 10000},
    "a low hand": {"drop.release_height": 0.03, "beam.height": 0.01},
    "a drop of milk that the beam cannot see": {"drop.form": "milk", "drop.diameter": 0.005, "beam.width": 0.01},
    "a short slow flash": {"flashes.0.full_t05": 1e-6, "flashes.0.rise": 0.0, "flashes.0.tail": 0.0},
    "a tiny wide vessel": {"vessel.width": 5.0, "vessel.depth": 0.001, "vessel.rim": 0.0},
    "twenty metres": {"drop.release_height": 20.0, "beam.height": 19.0},
    "a rolling shutter": {"camera.style": "no_mirror", "camera.no_mirror.first_curtain": "rolling"},
    "a dark room": {"room.lux": 0.0, "flashes.0.guide_number": 0.1, "camera.iso": 1.0},
    "a heavy marble": {"drop.density": 20000.0, "drop.name": "$x$ 金柑 🍊"},
}


def odd(rng):
    """A valid set-up with many settings far from the scene."""
    setup = with_body(tea_house(), rng.choice(("kumquat", "glass marble", "drop of milk")))
    if rng.random() < 0.3:
        setup = change_heads(setup, rng.randrange(1, 4))
    for row in rng.sample(FIELDS, rng.randrange(1, 25)):
        low, high = row.limits
        wild = rng.random() < 0.3 and row.kind in ("number", "marks")
        new = rng.choice((low, high, rng.uniform(low, high), low + (high - low) * rng.random() ** 6)) if wild else None
        try:
            setup = change(setup, row.path, int(new) if row.whole and wild else new if wild else value(rng, row))
        except ValueError:
            continue
    return setup


def change_heads(setup, count):
    """The set-up with so many flash heads."""
    return type(setup)(**{**vars(setup), "flashes": (setup.flashes[0], *(Flash() for _ in range(count - 1)))})


def cases(count):
    """So many files, each a name and what puts it at a path; the known ones first."""
    known = [(name, partial(put_text, text)) for name, text in BROKEN.items()]
    known += [(name, partial(save_setup, change_all(tea_house(), changes))) for name, changes in ODD.items()]
    made = [(f"odd {n}", partial(save_setup, odd(random.Random(n)))) for n in range(count - len(known))]
    return (known + made)[:count]


def put_text(text, path):
    """Write a broken file."""
    path.write_bytes(text.encode("utf-8", "surrogateescape"))


def code_of():
    """Lesson name to the code cells of its notebook that can have to do with a set-up."""
    notebooks = built(checkout(), lessons_folder())
    found = {}
    for lesson in written():
        text = notebooks[checkout() / "notebooks" / notebook_name(lesson)]
        cells = [cell for cell in nbformat.reads(text, as_version=4).cells if cell.cell_type == "code"]
        # Derivations and answers know nothing of the learner's file, and take most of the time.
        skipped = ("derivation", "answer")
        found[lesson.name] = [c for c in cells if not set(skipped) & set(c.metadata.get("tags", []))]
    return found


def shown(source, names):
    """Run a cell as a notebook does; returns its last value, shown."""
    tree = ast.parse(source)
    last = tree.body.pop() if tree.body and isinstance(tree.body[-1], ast.Expr) else None
    exec(compile(tree, "cell", "exec"), names)
    if last is None:
        return None
    result = eval(compile(ast.Expression(last.value), "cell", "eval"), names)
    if hasattr(result, "_repr_mimebundle_"):
        result._repr_mimebundle_()
    return result


def run_lesson(name, cells):
    """Run a lesson's cells; returns its panels and what was printed. Raises what a cell raises."""
    names, panels, said = {"__name__": "__main__", "display": print}, [], io.StringIO()
    with contextlib.redirect_stdout(said):
        for cell in cells:
            result = shown(cell.source, names)
            panels += [result] if isinstance(result, Panel) else []
    return panels, said.getvalue()


def tried(path, lessons):
    """Run all lessons over one file; returns how many panels started from the scene. Raises for what went wrong."""
    try:
        load_setup(path)
        broken = ""
    except ValueError as problem:
        broken = str(problem)
    scenes = 0
    for name, cells in lessons.items():
        try:
            panels, said = run_lesson(name, cells)
        except Exception as problem:
            raise AssertionError(f"{name}: {traceback.format_exc(limit=-6)}") from problem
        for panel in panels:
            assert panel.error == "", f"{name}: {panel.error} {panel._trace}"
            assert len(panel.image) > 1000, name
            assert "\n" not in panel.trouble
            scenes += bool(panel.trouble)
            if broken and name != "for_teachers":
                assert panel.trouble.startswith(broken), f"{name}: {panel.trouble}"
        if broken and "my_setup(" in "".join(cell.source for cell in cells):
            assert broken in said, name
    return scenes


def run(count, lessons=None, names=None):
    """Try so many files, or those with these names; returns how many panels of each started from the scene."""
    chosen = {name: cells for name, cells in code_of().items() if lessons is None or name in lessons}
    before, found, wrong = os.environ.get("SPLASH_HOME"), {}, []
    with tempfile.TemporaryDirectory() as folder:
        os.environ["SPLASH_HOME"] = folder
        path = Path(folder) / "my_setup.toml"
        try:
            for name, put in (case for case in cases(count) if names is None or case[0] in names):
                path.unlink(missing_ok=True)
                put(path)
                try:
                    found[name] = tried(path, chosen)
                except AssertionError as problem:
                    wrong.append(f"{name}: {problem}")
                    print(wrong[-1], flush=True) if __name__ == "__main__" else None
                finally:
                    Widget.close_all()  # as when a kernel ends
        finally:
            os.environ.pop("SPLASH_HOME") if before is None else os.environ.update(SPLASH_HOME=before)
    assert not wrong, "\n\n".join(wrong)
    return found


if __name__ == "__main__":
    begun = time.perf_counter()
    result = run(int(sys.argv[1]) if len(sys.argv) > 1 else 200, sys.argv[2:] or None)
    print(result, f"{time.perf_counter() - begun:.0f} s")
