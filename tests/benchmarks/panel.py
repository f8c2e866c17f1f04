"""How fast the picture follows the hand: our panel, the usual way, and the bare widget, in one run.

    python tests/benchmarks/panel.py [--presses 40] [--lessons start camera freeze]

(a) interact with the inline backend, (b) our panel with the same figure, (c) the bare round trip of a widget
(slider to kernel, constant bytes back into an Image), and with --lessons (d) the panels of lessons, their first slider.
The kernel's part is the time a change takes there; the browser's part runs from the key press to the new picture.
Cases take turns within the run, since a machine's speed drifts. Not a test: it prints, and asserts nothing.
"""

import argparse
import statistics
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.browser.harness import CHROMIUM_FLAGS, NotebookPage, Server, find_chromium, notebook_of

FIGURE = """
import time
import numpy as np
TOOK = []
X = np.linspace(0, 300, 400)
DISC = np.hypot(*np.mgrid[-150:150, -150:150]) / 150

def way(height):
    return np.clip(100 * height - 490.5 * (X / 1000) ** 2, 0, None)

def photo(delay):
    return np.clip(1.2 - np.abs(DISC - 1000 * delay / 300), 0, 1)

def dress(left, right):
    left.set(xlim=(0, 300), ylim=(0, 160), xlabel="delay, ms", ylabel="height, cm", title="Fall")
    left.grid()
    right.set(title="Picture", xlabel="column", ylabel="row")
"""
USUAL = """
%matplotlib inline
import ipywidgets
import matplotlib.pyplot as plt

def draw(height=0.45, delay=0.05):
    start = time.perf_counter()
    figure, (left, right) = plt.subplots(1, 2, figsize=(9, 4), dpi=100)
    dress(left, right)
    curve = way(height)
    here = np.interp(1000 * delay, X, curve)
    left.plot(X, curve, label="way")
    left.axvspan(1000 * delay - 5, 1000 * delay + 5, alpha=0.3)
    left.plot([1000 * delay], [here], "o", ms=10)
    left.plot([300 * (height / 4.9) ** 0.5], [0], "v", ms=9)
    left.annotate(f"{here:.0f} cm", (1000 * delay, here), (20, 12), textcoords="offset points")
    left.text(150, 140, f"delay {1000 * delay:.1f} ms")
    left.legend(loc="upper right")
    right.imshow(photo(delay), cmap="gray", vmin=0, vmax=1)
    plt.show()
    TOOK.append(1000 * (time.perf_counter() - start))

ipywidgets.interact(
    draw,
    height=ipywidgets.FloatSlider(0.45, min=0.05, max=1.5, step=0.005),
    delay=ipywidgets.FloatSlider(0.05, min=0, max=0.3, step=0.0005),
)
"""
OURS = """
from splashlib.classroom.widgets.panel import live
from splashlib.picture.kit.canvas import Layered, Pixels, Description
from splashlib.shoot import tea_house

class Two(Layered):
    size = (900, 400)

    def build(self, figure):
        left = figure.add_axes([0.07, 0.14, 0.4, 0.76])
        right = figure.add_axes([0.57, 0.14, 0.335, 0.75])
        dress(left, right)
        right.set(xlim=(0, 300), ylim=(300, 0))
        (self.curve,) = left.plot(X, X, label="way")
        self.band = left.axvspan(0, 10, alpha=0.3)
        (self.dot,) = left.plot([0], [0], "o", ms=10)
        (self.mark,) = left.plot([0], [0], "v", ms=9)
        self.note = left.annotate("", (0, 0), (20, 12), textcoords="offset points")
        self.said = left.text(150, 140, "")
        left.legend(loc="upper right")
        self.image = Pixels(right)
        return self.curve, self.band, self.dot, self.mark, self.note, self.said, self.image

    def update(self, setup, **extras):
        height, delay = setup.drop.release_height, setup.trigger.delay
        curve = way(height)
        here = np.interp(1000 * delay, X, curve)
        self.curve.set_ydata(curve)
        self.band.set_x(1000 * delay - 5)
        self.dot.set_data([1000 * delay], [here])
        self.mark.set_data([300 * (height / 4.9) ** 0.5], [0])
        self.note.xy = (1000 * delay, here)
        self.note.set_text(f"{here:.0f} cm")
        self.said.set_text(f"delay {1000 * delay:.1f} ms")
        gray = (255 * photo(delay)).astype(np.uint8)
        self.image.show(np.repeat(gray[:, :, None], 3, axis=2))
        return Description((("Height", f"{here:.0f} cm"),), f"A fall, at {here:.0f} cm when the light comes.")

panel = live(Two(), controls=("drop.release_height", "trigger.delay"), setup=tea_house())
panel
"""
BARE = """
import io
import ipywidgets
from PIL import Image
out = io.BytesIO()
patches = (255 * np.random.default_rng(1).random((8, 8, 3))).astype(np.uint8)
Image.fromarray(patches).resize((900, 400)).save(out, "JPEG")
ONE, OTHER = out.getvalue(), out.getvalue() + b" "
slider = ipywidgets.IntSlider(0, min=0, max=1000, description="bare")
shown = ipywidgets.Image(value=ONE, format="jpeg", width=900, height=400)

def change(_):
    start = time.perf_counter()
    shown.value = OTHER if shown.value == ONE else ONE
    TOOK.append(1000 * (time.perf_counter() - start))

slider.observe(change, "value")
ipywidgets.VBox([slider, shown])
"""
LESSON = "from lessons.{} import panel\nshown = panel.panel()\nshown"

