"""The course is served to this machine only, asks for its token, and leaves other folders alone."""

import importlib.util
import json
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from jupyter_client import BlockingKernelClient

from splashlib.desk import open_course
from splashlib.desk.house import checkout, notebook_name, written
from splashlib.desk.trouble import Trouble

ADDRESS = re.compile(r"Splash Lessons: (http://127\.0\.0\.1:(\d+))(/lab/tree/\S+)\?token=([0-9a-f]{48})\n")
FIRST = notebook_name(written()[0])


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Course:
    """A running `open`, and what it said. Its port is its own: two that try the usual one at once can miss each other.

    A server looks for a free port first and takes it later; another one may have taken it by then.
    """

    def __init__(self, folder: Path, *words: str, **more: str):
        words = words if "--port" in words else (*words, "--port", str(free_port()))
        self.log = folder / "log"
        self.runtime = folder / "runtime"
        self.cwd = folder / "here"
        self.cwd.mkdir()
        environment = {**os.environ, "JUPYTER_RUNTIME_DIR": str(self.runtime), "TMPDIR": str(folder)}
        for name in ("SPLASH_HOME", "OPENBLAS_NUM_THREADS", "JUPYTER_TOKEN"):
            environment.pop(name, None)
        environment |= more
        self.process = subprocess.Popen(
            [sys.executable, "-m", "splashlib", "open", "--no-browser", *words],
            cwd=self.cwd, env=environment, text=True, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=self.log.open("w"),
        )  # fmt: skip
        self.line = self.process.stdout.readline()
        self.base, self.port, self.page, self.token = ADDRESS.fullmatch(self.line).groups()

    def ask(self, path: str, *, token: bool = True, method: str = "GET") -> str:
        headers = {"Authorization": f"token {self.token}"} if token else {}
        request = urllib.request.Request(self.base + path, headers=headers, method=method)
        with urllib.request.urlopen(request, timeout=60) as reply:
            return reply.read().decode()

    def in_kernel(self, code: str) -> str:
        """What code prints in a kernel of this server."""
        kernel = json.loads(self.ask("/api/kernels", method="POST"))["id"]
        client = BlockingKernelClient(connection_file=str(self.runtime / f"kernel-{kernel}.json"))
        client.load_connection_file()
        # On a busy machine a kernel that starts is deaf for longer than the second after which it counts as dead.
        client.hb_channel.time_to_dead = 60
        client.start_channels()
        client.wait_for_ready(timeout=60)
        printed = []
        client.execute_interactive(
            code, timeout=60, output_hook=lambda message: printed.append(message["content"].get("text", ""))
        )
        client.stop_channels()
        return "".join(printed)

    def listening(self) -> list[str]:
        """Addresses and ports at which anything answers with this port, as Linux writes them."""
        port = f":{int(self.port):04X} "
        tables = [Path("/proc/net/tcp").read_text(), Path("/proc/net/tcp6").read_text()]
        return [row.split()[1] for table in tables for row in table.splitlines() if port in row and " 0A " in row]

    def end(self, how: signal.Signals = signal.SIGINT) -> int:
        self.process.send_signal(how)
        try:
            return self.process.wait(timeout=60)
        finally:
            self.process.kill()
            self.process.stdout.close()


@pytest.fixture(scope="module")
def course(tmp_path_factory):
    running = Course(tmp_path_factory.mktemp("open"))
    yield running
    running.end()


def test_one_line_with_the_address(course):
    assert course.page == f"/lab/tree/{FIRST}"
    assert json.loads(course.ask("/api/status"))["kernels"] >= 0
    assert '"baseUrl": "/"' in course.ask(course.page)


def test_it_asks_for_the_token(course):
    with pytest.raises(urllib.error.HTTPError) as refusal:
        course.ask("/api/contents", token=False)
    assert refusal.value.code == 403


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
def test_it_listens_to_this_machine_only(course):
    assert course.listening() == [f"0100007F:{int(course.port):04X}"]


def test_the_first_notebook_is_there_and_the_news_are_off(course):
    assert json.loads(course.ask(f"/api/contents/{FIRST}?content=0"))["type"] == "notebook"
    page = course.ask(course.page)
    assert re.search(r'"disabledExtensions": \[[^]]*"@jupyterlab/apputils-extension:announcements"', page)


def test_the_list_of_files_is_folded(course):
    space = json.loads(course.ask("/lab/api/workspaces/default"))
    assert space["data"]["layout-restorer:data"]["left"]["collapsed"] is True


def test_kernels_find_the_course_one_thread_and_the_learners_home(course):
    told = course.in_kernel(
        "import json, os, lessons, splashlib, sys\n"
        "print(json.dumps([os.environ['OPENBLAS_NUM_THREADS'], os.environ['SPLASH_HOME'], sys.prefix]))"
    )
    assert json.loads(told) == ["1", str(course.cwd), sys.prefix]
    assert course.log.read_text() == ""


def test_nothing_is_left_where_the_learner_stands(course):
    assert list(course.cwd.iterdir()) == []


def test_it_ends_with_control_c_and_takes_its_settings_along(tmp_path):
    running = Course(tmp_path)
    assert len(list(tmp_path.glob("splash-lessons-*"))) == 1
    assert running.end() == 0
    assert list(tmp_path.glob("splash-lessons-*")) == []
    assert running.log.read_text() == ""


OWN_SETTINGS = """\
c.ServerApp.ip = c.LabApp.ip = c.NotebookApp.ip = "0.0.0.0"
c.ServerApp.sock = "{sock}"
c.ServerApp.certfile = "{sock}.pem"
c.IdentityProvider.token = c.ServerApp.token = ""
"""


