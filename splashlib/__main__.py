"""`python -m splashlib`: see `splashlib.desk.commands`."""

from splashlib.desk.commands import main

if __name__ == "__main__":
    raise SystemExit(main())
