"""A lesson's panel is built from the learner's own set-up, or from the scene where that cannot be, and says so.

Where both are possible and differ, the panel offers both; a lesson shows it from the scene first.
"""

from splashlib.shoot import my_setup_path, tea_house
from splashlib.shoot.files.learner_files import is_own, own_setup


def begin(build):
    """Build a panel; nothing that stands in the learner's file can keep it from being there.

    Parameters
    ----------
    build : function of a Setup
        Gives the Panel that starts from it; called once more with the scene where the learner's own will not do.

    Returns
    -------
    Panel
    """
    own, trouble = own_setup()
    if trouble:
        return _from_scene(build, f"{trouble}. Until that is mended, this panel starts from the scene.")
    panel, trouble = _tried(build, own)
    if not trouble:
        if is_own(own) and own != tea_house():
            panel.offer(lambda: build(tea_house()))
        return panel
    name = my_setup_path().name
    return _from_scene(build, f"This panel cannot show what {name} says: {trouble}. It starts from the scene.")


def _tried(build, setup):
    """The panel, and why it could not be built or cannot draw this set-up."""
    try:
        panel = build(setup)
    except Exception as problem:  # whatever it is: the scene can be shown
        return None, " ".join(str(problem).split()) or type(problem).__name__
    return panel, panel.error


def _from_scene(build, trouble):
    panel = build(tea_house())
    panel.trouble = trouble
    return panel
