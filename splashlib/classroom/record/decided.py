"""What a learner has decided: the numbers to take to the set, beside those of the scene."""

from html import escape

from splashlib.shoot import field, my_setup_path, show, tea_house, value_at
from splashlib.shoot.files.learner_files import own_setup

TO_THE_SET = (
    "drop.name",
    "drop.release_height",
    "beam.height",
    "camera.style",
    "trigger.delay",
    "trigger.hold_off",
    "flashes.0.kind",
    "flashes.0.power",
    "flashes.0.distance",
    "flashes.0.diffuser_loss",
    "camera.aperture",
    "camera.iso",
    "camera.shutter",
    "camera.open_time",
    "room.lux",
    "vessel.width",
    "vessel.rim",
)
"""The settings that are made at a set, in the order in which things are met from the hand to the water."""


class Decided:
    """The learner's own numbers; shown by being a cell's last line. Nothing is written."""

    def __init__(self):
        self.setup, self.problem = own_setup()
        there = not self.problem and my_setup_path().exists()
        scene = tea_house()
        rows = [_row(field(path).label, *(show(path, value_at(each, path)) for each in (self.setup, scene)))
                for path in TO_THE_SET]  # fmt: skip
        heads = [str(len(each.flashes)) for each in (self.setup, scene)]
        self.rows = [*rows, _row("flash heads", *heads)]
        self.said = self.problem or (_told(self.rows) if there else NOTHING)

    def __repr__(self):
        return "\n".join([self.said, *(f"{label}: {mine}" for label, mine, _ in self.rows)])

    def _repr_html_(self):
        body = "".join(f'<tr><th scope="row">{_cell(row[0])}</th>{_cells(row[1:])}</tr>' for row in self.rows)
        head = "".join(f'<th scope="col">{each}</th>' for each in ("decision", "yours", "our scene"))
        return f"<p>{escape(self.said)}</p><table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


NOTHING = (
    "You have written nothing into my_setup.toml yet, so these are the numbers of our scene. "
    "The button for it is at the end of each lesson."
)


def _row(label, mine, scene):
    """Label, the learner's value, and the scene's where it is another one, else ""."""
    return label, mine, scene if scene != mine else ""


def _told(rows):
    others = [label for label, _, scene in rows if scene]
    if not others:
        return "Your file says the same as our scene in all of these."
    return f"{len(others)} of these {len(rows)} you have set otherwise than our scene: {', '.join(others)}."


def _cell(text):
    return escape(text[:1].upper() + text[1:])


def _cells(texts):
    return "".join(f"<td>{escape(text)}</td>" for text in texts)


def decided():
    """What you have decided, for the set."""
    return Decided()
