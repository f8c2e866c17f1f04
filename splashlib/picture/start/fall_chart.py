"""Height of the falling body against time, with the beam, the water and the light on it."""

from matplotlib.patches import Rectangle

from splashlib.picture.kit import style
from splashlib.picture.kit.lettering import write

CM, MS = 100.0, 1000.0
MARGIN = 4.0  # above the light's line, for its date [cm]


class FallChart:
    """Draws one fall on a clock that starts when the beam is broken.

    Parameters
    ----------
    axes : matplotlib Axes, used for nothing else
    span : (float, float), times shown [s]
    top, floor : float, heights shown [m]
    """

    def __init__(self, axes, *, span, top, floor):
        self.axes = axes
        self.span, self.top, self.floor = [MS * time for time in span], CM * top, CM * floor
        axes.set(xlim=self.span, ylim=(self.floor, self.top))
        axes.set_xlabel("time after the beam is broken, ms")
        axes.grid(axis="x")
        axes.axhspan(self.floor, 0, color=style.WATER, alpha=0.13, lw=0)
        axes.axhline(0, color=style.WATER, lw=1.5)
        axes.axvline(0, color=style.BEAM, lw=1.0, ls=(0, (5, 2)))
        self._draw_moving()

    def _draw_moving(self):
        axes, middle = self.axes, self.span[0]
        (self.beam,) = axes.plot([], [], color=style.BEAM, lw=1.6, ls=(0, (5, 2)))
        self.wait = axes.add_patch(
            Rectangle((0, self.floor), 0, self.top - self.floor, color=style.LAG, alpha=0.22, lw=0)
        )
        (self.curve,) = axes.plot([], [], color=style.BODY, lw=2.4)
        (self.light,) = axes.plot([], [], color=style.LIGHT, lw=3.5)
        (self.dot,) = axes.plot([], [], marker="o", ms=11, mec=style.INK, mew=1.2, color=style.BODY, ls="none")
        (self.contact,) = axes.plot([], [], marker="v", ms=9, color=style.WATER, ls="none")
        small, bold = {"fontsize": style.FONT["small"]}, {"fontweight": "bold"}
        self.beam_name = write(axes, middle, 0, " beam", color=style.BEAM, va="bottom", **small)
        self.light_name = write(axes, 0, self.top, color=style.INK, ha="left", va="top", **bold)
        self.moving = [
            self.wait,
            self.beam,
            self.curve,
            self.light,
            self.dot,
            self.contact,
            self.beam_name,
            self.light_name,
        ]

    def move(self, *, times, heights, beam_height, light, height, contact):
        """Draw the fall of one drop.

        Parameters
        ----------
        times, heights : arrays, the lowest point of the body [s], [m]
        beam_height : float [m]
        light : float or None, when the light comes [s]
        height : float or None, of the body at the light [m]
        contact : float, when the body meets the water [s]
        """
        self.curve.set_data(MS * times, CM * heights)
        self.beam.set_data(self.span, [CM * beam_height] * 2)
        self.beam_name.set_y(CM * beam_height)
        self.contact.set_data([MS * contact], [0])
        self._move_light(light, height)

    def _move_light(self, light, height):
        shown = light is not None
        for artist in (self.light, self.light_name, self.wait):
            artist.set_visible(shown)
        self.dot.set_visible(shown and height is not None)
        if not shown:
            return
        when = MS * light
        self.light.set_data([when, when], [self.floor, self.top - MARGIN])
        self.wait.set_x(min(0, when))
        self.wait.set_width(abs(when))
        late = when > self.span[0] + 0.5 * (self.span[1] - self.span[0])
        self.light_name.set(x=when, text=f" light {when:.0f} ms ", ha="right" if late else "left")
        if height is not None:
            self.dot.set_data([when], [CM * height])
