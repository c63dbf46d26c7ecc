"""Every command is there, says what it does, and can be completed by the shell."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import click
import pytest

import logbook as package
from logbook import __version__
from logbook.cli.app import TABLE, logbook, top_context
from tests.conftest import CommandLine

ROOT = Path(package.__file__).parents[1]
WANTED = {
    "begin", "demo", "round", "due", "page", "sow", "did", "jot", "look", "move", "discard", "weigh",
    "templates", "places", "skip", "undo", "strike", "completion",
    "trial",
}  # fmt: skip


def _commands() -> list[list[str]]:
    context = top_context()
    found = []
    for name in TABLE:
        found.append([name])
        command = logbook.get_command(context, name)
        if isinstance(command, click.Group):
            found += [[name, each] for each in command.list_commands(context)]
    return found


def test_the_table_has_every_command_that_is_promised() -> None:
    assert set(TABLE) >= WANTED


@pytest.mark.parametrize("name", TABLE)
def test_every_command_imports_and_has_one_line_of_help(name: str) -> None:
    context = top_context()
    command = logbook.get_command(context, name)
    assert command is not None
    assert command.name == name
    assert command.help
    assert 10 < len(TABLE[name][1]) < 70


@pytest.mark.parametrize("words", _commands(), ids=" ".join)
@pytest.mark.parametrize("flag", ["--help", "-h"])
def test_help_works_for_each(cli: CommandLine, words: list[str], flag: str) -> None:
    shown = cli.bare(*words, flag)
    assert (shown.code, shown.err) == (0, "")
    assert shown.out.startswith(f"Usage: logbook {' '.join(words)}")
    assert all(len(line) <= 100 for line in shown.out.splitlines())


@pytest.mark.parametrize("words", _commands(), ids=" ".join)
def test_every_option_says_what_it_is(words: list[str]) -> None:
    command: click.Command | None = logbook
    for name in words:
        assert isinstance(command, click.Group)
        command = command.get_command(top_context(), name)
    assert command is not None
    silent = [
        each.opts for each in command.params if isinstance(each, click.Option) and not each.help
    ]
    assert silent == []


def test_the_help_of_all_names_every_command(cli: CommandLine) -> None:
    shown = cli.bare("--help")
    assert shown.code == 0
    for name, (_, words) in TABLE.items():
        assert name in shown.out
        assert words in " ".join(shown.out.split())


def test_the_version(cli: CommandLine) -> None:
    assert __version__ in cli.bare("--version").out


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_a_completion_script_for_each_shell(cli: CommandLine, shell: str) -> None:
    script = cli.bare("completion", shell)
    assert script.code == 0
    assert "_LOGBOOK_COMPLETE" in script.out
    assert "logbook" in script.out


@pytest.mark.parametrize(
    ("words", "wanted"),
    [
        ("logbook rou", ["round"]),
        ("logbook did wa", ["water_look", "water"]),
        ("logbook skip weight", ["weight_on", "weight_off"]),
        ("logbook sow sunf", ["sunflower"]),
        ("logbook did water 10", ["101", "102"]),
        ("logbook weigh 102", ["102"]),
        ("logbook templates show bas", ["basil"]),
    ],
)
def test_the_shell_completes_names_and_trays(
    cli: CommandLine, monkeypatch: pytest.MonkeyPatch, words: str, wanted: list[str]
) -> None:
    cli.done("sow", "field test", "--dry", "--trays", "2")
    asked = {
        "LOGBOOK_BOOK": str(cli.book),
        "_LOGBOOK_COMPLETE": "bash_complete",
        "COMP_WORDS": words,
        "COMP_CWORD": str(len(words.split()) - 1),
    }
    for name, value in asked.items():
        monkeypatch.setenv(name, value)
    ran = cli.bare()
    assert [line.partition(",")[2] for line in ran.out.splitlines()] == wanted
    assert (ran.code, ran.err) == (0, "")


def test_completion_is_silent_where_there_is_no_book(tmp_path: Path) -> None:
    environment = {
        **os.environ,
        "LOGBOOK_BOOK": str(tmp_path / "none"),
        "_LOGBOOK_COMPLETE": "bash_complete",
        "COMP_WORDS": "logbook weigh 1",
        "COMP_CWORD": "2",
    }
    ran = subprocess.run(
        [sys.executable, "-m", "logbook"],
        cwd=ROOT, env=environment, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert (ran.stdout.strip(), ran.stderr) == ("", "")


def test_the_program_itself_gives_its_exit_code(cli: CommandLine) -> None:
    for arguments, code in ((["round"], 0), (["tray", "7"], 1), (["nosuch"], 2)):
        ran = subprocess.run(
            [sys.executable, "-m", "logbook", "--book", str(cli.book), *arguments],
            cwd=ROOT, capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert ran.returncode == code
        assert "Traceback" not in ran.stderr
