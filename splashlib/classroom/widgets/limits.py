"""How far sliders can go towards where they were dragged, when the place itself is impossible."""

from splashlib.shoot import change_all


def reachable(setup, ways):
    """Find for each slider the possible position nearest to the wanted one, on the way there.

    Parameters
    ----------
    setup : Setup, a possible one
    ways : dict of controls.Handle -> (value now, value wanted), sliders of settings

    Returns
    -------
    dict of str -> value
        By the names of the sliders, one after the other; left out are those of which not even a step is possible.

    Notes
    -----
    What is possible together has one end on either side, so halving finds it in a dozen tries.
    """
    reached = {}
    for each, (now, wanted) in ways.items():
        value = _farthest(setup, each, now, wanted, reached)
        if value is not None:
            reached[each.name] = value
    return reached


def _farthest(setup, each, now, wanted, reached):
    if _possible(setup, {**reached, each.name: wanted}):
        return wanted
    good, bad, found = each.at(now), each.at(wanted), None
    while abs(bad - good) > 1:
        middle = (good + bad) // 2
        if _possible(setup, {**reached, each.name: each.values[middle]}):
            good = found = middle
        else:
            bad = middle
    return None if found is None else each.values[found]


def _possible(setup, changes):
    try:
        change_all(setup, changes)
    except ValueError:
        return False
    return True
