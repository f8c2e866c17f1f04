"""A panel: a few controls, one picture that follows the hand, and what it says in words."""

import inspect
import threading
import time
import traceback
import warnings

import anywidget
import traitlets

from splashlib.classroom.questions.wording import sentence
from splashlib.classroom.widgets.controls import handle
from splashlib.classroom.widgets.front_end import script, style
from splashlib.classroom.widgets.guided import VEIL, Guided, GuidedFront
from splashlib.classroom.widgets.limits import reachable
from splashlib.classroom.widgets.message import SYSTEMS, asked_for, checked_system
from splashlib.classroom.widgets.saved_view import display_with_still, new_name, still_html, still_text
from splashlib.classroom.widgets.typed import typed_value
from splashlib.physics.checks import OutOfRange
from splashlib.picture.kit.canvas import Description
from splashlib.shoot import change_all, field, tea_house, value_at
from splashlib.shoot.files.learner_files import own_setup

__all__ = ["Panel", "live"]

NOTHING = Description((), "No picture yet.")
GONE = "this panel has been shown anew since then; the new one can be moved"

# Messages of the front end may be handled in a thread of their own beside the cells, and several panels may
# share a picture's parts. One lock for all drawing keeps them apart.
_DRAWING = threading.RLock()


def live(picture, *, controls, setup=None, title="", system="metric", steps=()):
    """Make a panel: controls on one side, the picture that follows them on the other.

    Parameters
    ----------
    picture : splashlib.picture.kit.canvas.Picture
    controls : sequence
        Paths of settings ("drop.release_height"), or a Control, a Pick, a Toggle for what is no setting.
    setup : Setup, or a function that gives one, optional
        Where the panel starts; left out, the learner's own set-up, or the scene if there is none. When the
        function raises ValueError (a set-up file with a mistake), the panel starts from the scene and says so.
    title : str
    system : str
        "metric" or "imperial", the units at the start.
    steps : sequence of str
        Short lines of what to try, shown one at a time beside the picture.

    Returns
    -------
    Panel
    """
    setup, trouble = _begun(setup)
    return Panel(picture, controls=controls, setup=setup, title=title, system=system, trouble=trouble, steps=steps)


def _begun(setup):
    """The set-up to start from, and a line about why it is not the learner's own."""
    if setup is not None and not callable(setup):
        return setup, ""
    try:
        begun, trouble = own_setup() if setup is None else (setup(), "")
    except ValueError as problem:
        begun, trouble = tea_house(), _one_line(problem)
    return begun, f"{trouble}. Until that is mended, this panel starts from the scene." if trouble else ""


class _PanelFront(GuidedFront, anywidget.AnyWidget):
    """The panel's face in the browser."""

    _esm = script("panel")
    _css = style("panel")
    spec = traitlets.Dict().tag(sync=True)
    state = traitlets.Dict().tag(sync=True)
    picture = traitlets.Bytes().tag(sync=True)
    still = traitlets.Unicode().tag(sync=True)
    step = traitlets.Int(0).tag(sync=True)


