"""The named numbers of one home: a function each that computes the value [SI], by what it measures."""

import difflib
import re
from functools import partial

from splashlib.classroom.prose import placeholder
from splashlib.classroom.questions.units import UNITS

KINDS = {re.sub(r"\W+", "_", measures): measures for measures in [unit.measures for unit in UNITS.values()] + ["count"]}
"""Keyword and kind: number_of_stops="number of stops", f_number="f-number" ..."""
_NAMED = re.compile(r"\[\[([a-z][a-z0-9_.]*) ")


class Numbers:
    """What the words of a lesson may state, computed from the library when it is asked for.

    numbers = Numbers(time={"lead": lambda: lead(tea_house())}, length={...}, also=SCENE_NUMBERS)

    Each keyword is what its numbers measure, a kind of `splashlib.classroom.questions.units` written with underscores
    (`number_of_stops`, `f_number`) or `count`; its dict gives a name and a function of nothing that returns the value
    [SI]. A unit of another kind is then refused. `also` are the numbers that several lessons state.
    """

    def __init__(self, *, also=None, **by_measure):
        self.also, self._find, self._measures, self._known = also, {}, {}, {}
        for keyword, named in by_measure.items():
            if keyword not in KINDS:
                raise ValueError(f'there is no kind of number "{keyword}"; kinds are {", ".join(sorted(KINDS))}')
            for name, find in named.items():
                if name in self._find or (also and name in also):
                    raise ValueError(f"the number {name} is named twice")
                self._find[name], self._measures[name] = find, KINDS[keyword]

    def __contains__(self, name):
        return name in self._find or (self.also is not None and name in self.also)

    @property
    def names(self):
        """The names of this home, without those of `also`."""
        return tuple(self._find)

    def value(self, name):
        """The value [SI] of a name; ValueError for an unknown one, or if it cannot be computed."""
        if name not in self._find:
            if self.also is not None and name in self.also:
                return self.also.value(name)
            raise ValueError(f"there is no number {name}{self._nearest(name)}")
        if name not in self._known:
            try:
                self._known[name] = float(self._find[name]())
            except Exception as error:
                raise ValueError(f"it cannot be computed: {type(error).__name__}: {error}") from error
        return self._known[name]

    def measures(self, name):
        """What a name measures: "time", "length" ..."""
        return self._measures[name] if name in self._measures else self.also.measures(name)

    def say(self, asked):
        """The words for a placeholder; ValueError if there are none."""
        value = self.value(asked.name)
        return asked.say(value, self.measures(asked.name))

    def fill(self, text, *, where="the text"):
        """A text with its [[name to 1 ms]] filled in; ProseError names file, line and placeholder."""
        return placeholder.fill(text, self.say, where=where)

    def _nearest(self, name):
        known = [*self.names, *(self.also.names if self.also else ())]
        close = difflib.get_close_matches(name, known, n=1, cutoff=0.5)
        return f"; the nearest is {close[0]}" if close else ""


def band(name, find, *parts):
    """Names for the parts of a band, such as crown.early, crown.likely and crown.late.

    Parameters: name; find, a function that returns the band: a tuple of three, or something with attributes early,
    likely, late; parts, which of them, all without it.
    """
    order = ("early", "likely", "late")

    def part(which):
        found = find()
        return found[order.index(which)] if isinstance(found, tuple) else getattr(found, which)

    return {f"{name}.{which}": partial(part, which) for which in parts or order}


def named_in(text):
    """The names of all placeholders of a text, be it prose or Python."""
    return set(_NAMED.findall(text))
