"""Completion in a real bash: the script that is printed, the words that it gives."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import logbook as package
from tests.conftest import CommandLine

ROOT = Path(package.__file__).parents[1]
PRESS_TAB = """
eval "$(logbook completion bash)"
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
$(complete -p logbook | sed 's/.*-F \\([^ ]*\\).*/\\1/') logbook
printf '%s\\n' "${COMPREPLY[@]}"
"""


@pytest.mark.skipif(shutil.which("bash") is None, reason="bash is not on this machine")
@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        (["logbook", "wei"], ["weigh"]),
        (["logbook", "handbook", "p"], ["pi", "phone"]),
        (["logbook", "schema", "rou"], ["round"]),
        (["logbook", "weigh", "10"], ["101", "102"]),
        (["logbook", "sow", "pea"], ["pea\\ shoots"]),
        (["logbook", "sow", '"pea'], ["pea shoots"]),
        (["logbook", "sow", "pea\\ sh"], ["pea\\ shoots"]),
        (["logbook", "places", "retire", "Rack\\ 1/Shelf\\ 2"], ["Rack\\ 1/Shelf\\ 2"]),
        (["logbook", "places", "retire", "odd"], ["odd\\ \\$\\(touch\\ here\\)\\;\\ \\*"]),
        (["logbook", "reckon", "di"], ["dilute"]),
    ],
)
def test_tab_completes(
    cli: CommandLine, tmp_path: Path, typed: list[str], wanted: list[str]
) -> None:
    cli.done("sow", "field test", "--trays", "2")
    cli.done("places", "add", "odd $(touch here); *")
    program = tmp_path / "bin" / "logbook"
    program.parent.mkdir()
    program.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m logbook "$@"\n')
    program.chmod(0o755)
    path = f"{program.parent}:{os.environ['PATH']}"
    ran = subprocess.run(
        ["bash", "--norc", "-c", PRESS_TAB, "bash", *typed],
        cwd=ROOT, env={**os.environ, "PATH": path, "LOGBOOK_BOOK": str(cli.book)},
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert ran.stdout.splitlines() == wanted
    assert ran.stderr == ""
