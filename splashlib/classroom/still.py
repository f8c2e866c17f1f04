"""The panel as it stands in a saved notebook, where no Python runs: its first picture and its words."""

import base64
from html import escape


def still_html(*, told, picture, size, title):
    """Give the picture and the readout as plain HTML that a notebook viewer lets through.

    Parameters
    ----------
    told : splashlib.picture.canvas.Told
    picture : bytes, encoded image
    size : (int, int) [pixels]
    title : str

    Returns
    -------
    str
    """
    parts = [f"<p><strong>{escape(title)}</strong></p>"] if title else []
    parts.append(_image(told.alt, picture, size))
    if told.line:
        parts.append(f"<p>{escape(told.line)}</p>")
    rows = "".join(f"<tr><th>{escape(label)}</th><td>{escape(value)}</td></tr>" for label, value in told.readout)
    parts.append(f"<table>{rows}</table>" if rows else "")
    parts.append("<p><em>This is the first picture. Run the notebook to change it with sliders.</em></p>")
    return f"<div>{''.join(parts)}</div>"


def still_text(told, title):
    """Give the words alone, for a terminal."""
    rows = [f"{label}: {value}" for label, value in told.readout]
    return "\n".join(filter(None, [title, told.alt, told.line, *rows]))


def _image(alt, picture, size):
    kind = "jpeg" if picture[:1] == b"\xff" else "png"
    data = base64.b64encode(picture).decode("ascii")
    width, height = size
    return f'<img alt="{escape(alt)}" width="{width}" height="{height}" src="data:image/{kind};base64,{data}">'
