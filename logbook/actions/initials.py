"""Who writes at which terminal: initials, told once, kept until the terminal is closed."""

import json
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

from logbook.paths import state_folder, write_private
from logbook.text import Refused, clean_name
from logbook.ways import Way

MOST_TERMINALS = 200


class Terminal(NamedTuple):
    """A terminal by its name and when it was opened.

    A name such as /dev/pts/3 goes to the next login; `opened` (ns, when the device changed
    hands) tells that one from this one.
    """

    name: str
    opened: int


def terminal_here() -> Terminal | None:
    """The terminal that this program runs in; None where there is none."""
    for stream in (sys.__stdin__, sys.__stderr__, sys.__stdout__):
        with suppress(OSError, ValueError, AttributeError):
            name = os.ttyname(stream.fileno())  # type: ignore[union-attr]
            return Terminal(name, Path(name).stat().st_ctime_ns)
    return None


def initials_path() -> Path:
    """The file that keeps who writes at which terminal."""
    return state_folder() / "initials.json"


def initials_here(
    path: Path | None = None, here: Callable[[], Terminal | None] = terminal_here
) -> str:
    """The initials that were told to this terminal; '' for none."""
    kept = _kept(path or initials_path())
    terminal = here() if kept else None
    opened, initials = kept.get(terminal.name, (0, "")) if terminal else (0, "")
    return initials if terminal and opened == terminal.opened else ""


def set_initials(
    initials: str, path: Path | None = None, here: Callable[[], Terminal | None] = terminal_here
) -> str:
    """Keep, or refuse, the initials of whoever writes at this terminal; returns them, cleaned."""
    name = clean_name(initials, "initials")
    terminal = here()
    if terminal is None:
        raise Refused(f"There is no terminal here to remember; write {Way.BY}, or set LOGBOOK_BY.")
    file = path or initials_path()
    kept = _kept(file)
    kept.pop(terminal.name, None)
    told = [*kept.items(), (terminal.name, (terminal.opened, name))][-MOST_TERMINALS:]
    rows = {each: {"opened": opened, "initials": by} for each, (opened, by) in told}
    try:
        write_private(file, json.dumps(rows, ensure_ascii=False, indent=1) + "\n")
    except OSError as fault:
        raise Refused(f"{file} cannot be written: {fault.strerror}.") from fault
    return name


def _kept(path: Path) -> dict[str, tuple[int, str]]:
    """Read the file; what cannot be read is as if it had never been told."""
    try:
        rows = json.loads(path.read_text(encoding="utf-8"))
        return {
            str(name): (int(row["opened"]), clean_name(row["initials"]))
            for name, row in rows.items()
        }
    except (OSError, ValueError, TypeError, KeyError, AttributeError, Refused):
        return {}
