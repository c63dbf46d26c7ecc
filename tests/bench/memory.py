"""Memory with the round open, after a day and 1,000 screen changes; CPU and bytes while idle.

    python -m tests.bench.memory

A book of ten years. The day is simulated: a clock jumps by a minute 1,440 times, and each time the
app reads the round anew and looks for what has come due. Takes about five minutes.
"""

from __future__ import annotations

import os
import shutil
import signal
import tempfile
import time
from pathlib import Path

from tests.bench.books import Books
from tests.bench.figures import EMPTY, Figure, app, at_rest, median, told
from tests.bench.keys import ROUND, SCREENS
from tests.bench.terminal import Terminal

CHANGES = 1000
MINUTES = 24 * 60
IDLE_SECONDS = 60.0
MB = 1000.0


def _empty() -> int:
    with Terminal(EMPTY) as terminal:
        terminal.wait_for(lambda each: "ready" in each.text)
        terminal.read(quiet=1.0)
        return terminal.rss


def _idle(terminal: Terminal) -> tuple[int, float]:
    """Give bytes sent and CPU seconds spent in a minute in which nobody does anything."""
    before, began = terminal.cpu, time.perf_counter()
    sent = terminal.read(quiet=IDLE_SECONDS, most=IDLE_SECONDS, least=IDLE_SECONDS)
    return len(sent.data), (terminal.cpu - before) / (time.perf_counter() - began)


def measure(books: Books) -> list[Figure]:
    """Give the figures of memory and of rest."""
    empty = median([_empty() for _ in range(3)])
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder, "room.book")
        shutil.copy(books.ten_years, book)
        with app(book, Path(folder, "a")) as terminal:
            opened = at_rest(terminal)
            sent, share = _idle(terminal)
        with app(book, Path(folder, "b"), "tests.bench.jumping") as terminal:
            start = at_rest(terminal)
            keys = [key for there in SCREENS.values() for key in (there, ROUND)]
            for key in keys:
                terminal.key(key, quiet=0.5)
            seen = terminal.rss
            for change in range(CHANGES):
                terminal.key(keys[change % len(keys)], quiet=0.04)
            changed = terminal.rss
            bells = 0
            for _ in range(MINUTES):
                os.kill(terminal.pid, signal.SIGUSR1)
                bells += terminal.read(quiet=0.1, most=2).data.count(b"\a")
            assert bells, "no chore came due in a day"
            day = terminal.rss
    return [
        Figure("memory with the round open, against an empty Textual app", opened / empty, 2.4, "×",
               f"{opened / MB:.1f} and {empty / MB:.1f} MB; with what writing needs loaded"),
        Figure(f"after {CHANGES} screen changes and a simulated day, against its start",
               day / start, 1.1, "×", f"{day / MB:.1f} and {start / MB:.1f} MB; chores rang {bells} times"),
        Figure("the same, against when each screen had been open once", day / seen, 1.1, "×",
               f"{seen / MB:.1f} MB then, {changed / MB:.1f} MB after the changes"),
        Figure("bytes on the line while idle", sent / IDLE_SECONDS, 0, "B/s",
               f"{IDLE_SECONDS:.0f} s of a clock that stands"),
        Figure("CPU while idle", share * 100, 0.3, "%", "the same time"),
    ]  # fmt: skip


if __name__ == "__main__":
    told(measure)
