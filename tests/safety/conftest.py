"""A book of two batches at a fixed moment, and folders of its own for every test."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from logbook.actions.book import Book, open_book
from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.copies import Copy
from logbook.actions.trays.doing import did
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.store.file.packing import unpack

NOW = datetime(2026, 4, 14, 7, 30, tzinfo=UTC)


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DATA", "CONFIG", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))
    for name in [each for each in os.environ if each.startswith("LOGBOOK_")]:
        monkeypatch.delenv(name)


@pytest.fixture
def clock() -> FixedClock:
    return FixedClock(NOW)


@pytest.fixture(scope="session")
def filled(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("filled") / "room.book"
    fill(begin_book(path, BeginDraft(zone="UTC"), FixedClock(NOW), "ab", "sample"))
    return path


@pytest.fixture
def book(filled: Path, tmp_path: Path, clock: FixedClock) -> Book:
    home = tmp_path / "home"
    home.mkdir(mode=0o700)
    return open_book(Path(shutil.copy(filled, home / "room.book")), clock, "ab")


def fill(book: Book) -> None:
    """Sow two batches, water one, weigh a tray, jot."""
    sow(book, SowDraft("radish", trays=4, at=datetime(2026, 4, 9, 7, tzinfo=UTC)))
    sow(book, SowDraft("kale", trays=2, at=datetime(2026, 4, 12, 7, tzinfo=UTC)))
    did(book, "water", (105, 106), amount_ml=200.0)
    weigh(book, (101,), 240.0)
    jot(book, (102,), "a paler corner")


def notes(book: Book) -> list[str]:
    """Give the notes in the book, as they were written."""
    with book.reading() as reading:
        return [row[0] for row in reading.rows("SELECT note FROM entry ORDER BY id")]


def overwrite(path: Path, offset: int, data: bytes) -> None:
    """Write bytes over a file, past SQLite."""
    with path.open("r+b") as file:
        file.seek(offset)
        file.write(data)


def unpacked(copy: Copy) -> Path:
    """The book in a packed copy, as a file beside it."""
    plain = copy.path.with_suffix("")
    unpack(copy.path, plain)
    return plain


Run = Callable[..., int]


@pytest.fixture
def run(book: Book) -> Run:
    """Run a command on the book; its output is for capsys."""
    from logbook.cli.app import run as run_command

    def run_it(*words: str) -> int:
        return run_command(["--book", str(book.file.path), "--now", "2026-04-14T07:30Z", *words])

    return run_it
