"""When each book was last checked and whether it was found damaged: kept outside the book."""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from logbook.paths import private_folder, state_folder


@dataclass(frozen=True, slots=True)
class Stamp:
    """The day of the last check, and the damage it found ("" for none)."""

    day: date
    damage: str = ""


def _stamp_path(book: Path) -> Path:
    key = hashlib.sha256(os.fsencode(book.resolve())).hexdigest()[:16]
    return state_folder() / f"checked-{key}.json"


def _identity(book: Path) -> list[int]:
    facts = book.stat()
    return [facts.st_ino, facts.st_size, facts.st_mtime_ns]


def read_stamp(book: Path) -> Stamp | None:
    """What the last check left; damage only while the file is still the one it was found in.

    None where there was no check, or its file cannot be read.
    """
    try:
        kept = json.loads(_stamp_path(book).read_text(encoding="utf-8"))
        damage = str(kept["damage"]) if kept["file"] == _identity(book) else ""
        return Stamp(date.fromisoformat(kept["day"]), damage)
    except (OSError, ValueError, KeyError, TypeError):
        return None


def write_stamp(book: Path, stamp: Stamp) -> None:
    """Keep a check's day and verdict. Where the state folder cannot be written none is kept."""
    path = _stamp_path(book)
    kept = {"day": stamp.day.isoformat(), "damage": stamp.damage, "file": _identity(book)}
    try:
        private_folder(path.parent)
        unfinished = path.with_name(f"{path.name}.{os.getpid()}")
        handle = os.open(unfinished, os.O_CREAT | os.O_TRUNC | os.O_WRONLY, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            json.dump(kept, file)
        unfinished.replace(path)
    except OSError:
        return
