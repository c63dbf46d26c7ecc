"""Copies of a book: made while it is open, checked, synced, then named."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

from logbook.store.faults import fault_words


def sync_folder(folder: Path) -> None:
    """Sync a folder, so that a name made or changed in it outlives a power cut."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def new_file(path: Path) -> None:
    """Make an empty file that only its owner may read; an old one of that name goes."""
    path.unlink(missing_ok=True)
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))


def sync_file(path: Path) -> None:
    """Sync a file's content to the disk."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def copy_file(source: Path, target: Path) -> None:
    """Copy a book through SQLite's backup, check the copy, sync it, and only then name it.

    Raises:
        Refused: the source cannot be read, the disk is full, or the copy does not check out.
    """
    unfinished = target.with_name(target.name + ".unfinished")
    try:
        new_file(unfinished)
        reader = sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True, timeout=15)
        writer = sqlite3.connect(unfinished)
        try:
            reader.backup(writer)
            verdict = writer.execute("PRAGMA quick_check(1)").fetchone()[0]
            if verdict != "ok":
                raise sqlite3.DatabaseError(f"malformed: {verdict}")
        finally:
            writer.close()
            reader.close()
        sync_file(unfinished)
        unfinished.replace(target)
        sync_folder(target.parent)
    except sqlite3.Error as fault:
        raise fault_words(fault, source) from fault
    finally:
        unfinished.unlink(missing_ok=True)
