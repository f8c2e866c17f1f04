"""The classroom: questions and their judge, progress, and the panels in which a picture follows a slider.

Names load when they are first used, so that a lesson without formulas never waits for sympy.
"""

from importlib import import_module

_HOMES = {
    "questions": ("Number", "Choice", "Option", "Formula", "Function", "Settings", "Condition", "BadSetting"),
    "slips": ("Slip",),
    "exercises": ("Exercises",),
    "formula": ("read_formula",),
    "live": ("live", "Control", "Pick", "Panel"),
    "keep": ("keep",),
    "progress": ("Progress", "progress"),
    "proof": ("check_exercises",),
    "wording": ("show",),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}
__all__ = sorted(_HOME_OF)


def __getattr__(name):
    if name not in _HOME_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    # Kept under its name, so that a function and the module it lives in may be called alike.
    globals()[name] = getattr(import_module(f"{__name__}.{_HOME_OF[name]}"), name)
    return globals()[name]


def __dir__():
    return __all__
