"""Published figures that tests hold the library against, each file with its source at the head."""

import csv
from pathlib import Path


def rows(name):
    """The rows of a table in this folder as dictionaries; lines with # are the source."""
    text = (Path(__file__).parent / name).read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    return [{key: _value(entry) for key, entry in row.items()} for row in csv.DictReader(lines)]


def _value(entry):
    try:
        return float(entry)
    except ValueError:
        return entry
