"""The picture of the lesson `splash`: the splash at one instant, its stages on a clock, the delay for it."""

from typing import ClassVar

from splashlib.picture.kit import style
from splashlib.picture.kit.canvas import Layered, Pixels, jpeg
from splashlib.picture.kit.lettering import write
from splashlib.picture.photo.photograph import photograph
from splashlib.picture.splash.splash_words import told
from splashlib.picture.splash.stage_chart import StageChart, most_likely
from splashlib.shoot import splash
from splashlib.shoot.decide.delays import bare_delay
from splashlib.shoot.decide.splash_camera import in_hand, on_the_clock

PHOTO = (8, 8, 384, 584)
"""Left, top, width and height of the photograph [pixels]."""
SOLID_SPANS = ((-0.025, 0.400), (-0.025, 0.700))
DROP_SPANS = ((-0.010, 0.160), (-0.025, 0.400))
CHART = 618
"""Where the time axis begins, from the left [pixels]."""
SMALL = 0.5
"""While a handle moves the photograph is made at this share of its size."""


class SplashPicture(Layered):
    """A large photograph of the splash beside its clock.

    Parameters
    ----------
    shot : function (setup, size=...) -> pixels, optional
        The simulated photograph when left out.
    size : (int, int), optional [pixels]
    """

    size = (1000, 600)
    rc: ClassVar[dict] = {"font.size": 13.5, "axes.labelsize": 13, "xtick.labelsize": 13}

    def __init__(self, shot=photograph, size=None):
        self.shot, self.view, self._shown = shot, None, None
        super().__init__(size)

    def build(self, figure):
        """Lay photograph, words and stages out."""
        wide, tall = figure.bbox.width, figure.bbox.height
        left, top, width, height = PHOTO
        frame = figure.add_axes((left / wide, 1 - (top + height) / tall, width / wide, height / tall))
        frame.axis("off")
        self.photo = Pixels(frame)
        page = figure.add_axes((0, 0, 1, 1), zorder=-1)
        page.set(xlim=(0, wide), ylim=(tall, 0))
        page.axis("off")
        edge = left + width + 16
        self.clock = write(page, edge, 26, fontsize=20, fontweight="bold", va="center")
        self.now = write(page, edge, 58, fontsize=14, va="center")
        page.text(edge, 102, "set the\ndelay to", fontsize=14, va="center")
        self.delay = write(page, edge + 84, 103, fontsize=36, fontweight="bold", va="center")
        self.next = write(page, edge, 150, fontsize=13, va="center")
        page.text(edge, tall - 14, "photograph: simulated", fontsize=11, color=style.QUIET, va="center")
        chart = figure.add_axes((CHART / wide, 62 / tall, (wide - CHART - 18) / wide, 362 / tall))
        self.chart = StageChart(chart)
        return [self.photo, self.clock, self.now, self.delay, self.next, *self.chart.moving]

    def update(self, setup, *, clock, body=None):
        """Let the light come at `clock` [s after contact]; `body` is one of the scene's, or the set-up's own."""
        setup = in_hand(setup, body)
        stages = most_likely(splash(setup))
        delay = bare_delay(setup, after_contact=clock)
        self.view, self._shown = on_the_clock(setup, clock, shape=PHOTO[3] / PHOTO[2]), None
        spans = DROP_SPANS if setup.drop.liquid else SOLID_SPANS
        self.chart.set_span(next((span for span in spans if clock <= span[1]), spans[-1]))
        self.chart.move(stages, clock)
        words, found = told(setup, stages, clock=clock, delay=delay, view=self.view, system=self.system)
        self.clock.set_text(words["clock"])
        self.now.set_text(words["now"])
        self.delay.set_text(words["delay"])
        self.delay.set_color(style.BAD if delay.short_by else style.INK)
        self.next.set_text(words["next"])
        return found

    def expose(self, scale):
        """Make the photograph, `scale` times as fine, unless it is there already."""
        if self._shown != scale and self.view is not None:
            size = round(PHOTO[2] * scale), round(PHOTO[3] * scale)
            self.photo.show(self.shot(self.view, size=size))
            self._shown = scale

    def pixels(self, *, scale=1.0):
        """Expose the photograph in full and draw the present state."""
        self.expose(scale)
        return super().pixels(scale=scale)

    def frame(self, *, moving, scale=1.0):
        """Give the encoded picture; with a small photograph while a handle moves."""
        if not moving:
            return super().frame(moving=False, scale=scale)
        if self._shown is None:
            self.expose(SMALL)
        return jpeg(Layered.pixels(self))
