"""What `python -m splashlib` understands. A new command is a module like the others, named in COMMANDS."""

import argparse
import sys

from splashlib.desk import build, open_course, report
from splashlib.desk.trouble import Trouble

# Each module has NAME, HELP (one line), ABOUT (for its own --help), arguments(parser), run(args) -> status.
COMMANDS = (open_course, build, report)


class OneLineParser(argparse.ArgumentParser):
    """A parser that answers wrong arguments with one line, not with the whole usage."""

    def error(self, message: str):
        self.exit(2, f"{self.prog}: {message} (see {self.prog} --help)\n")


def parser() -> argparse.ArgumentParser:
    """The parser of the whole command line."""
    whole = OneLineParser(
        prog="python -m splashlib",
        description="Splash Lessons: catch a drop in the picture, and know why it worked.",
        epilog="Each command tells more with --help, for example: python -m splashlib open --help",
        allow_abbrev=False,
    )
    subparsers = whole.add_subparsers(title="commands", metavar="COMMAND", dest="command")
    for command in COMMANDS:
        one = subparsers.add_parser(command.NAME, help=command.HELP, description=command.ABOUT, allow_abbrev=False)
        command.arguments(one)
        one.set_defaults(run=command.run)
    return whole


def main(argv: list[str] | None = None) -> int:
    """Run one command; what the user can put right is told in one line on standard error.

    Parameters: argv, the words after `python -m splashlib` (None: those of this process).
    Returns: the exit status, 0 if all is well, 1 if not. Wrong arguments end the process with 2.
    """
    for stream in (sys.stdout, sys.stderr):
        # A terminal that knows no µ or no é gets it spelled out instead of a traceback.
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    whole = parser()
    args = whole.parse_args(argv)
    if args.command is None:
        whole.error(f"say what to do: {', '.join(command.NAME for command in COMMANDS)}")
    try:
        return args.run(args)
    except KeyboardInterrupt:
        return 130
    except Trouble as trouble:
        print(f"splashlib {args.command}: {trouble}", file=sys.stderr)
        return 1
