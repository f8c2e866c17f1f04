"""What stands in the spray: every flash head, the lens and the camera against the zone that thrown drops wet."""

from dataclasses import dataclass

from splashlib.physics.droplets import reach
from splashlib.shoot.chain.body_motion import impact_of
from splashlib.shoot.chain.framing import framed
from splashlib.shoot.chain.stages import splash
from splashlib.shoot.decide.exposure_balance import sheet_loss


@dataclass(frozen=True, kw_only=True)
class Stand:
    """One thing beside the set, and how near to it drops land; lengths [m].

    what: "flash", "lens" or "camera"; name, the head's own, else as `what`. distance: from where the body falls, and
    height over the water, at which it is compared. likely, fastest: how far likely and the fastest drops fly at that
    height, 0 where none does. shielded: a clear sheet stands before it, which costs `loss` [stops].
    """

    what: str
    name: str
    distance: float
    height: float
    likely: float
    fastest: float
    shielded: bool
    loss: float

    @property
    def inside(self):
        """How far it stands inside the zone of the fastest drops [m]; negative outside."""
        return self.fastest - self.distance

    @property
    def state(self):
        """ "dry", "shielded", "likely" (likely drops reach it), or "fastest" (only the fastest do)."""
        if self.inside < 0 or self.fastest == 0:
            return "dry"
        if self.shielded:
            return "shielded"
        return "likely" if self.distance <= self.likely else "fastest"

    @property
    def safe(self):
        """Whether no drop can reach it."""
        return self.state in ("dry", "shielded")


def stands(setup):
    """Compare every flash head, the lens and the camera with the wet zone.

    Parameters
    ----------
    setup : Setup

    Returns
    -------
    tuple of Stand
        The heads in their order, then lens and camera.

    Notes
    -----
    Heads are compared at the height of the water; one that stands higher gets less, one on the table more. Lens and
    camera stand level with the middle of the frame; the camera behind the lens by the distance of its image, f (1 + m).
    A sheet before the camera covers both. Zone as `physics.droplets.reach`.
    """
    camera = setup.camera
    behind = camera.focal_length * (1 + framed(setup).magnification)
    level, shield = camera.frame_centre, camera.shield != "none"
    found = [
        _stand(setup, "flash", head.name, head.distance, 0.0, head.shield != "none", sheet_loss(head))
        for head in setup.flashes
    ]
    found.append(_stand(setup, "lens", "lens", camera.distance, level, shield, sheet_loss(camera)))
    found.append(_stand(setup, "camera", "camera", camera.distance + behind, level, shield, sheet_loss(camera)))
    return tuple(found)


def _stand(setup, what, name, distance, height, shielded, loss):
    _, likely, fastest = wet_zone(setup, height)
    return Stand(
        what=what,
        name=name,
        distance=distance,
        height=height,
        likely=likely,
        fastest=fastest,
        shielded=shielded,
        loss=loss,
    )


def wet_zone(setup, height=0.0):
    """How far thrown drops fly at a height over the water: early, likely, late [m]; zeros where none is thrown."""
    if not any(stage.name == "droplets_highest" for stage in splash(setup)):
        return (0.0, 0.0, 0.0)
    return tuple(reach(impact_of(setup), height=height))


def in_the_spray(setup):
    """The things that drops can reach, the one farthest inside the zone first."""
    return tuple(sorted((each for each in stands(setup) if not each.safe), key=lambda each: -each.inside))
