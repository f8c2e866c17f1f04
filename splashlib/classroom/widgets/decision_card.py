"""The card at a lesson's end: what was decided, what the learner's own file says, and a button that writes it."""

import threading
from dataclasses import dataclass
from html import escape

import anywidget
import traitlets

from splashlib.classroom.widgets.front_end import script, style
from splashlib.classroom.widgets.panel import Panel
from splashlib.classroom.widgets.saved_view import display_with_still, new_name
from splashlib.shoot import change_all, field, load_setup, my_setup_path, save_setup, show, tea_house, value_at
from splashlib.shoot.files.learner_files import readable_setup
from splashlib.shoot.setup.table import IN_USE

DOUBTS = ("warning", "bad")
"""Tones of a verdict that are worth repeating before a decision is written."""
FROM_SCENE = "The panel shows the scene of the course. What you moved in it goes into {file}; all else there stays."
CHANGED = "{file} has changed since this lesson began from it. What you did not move here stays as the file says."


def keep(source, paths, *, panels=(), decide=None):
    """Make the card that takes a lesson's decisions into the learner's own set-up file.

    Nothing is written until its button is pressed.

    Parameters
    ----------
    source : Panel, Setup, or a function that gives a Setup
        Where the decisions come from.
    paths : sequence of str
        The settings that the lesson decides.
    panels : sequence of Panel
        Those that the decisions come from, where `source` is a function: the card follows them, and repeats their
        verdict where it is not a good one.
    decide : function of the panels that gives a Setup, where `source` is that with `panels` filled in
        Tells what would be decided had nothing been moved.

    Returns
    -------
    Keep
    """
    return Keep(source, paths, panels=panels, decide=decide)


@dataclass(frozen=True)
class DecisionRow:
    """One decision: its label, what the file says, what the panel says, and whether that is something new."""

    label: str
    in_file: str
    chosen: str
    new: bool


class _CardFront(anywidget.AnyWidget):
    """The card's face in the browser."""

    _esm = script("decision_card")
    _css = style("decision_card")
    state = traitlets.Dict().tag(sync=True)
    still = traitlets.Unicode().tag(sync=True)


