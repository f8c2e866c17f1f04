"""Random set-ups for property tests: any few settings changed, to any value that is allowed."""

from dataclasses import replace

from hypothesis import assume
from hypothesis import strategies as st

from splashlib.shoot import FIELDS, Flash, change_all, field, tea_house, with_body

BODIES = ("kumquat", "glass marble", "drop of milk")


def values(row, *, wild=True):
    """Values of one setting: all that is possible, or what its slider offers."""
    if row.kind == "text":
        return st.text(st.characters(codec="utf-8"), min_size=1, max_size=60).filter(
            lambda text: text.isprintable() and text.strip()
        )
    if row.kind == "choice":
        return st.sampled_from([value for _, value in row.choices])
    if row.kind == "marks" and not wild:
        return st.sampled_from([value for _, value in row.marks])
    low, high = row.limits if wild else (row.to_si(row.low), row.to_si(row.high))
    if row.whole:
        return st.integers(int(low), int(high))
    exact = st.floats(low, high)
    return exact if row.kind == "number" else exact | st.sampled_from([value for _, value in row.marks])


@st.composite
def setups(draw, *, wild=True, most_changes=6, paths=None):
    """A set-up that is possible as a whole."""
    heads = draw(st.integers(1, 3))
    setup = replace(with_body(tea_house(), draw(st.sampled_from(BODIES))), flashes=(Flash(),) * heads)
    paths = paths or [row.path for row in FIELDS]
    chosen = draw(st.lists(st.sampled_from(paths), max_size=most_changes, unique=True))
    changes = {path: draw(values(field(path), wild=wild)) for path in chosen}
    try:
        return change_all(setup, changes)
    except ValueError:
        assume(False)
