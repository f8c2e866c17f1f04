"""What the judge says: one outcome, one text."""

import html
import re
from dataclasses import dataclass

# In the order in which they are tried. "slip" is a mistake we know; "low", "high" and "wrong" are others.
OUTCOMES = {
    "not_attempted": ("○", "Not answered yet"),
    "unreadable": ("?", "Not readable"),
    "wrong_kind": ("?", "Another kind of answer"),
    "wrong_unit": ("?", "Check the unit"),
    "raised": ("!", "Your code stopped"),
    "slip": ("✗", "Not yet"),
    "low": ("▲", "Too low"),
    "high": ("▼", "Too high"),
    "wrong": ("✗", "Not yet"),
    "right": ("✓", "Right"),
    "noted": ("✎", "Noted"),
    "told": ("→", "Told"),
}
# These say that the answer could not be judged; it then counts neither as right nor as wrong.
UNJUDGED = ("not_attempted", "unreadable", "wrong_kind", "wrong_unit")


def heading_anchor(heading):
    """What a link to a heading of the same notebook is called, as JupyterLab names it: "In-code"."""
    return re.sub(r"[^\w.,?!-]", "", heading.strip("`*").replace(" ", "-"))


@dataclass(frozen=True)
class Reply:
    """The judge's answer to an answer: an outcome of OUTCOMES, a text, and the name of a recognised slip."""

    outcome: str
    text: str = ""
    slip: str = ""
    see: str = ""
    """Which place in the lesson to look at again."""
    note: str = ""
    """A word about the keeping of progress, if there is one."""
    folded: str = ""
    """The words behind which all this is folded away in a cell, or ""."""

    @property
    def right(self):
        return self.outcome == "right"

    @property
    def head(self):
        """Sign and words of the outcome: never colour alone."""
        return " ".join(OUTCOMES[self.outcome])

    @property
    def markdown(self):
        # What is only told (a hint, a solution) brings its own heading.
        parts = [self.text if self.outcome == "told" else f"**{self.head}.** {self.text}".strip()]
        if self.see:
            parts.append(f"Look again at: [{self.see}](#{heading_anchor(self.see)}).")
        if self.note:
            parts.append(self.note)
        return "\n\n".join(parts)

    def __str__(self):
        return re.sub(r"\[([^\]]+)\]\(#[^)]*\)", r"\1", self.markdown).replace("**", "").replace("\n\n", " ")

    __repr__ = __str__

    def _repr_html_(self):
        from splashlib.classroom.questions.wording import to_html

        outcome, shown = html.escape(self.outcome), to_html(self.markdown)
        if self.folded:
            shown = f"<details><summary>{html.escape(self.folded)}</summary>{shown}</details>"
        return f'<div class="sl-reply" data-outcome="{outcome}">{shown}</div>'
