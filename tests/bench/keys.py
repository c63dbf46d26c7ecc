"""From a key to its paint, and the bytes that it sends, in a terminal of 80×24 with 256 colours.

    python -m tests.bench.keys

The round of a book of ten years; "done" is water on 20 trays, written and synced, then undone.
"""

from __future__ import annotations

import shutil
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.bench.books import SHELF, TOGETHER, Books
from tests.bench.figures import Figure, app, at_rest, high, median, shows_round, told
from tests.bench.terminal import Terminal

TIMES = 30
QUIET = 0.2
"""How long nothing must come for a paint to be over, in s."""
SITTINGS = 5
"""Starts of the app in which the first act is timed."""
LONGEST = 10.0
"""How long a key may take on a machine that has other things to do, in s."""
STILL = 3.0
"""How long the app must do nothing before it, in s."""
Pressed = tuple[float, int, float]
"""The ms from a key to the last of its paint, its bytes, and the ms of CPU spent until then."""
DOWN, UP, ESCAPE, ENTER = "\x1b[B", "\x1b[A", "\x1b", "\r"
SCREENS = {"racks": "\x1bOR", "due": "\x1bOS", "page": "\x1b[15~", "templates": "\x1b[19~"}
"""The screens of every day."""
ALL_SCREENS = SCREENS | {
    "sow": "\x1b[17~", "weigh": "\x1b[18~", "places": "\x1b[21~", "light": "v", "air": "a",
    "bills": "o", "trials": "y", "handbook": "h", "tray": "101\r",
}  # fmt: skip
ROUND = "\x1bOQ"
BROAD = (160, 50)
NEXT_BROAD = "next line at 160×50, with its tray beside the list"


def _pressed(
    terminal: Terminal,
    key: str,
    kept: list[Pressed],
    shown: Callable[[Terminal], bool] = lambda _: True,
) -> None:
    """Press a key and keep what it took, until something is shown."""
    terminal.read(quiet=0.02)
    before = terminal.cpu
    moment, burst = terminal.key(key, quiet=QUIET)
    while not shown(terminal):
        if time.perf_counter() - moment > LONGEST:
            raise TimeoutError(f"not shown after the key {key!r}:\n{terminal.text}")
        more = terminal.read(QUIET, most=LONGEST)
        burst.pieces += more.pieces
        burst.cpu = max(burst.cpu, more.cpu)
    kept.append(((burst.last - moment) * 1000, len(burst.data), (burst.cpu - before) * 1000))


def _elsewhere(terminal: Terminal) -> bool:
    return bool(terminal.screen.display[0].strip()) and not shows_round(terminal)


def _first_acts(book: Path, folder: Path) -> Figure:
    """The first act of a sitting, at a moment at which nothing was typed for a while."""
    firsts: list[Pressed] = []
    seconds: list[Pressed] = []
    for sitting in range(SITTINGS):
        with app(book, folder / f"sitting-{sitting}") as terminal:
            at_rest(terminal, STILL)
            _pressed(terminal, ENTER, firsts)
            _pressed(terminal, "u", [])
            _pressed(terminal, "\x1b[H", [])
            _pressed(terminal, ENTER, seconds)
            _pressed(terminal, "u", [])
    times, _, cpu = zip(*firsts, strict=True)
    later, _, later_cpu = zip(*seconds, strict=True)
    how = (
        f"{SITTINGS} sittings, the most; median {median(times):.0f} ms ({median(cpu):.0f} of CPU), "
        f"of the second {median(later):.0f} ms ({median(later_cpu):.0f} of CPU)"
    )
    words = f"first act of a sitting, done on {TOGETHER} trays: key to paint"
    return Figure(words, max(times), 60, "ms", how)


def measure(books: Books) -> list[Figure]:
    """Give times and bytes of keys and of screen changes."""
    done: list[Pressed] = []
    undone: list[Pressed] = []
    lines: list[Pressed] = []
    jots: list[Pressed] = []
    away: list[Pressed] = []
    back: list[Pressed] = []
    other: list[Pressed] = []
    beside: list[Pressed] = []
    largest = ("", 0)
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder, "room.book")
        shutil.copy(books.ten_years, book)
        first = _first_acts(book, Path(folder))
        with app(book, Path(folder, "state")) as terminal:
            at_rest(terminal, STILL)
            assert SHELF in terminal.text, "the round does not begin at the long shelf"
            for turn in range(TIMES + 1):
                for key, kept in (
                    (ENTER, done), ("u", undone), ("\x1b[H", other), (DOWN, lines), (UP, lines),
                    ("j", jots), (ESCAPE, other),
                ):  # fmt: skip
                    _pressed(terminal, key, kept if turn else [])
            for turn in range(TIMES // 15 + 1):
                for name, key in ALL_SCREENS.items():
                    _pressed(terminal, key, away if turn else [], _elsewhere)
                    if turn and away[-1][1] > largest[1]:
                        largest = (name, away[-1][1])
                    _pressed(terminal, ROUND, back if turn else [], shows_round)
        with app(book, Path(folder, "broad"), size=BROAD) as terminal:
            at_rest(terminal, STILL)
            for turn in range(TIMES + 1):
                for key in (DOWN, UP):
                    _pressed(terminal, key, beside if turn else [])
    figures = [first]
    for words, kept in (
        (f"done on {TOGETHER} trays", done), ("undo of it", undone), ("next line", lines),
        ("jot opened", jots), (NEXT_BROAD, beside),
    ):  # fmt: skip
        times, sizes, cpu = zip(*kept, strict=True)
        figures += [
            Figure(f"{words}: key to paint, 95 of 100", high(times), 60, "ms",
                   f"{len(times)} times, median {median(times):.0f} ms, least {min(times):.0f} ms; "
                   f"of CPU {high(cpu):.0f} ms, median {median(cpu):.0f} ms"),
            Figure(f"{words}: bytes, 95 of 100", high(sizes) / 1000,
                   1.5 if words != NEXT_BROAD else None, "kB",
                   f"median {median(sizes):.0f} B"),
        ]  # fmt: skip
    for words, kept in (("to another screen", away), ("back to the round", back)):
        times, sizes, cpu = zip(*kept, strict=True)
        how = f"the most of {len(ALL_SCREENS)} screens; "
        how += f"that is {largest[0]}; " if kept is away else ""
        how += f"median {median(sizes):.0f} B, {median(times):.0f} ms ({median(cpu):.0f} of CPU)"
        figures.append(Figure(f"{words}: bytes", max(sizes) / 1000, 10, "kB", how))
    return figures


if __name__ == "__main__":
    told(measure)
