"""Keys typed ahead of a slow disk against the same keys typed slowly.

python -m tests.bench.typed_ahead [--count 2000] [--draw 0]     commits held at a gate, in this process
python -m tests.bench.typed_ahead --disk 20 50 100              the program in a terminal under strace,
every sync so many ms longer
"""

from __future__ import annotations

import argparse
import shutil
import sqlite3
import tempfile
import time
from datetime import timedelta
from math import ceil
from pathlib import Path
from random import Random

import pytest

from logbook.actions.care.begin import BeginDraft, begin_book
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.clock import SystemClock
from tests.bench.figures import PYTHON
from tests.bench.terminal import Terminal
from tests.ui.test_typed_ahead import PIECES, SEQUENCES, differences, drawn_by, written_and_shown
from tests.ui.test_typed_ahead import patched as gate_of

SENT = {"enter": "\r", "escape": "\x1b", "down": "\x1b[B", "up": "\x1b[A", "space": " ", "slash": "/",
        "f9": "\x1b[20~"}  # fmt: skip
PLAIN = tuple(piece for piece in PIECES if not {"u", "U", "W", "escape"} & set(piece))
"""Two writing letters in one read are asked about, and Esc begins the codes of other keys."""
ENTRIES = """
    SELECT entry.kind, entry.note, group_concat(tray.number) FROM entry
    LEFT JOIN entry_tray ON entry_tray.entry_id = entry.id LEFT JOIN tray ON tray.id = entry_tray.tray_id
    GROUP BY entry.id ORDER BY entry.id
"""


def gated(count: int, draw: int) -> None:
    """Print how many of the sequences left another book or screen than typed slowly, and in what."""
    found = begun = 0
    with pytest.MonkeyPatch.context() as patch:
        gate = gate_of(patch)
        for each in range(draw, draw + ceil(count / SEQUENCES)):
            with tempfile.TemporaryDirectory() as folder:
                wrong = differences(Path(folder), Random(each), gate, written_and_shown)
            begun += SEQUENCES
            found += len(wrong)
            print(f"{begun} sequences, {found} differ", *wrong, sep="\n  ", flush=True)


def on_a_slow_disk(milliseconds: int, draw: int, count: int) -> None:
    """Print how many sequences wrote other entries when every sync takes longer."""
    differ = 0
    for keys in drawn_by(Random(draw), PLAIN)[:count]:
        with tempfile.TemporaryDirectory() as folder:
            book = Path(folder) / "room.book"
            made = begin_book(book, BeginDraft(racks=1, shelves=2, slots=6))
            for crop, trays in (("radish", 4), ("kale", 2)):
                sow(made, SowDraft(crop, trays=trays, at=SystemClock().now() - timedelta(days=6)))
            wanted, written = (
                _typed(Path(folder), book, keys, wait, milliseconds) for wait in (True, False)
            )
        if wanted != written:
            differ += 1
            print(f"{keys}: {wanted} but typed ahead {written}")
    print(f"{milliseconds} ms: {count} sequences, {differ} differ", flush=True)


def _typed(folder: Path, book: Path, keys: list[str], wait: bool, delay: int) -> list[object]:
    copy = folder / f"{'slowly' if wait else 'ahead'}.book"
    shutil.copy(book, copy)
    delayed = f"inject=fdatasync,fsync:delay_enter={delay * 1000}"
    strace = (shutil.which("strace") or "strace", "-f", "-qq", "-o", "/dev/null", "-e", delayed)
    program = (PYTHON, "-m", "logbook", "--book", str(copy), "--by", "ab")
    with Terminal(
        (*(() if wait else strace), *program),
        XDG_STATE_HOME=str(folder / copy.stem),
        XDG_CONFIG_HOME=str(folder),
    ) as terminal:
        terminal.wait_for(lambda shown: "the round" in shown.text)
        for key in keys:
            terminal.press(SENT.get(key, key))
            if wait:
                terminal.read(0.4)
            else:
                time.sleep(0.002)
        terminal.read(4.0 + delay / 20, most=90)
    with sqlite3.connect(copy) as connection:
        return connection.execute(ENTRIES).fetchall()


def main() -> None:
    """Try what the arguments ask for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=2000)
    parser.add_argument("--draw", type=int, default=0)
    parser.add_argument("--disk", type=int, nargs="*", metavar="MS")
    given = parser.parse_args()
    if given.disk is None:
        gated(given.count, given.draw)
    for each in given.disk or ():
        on_a_slow_disk(each, given.draw, min(given.count, SEQUENCES))


if __name__ == "__main__":
    main()
