"""The panels of a lesson: shown in one cell, remembered for the card at the lesson's end."""

from splashlib.classroom.widgets.decision_card import keep


class LessonPanel:
    """One panel of a lesson.

    Parameters
    ----------
    build : function without arguments that makes the `Panel`
    """

    def __init__(self, build):
        self._build = build
        self._shown = None

    def show(self, guess=None):
        """Make the panel anew, and remember it; shown by being a cell's last line.

        The one before is closed: whatever a kernel has shown it would keep until its end, some 10 MB each time.

        Parameters
        ----------
        guess : splashlib.classroom.record.guess.Guess, optional
            Until it is made, the panel keeps to itself in the browser how things turn out.
        """
        before, self._shown = self._shown, self._made()
        if before is not None:
            before.close()
        if guess is not None:
            self._shown.veil(guess)
        return self._shown

    @property
    def last(self):
        """The panel that was shown last; where none was, one as it would be shown."""
        return self._shown or self._made()

    def _made(self):
        """The panel; from the scene, which the steps of the lesson speak of, where there is a choice."""
        panel = self._build()
        panel.begin_from("scene")
        return panel


def keep_panels(*panels, decided, chosen=None):
    """Make the card that writes what was dragged in a lesson's panels into the learner's own set-up.

    Parameters
    ----------
    panels : LessonPanel
    decided : sequence of str, the settings that the lesson decides
    chosen : function that takes the panels and gives the Setup that they stand for; left out, the first one's own

    Returns
    -------
    Keep
    """
    shown = [each.last for each in panels]
    if chosen is None:
        return keep(shown[0], decided)
    return keep(lambda: chosen(*shown), decided, panels=shown, decide=chosen)
