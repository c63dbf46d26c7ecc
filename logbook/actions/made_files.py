"""Files that are made anew each time, and never written over one that is not ours."""

from contextlib import suppress
from pathlib import Path

from logbook.text import Refused, clean


def mark_of(made_by: str) -> str:
    """What says that a page is ours, so that it may be written anew."""
    return f'<meta name="generator" content="{made_by}">'


def write_made(path: Path, text: str, mark: str) -> None:
    """Write a file that is made anew each time; raise Refused over one that has no `mark` of ours."""
    try:
        with suppress(FileNotFoundError), path.open(encoding="utf-8", errors="replace") as there:
            if mark not in there.read(500):
                raise Refused(f"There is already a file at {path}; it was not touched.")
        path.write_text(text, encoding="utf-8", newline="")
    except OSError as fault:
        raise Refused(f"{path} cannot be written: {fault.strerror}.") from fault


def written_to(path: Path) -> str:
    """Say to which file something was written: "written to month.html."."""
    return f"written to {clean(str(path), lines=False)}."
