"""Completion in real shells: the script that is printed, the words that it gives."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.shell_completion import ShellComplete

import logbook as package
from logbook.cli.app import logbook as program
from tests.conftest import CommandLine
from tests.ui.real_terminal import RealTerminal

ROOT = Path(package.__file__).parents[1]
PRESS_TAB = """
eval "$(logbook completion bash)"
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
$(complete -p logbook | sed 's/.*-F \\([^ ]*\\).*/\\1/') logbook
printf '%s\\n' "${COMPREPLY[@]}"
"""
IN_FISH = "logbook completion fish | source; complete --do-complete $argv[1]"
ZSHRC = """
unsetopt global_rcs
autoload -Uz compinit && compinit -D -u
eval "$(logbook completion zsh)"
PS1='ready> '
"""
ODD = "odd, or: $(touch here); *"


def needs(shell: str) -> pytest.MarkDecorator:
    """Give the mark of a test that is skipped where a shell is missing."""
    return pytest.mark.skipif(shutil.which(shell) is None, reason=f"{shell} is not here")


@pytest.fixture
def environ(cli: CommandLine, tmp_path: Path) -> dict[str, str]:
    """Give an environment with `logbook` on the path, and a book with trays and an odd place."""
    cli.done("sow", "field test", "--dry", "--trays", "2")
    cli.done("places", "add", ODD)
    program = tmp_path / "bin" / "logbook"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m logbook "$@"\n')
    program.chmod(0o755)
    path = f"{program.parent}:{os.environ['PATH']}"
    return {"PATH": path, "LOGBOOK_BOOK": str(cli.book), "ZDOTDIR": str(tmp_path)}


def _ran(environ: dict[str, str], *command: str) -> list[str]:
    ran = subprocess.run(
        command, cwd=ROOT, env={**os.environ, **environ}, capture_output=True, text=True, check=True
    )
    assert ran.stderr == ""
    return ran.stdout.splitlines()


@pytest.mark.parametrize(
    ("words", "begun", "wanted"),
    [
        ("--book", "roo", ["file:roo"]),
        ("restore", "x", ["file:x"]),
        ("import", "x", ["file:x"]),
        ("move 101", "Rack 1/Shelf 2", ["Rack 1/Shelf 2"]),
        ("jot", "Rack 1/Shelf 2", ["Rack 1/Shelf 2"]),
        ("batch", "", ["1"]),
        ("lot", "", ["KA 12"]),
        ("sow kale --lot", "k", ["KA 12"]),
        ("strike", "", ["3", "2", "1"]),
        ("page --kind", "wat", ["water"]),
        ("page --crop", "pea", ["pea shoots"]),
        ("trial add thick", "t", ["thick", "thin"]),
        ("trial decide thick yes --arm", "thi", ["thick", "thin"]),
    ],
)
def test_what_is_completed(
    cli: CommandLine, monkeypatch: pytest.MonkeyPatch, words: str, begun: str, wanted: list[str]
) -> None:
    cli.done("sow", "kale", "--trays", "2", "--lot", "KA 12")
    cli.done("jot", "101", "dry")
    arms = ("--arm", "thick=34g", "--arm", "thin=20g")
    cli.done("trial", "new", "thick", "--crop", "kale", "--factor", "density", *arms)
    monkeypatch.setenv("LOGBOOK_BOOK", str(cli.book))
    shell = ShellComplete(program, {}, "logbook", "_LOGBOOK_COMPLETE")
    found = shell.get_completions(words.split(), begun)
    assert [
        each.value if each.type == "plain" else f"{each.type}:{each.value}" for each in found
    ] == wanted


@needs("bash")
@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        (["logbook", "wei"], ["weigh"]),
        (["logbook", "handbook", "ph"], ["phone"]),
        (["logbook", "schema", "rou"], ["round"]),
        (["logbook", "weigh", "10"], ["101", "102"]),
        (["logbook", "sow", "pea"], ["pea\\ shoots"]),
        (["logbook", "sow", '"pea'], ["pea shoots"]),
        (["logbook", "sow", "pea\\ sh"], ["pea\\ shoots"]),
        (["logbook", "places", "retire", "Rack\\ 1/Shelf\\ 2"], ["Rack\\ 1/Shelf\\ 2"]),
        (["logbook", "places", "retire", "odd"], ["odd\\,\\ or:\\ \\$\\(touch\\ here\\)\\;\\ \\*"]),
        (["logbook", "reckon", "di"], ["dilute"]),
    ],
)
def test_tab_completes_in_bash(
    environ: dict[str, str], typed: list[str], wanted: list[str]
) -> None:
    assert _ran(environ, "bash", "--norc", "-c", PRESS_TAB, "bash", *typed) == wanted


@needs("fish")
@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("logbook wei", ["weigh"]),
        ("logbook weigh 10", ["101", "102"]),
        ("logbook sow pea", ["pea shoots"]),
        ("logbook sow pea\\ sh", ["pea shoots"]),
        ("logbook places retire odd", [ODD]),
    ],
)
def test_tab_completes_in_fish(environ: dict[str, str], typed: str, wanted: list[str]) -> None:
    # what fish offers is followed by a tab and its help; fish itself quotes what it inserts
    offered = _ran(environ, "fish", "--no-config", "-c", IN_FISH, typed)
    assert [line.partition("\t")[0] for line in offered] == wanted


@needs("zsh")
def test_tab_completes_in_zsh(environ: dict[str, str], tmp_path: Path) -> None:
    (tmp_path / ".zshrc").write_text(ZSHRC)
    zsh = ("-c", "import os; os.execvp('zsh', ['zsh', '-i'])")
    with RealTerminal(program=zsh, environ=environ, size=(100, 24)) as terminal:
        terminal.sees("ready>")
        for typed, wanted in (
            ("wei", "weigh"),
            ("sow pea", "sow pea\\ shoots"),
            ('sow "pea', 'sow "pea shoots"'),
            ("places retire odd", "retire odd,\\ or:\\ \\$\\(touch\\ here\\)\\;\\ \\*"),
        ):
            terminal.type(f"logbook {typed}\t")
            terminal.sees(wanted)
            terminal.type("\x15")
            terminal.sees("ready>", gone=wanted)
        terminal.type("exit 0\n")
        assert terminal.ends() == 0
