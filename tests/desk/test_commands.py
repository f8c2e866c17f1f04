"""The command line as it is typed: help that reads well, one line for what is wrong."""

import subprocess
import sys

import pytest

from splashlib.desk import commands


def typed(*words):
    return subprocess.run(
        [sys.executable, "-m", "splashlib", *words], capture_output=True, text=True, stdin=subprocess.DEVNULL
    )


def test_help_names_each_command():
    told = typed("--help")
    assert told.returncode == 0
    assert told.stderr == ""
    for command in commands.COMMANDS:
        assert f"    {command.NAME}" in told.stdout
        assert command.HELP in told.stdout


@pytest.mark.parametrize("command", commands.COMMANDS, ids=lambda command: command.NAME)
def test_each_command_has_a_help_of_its_own(command, capsys):
    with pytest.raises(SystemExit) as end:
        commands.main([command.NAME, "--help"])
    assert end.value.code == 0
    told = capsys.readouterr().out
    assert " ".join(command.ABOUT.split()) in " ".join(told.split())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ([], "say what to do: open, build, report"),
        (["opne"], "'opne'"),
        (["open", "--port", "many"], "many is no port; it must be a whole number from 1 to 65535"),
        (["open", "--port", "0"], "0 is no port"),
        (["open", "--port", "65536"], "65536 is no port"),
        (["open", "--port", "-3"], "-3"),
        (["open", "--prot", "8888"], "--prot"),
        (["open", "here"], "here"),
        (["build", "--chekc"], "--chekc"),
        (["report"], "FOLDER"),
    ],
)
def test_wrong_arguments_get_one_line(words, told, capsys):
    with pytest.raises(SystemExit) as end:
        commands.main(words)
    assert end.value.code == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert told in err
    assert "--help" in err


def test_trouble_is_one_line_and_status_one(tmp_path, monkeypatch, capsys):
    monkeypatch.setenv("SPLASH_HOME", str(tmp_path / "nowhere"))
    assert commands.main(["open", "--no-browser"]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert err.startswith("splashlib open: SPLASH_HOME is ")


def test_control_c_ends_quietly(monkeypatch, capsys):
    def interrupted(args):
        raise KeyboardInterrupt

    monkeypatch.setattr(commands.build, "run", interrupted)
    assert commands.main(["build"]) == 130
    assert capsys.readouterr().err == ""
