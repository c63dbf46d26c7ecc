"""A column of a table: what it holds, and how its values stand in a CSV file."""

import math
import re
import sqlite3
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from logbook.store.rows import moment, stored
from logbook.text import HARMFUL, Refused

Kind = Literal["whole", "real", "truth", "moment", "text"]
Value = str | int | float | None
MARK = "'"
_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", MARK)
_WHOLE = re.compile(r"-?[0-9]{1,19}")
_LARGEST = 2**63
_MINUTES = ("day_start", "day_end", "evening", "lamp_on", "lamp_off")


def guarded(text: str) -> str:
    """A text as a cell that no spreadsheet runs; without its first mark it is the text again."""
    return MARK + text if text.startswith(MARK) or text.lstrip(" ").startswith(_RUNS) else text


@dataclass(frozen=True, slots=True)
class Column:
    """A column, its place in the primary key, and the column of which it keeps the folded text."""

    name: str
    kind: Kind
    nullable: bool
    key: int = 0
    folded_from: str = ""

    @property
    def header(self) -> str:
        """The name in a CSV file's header, with the unit that the name itself does not say."""
        if self.kind == "moment":
            return f"{self.name}_utc"
        return f"{self.name}_minutes" if self.name in _MINUTES else self.name

    def write(self, value: Value) -> str:
        """Write a value of the database as a cell."""
        if value is None:
            return ""
        if self.kind == "text":
            return guarded(str(value)) or (MARK if self.nullable else "")
        if self.kind == "truth":
            return "true" if value else "false"
        if self.kind == "moment":
            return f"{moment(value).replace(tzinfo=None).isoformat()}Z"
        return repr(float(value)) if self.kind == "real" else str(int(value))

    def read(self, cell: str) -> Value:
        """The value of a cell; raises Refused, a message that completes "… of line 7"."""
        if cell == "" and (self.nullable or self.kind != "text"):
            if not self.nullable:
                raise Refused("is empty")
            return None
        if self.kind == "text":
            text = cell.removeprefix(MARK)
            if HARMFUL.search(text):
                raise Refused("holds control codes")
            return text
        if self.kind == "truth":
            if cell not in ("true", "false"):
                raise Refused("is neither true nor false")
            return int(cell == "true")
        if self.kind == "moment":
            return _moment(cell)
        if self.kind == "whole":
            if not _WHOLE.fullmatch(cell) or not -_LARGEST <= int(cell) < _LARGEST:
                raise Refused("is not a whole number")
            return int(cell)
        try:
            number = float(cell)
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            raise Refused("isn't a number")
        return number


def _moment(cell: str) -> float:
    try:
        at = datetime.fromisoformat(cell)
    except ValueError as fault:
        raise Refused("isn't a moment like 2026-04-14T07:30:00Z") from fault
    if at.utcoffset() is None:
        raise Refused("has no offset; write it like 2026-04-14T07:30:00Z")
    kept = stored(at)
    try:
        moment(kept)
    except sqlite3.DatabaseError as fault:
        raise Refused("is not between the years 1 and 9999 in UTC") from fault
    return kept
