"""A grower who never tires: writes into a book and says of each act when it is acknowledged.

    python -m tests.bench.writer BOOK NAME [--acts N] [--seconds S] [--seed N]

Prints one line of JSON for each acknowledged act (after the commit), "ready" before the first and
"done" after the last; then answers each line of standard input, a moment, with a digest of what
the round, the page and the ripe trays look like at that moment. Every note says on how many trays
the entry is ("NAME-17/4"), so that half an act could be told from a whole one.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import random
import sys
import time
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from logbook.actions.book import Book, open_book
from logbook.actions.trays.doing import did
from logbook.actions.trays.due import due
from logbook.actions.trays.moving import move
from logbook.actions.trays.noticing import jot, look
from logbook.actions.trays.page import page
from logbook.actions.trays.round import the_round
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.striking import undo
from logbook.actions.trays.weighing import weigh
from logbook.clock import FixedClock
from logbook.growing.trays.looks import Look
from logbook.text import Refused

MOST_GROWING = 24


@dataclass
class Writer:
    """Acts on the trays of its own seed lot, chosen by chance."""

    book: Book
    chance: random.Random
    count: int = 0

    def mine(self) -> list[int]:
        with self.book.reading() as reading:
            rows = reading.rows(
                "SELECT t.number FROM tray t JOIN batch_lot b USING (batch_id) "
                "WHERE t.live = 1 AND b.lot = ? ORDER BY t.id",
                (self.book.by,),
            )
            return [row[0] for row in rows]

    def act(self) -> dict[str, object]:
        """Do one thing; give its kind, the id of its act (of its batch for a sowing), its note."""
        mine = self.mine()
        self.count += 1
        kinds = ["water", "look", "jot", "weigh", "move", "undo", "sow"]
        kind = "sow" if len(mine) < 4 else self.chance.choice(kinds)
        if kind == "sow" and len(mine) > MOST_GROWING:
            kind = "weigh"
        some = self.chance.sample(mine, self.chance.randint(1, 4)) if kind != "sow" else []
        trays = self.chance.randint(2, 6) if kind == "sow" else len(some)
        note = f"{self.book.by}-{self.count}-{time.time_ns()}/{trays}"
        match kind:
            case "sow":
                draft = SowDraft("radish", trays=trays, lot=self.book.by, note=note)
                act = sow(self.book, draft).batch_id
            case "water":
                act = did(self.book, "water", some, amount_ml=200.0, note=note).act_id
            case "look":
                act = look(self.book, some, Look(height_mm=20.0), note).act_id
            case "weigh":
                act = weigh(self.book, some, 200.0 * trays, note=note)[0].act_id
            case "move":
                act, note = move(self.book, some[:1], "Rack 4").act_id, ""
            case "undo":
                act, note = undo(self.book).act_id, ""
            case _:
                act = jot(self.book, some, note).act_id
        return {"kind": kind, "act": act, "note": note}


def view(book: Book, at: datetime) -> str:
    """Give a digest of what the views show at a moment."""
    seen = Book(book.file, FixedClock(at), book.by, book.about)
    shown = repr((the_round(seen), page(seen), due(seen, 14)))
    return hashlib.sha256(shown.encode()).hexdigest()


def say(**words: object) -> None:
    sys.stdout.write(json.dumps(words) + "\n")
    sys.stdout.flush()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("book", type=Path)
    parser.add_argument("name")
    parser.add_argument("--acts", type=int, default=10**9)
    parser.add_argument("--seconds", type=float, default=1e9)
    parser.add_argument("--seed", type=int)
    parser.add_argument("--reads", action="store_true", help="Look at the round between acts.")
    given = parser.parse_args()
    writer = Writer(open_book(given.book, by=given.name), random.Random(given.seed))
    say(said="ready")
    end = time.monotonic() + given.seconds
    for _ in range(given.acts):
        if time.monotonic() >= end:
            break
        began = time.perf_counter()
        try:
            done = writer.act()
        except Refused as refused:
            say(said="refused", why=str(refused))
            continue
        say(said="ack", by=given.name, ms=(time.perf_counter() - began) * 1000, **done)
        if given.reads:
            began = time.perf_counter()
            the_round(writer.book)
            say(said="read", ms=(time.perf_counter() - began) * 1000)
    say(said="done")
    for line in sys.stdin:
        say(said="view", digest=view(writer.book, datetime.fromisoformat(line.strip())))


if __name__ == "__main__":
    main()