class Keep:
    """The card; made by `keep`, shown by being a cell's last line."""

    def __init__(self, source, paths, *, panels=(), decide=None):
        if not paths:
            raise ValueError("a card needs one setting or more to keep")
        for path in paths:
            field(path)
        self._source, self._paths, self._decide = source, tuple(paths), decide
        self._panels = (source,) if isinstance(source, Panel) else tuple(panels)
        self._lock = threading.RLock()
        self._said, self._error = "", ""
        # What the panels began from: what differs from it was decided here, what does not was not touched.
        self._begun = readable_setup()
        self._front = _CardFront(state=self._state(), still=new_name())
        self._front.on_msg(self._received)
        for each in self._panels:
            each.on_change(lambda _panel: self.refresh())

    @property
    def rows(self):
        """The table as it stands now."""
        return self._table()[0]

    @property
    def said(self):
        """What was written last, and where; "" before that."""
        return self._said

    @property
    def error(self):
        """Why nothing could be written or read, in one line, or ""."""
        return self._error

    @property
    def doubt(self):
        """The verdict of a panel that warns of what is to be written, or ""."""
        return next((each.told.line for each in self._panels if each.told.tone in DOUBTS), "")

    def refresh(self):
        """Read panel and file again, and show what they say."""
        with self._lock:
            self._front.state = self._state()

    def write(self):
        """Write the decisions into the learner's file, as the button does."""
        with self._lock:
            self._said, self._error = "", ""
            try:
                self._said = self._written()
            except Exception as problem:
                self._error = one_line(problem)
            self.refresh()

    def _written(self):
        path, (before, _) = my_setup_path(), self._file()
        chosen = self._decided(before)
        changes = {name: value for name, value in chosen.items() if value != value_at(before, name)}
        existed = path.exists()
        if existed and not changes:
            return f"{path.name} says all this already; nothing was written."
        after = change_all(before, changes)
        save_setup(after, path)
        self._begun = after
        told = ", ".join(f"{field(name).label} {show(name, value, self._system())}" for name, value in changes.items())
        if existed:
            return f"Written into {path}: {told}. The rest of the file is as it was."
        return f"{path} is new: {f'the scene with {told}' if told else 'the scene as it is'}."

    def _received(self, _front, content, _buffers):
        if content.get("write"):
            self.write()
        else:
            self.refresh()

    def _setup(self):
        if isinstance(self._source, Panel):
            return self._source.setup
        return self._source() if callable(self._source) else self._source

    def _at_begin(self):
        """The set-up that the source would give had nothing been moved in its panels."""
        if isinstance(self._source, Panel):
            return self._source.begun.setup
        return self._decide(*(each.begun for each in self._panels)) if self._decide else self._setup()

    def _system(self):
        return self._source.system if isinstance(self._source, Panel) else "metric"

    def _chosen(self):
        """Path to value [SI]; the lag of "the style in use" is written to the record of the style chosen here."""
        return self._spelled_values(self._setup())

    def _spelled_values(self, setup):
        return {_spelled(setup, path): value_at(setup, path) for path in self._paths}

    def _decided(self, before):
        """As `_chosen`, but what was not moved here stays as the file says, which may have changed meanwhile."""
        chosen = self._chosen()
        begun = self._begun_from_scene()
        unmoved = {path for path, value in chosen.items() if path in begun and value == begun[path]}
        stays = [path for path, value in chosen.items() if self._changed(path, before) and value == self._old(path)]
        stays += [path for path in unmoved if _has(before, path)]
        return chosen | {path: value_at(before, path) for path in stays}

    def _begun_from_scene(self):
        """What the lesson would have decided before anything was moved, where a panel shows the scene; else {}."""
        if not any(each.origin == "scene" for each in self._panels):
            return {}
        return self._spelled_values(self._at_begin())

    def _old(self, path):
        """What the panels began from says of a setting, or None."""
        return value_at(self._begun, path) if _has(self._begun, path) else None

    def _changed(self, path, before):
        """Whether the file says something else than when the panels began from it."""
        return _has(before, path) and value_at(before, path) != self._old(path)

    def _file(self):
        """What the learner's file says, and whether it is there; the scene when there is none."""
        path = my_setup_path()
        return (load_setup(path), True) if path.exists() else (tea_house(), False)

    def _table(self):
        """The rows, the line of what is wrong with the file, and whether the file has changed since the beginning."""
        trouble = ""
        try:
            before, there = self._file()
        except ValueError as problem:
            before, there, trouble = tea_house(), False, str(problem)
        try:
            decided = self._decided(before)
        except Exception as problem:  # an odd set-up may leave a lesson without a decision, never without its card
            return [], trouble or f"There is nothing to write here: {one_line(problem)}", False
        rows = [self._row(path, value, before, there) for path, value in decided.items()]
        return rows, trouble, there and any(self._changed(path, before) for path in decided)

    def _row(self, path, value, before, there):
        old = value_at(before, path) if _has(before, path) else None
        said = "" if old is None else show(path, old, self._system())
        text = said if there else f"not yet (scene: {said})"
        label = field(path).label
        return DecisionRow(label[:1].upper() + label[1:], text, show(path, value, self._system()), old != value)

    def _warned(self, changed):
        if any(each.origin == "scene" for each in self._panels):
            return FROM_SCENE
        return CHANGED if changed else ""

    def _state(self):
        rows, trouble, changed = self._table()
        name = my_setup_path().name
        return {
            "rows": [[row.label, row.in_file, row.chosen, row.new] for row in rows],
            "doubt": self.doubt,
            "changed": self._warned(changed).format(file=name),
            "file": name,
            "said": self._said,
            "error": self._error or trouble,
        }

    def _ipython_display_(self):
        self.refresh()
        display_with_still(self._front, self._repr_mimebundle_()[0])

    def _repr_mimebundle_(self, **kwargs):
        """Give the live card, and for viewers without Python its table."""
        bundle = self._front._repr_mimebundle_(**kwargs)
        data, metadata = bundle if isinstance(bundle, tuple) else (bundle, {})
        rows = self.rows
        data["text/plain"] = "\n".join(f"{row.label}: {row.in_file} -> {row.chosen}" for row in rows)
        data["text/html"] = _still(rows)
        return data, metadata


def one_line(problem):
    """What an exception says, on one line."""
    return " ".join(str(problem).split()) or type(problem).__name__


def _spelled(setup, path):
    first, _, last = path.partition(".")
    return f"camera.{setup.camera.style}.{IN_USE[last]}" if first == "camera" and last in IN_USE else path


def _has(setup, path):
    """Whether the set-up has this setting; a file with one flash head has no second one."""
    try:
        value_at(setup, path)
    except ValueError:
        return False
    return True


def _still(rows):
    cells = [[row.label, row.in_file, row.chosen] for row in rows]
    body = "".join(f"<tr>{''.join(f'<td>{escape(text)}</td>' for text in row)}</tr>" for row in cells)
    head = "<tr><th>decision</th><th>in your file</th><th>from this lesson</th></tr>"
    note = "<p><em>Run the notebook to write this into your own set-up file.</em></p>"
    return f"<div><table>{head}{body}</table>{note}</div>"
