"""`report`: the progress files of a class become one page and one table."""

import argparse
from pathlib import Path

from splashlib.desk.trouble import Trouble
from splashlib.shoot.files.replacing import replace_files

NAME = "report"
HELP = "make an overview of a class (for teachers)"
ABOUT = (
    "Join the progress files of a class into class_report.html and class_report.csv: who finished what, which slips "
    "are common and what to say about them, where people stopped. Put each learner's my_progress.sqlite into a folder "
    "of its own below FOLDER, named as you call the learner, or rename the files. They are only read; nothing that a "
    "learner wrote is run."
)
PAGE, TABLE = "class_report.html", "class_report.csv"


def arguments(parser: argparse.ArgumentParser):
    """What the command takes."""
    parser.add_argument("folder", type=Path, metavar="FOLDER", help="where the learners' files lie, at any depth")
    parser.add_argument(
        "--to", type=Path, metavar="PLACE", help="the folder that the report is written into (default: FOLDER)"
    )


def run(args: argparse.Namespace) -> int:
    """Read, count, write, and say in a few lines what came out."""
    # Loaded when needed: `open` must be able to say what is missing here.
    from splashlib.desk.class_counts import count
    from splashlib.desk.class_files import collected, said
    from splashlib.desk.report_page import page
    from splashlib.desk.report_table import table

    sheets, skipped = collected(args.folder)
    for each in skipped:
        print(f"skipped: {each.file} {each.why}")
    if not sheets:
        raise Trouble(f"none of the files in {said(args.folder)} could be read; no report was written")
    overview = count(sheets)
    for each in overview.skipped:
        print(f"skipped: {each.file} {each.why}")
    skipped, place = [*skipped, *overview.skipped], args.to or args.folder
    write(place, {PAGE: page(overview, skipped), TABLE: table(overview)})
    people = len(overview.learners)
    print(f"{people} {'learner' if people == 1 else 'learners'}: {said(place / PAGE)} and {said(place / TABLE)}")
    return 0


def write(place: Path, texts: dict[str, str]):
    """Write all files or none."""
    from splashlib.desk.class_files import said

    try:
        place.mkdir(parents=True, exist_ok=True)
        replace_files({place / name: text.encode("utf-8") for name, text in texts.items()})
    except OSError as problem:
        raise Trouble(f"{said(place)} cannot be written into ({problem.strerror or problem})") from None