@pytest.mark.skipif(sys.platform != "linux", reason="reads /proc")
def test_it_listens_to_this_machine_only_whatever_the_users_own_settings_say(tmp_path):
    for name in ("jupyter_lab_config.py", "jupyter_notebook_config.py", "jupyter_server_config.py"):
        (tmp_path / name).write_text(OWN_SETTINGS.format(sock=tmp_path / "own.sock"))
    running = Course(tmp_path, JUPYTER_CONFIG_DIR=str(tmp_path))
    try:
        assert running.listening() == [f"0100007F:{int(running.port):04X}"]
        assert json.loads(running.ask("/api/status"))["kernels"] >= 0
        with pytest.raises(urllib.error.HTTPError):
            running.ask("/api/contents", token=False)
        assert not (tmp_path / "own.sock").exists()
    finally:
        running.end()


@pytest.mark.skipif(not hasattr(signal, "SIGHUP"), reason="terminals that are closed say so only here")
def test_without_any_settings_the_address_is_right_and_a_closed_terminal_leaves_nothing(tmp_path):
    running = Course(tmp_path, JUPYTER_NO_CONFIG="1", JUPYTER_TOKEN="another")
    assert json.loads(running.ask("/api/status"))["kernels"] >= 0
    assert running.end(signal.SIGHUP) == 0
    assert list(tmp_path.glob("splash-lessons-*")) == []


class Server:
    """What `announce` sees of a server that is bound where it should not be."""

    port, stopped = 8888, False

    def __init__(self, *names):
        sockets = [type("Socket", (), {"getsockname": lambda self, name=name: name})() for name in names]
        self.http_server = type("Http", (), {"_sockets": dict(enumerate(sockets))})()

    def stop(self, *, from_signal):
        self.stopped = from_signal


@pytest.mark.parametrize("names", [[("0.0.0.0", 8888)], [("127.0.0.1", 8888), ("::", 8888, 0, 0)], ["/run/a.sock"], []])
def test_an_address_for_others_is_never_served(names, capsys):
    server, wrong = Server(*names), []
    open_course.announce(server, "http://127.0.0.1:{port}/lab", wrong)
    assert server.stopped
    assert re.match("JupyterLab would answer (at|nowhere)", wrong[0])
    assert capsys.readouterr().out == ""
    open_course.announce(Server(("127.0.0.1", 8888)), "http://127.0.0.1:{port}/lab", wrong)
    address, ending = capsys.readouterr().out.splitlines()
    assert address == "Splash Lessons: http://127.0.0.1:8888/lab"
    assert "Control-C" in ending
    assert len(wrong) == 1


def test_a_folder_of_ones_own_gets_copies_and_keeps_what_is_there(tmp_path):
    own = tmp_path / "mine" / "splash"
    own.mkdir(parents=True)
    (own / FIRST).write_text('{"cells": [], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}')
    port = free_port()
    running = Course(tmp_path, "--folder", str(own), "--port", str(port))
    try:
        assert running.port == str(port)
        names = {entry["name"] for entry in json.loads(running.ask("/api/contents"))["content"]}
        assert names == {notebook_name(lesson) for lesson in written()}
        assert json.loads(running.ask(f"/api/contents/{FIRST}"))["content"]["cells"] == []
    finally:
        running.end()


def test_copies_equal_the_course(tmp_path):
    assert open_course.copied(checkout() / "notebooks", tmp_path) == tmp_path
    assert (tmp_path / FIRST).read_bytes() == (checkout() / "notebooks" / FIRST).read_bytes()


def test_a_taken_port_gets_a_clear_word():
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        with pytest.raises(Trouble, match=r"^port \d+ cannot be used \(.+\); try another --port"):
            open_course.refuse_taken(other.getsockname()[1])


def test_missing_packages_are_named(monkeypatch):
    real = importlib.util.find_spec
    gone = {"jupyterlab", "anywidget"}
    monkeypatch.setattr(importlib.util, "find_spec", lambda name: None if name in gone else real(name))
    with pytest.raises(Trouble, match=r"^not installed here: jupyterlab, anywidget\. Install .* pip install"):
        open_course.refuse_missing()


def test_missing_notebooks_get_a_clear_word(monkeypatch, tmp_path):
    monkeypatch.setattr(open_course, "checkout", lambda: tmp_path)
    with pytest.raises(Trouble, match=r"the notebooks are not \(all\) in .*splashlib build"):
        open_course.course_notebooks()


def test_a_folder_that_is_a_file_gets_a_clear_word(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(Trouble, match=r"^--folder .*file cannot be used"):
        open_course.learners_home(tmp_path / "file")


def test_home_is_what_was_asked_for_then_splash_home_then_here(monkeypatch, tmp_path):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path))
    assert open_course.learners_home(None) == tmp_path.resolve()
    assert open_course.learners_home(tmp_path / "new") == (tmp_path / "new").resolve()
    monkeypatch.delenv("SPLASH_HOME")
    monkeypatch.chdir(tmp_path / "new")
    assert open_course.learners_home(None) == (tmp_path / "new").resolve()


def test_jupyterlab_shows_the_learners_files_too_if_notebooks_lie_among_them(tmp_path):
    assert open_course.root(tmp_path, tmp_path / "notebooks") == tmp_path
    assert open_course.root(tmp_path, tmp_path / "deep" / "notebooks") == tmp_path / "deep" / "notebooks"
    assert open_course.root(tmp_path, tmp_path) == tmp_path
