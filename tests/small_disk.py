"""A small disk of its own (a tmpfs), for what happens when a disk is full, read-only or pulled out."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from logbook.store.file import rooms

SIZE = 1_600 * 1024


@contextmanager
def small_disk(folder: Path) -> Iterator[Path]:
    """Mount a disk of SIZE bytes at a folder; skip the test where that cannot be done."""
    folder.mkdir()
    words = ["mount", "-t", "tmpfs", "-o", f"size={SIZE},mode=700", "none", str(folder)]
    if (
        shutil.which("mount") is None
        or subprocess.run(words, capture_output=True, check=False).returncode
    ):
        pytest.skip("a small disk cannot be mounted here (that takes root)")
    try:
        yield folder
    finally:
        subprocess.run(["umount", "-l", str(folder)], check=True)


def fill_up(folder: Path, leave: int = 0) -> Path:
    """Take all room of a disk but some bytes; give the file that takes it."""
    filler = folder / "filler"
    filler.write_bytes(bytes(max(0, rooms.free_bytes(folder) - leave)))
    return filler
