"""Valid set-ups through every panel: each is drawn, and says plain words only.

    python -m tests.hard.set_ups 5000 [FIRST]

The set-ups are those of `photographs`, a third of them from anywhere in the table of settings. For each set-up every
panel is told of it in one of the ways in which it is shown, metric and imperial in turn, and one in ten is drawn.
"""

import resource
import sys
import time

from tests.hard.photographs import setup_of
from tests.picture.panels.every_panel import SYSTEMS, every_panel, not_plain, said


def faults(panels, number):
    """What goes wrong with the set-up of a number, a line for each panel; [] where nothing does."""
    setup, found = setup_of(number), []
    for picture, variants in panels.items():
        name = type(picture).__name__
        try:
            texts = said(picture, setup, variants[number % len(variants)], SYSTEMS[number % 2])
            if number % 10 == 0:
                picture.frame(moving=number % 20 == 0)
        except Exception as problem:
            found.append(f"{number} {name}: {type(problem).__name__}: {problem}"[:300])
            continue
        found += [f"{number} {name}: {text}"[:300] for text in not_plain(texts, setup)]
    return found


def run(count, first=0):
    """Try so many set-ups; returns the lines of what went wrong."""
    panels, found = every_panel(), []
    for number in range(first, first + count):
        found += faults(panels, number)
        if __name__ == "__main__" and (number + 1 - first) % 250 == 0:
            print(
                f"{number + 1 - first} set-ups after {time.process_time():.0f} s of work, {len(found)} fell", flush=True
            )
    return found


def main(arguments):
    """Try so many, and print what fell."""
    count, first = (int(arguments[place]) if len(arguments) > place else usual for place, usual in ((0, 5000), (1, 0)))
    found = run(count, first)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{count} set-ups through every panel, {len(found)} lines fell; {most:.0f} MB at the most")
    print("\n".join(found[:40]))


if __name__ == "__main__":
    main(sys.argv[1:])
