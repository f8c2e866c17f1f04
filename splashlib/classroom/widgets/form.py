"""The form under a question: a thin face of Exercises in the browser."""

import traceback

import anywidget
import traitlets

from splashlib.classroom.judges.replies import Reply
from splashlib.classroom.questions.wording import to_html
from splashlib.classroom.widgets.form_card import card, still_html, typed_again
from splashlib.classroom.widgets.front_end import script, style
from splashlib.classroom.widgets.saved_view import display_with_still, new_name


class _FormFront(anywidget.AnyWidget):
    """The form's face in the browser."""

    _esm = script("form")
    _css = style("form")
    card = traitlets.Dict().tag(sync=True)
    reply = traitlets.Dict().tag(sync=True)
    typed = traitlets.Dict().tag(sync=True)
    still = traitlets.Unicode().tag(sync=True)


class _Shown:
    """Something with a front end and, for viewers without Python, a still of its question."""

    def _ipython_display_(self):
        display_with_still(self._front, self._repr_mimebundle_()[0])

    def _repr_mimebundle_(self, **kwargs):
        """Give the live form, and for viewers without Python the question alone."""
        bundle = self._front._repr_mimebundle_(**kwargs)
        data, metadata = bundle if isinstance(bundle, tuple) else (bundle, {})
        shown = self._front.card
        data["text/html"] = still_html(shown, self._front.reply)
        data["text/plain"] = f"{shown['kicker']} ({self.name})"
        return data, metadata


class Form(_Shown):
    """A question with its field and buttons; shown by being a cell's last line.

    Parameters
    ----------
    exercises : Exercises
    name : the question's name
    mode : "ask", or "predict" for a question that is noted and not judged
    """

    def __init__(self, exercises, name, *, mode="ask"):
        self.exercises, self.name, self.mode = exercises, name, mode
        self._helps, self._hints, self._acts = [], 0, 0
        self._front = _FormFront(card=self._card(), reply={}, still=new_name())
        self._begin()
        self._front.on_msg(self._received)

    @property
    def variant(self):
        """Which numbers it asks with."""
        return self._front.card["variant"]

    @property
    def reply(self):
        """What the front end shows as the last reply."""
        return self._front.reply

    def _card(self):
        return card(self.exercises[self.name], self.exercises.variant(self.name), mode=self.mode)

    def _begin(self):
        """Begin with the last answer to these numbers and its reply, or with the prediction."""
        reply, record = None, None
        if self.mode == "predict":
            reply = self.exercises.foretold(self.name, self.variant)
            record = reply and self.exercises.prediction(self.name)[0]
        else:
            reply = self.exercises.recalled(self.name, self.variant)
            record = reply and self.exercises.remembered(self.name).last(self.variant).record
        shown = _shown(reply) if reply else {}
        answer = typed_again(self.exercises[self.name], record) if record else {}
        self._front.typed = {"variant": self.variant, "answer": answer} if answer else {}
        self._front.reply = {**shown, "number": 0, "solved": self._solved()}

    def _solved(self):
        return self.mode == "ask" and self.exercises.remembered(self.name).solved

    def _received(self, _front, content, _buffers):
        try:
            self.act(content.get("act"), content.get("answer") or {})
        except Exception as problem:
            line = " ".join(str(problem).split())
            text = f"This went wrong here, not in your answer: {type(problem).__name__}: {line}"
            self._show(Reply("unreadable", text), trace=traceback.format_exc())

    def act(self, act, answer):
        """Do what a button asks for: "check", "note", "hint", "worked" or "fresh"."""
        given, unit = _given(answer)
        with self.exercises.lock:
            if act == "check":
                self._show(self.exercises.answer(self.name, given, unit, self.variant))
            elif act == "note":
                self._show(self.exercises.note(self.name, given, unit, variant=self.variant))
            elif act == "hint":
                self._hint()
            elif act == "worked":
                self._help(act, self.exercises.worked(self.name, variant=self.variant))
            elif act == "fresh":
                self._fresh()
            else:
                raise ValueError(f"there is no button {act!r}")

    def _fresh(self):
        self.exercises.fresh(self.name)
        self._helps, self._hints = [], 0
        self._front.card = self._card()
        self._show(Reply("told", "New numbers. The question above has changed."))

    def _hint(self):
        # That there are no more is said, and is no hint: it is not kept.
        counts = self._hints < len(self.exercises[self.name].hints)
        self._help("hint", self.exercises.hint(self.name, number=self._hints, variant=self.variant), counts=counts)
        self._hints += 1

    def _help(self, act, reply, *, counts=True):
        shown = _shown(reply)
        if shown not in self._helps:
            self._helps.append(shown)
            if counts:
                self.exercises.took(self.name, act, self.variant)
        self._show(None)

    def _show(self, reply, *, trace=""):
        """Show a reply; None keeps the one that is there."""
        self._acts += 1
        kept = {key: self._front.reply.get(key, "") for key in ("html", "outcome")}
        shown = kept if reply is None else _shown(reply)
        # The count makes every reply a new one: the same text twice is still an answer.
        told = {"helps": list(self._helps), "trace": trace, "number": self._acts, "solved": self._solved()}
        self._front.reply = {**shown, **told}


def _shown(reply):
    return {"html": to_html(reply.markdown), "outcome": reply.outcome}


def _given(answer):
    """What the front end sent, as an answer and a unit."""
    if "option" in answer:
        return answer["option"], None
    if "settings" in answer:
        return answer["settings"] or None, None
    return answer.get("text"), answer.get("unit") or None


class LookBack(_Shown):
    """A prediction beside what was found; follows when the prediction is noted later."""

    def __init__(self, exercises, name):
        self.exercises, self.name = exercises, name
        shown = card(exercises[name], exercises.variant(name), mode="look_back")
        self._front = _FormFront(card=shown, reply={}, still=new_name())
        self.refresh()

    def refresh(self):
        """Read the prediction again."""
        said, found = self.exercises.looked_back(self.name)
        self._front.reply = {**_shown(said), "helps": [], "trace": "", "found": to_html(found)}