# Dates, in the page, every key press and every picture that was loaded after it.
WATCH = """() => {
    window.pressed = []; window.seen = [];
    document.addEventListener('keydown', () => window.pressed.push(performance.now()), true);
    document.addEventListener('load', (event) => {
        if (event.target.tagName === 'IMG' && event.target.closest('.jp-Notebook')) {
            requestAnimationFrame(() => window.seen.push(performance.now()));
        }
    }, true);
}"""


class Case:
    """One way to show a picture under a slider, open in a page of its own."""

    def __init__(self, name, page, *, handle, took):
        self.name, self.page, self.handle, self.took = name, page, handle, took
        self.browser, self.kernel = [], []

    def ready(self):
        self.page.run_all()
        self.page.page.locator(self.handle).first.wait_for()
        self.page.page.wait_for_timeout(1500)
        self.page.page.evaluate(WATCH)

    def press(self, times):
        """Press the key, wait for the picture, and again."""
        inner = self.page.page
        inner.bring_to_front()
        handle = inner.locator(self.handle).first
        handle.focus()
        for _ in range(times):
            inner.evaluate("() => { window.pressed = []; window.seen = []; }")
            at_its_end = handle.evaluate("(slider) => Number(slider.value) >= Number(slider.max)")
            inner.keyboard.press("ArrowLeft" if at_its_end else "ArrowRight")
            inner.wait_for_function("() => window.seen.length > 0", polling=5)
            self.browser.append(inner.evaluate("() => window.seen[0] - window.pressed[0]"))
            inner.wait_for_timeout(450)
            self.kernel.append(self.took(self.page))


def last_took(page):
    """The kernel's own clock, of the cases that keep a list."""
    return page.python("TOOK[-1]")


def moving_took(page):
    """What the panel's kernel side told of its last moving frame; the page keeps it."""
    return page.page.evaluate("() => window.movingTook")


KEEP_TOOK = """() => {
    const root = document.querySelector('.splash');
    new MutationObserver(() => {
        if (root.dataset.phase === 'moving') window.movingTook = Number(root.dataset.took);
    }).observe(root, {attributes: true, attributeFilter: ['data-took']});
}"""


def p95(values):
    return sorted(values)[min(len(values) - 1, round(0.95 * len(values)))]


def report(cases):
    print(f"{'':34}{'kernel ms':>20}{'key press to picture ms':>28}")
    print(f"{'':34}{'median':>10}{'p95':>10}{'median':>18}{'p95':>10}{'n':>5}")
    for case in cases:
        kernel, browser = case.kernel, case.browser
        numbers = statistics.median(kernel), p95(kernel), statistics.median(browser), p95(browser), len(browser)
        print(f"{case.name:34}{numbers[0]:10.1f}{numbers[1]:10.1f}{numbers[2]:18.0f}{numbers[3]:10.0f}{numbers[4]:5}")
    usual, bare, *ours = cases
    for case in ours:
        kernel = statistics.median(usual.kernel) / statistics.median(case.kernel)
        browser = statistics.median(usual.browser) / statistics.median(case.browser)
        trip = statistics.median(case.browser) / statistics.median(bare.browser)
        print(f"{case.name}: {kernel:.1f} times faster in the kernel (goal 10), {browser:.1f} times in the browser")
        print(f"    (goal 4), {trip:.2f} times the bare round trip (goal 1.5)")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--presses", type=int, default=40, help="key presses for each case")
    parser.add_argument("--lessons", nargs="*", default=[], metavar="LESSON", help="measure the panels of these too")
    wanted = parser.parse_args()
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, Server(folder) as server, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=find_chromium(playwright), args=CHROMIUM_FLAGS)
        measure(browser, server, wanted)
        browser.close()


def measure(browser, server, wanted):
    noui, ours = ".jp-OutputArea .noUi-handle", ".splash input[type=range]"
    plans = [
        ("interact, inline backend", [FIGURE, USUAL], noui, last_took),
        ("bare widget round trip", [FIGURE, BARE], noui, last_took),
        ("our panel, same figure", [FIGURE, OURS], ours, moving_took),
    ]
    plans += [(f"the panel of {name}", [LESSON.format(name)], ours, moving_took) for name in wanted.lessons]
    cases = []
    for name, cells, handle, took in plans:
        page = NotebookPage(browser, server, notebook_of(*cells)).__enter__()
        cases.append(Case(name, page, handle=handle, took=took))
        cases[-1].ready()
        if took is moving_took:
            page.page.evaluate(KEEP_TOOK)
    turns = 4
    for _ in range(turns):
        for case in cases:
            case.press(max(1, wanted.presses // turns))
    report(cases)
    for case in cases:
        case.page.__exit__(None, None, None)


if __name__ == "__main__":
    main()
