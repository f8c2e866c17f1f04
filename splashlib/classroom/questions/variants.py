"""From a variant, an integer that the learner sees, to the numbers of a question."""

import math
from collections.abc import Mapping
from random import Random

from splashlib.classroom.questions.wording import digits_of
from splashlib.physics.constants import GOLDEN_SECTION

LARGEST = 10**9


class Values(Mapping):
    """The displayed numbers of a variant: v.height_cm or v["height_cm"]."""

    def __init__(self, numbers):
        self.__dict__.update(numbers)

    def __getitem__(self, name):
        return self.__dict__[name]

    def __iter__(self):
        return iter(self.__dict__)

    def __len__(self):
        return len(self.__dict__)

    def __repr__(self):
        return f"Values({', '.join(f'{name}={value!r}' for name, value in self.items())})"


def whole(variant):
    """The variant as an int, or one clear line."""
    if isinstance(variant, bool) or not hasattr(variant, "__index__"):
        raise ValueError(f"variant is {variant!r}; it must be a whole number, such as 1")
    if not -LARGEST <= variant.__index__() <= LARGEST:
        raise ValueError(f"variant must be a whole number from {-LARGEST} to {LARGEST}")
    return variant.__index__()


def stride(total):
    """A step that visits all of `total` combinations and changes every list from one variant to the next."""
    step = max(1, round(GOLDEN_SECTION * total))
    while math.gcd(step, total) != 1:
        step += 1
    return step


def combination(lists, index):
    """The index-th combination of a dict of lists."""
    picked = {}
    for name, choices in lists.items():
        index, place = divmod(index, len(choices))
        picked[name] = choices[place]
    return picked


def count(lists):
    """How many combinations there are."""
    return math.prod(len(choices) for choices in lists.values())


def rounded(value):
    """A displayed number is rounded to three digits before anything is computed from it."""
    return float(digits_of(value)) if isinstance(value, float) else value


def candidates(question, variant):
    """Sensible numbers for a variant, the first choice first."""
    total = count(question.draw)
    # Variant 1 takes the first number of each list: the place for the numbers of the scene.
    first = (whole(variant) - 1) * stride(total)
    for step in range(total):
        values = combination(question.draw, (first + step) % total)
        if question.also:
            values |= {name: rounded(value) for name, value in question.also(Values(values)).items()}
        values = Values(values)
        if question.keep is None or question.keep(values):
            yield values


def order(question, variant):
    """The options of a choice in the order of a variant. Uses a generator of its own."""
    options = list(question.options)
    Random(f"{question.name}:{whole(variant)}").shuffle(options)
    return options


def drawn_inputs(question, variant):
    """The inputs that a learner's function is called with: `cases` different combinations."""
    total = count(question.inputs)
    step, first = stride(total), (whole(variant) - 1) * question.cases
    cases = range(min(question.cases, total))
    return [combination(question.inputs, (first + k) * step % total) for k in cases]
