"""What a panel says of a flash head, a lens or a camera that stands where drops land."""

import math

from splashlib.picture.kit import phrases as words
from splashlib.shoot import in_the_spray


def beyond_words(distance, system="metric"):
    """Say how far drops fly [m], rounded up: in whole centimetres or inches, which is more than is known."""
    up = math.ceil(distance / words.INCH - 1e-9) if system == "imperial" else math.ceil(100 * distance - 1e-9)
    return f"{up} in" if system == "imperial" else f"{up} cm"


def at_words(distance, system="metric"):
    """Say where something stands [m], in whole centimetres or inches."""
    return f"{distance / words.INCH:.0f} in" if system == "imperial" else f"{100 * distance:.0f} cm"


def name_of(stand, heads=1):
    """Name one thing: the flash, the lens, the camera; of several heads its own name, too."""
    return f"flash {stand.name}" if stand.what == "flash" and heads > 1 else stand.what


def spray_warning(setup, system="metric"):
    """Warn of what stands in the spray: tone and one sentence; None where everything is dry.

    "bad" where likely drops reach a flash head, which holds hundreds of volts; "warning" otherwise.
    """
    wet = in_the_spray(setup)
    if not wet:
        return None
    heads = [each for each in wet if each.what == "flash"]
    first = (heads or wet)[0]
    tone = "bad" if any(each.state == "likely" for each in heads) else "warning"
    reach = "drops land" if first.state == "likely" else "the fastest drops land"
    far = beyond_words(first.fastest, system)
    line = (
        f"The {name_of(first, len(setup.flashes))} at {at_words(first.distance, system)} stands where {reach}. "
        f"Move it beyond {far}, or put a clear sheet before it."
    )
    return tone, line


def warned(setup, tone, line, system="metric"):
    """A panel's verdict with the warning added where there is one; what is bad already stays first."""
    warning = spray_warning(setup, system)
    if warning is None or tone == "bad":
        return tone, line
    return ("bad" if warning[0] == "bad" else "warning"), f"{line} {warning[1]}"
