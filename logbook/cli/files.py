"""Names of files that people type."""

import errno
import os
from contextlib import suppress
from pathlib import Path

from logbook.text import Refused


def named_file(text: str | Path) -> Path:
    """A path with ~ put in; raise Refused where the machine can have no file of that name."""
    try:
        path = Path(text).expanduser()
        os.lstat(path)
    except (ValueError, RuntimeError) as fault:
        raise Refused(f'"{str(text)[:60]}" is not a file name.') from fault
    except OSError as fault:
        if fault.errno == errno.ENAMETOOLONG:
            raise Refused(f'"{str(text)[:60]}…" is too long for the name of a file.') from fault
    return path


def named_book(text: str | Path) -> Path:
    """As named_file(), but also refused where SQLite can open no file of that name."""
    path = named_file(text)
    try:
        str(path).encode()
    except UnicodeEncodeError as fault:
        raise Refused(
            f'"{str(text)[:60]}" cannot be the name of a book: it is not in UTF-8.'
        ) from fault
    return path


def write_made(path: Path, text: str, mark: str) -> None:
    """Write a file that is made anew each time; raise Refused over one that has no `mark` of ours."""
    try:
        with suppress(FileNotFoundError), path.open(encoding="utf-8", errors="replace") as there:
            if mark not in there.read(500):
                raise Refused(f"There is already a file at {path}; it was not touched.")
        path.write_text(text, encoding="utf-8", newline="")
    except OSError as fault:
        raise Refused(f"{path} cannot be written: {fault.strerror}.") from fault
