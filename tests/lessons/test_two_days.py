"""A learner over two days, in real kernels: answers, a killed kernel, a broken file that is mended; nothing is lost."""

import json

import nbformat
import pytest
from nbclient import NotebookClient
from nbclient.exceptions import DeadKernelError

from splashlib.classroom.record.progress_file import Progress
from splashlib.shoot import change, load_setup, save_setup, tea_house
from tests.lessons.test_notebooks import BUILT, NOTEBOOKS, cells, empty_rooms, lesson_of, said

SHOW = "import json\nprint(json.dumps({}))"
STATE = SHOW.format(
    "[form.variant, form.reply.get('outcome'), form.reply['solved'], form._front.typed, exercises.standing().html]"
)
BACK = "print(back._front.reply['html'])"
DAY_ONE = """
guess = exercises.predict("eighth")
guess.act("note", {"option": "marks not steps"})
form = exercises.ask("owed")
form.act("fresh", {})
v = exercises.numbers("owed")
right = exercises["owed"].answer(v)
form.act("check", {"text": str(right - 3), "unit": ""})
form.act("check", {"text": str(right), "unit": ""})
"""


@pytest.fixture
def learner(tmp_path, monkeypatch):
    """Run the lesson `stops` in a new kernel, with more cells at its end; gives the notebook as it was left."""
    room = empty_rooms(tmp_path, monkeypatch)
    path = next(path for path in NOTEBOOKS if lesson_of(path) == "stops")

    def run(*more):
        node = nbformat.reads(BUILT[path], as_version=4)
        node.cells += [nbformat.v4.new_code_cell(source) for source in more]
        client = NotebookClient(node, timeout=120, kernel_name="python3", resources={"metadata": {"path": str(room)}})
        client.execute()
        errors = [each for cell in node.cells for each in cell.get("outputs", []) if each.output_type == "error"]
        assert errors == []
        return node

    run.home = tmp_path / "home"
    return run


def acts(learner):
    """Everything that is kept, without its dates."""
    return [
        (a.question, a.variant, a.act, a.outcome, json.dumps(a.record))
        for a in Progress(learner.home / "my_progress.sqlite").attempts()
    ]


def test_two_days_lose_nothing(learner):
    with pytest.raises(DeadKernelError):
        learner(DAY_ONE, "import os\nos.kill(os.getpid(), 9)")
    first = acts(learner)
    assert [each[2:4] for each in first] == [("prediction", ""), ("fresh", ""), ("answer", "low"), ("answer", "right")]

    # The next morning: everything is run again, and stands where it stood.
    node = learner('form, back = exercises.ask("owed"), exercises.look_back("eighth")', STATE, BACK)
    assert "You thought: <strong>Four stops" in node.cells[-1].outputs[0].text
    variant, outcome, solved, typed, standing = json.loads(node.cells[-2].outputs[0].text)
    assert (variant, outcome, solved) == (2, "right", True)
    assert typed["answer"]["text"] == json.loads(first[-1][-1])["text"]
    assert "1 of 5 right" in standing
    (answer,) = (cell for cell in cells(node, tag="answer") if "owed" in cell.source)
    assert 'data-outcome="right"' in said(answer)
    assert acts(learner) == first

    # The file is broken: the lesson runs, nothing in it is touched. It is mended, and counts again.
    file = learner.home / "my_setup.toml"
    save_setup(change(tea_house(), "drop.release_height", 0.555), file)
    whole = file.read_text(encoding="utf-8")
    broken = whole.replace("release_height_cm = 55.5", "release_height_cm = 55,5")
    assert broken != whole
    file.write_text(broken, encoding="utf-8")
    learner()
    assert file.read_text(encoding="utf-8") == broken
    assert acts(learner) == first
    file.write_text(whole, encoding="utf-8")
    node = learner(DAY_ONE.replace('form.act("fresh", {})\n', ""), STATE)
    assert json.loads(node.cells[-1].outputs[0].text)[:3] == [2, "right", True]
    assert acts(learner)[: len(first)] == first
    assert load_setup(file).drop.release_height == pytest.approx(0.555)
