"""Starting the program as processes of their own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from logbook.actions.care.begin import BeginDraft, begin_book

ROOT = Path(__file__).parents[2]


def new_book(path: Path) -> Path:
    """Make a book with room for many trays."""
    begin_book(path, BeginDraft(racks=4, shelves=5, slots=16))
    return path


def start_writer(
    book: Path, name: str, said: Path, *more: str, under: tuple[str, ...] = ()
) -> subprocess.Popen[str]:
    """Start a writer whose lines are appended to the file `said`."""
    with said.open("a") as out:
        return subprocess.Popen(
            [*under, sys.executable, "-m", "tests.bench.writer", str(book), name, *more],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=out,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
        )


def start_command(book: Path, by: str, *words: str) -> subprocess.Popen[str]:
    """Start a plain command of the program."""
    return subprocess.Popen(
        [sys.executable, "-m", "logbook", "--book", str(book), "--by", by, *words],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
