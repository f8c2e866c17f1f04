"""What cannot be true together in one set-up: one clear line for each."""

from splashlib.shoot.setup.pulses import pulse_of


def _cm(value):
    return f"{100 * value:.4g} cm"


def _body(setup):
    drop, vessel = setup.drop, setup.vessel
    if not drop.liquid and drop.length < drop.diameter:
        yield (
            f"the length of the body ({_cm(drop.length)}) is less than its diameter ({_cm(drop.diameter)}); "
            "the length is the long axis, so it must be at least the diameter (drop.length, drop.diameter)"
        )
    if drop.liquid and drop.diameter > 0.010:
        yield (
            f"a falling drop of {drop.form} is {1000 * drop.diameter:.4g} mm across; "
            "larger ones break up in the air, so it must be 10 mm or less (drop.form, drop.diameter)"
        )
    if max(drop.diameter, drop.breadth) >= vessel.width:
        yield (
            f"the body is {_cm(max(drop.diameter, drop.breadth))} wide and the vessel {_cm(vessel.width)}; "
            "the body must be narrower than the vessel (drop.diameter, drop.length, vessel.width)"
        )


def _beam(setup):
    drop, beam = setup.drop, setup.beam
    if beam.top > drop.release_height:
        yield (
            f"the beam reaches up to {_cm(beam.top)} and the body is released at {_cm(drop.release_height)}; "
            "the whole beam must lie under the hand (beam.height, drop.release_height)"
        )
    if beam.bottom < 0:
        yield (
            f"the beam's lower edge is at {_cm(beam.bottom)}, under the water; "
            f"with this width the beam's height must be at least {_cm(beam.width / 2)} (beam.height)"
        )


def _curtains(camera):
    """Every style, also those not in use: a lesson that shows all cameras must find each of them possible."""
    for style in ("mirror", "mirror_up", "no_mirror"):
        release = getattr(camera, style)
        sweep = camera.sweep_of(style)
        if release.lag < sweep:
            yield (
                f"the camera lag is {1000 * release.lag:.4g} ms, but the {release.first_curtain} curtain takes "
                f"{1000 * sweep:.4g} ms to cross the frame; the lag ends with the frame fully open, "
                f"so it must be at least that (camera.{style}.lag)"
            )


def _camera(setup):
    camera = setup.camera
    yield from _curtains(camera)
    if camera.held_open.lag or camera.held_open.scatter:
        yield "a shutter held open has no lag and no scatter of its own; both must be 0 (camera.held_open)"
    for name in ("distance", "focus_distance"):
        if getattr(camera, name) <= camera.focal_length:
            yield (
                f"the camera's {name.replace('_', ' ')} is {_cm(getattr(camera, name))} and its focal length "
                f"{_cm(camera.focal_length)}; a lens makes an image only of what is farther away (camera.{name})"
            )


def _flash(setup):
    for number, head in enumerate(setup.flashes):
        try:
            pulse_of(head)
        except ValueError as error:
            yield f"flash head {number} ({head.name}): {error} (flashes.{number})"


def require_possible(setup):
    """Raise ValueError, one line, when two settings of `setup` cannot both be true."""
    for rule in (_body, _beam, _camera, _flash):
        for line in rule(setup):
            raise ValueError(line)
