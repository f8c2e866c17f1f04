"""How long a photograph takes, and how much of that is its own splatting.

    python tests/benchmarks/photograph.py [--rounds 15]

Splatting is what no simulated photograph of water can do without: bringing things onto the elements of the frame,
samples (`layers.lay`, `layers.coarsely`), the crown's sheet (`sheet_tracing.Wall.seen`) and the smeared body
(`smear.smeared`). The rest is events, shapes, looks, and turning light into a picture. Budget:
640 x 427 in 40 ms on one core, at most 2.5 times its splatting; a small one in a few ms. Processor time, since other
work may share the machine. Not a test: it prints, and asserts nothing.
"""

import argparse
import os
import statistics
import sys
import time
from dataclasses import replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import numpy as np

from splashlib.picture import photograph
from splashlib.picture.photo import frame
from splashlib.picture.photo.objects import moving_body as bodywork
from splashlib.picture.photo.objects import resting_set as still
from splashlib.picture.photo.water import droplet_clouds as drops
from splashlib.picture.photo.water import sheet_tracing as traced
from splashlib.shoot import change, tea_house, with_body
from splashlib.shoot.chain.events import events

SPENT = []


def timed(function):
    """The function, adding what it takes to SPENT."""

    def wrapped(*args, **more):
        start = time.process_time()
        result = function(*args, **more)
        SPENT.append(time.process_time() - start)
        return result

    return wrapped


def at_contact(setup, after):
    """The set-up with the light a time after contact [s]."""
    when = events(setup)
    return change(setup, "trigger.delay", float(when.contact[0] - when.light[0]) + setup.trigger.delay + after)


def cases():
    """Names and set-ups: from the empty frame to the one with most in it."""
    fruit, milk = tea_house(), with_body(tea_house(), "drop of milk")
    milk = change(
        change(change(milk, "camera.distance", 0.22), "camera.focus_distance", 0.22), "camera.frame_centre", 0.01
    )
    full = replace(fruit, flashes=(replace(fruit.flashes[0], power=1.0),))
    slow = change(change(fruit, "flashes.0.kind", "voltage_controlled"), "flashes.0.power", 1 / 64)
    heads = replace(fruit, flashes=(fruit.flashes[0], replace(fruit.flashes[0], route_lag=0.001)))
    return {
        "fruit over the water": at_contact(fruit, -0.005),
        "fruit going in": at_contact(fruit, 0.009),
        "crown": at_contact(fruit, 0.035),
        "jet": at_contact(fruit, 0.13),
        "crown, full power": at_contact(full, 0.035),
        "crown, two heads": at_contact(heads, 0.035),
        "crown of milk": at_contact(milk, 0.012),
        "crown, 12 ms of light": at_contact(slow, 0.035),
    }


def measure(setup, size, rounds, rng=None):
    """Median milliseconds of a photograph, and of the splatting in it."""
    photograph(setup, size=size)
    whole, splat = [], []
    for number in range(rounds):
        SPENT.clear()
        start = time.process_time()
        photograph(setup, size=size, rng=rng and np.random.default_rng(number))
        whole.append(time.process_time() - start)
        splat.append(sum(SPENT))
    return 1000 * statistics.median(whole), 1000 * statistics.median(splat)


def cold(setup, size):
    """Milliseconds when only the still set has to be drawn anew, as after a change of lens or lamp."""
    still.still.cache_clear()
    start = time.process_time()
    photograph(setup, size=size)
    return 1000 * (time.process_time() - start)


def main():
    """Print the table."""
    rounds = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    rounds.add_argument("--rounds", type=int, default=15)
    rounds = rounds.parse_args().rounds
    frame.lay, bodywork.smeared = timed(frame.lay), timed(bodywork.smeared)
    drops.coarsely, traced.Wall.seen = timed(drops.coarsely), timed(traced.Wall.seen)
    print(f"{'':24}{'640 x 427':>28}{'320 x 213':>12}{'new set':>10}")
    print(f"{'':24}{'ms':>8}{'splatting':>12}{'ratio':>8}{'ms':>12}{'ms':>10}")
    for name, setup in cases().items():
        whole, splat = measure(setup, (640, 427), rounds)
        small, _ = measure(setup, (320, 213), rounds)
        new = cold(setup, (320, 213))
        print(f"{name:24}{whole:8.1f}{splat:12.1f}{whole / splat:8.2f}{small:12.1f}{new:10.1f}")
    whole, splat = measure(cases()["crown"], (640, 427), rounds, rng=True)
    print(f"{'crown, drawn, with noise':24}{whole:8.1f}{splat:12.1f}{whole / splat:8.2f}")


if __name__ == "__main__":
    main()
