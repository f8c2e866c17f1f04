"""The classroom: questions and their judge, progress, and the panels in which a picture follows a slider.

Names load when they are first used, so that a lesson without formulas never waits for sympy.
"""

from importlib import import_module

_HOMES = {
    "questions.question_kinds": (
        "Number",
        "Choice",
        "Option",
        "Formula",
        "Function",
        "Settings",
        "Condition",
        "BadSetting",
    ),
    "questions.slips": ("Slip",),
    "exercises": ("Exercises",),
    "formulas.expression": ("read_formula",),
    "widgets.panel": ("live", "Panel"),
    "widgets.controls": ("Control", "Pick", "Toggle"),
    "widgets.decision_card": ("keep",),
    "record.progress_file": ("Progress",),
    "record.standing": ("progress",),
    "record.decided": ("decided",),
    "questions.wording": ("show",),
}
_HOME_OF = {name: module for module, names in _HOMES.items() for name in names}
__all__ = sorted(_HOME_OF)


def __getattr__(name):
    if name not in _HOME_OF:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    globals()[name] = getattr(import_module(f"{__name__}.{_HOME_OF[name]}"), name)
    return globals()[name]


def __dir__():
    return __all__
