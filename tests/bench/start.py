"""From the start to the round on the screen, against an empty app; `logbook round` too.

    python -m tests.bench.start

Programs are started in turn, so that what else the machine does falls on all of them alike.
"""

from __future__ import annotations

import resource
import subprocess
import tempfile
import time
from pathlib import Path

from tests.bench.books import NOW, Books
from tests.bench.figures import EMPTY, PYTHON, Figure, app, median, shows_round, told
from tests.bench.processes import ROOT
from tests.bench.terminal import Terminal, installed

ROUNDS = 9


def _empty() -> float:
    with Terminal(EMPTY) as terminal:
        return terminal.wait_for(lambda each: "ready" in each.text) - terminal.began


def _app(book: Path, state: Path) -> tuple[float, int]:
    with app(book, state) as terminal:
        shown = terminal.wait_for(shows_round)
        return shown - terminal.began, len(terminal.read(quiet=0.3).data)


def _command(*words: str) -> tuple[float, float]:
    """Give the wall time and the CPU time of a program, in s."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    began = time.perf_counter()
    subprocess.run(
        [PYTHON, *words], cwd=ROOT, stdout=subprocess.DEVNULL, check=True, env=installed()
    )
    wall = time.perf_counter() - began
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return wall, cpu


def measure(books: Books) -> list[Figure]:
    """Give the figures of the start."""
    round_words = ("-m", "logbook", "--book", str(books.ten_years), "--now", NOW, "round")
    empty, ours, first, plain, sqlmodel = [], [], [], [], []
    with tempfile.TemporaryDirectory() as folder:
        for turn in range(ROUNDS + 1):
            both = _empty(), _app(books.ten_years, Path(folder, str(turn)))
            commands = _command(*round_words), _command("-c", "import sqlmodel")
            if turn:  # the first warms the disk
                empty.append(both[0])
                ours.append(both[1][0])
                first.append(both[1][1])
                plain.append(commands[0])
                sqlmodel.append(commands[1])
    wall = [median([each[0] for each in some]) for some in (plain, sqlmodel)]
    cpu = [median([each[1] for each in some]) for some in (plain, sqlmodel)]
    return [
        Figure("start to the round, ten years of data, against an empty Textual app",
               median(ours) / median(empty), 2.2, "×",
               f"medians of {ROUNDS}: {median(ours):.2f} s and {median(empty):.2f} s; goal 1.5"),
        Figure("the same, the quickest start of each", min(ours) / min(empty), 2.2, "×",
               f"{min(ours):.2f} s and {min(empty):.2f} s"),
        Figure("`logbook round` against `import sqlmodel`", wall[0] / wall[1], 1.5, "×",
               f"medians {wall[0]:.2f} s and {wall[1]:.2f} s; CPU {cpu[0] / cpu[1]:.2f} ×"),
        Figure("first paint", max(first) / 1000, 14, "kB", "256 colours, 80×24"),
    ]  # fmt: skip


if __name__ == "__main__":
    told(measure)
