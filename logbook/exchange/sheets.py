"""CSV files as spreadsheets save them: the encodings that they come in, and their rows by line."""

import csv
import io
import sys
from collections.abc import Iterator
from pathlib import Path

from logbook.text import Refused, clean

LARGEST = 20_000_000
"""Bytes; nobody keeps a larger sheet of harvests or of a trial."""


def read_text(file: str | Path, *, windows: bool = False) -> str:
    """The text of a file ("-": standard input) in UTF-8, UTF-16 or Windows' letters, or Refused."""
    name = "The input" if str(file) == "-" else f'"{clean(str(file), lines=False)}"'
    data = sys.stdin.buffer.read(LARGEST + 1) if str(file) == "-" else _bytes(Path(file), name)
    wide = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    if b"\x00" in data and not wide:
        raise Refused(f"{name} is not a text file; save the sheet as CSV.")
    try:
        return data.decode("utf-16" if wide else "utf-8-sig")
    except UnicodeDecodeError as fault:
        if windows:
            return data.decode("cp1252", errors="replace")
        raise Refused(f'{name} is not UTF-8 text; save it again as "CSV UTF-8".') from fault


def _bytes(path: Path, name: str) -> bytes:
    try:
        if path.is_dir():
            raise Refused(f"{name} is a folder; name a CSV file.")
        if path.stat().st_size > LARGEST:
            raise Refused(f"{name} is larger than 20 MB; is it the right file?")
        return path.read_bytes()
    except FileNotFoundError:
        raise Refused(f"There is no file {name}.") from None
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "the name is not one a file can have"
        raise Refused(f"{name} cannot be read: {reason}.") from None


def numbered(text: str, mark: str) -> Iterator[tuple[int, list[str]]]:
    """The rows of a CSV text, cells apart by a mark, each with the number of its first line."""
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark, skipinitialspace=True)
    line = 1
    try:
        for cells in reader:
            yield line, cells
            line = reader.line_num + 1
    except csv.Error as fault:
        raise Refused(f"From line {line} on it isn't CSV: {fault}.") from fault
