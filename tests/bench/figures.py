"""Measured figures beside what they must not exceed, and their table."""

from __future__ import annotations

import math
import os
import platform
import sqlite3
import statistics
import sys
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path

from tests.bench.books import NOW, Books, bench_books
from tests.bench.terminal import Terminal

PYTHON = sys.executable
EMPTY = (PYTHON, "tests/bench/empty_app.py")
SETTLE_SECONDS = 8.0
CALM = 0.02
"""The share of a core that an app at rest may take."""
FOLDER = Path(tempfile.gettempdir()) / "logbook-bench"


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure. `limit` None is told for information only."""

    words: str
    value: float
    limit: float | None
    unit: str
    how: str = ""

    @property
    def met(self) -> str:
        """Whether it keeps its limit."""
        return "" if self.limit is None else "yes" if self.value <= self.limit else "NO"


def table(figures: Sequence[Figure]) -> str:
    """Give the figures as a Markdown table."""
    lines = ["| what | measured | at most | kept | how |", "|---|---|---|---|---|"]
    for each in figures:
        limit = "" if each.limit is None else f"{each.limit:g} {each.unit}"
        lines.append(
            f"| {each.words} | {each.value:.3g} {each.unit} | {limit} | {each.met} | {each.how} |"
        )
    return "\n".join(lines)


def machine() -> str:
    """Say on what was measured."""
    with open("/proc/cpuinfo") as file:  # noqa: PTH123
        names = [line.partition(":")[2].strip() for line in file if line.startswith("model name")]
    packages = ", ".join(f"{name} {version(name)}" for name in ("textual", "rich", "sqlmodel"))
    return (
        f"{os.cpu_count()} × {names[0] if names else platform.machine()}, {platform.system()}, "
        f"Python {platform.python_version()}, SQLite {sqlite3.sqlite_version}, {packages}"
    )


def told(measure: Callable[[Books], list[Figure]]) -> None:
    """Run one measurement and print its table."""
    print(table(measure(bench_books(FOLDER))))


def app(
    book: Path, state: Path, module: str = "logbook", size: tuple[int, int] = (80, 24)
) -> Terminal:
    """Start the app on a book, with a folder of its own for what it keeps."""
    return Terminal(
        [PYTHON, "-m", module, "--book", str(book), "--now", NOW, "--by", "ab"],
        size,
        XDG_STATE_HOME=str(state),
        XDG_CONFIG_HOME=str(state),
    )


def shows_round(terminal: Terminal) -> bool:
    """Whether the round stands on the screen, with its lines."""
    return "stops" in terminal.text and "Rack 1" in terminal.text


def at_rest(terminal: Terminal, still: float = SETTLE_SECONDS) -> int:
    """Wait until the app has loaded what writing needs and looked after the book; give its kB.

    It is at rest when it has spent no more than CALM of a core for `still` seconds.
    """
    terminal.wait_for(shows_round)
    spent = still
    while spent > CALM * still:
        before = terminal.cpu
        terminal.read(quiet=still, most=still, least=still)
        spent = terminal.cpu - before
    return terminal.rss


def median(values: Sequence[float]) -> float:
    """Give the middle one."""
    return statistics.median(values)


def high(values: Sequence[float], share: float = 0.95) -> float:
    """Give the value that a share of all do not exceed, by nearest rank: the 57th of 60."""
    ranked = sorted(values)
    return ranked[max(0, math.ceil(share * len(ranked)) - 1)]
