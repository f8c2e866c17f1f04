"""Whether a prediction was noted, or waived, before the panel that shows how it turns out."""


class Guess:
    """The guess that belongs before a panel; made by `Exercises.guess`.

    Parameters
    ----------
    exercises : Exercises
    name : the question that is predicted
    """

    def __init__(self, exercises, name):
        self._exercises, self._name = exercises, exercises[name].name

    @property
    def made(self):
        """Whether the panel may tell what it knows."""
        return self._exercises.prediction(self._name) is not None or self._exercises.waived(self._name)

    def waive(self):
        """Go on without a guess, also on the next day."""
        self._exercises.waive(self._name)

    def on_change(self, observer):
        """Have `observer()` called whenever something was noted, waived or answered."""
        self._exercises.on_change(observer)

    def off_change(self, observer):
        """Call `observer` no more."""
        self._exercises.off_change(observer)
