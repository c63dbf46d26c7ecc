"""Cells of a CSV file: faithful to the book, harmless in a spreadsheet, and read back the same.

A spreadsheet runs a cell that begins with = + - @ (OWASP, "CSV Injection"). A text that begins
so, or with the mark itself, is written with the mark ' before it; numbers are written as numbers,
so that a negative one stays one. An empty cell is nothing; where nothing and empty text both can
be, empty text is the mark alone.
"""

from __future__ import annotations

import math
import re
from datetime import UTC, datetime
from typing import Literal

from logbook.text import HARMFUL, Refused

Kind = Literal["whole", "real", "truth", "moment", "text"]
Value = str | int | float | None

MARK = "'"
_RUNS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", MARK)
_WHOLE = re.compile(r"-?[0-9]{1,19}")
_LARGEST = 2**63


def guarded(text: str) -> str:
    """A text as a cell that no spreadsheet runs."""
    return MARK + text if text.startswith(MARK) or text.lstrip(" ").startswith(_RUNS) else text


def unguarded(cell: str) -> str:
    """The text of a guarded cell."""
    return cell.removeprefix(MARK)


def write_cell(value: Value, kind: Kind, *, nullable: bool) -> str:
    """Write a value of the database as a cell."""
    if value is None:
        return ""
    if kind == "text":
        text = str(value)
        return guarded(text) if text or not nullable else MARK
    if kind == "truth":
        return "true" if value else "false"
    if kind == "moment":
        return datetime.fromisoformat(str(value)).isoformat() + "Z"
    return repr(float(value)) if kind == "real" else str(int(value))


def read_cell(cell: str, kind: Kind, *, nullable: bool) -> Value:
    """Read a cell as the database holds it.

    Raises:
        Refused: it is no such value (the message completes "… of line 7").
    """
    if cell == "" and (nullable or kind != "text"):
        if not nullable:
            raise Refused("is empty")
        return None
    if kind == "text":
        text = unguarded(cell)
        if HARMFUL.search(text):
            raise Refused("holds control codes")
        return text
    if kind == "truth":
        if cell not in ("true", "false"):
            raise Refused("is neither true nor false")
        return int(cell == "true")
    if kind == "moment":
        return _moment(cell)
    return _number(cell, kind)


def _moment(cell: str) -> str:
    try:
        at = datetime.fromisoformat(cell)
    except ValueError as fault:
        raise Refused("is no moment like 2026-04-14T07:30:00Z") from fault
    if at.utcoffset() is None:
        raise Refused("has no offset; write it like 2026-04-14T07:30:00Z")
    return at.astimezone(UTC).strftime("%Y-%m-%d %H:%M:%S.%f")


def _number(cell: str, kind: Kind) -> int | float:
    if kind == "whole":
        if not _WHOLE.fullmatch(cell) or not -_LARGEST <= int(cell) < _LARGEST:
            raise Refused("is no whole number")
        return int(cell)
    try:
        number = float(cell)
    except ValueError as fault:
        raise Refused("is no number") from fault
    if not math.isfinite(number):
        raise Refused("is no number")
    return number
