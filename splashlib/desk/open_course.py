"""`open`: JupyterLab on the first lesson, for this machine only, with all that the course needs around it."""

import argparse
import importlib.util
import json
import os
import secrets
import signal
import socket
import tempfile
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

from splashlib.desk.house import checkout, notebook_name, written
from splashlib.desk.trouble import Trouble
from splashlib.shoot.files.replacing import replace_file

NAME = "open"
HELP = "open the lessons in JupyterLab"
ABOUT = (
    "Open the lessons in JupyterLab. It answers this machine only, and asks for the token in the address. "
    "Your set-up and your progress are kept in the folder you are in, or where SPLASH_HOME says. "
    "Control-C ends it."
)

HOST = "127.0.0.1"
TO_END = "To end it, press Control-C in this window."
NEEDED = ("jupyterlab", "ipykernel", "ipywidgets", "anywidget")
NEEDED += ("numpy", "matplotlib", "sympy", "PIL", "tomlkit", "jinja2")
# The threads of a numpy product go on spinning when it is done, and take the time that a live picture needs.
ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS", "VECLIB_MAXIMUM_THREADS")
# Where the window of JupyterLab is laid out, and how: nothing folded out at the left, so that a small screen has room.
WORKSPACE = "default-37a8.jupyterlab-workspace"
FOLDED = {"layout-restorer:data": {"left": {"collapsed": True, "visible": True, "current": None, "widgets": []}}}
NEWS = "@jupyterlab/apputils-extension:announcements"


def arguments(parser: argparse.ArgumentParser):
    """What the command takes."""
    parser.add_argument(
        "--port", type=port, metavar="N", help="the port to answer on (default: 8888 or the next free one)"
    )
    parser.add_argument("--no-browser", action="store_true", help="only print the address; open no browser")
    parser.add_argument(
        "--folder",
        type=Path,
        metavar="FOLDER",
        help="take the course in this folder: notebooks are copied into it (those already there stay as "
        "they are), and your set-up and progress are kept there",
    )


def port(text: str) -> int:
    """A port number from the command line."""
    if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"{text} is no port; it must be a whole number from 1 to 65535")
    return int(text)


def run(args: argparse.Namespace) -> int:
    """Serve the course until it is stopped."""
    refuse_missing()
    if args.port is not None:
        refuse_taken(args.port)
    home = learners_home(args.folder)
    notebooks = course_notebooks()
    if args.folder is not None:
        notebooks = copied(notebooks, home)
    first = notebooks / notebook_name(written()[0])
    with surroundings(home) as token:
        serve(first, root=root(home, notebooks), token=token, port=args.port, browser=not args.no_browser)
    return 0


def refuse_missing():
    """A clear word instead of a traceback when packages are missing."""
    missing = [name for name in NEEDED if importlib.util.find_spec(name) is None]
    if missing:
        raise Trouble(
            f"not installed here: {', '.join(missing)}. Install what the course needs with "
            "python -m pip install -e . in the folder of the course, then try again"
        )


def refuse_taken(number: int):
    """A clear word when the port that was asked for is in use."""
    with socket.socket() as probe:
        if os.name == "posix":
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((HOST, number))
        except OSError as error:
            why = f"port {number} cannot be used ({error.strerror}); try another --port, or none"
            raise Trouble(why) from None


def learners_home(folder: Path | None) -> Path:
    """Where the learner's files live: the folder asked for, else SPLASH_HOME, else the current folder."""
    if folder is None:
        home = Path(os.environ.get("SPLASH_HOME") or Path.cwd())
        if not home.is_dir():
            raise Trouble(f"SPLASH_HOME is {home}; there is no such folder: make it, or unset SPLASH_HOME")
        return home.resolve()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Trouble(f"--folder {folder} cannot be used ({error.strerror})") from None
    return folder.resolve()


def course_notebooks() -> Path:
    """The folder of notebooks that came with the course."""
    folder = checkout() / "notebooks"
    names = [notebook_name(lesson) for lesson in written()]
    if not names or not all((folder / name).is_file() for name in names):
        raise Trouble(
            f"the notebooks are not (all) in {folder}; make them with "
            "uv run --group dev python -m splashlib build, or get the course again"
        )
    return folder


def copied(notebooks: Path, home: Path) -> Path:
    """The learner's own notebooks; those that are there stay as they are."""
    if home == notebooks:
        return notebooks
    for lesson in written():
        own = home / notebook_name(lesson)
        if not own.exists():
            replace_file(own, (notebooks / own.name).read_bytes())
    return home


