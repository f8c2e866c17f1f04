"""A small panel of the tests: two sliders, a dot that follows them, and ways to go wrong."""

import warnings

from splashlib.classroom.widgets.controls import Control, Pick, Toggle
from splashlib.classroom.widgets.panel import live
from splashlib.physics.checks import OutOfRange
from splashlib.picture.kit.canvas import Description, Layered
from splashlib.shoot import show, tea_house


class Dot(Layered):
    """A dot at the release height; red pixels tell where it is."""

    size = (900, 400)

    def build(self, figure):
        axes = figure.add_axes([0.08, 0.14, 0.88, 0.76])
        axes.set(xlim=(0, 300), ylim=(0, 150), xlabel="delay, ms", title="Release height, cm")
        (self.dot,) = axes.plot([0], [0], "o", ms=16, color="#ff0000", mew=0)
        self.axes = axes
        return (self.dot,)

    def update(self, setup, *, clock=0.0, mood="calm", odd=False):
        height, delay = setup.drop.release_height, setup.trigger.delay
        self.dot.set_data([1000 * delay], [100 * height])
        if mood == "impossible":
            raise ValueError("mood is impossible; it must be calm")
        if mood == "broken":
            raise RuntimeError("a bug in the picture")
        if mood == "far":
            warnings.warn("the model ends at 1 m", OutOfRange, stacklevel=2)
        said = show("drop.release_height", height, self.system)
        late = show("trigger.delay", delay, self.system)
        rows = (("Release height", said), ("Delay", late), ("Clock", f"{1000 * clock:.0f} ms"))
        tone = "good" if height < 1 else "warning"
        return Description(rows, f"A dot at {said} and {late}.", f"The dot is at {said}.", tone)

    def place(self):
        """Where the dot's middle must be in the picture: column and row."""
        x, y = self.axes.transData.transform(self.dot.get_xydata()[0])
        return x, self.size[1] - y


MOODS = ("calm", "far", "impossible", "broken", "odd")


def demo(**more):
    """The panel."""
    controls = (
        "drop.release_height",
        "trigger.delay",
        "flashes.0.power",
        "camera.style",
        Control("clock", "Clock", "ms", 0, 200, 1, 40),
        Pick("mood", "Mood", MOODS),
        Toggle("odd", "Odd"),
    )
    more = {"controls": controls, "setup": tea_house(), "title": "A dot for the tests"} | more
    return live(Dot(), **more)
