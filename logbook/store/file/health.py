"""Facts about a book's file that a check looks at, and what the last check left, kept outside the book.

Nothing here writes to the book.
"""

import hashlib
import json
import os
import sqlite3
from collections import Counter
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from logbook.paths import state_folder, write_private
from logbook.store.columns import DERIVED
from logbook.store.file.book_file import SMALL_CACHE, connect_file
from logbook.store.reads.standing import STANDS
from logbook.store.rows import Rows, moment, stored

OLDEST_SQLITE = (3, 35, 0)
"""The first SQLite with RETURNING, which writing uses."""

MENDED_WAL = (3, 51, 3)
"""The first SQLite without the fault in write-ahead logs (sqlite.org/wal.html#walresetbug)."""

MOST_FAULTS = 5
WHOLE_BYTES = 64 * 2**20
"""Files up to this size are checked in one go: well under a second."""


@contextmanager
def looking(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection for looking into a file, healthy or not."""
    with closing(connect_file(path)) as connection:
        connection.execute("PRAGMA query_only=ON")
        connection.execute(SMALL_CACHE)
        yield connection


def integrity_faults(path: Path, *, alone: bool = False) -> list[str]:
    """What SQLite's check of a file complains of, at most MOST_FAULTS lines; none when whole.

    A large file that is not read `alone` is checked table by table with its indexes, so that others
    can write between; that leaves out the list of free pages.
    """
    try:
        if alone or path.stat().st_size <= WHOLE_BYTES:
            asked: list[str | int] = [MOST_FAULTS]
        else:
            with looking(path) as connection:
                asked = ["sqlite_schema", *table_names(connection, derived=True)]
        found: list[str] = []
        for each in asked:
            with looking(path) as connection:
                rows = connection.execute(f"PRAGMA integrity_check({each})").fetchall()
            lines = [line for row in rows for line in str(row[0]).splitlines()]
            found += [line for line in lines if line != "ok" and not line.startswith("***")]
    except sqlite3.OperationalError:
        raise
    except sqlite3.DatabaseError as fault:
        return [str(fault)]
    except UnicodeDecodeError:
        return ["the names of its tables cannot be read"]
    return found[:MOST_FAULTS]


def dangling_rows(connection: sqlite3.Connection) -> dict[str, int]:
    """Give, by table, how many rows point to a row that is not there."""
    return Counter(row[0] for row in connection.execute("PRAGMA foreign_key_check"))


def journal_mode(connection: sqlite3.Connection) -> str:
    """The file's journal mode: "delete" as this program makes it."""
    return str(connection.execute("PRAGMA journal_mode").fetchone()[0])


def table_names(connection: sqlite3.Connection, *, derived: bool = False) -> list[str]:
    """Name the tables that hold the book, without SQLite's and Alembic's own.

    With `derived` also those that can be made from them: the words of entries and their index.
    """
    rows = connection.execute(
        "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%' "
        "AND name NOT LIKE '\\_alembic%' ESCAPE '\\' AND name <> 'alembic_version' "
        "AND sql NOT LIKE 'CREATE VIRTUAL %' ORDER BY name"
    )
    return [row[0] for row in rows if derived or not row[0].startswith(DERIVED)]


def row_counts(connection: sqlite3.Connection) -> dict[str, int]:
    """How many rows each table holds."""
    return {
        name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]
        for name in table_names(connection)
    }


_NEWEST = f"""
FROM (SELECT * FROM entry ORDER BY id DESC LIMIT 200) e WHERE {STANDS}
"""
"""Of the newest entries: not the last one alone, for that may have been written by a late clock;
not all, so that a clock that once ran ahead is forgotten, at once when what it wrote is struck."""
TOLD_AHEAD = timedelta(days=60)
"""A time that somebody told with a clock in doubt is believed so far past the newest writing: as
long as a machine may have stood still. A year mistyped lies further off."""


def newest_written(reading: Rows) -> float | None:
    """The latest moment at which one of the newest entries was written, as stored, or None."""
    found: float | None = reading.value(f"SELECT max(e.written_at) {_NEWEST}")
    return found


def newest_known(reading: Rows) -> float | None:
    """The latest moment of which the newest entries tell, as stored, or None.

    Where the clock was in doubt, that may be a time that somebody told.
    """
    written = newest_written(reading)
    if written is None:
        return None
    told = reading.value(
        f"SELECT max(e.at) {_NEWEST} AND e.clock_in_doubt = 1 AND e.kind <> 'plan' AND e.at < ?",
        (stored(moment(written) + TOLD_AHEAD),),
    )
    return written if told is None else max(written, told)


def open_to_others(path: Path) -> bool:
    """Say whether others on this machine may read or change a file or folder."""
    return bool(path.stat().st_mode & 0o077)


def clock_was_set(run: Path = Path("/run")) -> bool | None:
    """Say whether the network has set the machine's clock since it started; None unknown.

    systemd-timesyncd keeps a folder while it runs, and a file in it from the first answer on.
    """
    folder = run / "systemd" / "timesync"
    if not folder.is_dir():
        return None
    return (folder / "synchronized").exists()


@dataclass(frozen=True, slots=True)
class Stamp:
    """The day of the last check, and the damage it found ("" for none)."""

    day: date
    damage: str = ""


def _stamp_path(book: Path, what: str = "checked") -> Path:
    key = hashlib.sha256(os.fsencode(book.resolve())).hexdigest()[:16]
    return state_folder() / f"{what}-{key}.json"


def write_elsewhere(book: Path, at: datetime) -> None:
    """Keep that a copy was made on another disk, which may be out of reach when one asks for it."""
    with suppress(OSError):
        write_private(_stamp_path(book, "elsewhere"), json.dumps(at.isoformat()))


def read_elsewhere(book: Path) -> datetime | None:
    """When the last copy was made on another disk, in UTC; None for never, as far as is known."""
    try:
        kept = _stamp_path(book, "elsewhere").read_text(encoding="utf-8")
        return datetime.fromisoformat(json.loads(kept)).astimezone(UTC)
    except (OSError, ValueError, TypeError):
        return None


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
        write_private(path, json.dumps(kept))
    except OSError:
        return
