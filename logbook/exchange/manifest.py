"""The manifest of an export: which files it has, how many rows, and their SHA-256."""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import Any, ClassVar

from logbook.text import Refused
from logbook.ways import Way

NAME = "manifest.json"
LAYOUT = 1
LARGEST_BYTES = 1_000_000
_READING = (
    "Each file is CSV by RFC 4180 in UTF-8; times are ISO 8601 in UTC, weights in g, lengths in "
    "mm, volumes in ml, lengths of time in s or as the header says. A text that a spreadsheet "
    "would run as a formula has an apostrophe before it: take the first one off to have the text. "
    "Struck entries are in it; entry.strikes_id says what a strike strikes."
)


@dataclass(frozen=True, slots=True)
class FileNote:
    """What the manifest says of one file."""

    table: str
    file: str
    rows: int
    sha256: str
    columns: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Manifest:
    """What an export holds. There is no time in it: the same book gives the same files."""

    keys: ClassVar = "rows revision tables"

    program: str
    revision: str
    """The revision of the book's tables."""
    files: tuple[FileNote, ...]

    @property
    def rows(self) -> int:
        """How many rows there are in all."""
        return sum(note.rows for note in self.files)

    def text(self) -> str:
        """Write it as JSON."""
        whole = {
            "layout": LAYOUT, "program": self.program, "revision": self.revision,
            "reading": _READING, "tables": [asdict(note) for note in self.files],
        }  # fmt: skip
        return json.dumps(whole, ensure_ascii=False, indent=2) + "\n"

    @property
    def tables(self) -> Mapping[str, int]:
        """Rows by table."""
        return {note.table: note.rows for note in self.files}


def read_manifest(data: bytes) -> Manifest:
    """Read a manifest; raise Refused when it is none, or of a newer layout."""
    try:
        given = json.loads(data.decode("utf-8"))
        if int(given["layout"]) > LAYOUT:
            raise Refused("These files were exported by a newer logbook; update the program.")
        files = tuple(_note(each) for each in given["tables"])
        return Manifest(str(given["program"]), str(given["revision"]), files)
    except (ValueError, KeyError, TypeError, RecursionError) as fault:
        raise Refused(f"{NAME} is not as {Way.EXPORT} writes it.") from fault


def _note(given: Any) -> FileNote:
    table, rows, digest = given["table"], given["rows"], given["sha256"]
    if not re.fullmatch(r"[a-z_]{1,60}", table) or given["file"] != f"{table}.csv":
        raise ValueError(table)
    if not isinstance(rows, int) or rows < 0 or not re.fullmatch(r"[0-9a-f]{64}", digest):
        raise ValueError(rows)
    return FileNote(table, given["file"], rows, digest, tuple(str(x) for x in given["columns"]))
