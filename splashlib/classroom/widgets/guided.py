"""What a lesson lays over its panel: a veil until a guess is made, and on the second day the choice where it begins."""

from types import SimpleNamespace

import traitlets

from splashlib.shoot import my_setup_path, value_at

VEIL = "Veiled until you have noted your guess further up: what the panel says, and what follows below."
SHOWN = {"": "", "scene": "It shows the scene of the course.", "mine": "It shows your own set-up, from {file}."}
PARTS = ("_handles", "_picture", "_size", "_fine", "_start")  # what belongs to the set-up that a panel begins from


class GuidedFront(traitlets.HasTraits):
    """What the front end needs for it."""

    veil = traitlets.Unicode().tag(sync=True)
    waived = traitlets.Bool(False).tag(sync=True)
    origin = traitlets.Dict().tag(sync=True)
    chosen = traitlets.Unicode().tag(sync=True)


class Guided:
    """The part of `Panel` that lessons use."""

    _guess, _origin, _origins, _unseen = None, "", {}, ()

    @property
    def origin(self):
        """What the panel began from where there is a choice, "scene" or "mine"; else ""."""
        return self._origin

    @property
    def begun(self):
        """The set-up and the values of the controls [SI] with which the panel began, as `setup` and `values`."""
        setup = self._start[0]
        values = {
            name: value_at(setup, name) if each.is_setting else each.start for name, each in self._handles.items()
        }
        return SimpleNamespace(setup=setup, values=values)

    def offer(self, scene):
        """Let the learner choose between the scene and the own set-up, from which this panel began.

        Parameters
        ----------
        scene : function without arguments that builds the same panel from the scene
        """
        self._origins, self._origin = {"mine": lambda: self._parts(mine), "scene": lambda: self._parts(scene())}, "mine"
        self._unseen = []
        mine = SimpleNamespace(**{name: getattr(self, name) for name in PARTS}, _front=None)
        self._front.origin = self._origin_told()
        self._front.observe(lambda change: self.begin_from(change["new"]), "chosen")

    def begin_from(self, origin):
        """Begin from the "scene" or from "mine", where that is offered, with handles and picture that belong to it."""
        if origin == self._origin or origin not in self._origins:
            return
        with self._drawing, self._front.hold_sync():
            parts = self._origins[origin]()
            self._origins[origin] = lambda: parts
            for name, part in parts.items():
                setattr(self, name, part)
            self._origin = origin
            self._set_out()
            self._advance({})
            self._draw(moving=False, scale=1.0)
            self._front.spec, self._front.state, self._front.picture = self._spec(), self._state(), self._image
            self._front.chosen, self._front.origin = origin, self._origin_told()
            self._call_listeners()

    def _parts(self, panel):
        if panel._front is not None:
            self._unseen.append(panel._front)
        return {name: getattr(panel, name) for name in PARTS}

    def _origin_said(self):
        return SHOWN[self._origin].format(file=my_setup_path().name)

    def _origin_told(self):
        return {"now": self._origin, "file": my_setup_path().name}

    @property
    def veiled(self):
        """Whether the browser still hides what the picture tells."""
        return self._guess is not None and not self._guess.made

    def veil(self, guess):
        """Hide in the browser what the picture tells until a guess is made; `told` stays as it is.

        Parameters
        ----------
        guess : splashlib.classroom.record.guess.Guess
        """
        self._guess = guess
        self._front.observe(lambda change: guess.waive() if change["new"] else None, "waived")
        guess.on_change(self._lift)
        self._lift()

    def _let_go(self):
        """Hold no pictures, and be held by no exercises, any more."""
        self._origins = {}
        # Not before: a browser that still makes a widget complains of one that is gone.
        for front in self._unseen:
            front.close()
        if self._guess is not None:
            self._guess.off_change(self._lift)

    def _lift(self):
        self._front.veil = VEIL if self.veiled else ""
