"""What the learner's file gives back of one question: its numbers, the last answer, whether it is solved."""

import json

from splashlib.classroom.questions.variants import LARGEST


class Remembered:
    """The acts of one learner on one question, oldest first.

    Parameters
    ----------
    acts : sequence of Attempt
        Those with numbers that no question has (a file may come from anywhere) are passed over.
    """

    def __init__(self, acts):
        self._acts = [each for each in acts if abs(each.variant) <= LARGEST]

    @property
    def variant(self):
        """The numbers that were used last, or None."""
        return self._acts[-1].variant if self._acts else None

    @property
    def solved(self):
        """Whether it was answered right once, with whichever numbers."""
        return any(each.outcome == "right" for each in self._of("answer"))

    @property
    def waived(self):
        """Whether it was said that there will be no guess."""
        return bool(self._of("waived"))

    def last(self, variant, act="answer"):
        """The last answer (or prediction) with these numbers, or None."""
        found = [each for each in self._of(act) if each.variant == variant]
        return found[-1] if found else None

    def holds(self, record, variant, outcome, act="answer"):
        """Whether the same answer with the same numbers and the same reply was kept before."""
        same = json.dumps(record)
        found = (each for each in self._of(act) if (each.variant, each.outcome) == (variant, outcome))
        return any(json.dumps(each.record) == same for each in found)

    def right_with(self, record):
        """The numbers for which this very answer was right, or None."""
        same = json.dumps(record)
        found = (each for each in reversed(self._of("answer")) if each.outcome == "right")
        return next((each.variant for each in found if json.dumps(each.record) == same), None)

    def _of(self, act):
        return [each for each in self._acts if each.act == act]