class Panel(Guided):
    """Controls, a picture that follows them, and words; made by `live`, shown by being a cell's last line."""

    _drawing = _DRAWING

    def __init__(self, picture, *, controls, setup, title="", system="metric", trouble="", steps=()):
        handles = [handle(control) for control in controls]
        self._handles = {each.name: each for each in handles}
        if len(self._handles) < len(handles):
            raise ValueError("a control is named twice; each may stand in a panel once")
        self._picture, self._size, self.title, self._trouble = picture, picture.size, title, trouble
        self.steps = tuple(steps)
        self._fine = "scale" in inspect.signature(picture.frame).parameters
        self._start = setup, checked_system(system)
        self._listeners = []
        self._set_out()
        self._image, self._image_number = b"", 0
        self._advance({})
        self._draw(moving=False, scale=1.0)
        self._front = _PanelFront(spec=self._spec(), state=self._state(), picture=self._image, still=new_name())
        self._front.on_msg(self._received)

    @property
    def setup(self):
        """The set-up that the picture shows."""
        return self._setup

    @property
    def system(self):
        """The units that the panel speaks in, "metric" or "imperial"."""
        return self._system

    @property
    def values(self):
        """What each control stands for [SI], by path or name."""
        return {name: self._value(each) for name, each in self._handles.items()}

    @property
    def told(self):
        """What the picture says in words."""
        return self._told

    @property
    def error(self):
        """The line of the last change that was not possible, or ""."""
        return self._error

    @property
    def trouble(self):
        """Why the panel does not start from the learner's own set-up, in one line, or ""."""
        return self._trouble

    @trouble.setter
    def trouble(self, line):
        self._trouble = line
        self._front.state = self._state()

    @property
    def image(self):
        """The encoded picture that was drawn last."""
        return self._image

    def set(self, path, value):
        """Change a setting [SI] or an extra from code, as if it had been dragged.

        Raises ValueError with one line when that is impossible; the panel then stays as it is.
        """
        with _DRAWING:
            if path in self._handles:
                each = self._handles[path]
                value = value if each.is_setting else each.values[each.at(value)]
            else:
                field(path)
            self._advance({path: value})
            if self._error:
                line = self._error
                self._wanted.clear()
                # The picture may have moved halfway; this puts it back.
                self._advance({})
                raise ValueError(line)
            self._tell_views()

    def reset(self):
        """Go back to where the panel started."""
        with _DRAWING:
            self._set_out()
            self._advance({})
            self._tell_views()

    def on_change(self, listener):
        """Have `listener(panel)` called whenever the panel has come to rest in a new state."""
        self._listeners.append(listener)

    def close(self):
        """Take the panel off the page and let its picture go. What it stands for can be read as before."""
        with _DRAWING:
            self._front.close()
            self._picture = None
            self._let_go()

    def _ipython_display_(self):
        display_with_still(self._front, self._repr_mimebundle_()[0])

    def _repr_mimebundle_(self, **kwargs):
        """Give the live panel, and for viewers without Python the picture and its words."""
        bundle = self._front._repr_mimebundle_(**kwargs) if self._picture else {}
        data, metadata = bundle if isinstance(bundle, tuple) else (bundle, {})
        words = {"told": self._told, "title": self.title, "trouble": self._trouble, "origin": self._origin_said()}
        data["text/plain"] = VEIL if self.veiled else self._error or still_text(**words)
        if self._image:
            data["text/html"] = still_html(picture=self._image, size=self._size, veiled=self.veiled, **words)
        return data, metadata

    # What is held: the last possible set-up and extras, and what was asked for since then in vain.

    def _set_out(self):
        self._setup, self._system = self._start
        self._extras = {each.name: each.start for each in self._handles.values() if not each.is_setting}
        self._wanted = {}
        self._told, self._error, self._trace, self._notes, self._stopped = NOTHING, "", "", [], ""
        self._fresh = True

    def _value(self, each):
        return value_at(self._setup, each.name) if each.is_setting else self._extras[each.name]

    def _advance(self, moved, system=None):
        """Try to follow what was moved; when that is impossible keep what is, and the reason in one line."""
        self._wanted.update(moved)
        try:
            with warnings.catch_warnings(record=True) as caught:
                warnings.simplefilter("always", OutOfRange)
                self._follow(system or self._system)
        except ValueError as problem:
            self._error, self._trace = _one_line(problem), ""
        except Exception as problem:
            self._error = f"This went wrong: {type(problem).__name__}: {_one_line(problem)}"
            self._trace = traceback.format_exc()
        else:
            self._error = self._trace = ""
            self._notes = _notes(caught)

    def _take_typed(self, typed):
        """Take exactly what was typed, or stay as it was and say why in one line."""
        self._stopped = ""
        try:
            moved = {name: typed_value(self._handles[name], text, self._system) for name, text in typed.items()}
        except ValueError as problem:
            self._stopped = _one_line(problem)
            return
        self._advance(moved)
        if self._error and not self._trace:
            self._stopped = self._error
            self._wanted.clear()
            self._advance({})

    def _stop_on_the_way(self, moved, system):
        """Let sliders that were dragged too far stop at the last place that is possible, and say why they do."""
        reason, handles = self._error, [self._handles[name] for name in moved]
        if not all(each.kind == "range" and each.is_setting for each in handles):
            return
        reached = reachable(self._setup, {each: (self._value(each), moved[each.name]) for each in handles})
        if reached == moved:
            return  # each is possible: it is the picture that cannot follow
        self._wanted.clear()
        self._advance(reached, system)
        ends = ", ".join(f"{each.label} stops at {each.say(self._value(each), self._system)}" for each in handles)
        self._stopped = f"{ends}: {reason[:1].lower()}{reason[1:]}"

    def _follow(self, system):
        if self._picture is None:
            raise ValueError(GONE)
        extras = {name: self._wanted.get(name, value) for name, value in self._extras.items()}
        changes = {path: value for path, value in self._wanted.items() if path not in self._extras}
        setup = change_all(self._setup, changes) if changes else self._setup
        self._picture.system = system
        told = self._picture.update(setup, **extras)
        self._setup, self._extras, self._system, self._told = setup, extras, system, told
        self._wanted.clear()
        self._fresh = True

    def _draw(self, *, moving, scale):
        """Encode the picture of the last possible state; returns False when there is none."""
        if self._error:
            return False
        try:
            kept = {"scale": scale} if self._fine and scale != 1 else {}
            self._image = self._picture.frame(moving=moving, **kept)
        except Exception as problem:
            self._error = f"The picture could not be drawn: {type(problem).__name__}: {_one_line(problem)}"
            self._trace = traceback.format_exc()
            return False
        self._image_number += 1
        return True

    # The talk with the front end.

    def _spec(self):
        controls = [each.as_spec(self._system) for each in self._handles.values()]
        size = list(self._size)
        return {"title": self.title, "size": size, "systems": SYSTEMS, "controls": controls, "steps": self.steps}

    def _state(self):
        return {
            "controls": {name: self._place(each) for name, each in self._handles.items()},
            "readout": self._told.readout,
            "line": self._told.line,
            "tone": self._told.tone,
            "alt": self._told.alt,
            "trouble": self._trouble,
            "notes": self._notes,
            "idle": {name: why for name, why in self._told.idle if name in self._handles},
            "stopped": sentence(self._stopped),
            "error": sentence(self._error),
            "trace": self._trace,
            "kept": bool(self._image),
            "system": self._system,
            "picture": self._image_number,
        }

    def _place(self, each):
        value = self._wanted.get(each.name, self._value(each))
        return [each.at(value), each.say(value, self._system)]

    def _received(self, _front, content, _buffers):
        with _DRAWING:
            start = time.perf_counter()
            try:
                asked = asked_for(content, self._handles)
            except ValueError as problem:
                self._refuse(content, problem)
                return
            state, image = self._answer(asked)
            state |= {key: asked[key] for key in ("view", "number", "hello", "rest")}
            state |= {"took": round(1000 * (time.perf_counter() - start), 2)}
            self._front.send(state, [image] if image else None)
            if asked["rest"]:
                self._call_listeners()

    def _refuse(self, content, problem):
        """Answer a message that cannot be read: what is wrong, and the state that stays."""
        known = content if isinstance(content, dict) else {}
        state = self._state() | {key: known.get(key) for key in ("view", "number")}
        state |= {"error": sentence(f"the panel was sent what it cannot read: {_one_line(problem)}")}
        self._front.send(state | {"rest": True, "hello": None, "took": 0.0}, None)

    def _answer(self, asked):
        """Do what one message asks for; returns the state to tell and the picture to show, if there is one."""
        system, hello, scale = asked["system"], asked["hello"], asked["scale"]
        known = hello and asked["have"] == self._image_number
        if asked["reset"]:
            self._set_out()
        if asked["typed"]:
            self._take_typed(asked["typed"])
        elif asked["moved"] or system or asked["reset"]:
            self._stopped = ""
            self._advance(asked["moved"], system)
            if self._error and asked["moved"]:
                self._stop_on_the_way(asked["moved"], system)
        drawn = not (known and scale == 1) and self._draw(moving=not asked["rest"], scale=scale)
        state = self._state()
        if system or hello or asked["reset"]:
            state["texts"] = self._texts()
        return state, self._image if drawn or (hello and not known) else None

    def _texts(self):
        return {name: each.texts(self._system) for name, each in self._handles.items()}

    def _tell_views(self):
        """Send the present state to every view of this panel, unasked."""
        self._draw(moving=False, scale=1.0)
        state = self._state() | {"view": "", "number": 0, "rest": True, "took": 0, "texts": self._texts()}
        self._front.send(state, [self._image] if self._image else None)
        self._call_listeners()

    def _call_listeners(self):
        if self._fresh:
            self._fresh = False
            for listener in self._listeners:
                listener(self)


def _one_line(problem):
    return " ".join(str(problem).split())


def _notes(caught):
    """The warnings of models that left their range, each once; other warnings go their usual way."""
    notes = []
    for each in caught:
        text = _one_line(each.message)
        if not issubclass(each.category, OutOfRange):
            warnings.warn_explicit(each.message, each.category, each.filename, each.lineno)
        elif text not in notes:
            notes.append(text)
    return notes
