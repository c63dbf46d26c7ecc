"""An answer's rows as CSV: the keys of its JSON as the header."""

import csv
import io
from collections.abc import Sequence
from datetime import tzinfo
from typing import Any

from logbook.cli.answers import written
from logbook.exchange.column import guarded


def csv_lines(rows: Sequence[Any], zone: tzinfo) -> list[str]:
    """Lines of CSV, one for each view after the header; what has parts is told in words."""
    said = [written(row, type(row), zone) for row in rows]
    made = io.StringIO()
    writer = csv.writer(made, lineterminator="\n")
    if said:
        writer.writerow(said[0])
        writer.writerows([[_cell(value) for value in one.values()] for one in said])
    return made.getvalue().splitlines()


def _cell(value: Any) -> Any:
    """A value as a cell that no spreadsheet runs; parts like "3 mould; 1 dropped"."""
    if isinstance(value, list):
        return guarded("; ".join(_cell(each) for each in value))
    if isinstance(value, dict):
        return " ".join(str(each) for each in reversed(value.values()))
    return guarded(value) if isinstance(value, str) else value