def root(home: Path, notebooks: Path) -> Path:
    """The folder that JupyterLab shows: the learner's, if the notebooks lie in it, so that both are seen."""
    return home if notebooks.parent == home else notebooks


@contextmanager
def surroundings(home: Path):
    """What the server and its kernels find around them; yields the token that the address must carry.

    The settings lie in a folder of their own that goes away at the end: neither the checkout nor the
    learner's own JupyterLab settings are touched. The token stands in a file there, as others can read a
    command line.
    """
    token = secrets.token_hex(24)
    with tempfile.TemporaryDirectory(prefix="splash-lessons-") as name:
        settings = Path(name)
        page = settings / "labconfig" / "page_config.json"
        page.parent.mkdir()
        page.write_text(json.dumps({"disabledExtensions": {NEWS: True}}), encoding="utf-8")
        spaces = settings / "workspaces"
        spaces.mkdir()
        folded = {"data": FOLDED, "metadata": {"id": "default"}}
        (spaces / WORKSPACE).write_text(json.dumps(folded), encoding="utf-8")
        private = {"IdentityProvider": {"token": token}, "KernelManager": {"transport_encryption": encryption()}}
        private["LabApp"] = {"workspaces_dir": str(spaces)}
        (settings / "jupyter_server_config.json").write_text(json.dumps(private), encoding="utf-8")
        before = os.environ.get("JUPYTER_CONFIG_PATH")
        os.environ["JUPYTER_CONFIG_PATH"] = os.pathsep.join(filter(None, [name, before]))
        # Kernels of this very environment, even if the learner has others of the same name.
        os.environ["JUPYTER_PREFER_ENV_PATH"] = "1"
        # Older kernels' debuggers warn about frozen modules, which says nothing to a learner.
        os.environ["PYDEVD_DISABLE_FILE_VALIDATION"] = "1"
        os.environ["SPLASH_HOME"] = str(home)
        os.environ.update(dict.fromkeys(ONE_THREAD, "1"))
        yield token


def encryption() -> str:
    """Whether kernels and server hide from others on this machine what they say; versions that cannot, do not."""
    import zmq

    return "auto" if zmq.has("curve") else "disabled"


def serve(first: Path, *, root: Path, token: str, port: int | None, browser: bool):
    """Run JupyterLab here, say where, and return when it has been stopped."""
    from jupyterlab.labapp import LabApp

    page = f"/lab/tree/{quote(first.relative_to(root).as_posix())}"
    options = {
        "ServerApp.ip": HOST,
        "ServerApp.sock": "",
        "ServerApp.certfile": "",
        "ServerApp.keyfile": "",
        "ServerApp.port": port or 8888,
        "ServerApp.port_retries": 0 if port else 100,
        "ServerApp.base_url": "/",
        "ServerApp.root_dir": root,
        "ServerApp.open_browser": browser,
        "ServerApp.allow_root": True,
        "ServerApp.log_level": "ERROR",
        "LabApp.log_level": "ERROR",
        "LabApp.default_url": page,
    }
    server = LabApp.initialize_server(argv=[f"--{name}={value}" for name, value in options.items()])
    # Settings of the user's own are read late, and some for older programs under other names: these three hold.
    server.ip, server.sock, server.identity_provider.token = HOST, "", token
    wrong: list[str] = []
    server.io_loop.add_callback(announce, server, f"http://{HOST}:{{port}}{page}?token={token}", wrong)
    if os.name == "posix":
        # Without a question, and also where no terminal is attached or where it has been closed.
        for ending in (signal.SIGINT, signal.SIGHUP, signal.SIGTERM):
            signal.signal(ending, lambda *_: server.stop(from_signal=True))
    server.start()
    if wrong:
        raise Trouble(wrong[0])


def announce(server, address: str, wrong: list[str]):
    """Tell the address, once the server answers there and nowhere else; otherwise stop it and note what is wrong."""
    bound = [each.getsockname() for each in server.http_server._sockets.values()]
    strange = [str(each[0] if isinstance(each, tuple) else each) for each in bound if each[:1] != (HOST,)]
    if bound and not strange:
        print(f"Splash Lessons: {address.format(port=server.port)}\n{TO_END}", flush=True)
        return
    where = f"at {', '.join(strange)}" if strange else "nowhere"
    wrong.append(
        f"JupyterLab would answer {where} instead of {HOST} only, so it was stopped; look for a setting of your own "
        "with jupyter --paths, or start with JUPYTER_NO_CONFIG=1"
    )
    server.stop(from_signal=True)
