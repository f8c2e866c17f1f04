"""A panel as it stands in a saved notebook, where no Python runs: its first picture and its words.

JupyterLab shows a saved widget as "model not found" once its kernel is gone, and nothing beside it. So the picture
and the words are an output of their own. The live widget hides it while it is on the page; the rule below hides
the error message in its place when there is no live widget.
"""

import base64
import uuid
from html import escape

WIDGET = "application/vnd.jupyter.widget-view+json"
VEILED = "Veiled: this panel tells how your guess turns out. Guess first; then open this to show it."
NO_ERROR = (
    "<style>.jp-OutputArea-child:has([data-splash-still]) + .jp-OutputArea-child > .jupyter-widgets:not(:has(*))"
    " { display: none; }</style>"
)


def new_name():
    """A name that ties a still to its widget, for the widget's trait `still`."""
    return uuid.uuid4().hex[:12]


def display_with_still(front, bundle):
    """Display a widget, and beside it the still that is seen where the widget cannot live.

    Parameters
    ----------
    front : anywidget.AnyWidget
        Its trait `still` holds the still's name; its front end hides elements with that name.
    bundle : dict
        The widget's MIME bundle, with the still as text/html and text/plain; the still alone once it is closed.
    """
    from IPython.display import display

    if "text/html" in bundle:
        html = f'<div data-splash-still="{front.still}">{NO_ERROR}{bundle["text/html"]}</div>'
        display({"text/html": html, "text/plain": bundle["text/plain"]}, raw=True)
    if WIDGET in bundle:
        display({WIDGET: bundle[WIDGET], "text/plain": " "}, raw=True)


def still_html(*, told, picture, size, title, trouble="", origin="", veiled=False):
    """Give the picture and the readout as plain HTML that a notebook viewer lets through.

    Parameters
    ----------
    told : splashlib.picture.kit.canvas.Description
    picture : bytes, encoded image
    size : (int, int) [pixels]
    title : str
    trouble : str
        Why this is not the learner's own set-up, or "".
    origin : str
        What it begins from, where there is a choice, or "".
    veiled : bool
        Whether it is folded away, since it tells the answer to a guess that is not made yet.

    Returns
    -------
    str
    """
    parts = [f"<p><strong>{escape(text)}</strong></p>" for text in (title, trouble and f"! {trouble}") if text]
    parts.append(f"<p>{escape(origin)}</p>" if origin else "")
    parts.append(f"<details><summary>{VEILED}</summary>" if veiled else "")
    parts.append(_image(told.alt, picture, size))
    if told.line:
        parts.append(f"<p>{escape(told.line)}</p>")
    rows = "".join(f"<tr><th>{escape(label)}</th><td>{escape(value)}</td></tr>" for label, value in told.readout)
    parts.append(f"<table>{rows}</table>" if rows else "")
    parts.append("<p><em>This is the first picture. Run the notebook to change it with sliders.</em></p>")
    parts.append("</details>" if veiled else "")
    return f"<div>{''.join(parts)}</div>"


def still_text(told, title, trouble="", origin=""):
    """Give the words alone, for a terminal."""
    rows = [f"{label}: {value}" for label, value in told.readout]
    return "\n".join(filter(None, [title, trouble, origin, told.alt, told.line, *rows]))


def _image(alt, picture, size):
    kind = "jpeg" if picture[:1] == b"\xff" else "png"
    data = base64.b64encode(picture).decode("ascii")
    width, height = size
    return f'<img alt="{escape(alt)}" width="{width}" height="{height}" src="data:image/{kind};base64,{data}">'
