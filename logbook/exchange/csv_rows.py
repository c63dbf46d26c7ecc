"""A CSV file as rows under a header, and the numbers in its cells."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

from logbook.exchange.sheets import numbered, read_text
from logbook.growing.measures import grams
from logbook.text import Refused, clean, fold, listed, nearest

_NOTHING = {"", "-", "–", "—", "na", "n/a", "nan", "none", "null", "?"}
_PLAIN = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class CsvRows:
    """A file's header and its rows, each with its line number in the file."""

    name: str
    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]

    def column(self, wanted: Sequence[str]) -> int | None:
        """Position of the first wanted header that is there, case ignored."""
        folded = [fold(name) for name in self.header]
        for name in wanted:
            if fold(name) in folded:
                return folded.index(fold(name))
        return None

    def needed(self, wanted: Sequence[str]) -> int:
        """Position of a column; raise Refused, naming those there are, without it."""
        at = self.column(wanted)
        if at is None:
            there = listed([f'"{name}"' for name in self.header], most=8) or "none"
            hint = nearest(wanted[0], list(self.header))
            raise Refused(
                f'{self.name} has no column "{wanted[0]}"; its columns are {there}.{hint}'
            )
        return at


def cell_at(row: Sequence[str], at: int | None) -> str:
    """What stands in a column; '' where there is no such column, or the row is short."""
    return row[at] if at is not None and at < len(row) else ""


def read_sheet(file: str) -> CsvRows:
    """Read a CSV file ("-" is standard input) with ; , or tab, or raise Refused."""
    name = "The input" if file == "-" else f'"{clean(file, lines=False)}"'
    text = read_text(file, windows=True)
    first = next((line for line in text.splitlines() if line.strip()), "")
    if not first:
        raise Refused(f"{name} is empty; it needs a header line and a row for each tray.")
    cleaned = (
        (line, tuple(clean(cell, lines=False) for cell in cells))
        for line, cells in numbered(text, max(";\t,", key=first.count))
    )
    (_, header), *rows = [(line, cells) for line, cells in cleaned if any(cells)] or [(1, ())]
    return CsvRows(name, header, tuple(rows))


def number(cell: str, what: str, where: str) -> float | None:
    """Read a number with . or , as its decimal mark, or raise Refused; None for an empty cell."""
    if fold(cell) in _NOTHING:
        return None
    if _PLAIN.fullmatch(cell) and not re.fullmatch(r"\d{1,3},\d{3}", cell):
        value = float(cell.replace(",", "."))
        if math.isfinite(value) and abs(value) < 1e15:
            return value
        raise Refused(f'{where}: the {what} "{cell[:40]}" is far too large.')
    try:
        return grams(cell, what)
    except Refused as wrong:
        raise Refused(f"{where}: {wrong}") from None
