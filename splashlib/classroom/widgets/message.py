"""What the front end of a panel asks for, read from its message; all of it is checked, since it comes from outside."""

import math

from splashlib.shoot.setup.field_rows import quoted

SYSTEMS = (("metric", "cm and mm"), ("imperial", "inches and feet"))
"""The units that a panel speaks in: name, and what the reader is shown."""
FINEST = 2.0
"""Picture pixels for each one of the plain picture: more are not drawn."""


def asked_for(content, handles):
    """Read one message.

    Parameters
    ----------
    content : object
        What came; a dict as panel.js sends it.
    handles : dict of str -> controls.Handle

    Returns
    -------
    dict
        "moved" (names to values, no longer positions), "typed" (names to words typed beside a slider), "system",
        "scale", "rest", "reset", and as they came "view", "number",
        "hello", "have". ValueError with one line where the message cannot be read.
    """
    if not isinstance(content, dict):
        raise ValueError(f"the message is {quoted(content)}; it must be an object")
    system = content.get("system")
    return {
        "moved": _moved(content.get("moved") or {}, handles),
        "typed": _typed(content.get("typed") or {}, handles),
        "system": checked_system(system) if system else None,
        "scale": _scale(content.get("scale") or 1),
        **{key: bool(content.get(key)) for key in ("rest", "reset")},
        **{key: content.get(key) for key in ("view", "number", "hello", "have")},
    }


def _moved(moved, handles):
    if not isinstance(moved, dict):
        raise ValueError(f"moved is {quoted(moved)}; it must name controls and positions")
    for name in moved:
        if name not in handles:
            raise ValueError(f"there is no control {quoted(name)} in this panel")
    return {name: handles[name].value(at) for name, at in moved.items()}


def _typed(typed, handles):
    if not isinstance(typed, dict):
        raise ValueError(f"typed is {quoted(typed)}; it must name sliders and what was typed")
    for name, text in typed.items():
        if name not in handles or handles[name].kind != "range":
            raise ValueError(f"there is no slider {quoted(name)} in this panel")
        if not isinstance(text, str):
            raise ValueError(f"what was typed for {name} is {quoted(text)}; it must be a text")
    return typed


def _scale(scale):
    if isinstance(scale, bool) or not isinstance(scale, int | float) or not math.isfinite(scale):
        raise ValueError(f"scale is {quoted(scale)}; it must be a number")
    return min(max(float(scale), 1.0), FINEST)


def checked_system(system):
    """Return the name of a system of units, or refuse it in one line."""
    names = [name for name, _ in SYSTEMS]
    if system not in names:
        raise ValueError(f"system is {system!r:.60}; it must be {' or '.join(names)}")
    return system
