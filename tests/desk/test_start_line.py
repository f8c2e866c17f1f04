"""README's start line: it fetches uv once, and from then on it needs no network."""

import os
import re
import shutil
import subprocess

import pytest

from splashlib.desk.house import checkout

README = (checkout() / "README.md").read_text(encoding="utf-8")
COMMANDS = [line for fence in re.findall(r"```\n(.*?)```", README, re.S) for line in fence.splitlines()]
RUN = "-m uv run python -m splashlib open"

# Stands for Python on a machine without a network: pip cannot reach anything, the rest works. It notes what was asked.
OFFLINE = """#!/bin/sh
echo "PYTHONPATH=$PYTHONPATH $*" >> asked
case "$*" in *"pip install"*) exit 1 ;; esac
"""


def given(place, command):
    """The exit status of a command of README in a folder without a network, and what Python was asked for."""
    for name in ("python3", "py"):
        tool = place / "bin" / name
        tool.parent.mkdir(exist_ok=True)
        tool.write_text(OFFLINE)
        tool.chmod(0o755)
    around = {"PATH": f"{place / 'bin'}{os.pathsep}{os.environ['PATH']}"}
    status = subprocess.run(["bash", "-c", command], cwd=place, env=around, stdin=subprocess.DEVNULL).returncode
    asked = place / "asked"
    return status, asked.read_text().splitlines() if asked.exists() else []


def ending(words):
    """README's commands that end so."""
    return [command for command in COMMANDS if command.endswith(words)]


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_the_start_line_works_without_a_network_once_uv_is_there(tmp_path):
    (tmp_path / ".tools" / "uv").mkdir(parents=True)
    first = ending("splashlib open")[0]
    assert given(tmp_path, first) == (0, [f"PYTHONPATH=.tools {RUN}"])


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_the_start_line_fetches_uv_first_and_stops_where_it_cannot(tmp_path):
    status, asked = given(tmp_path, ending("splashlib open")[0])
    assert status != 0
    assert asked == ["PYTHONPATH= -m pip install -q --target .tools uv"]


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_the_second_day_has_a_short_line(tmp_path):
    second = ending("splashlib open")[1]
    assert len(second) < 70
    assert given(tmp_path, second) == (0, [f"PYTHONPATH=.tools {RUN}"])


def test_in_powershell_too_uv_is_fetched_only_where_it_is_missing():
    for command in COMMANDS:
        if command.startswith(("py ", "if (")) and "pip install" in command:
            assert command.startswith("if (!(Test-Path .tools/uv)) { py -m pip install")
