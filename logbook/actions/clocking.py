"""Whether the machine's clock can be believed: a small computer without a battery may be late."""

from __future__ import annotations

import sqlite3
from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from logbook.clock import SystemClock, ToldClock
from logbook.growing.days import moment_words
from logbook.store.health import clock_was_set, newest_known, newest_written
from logbook.store.reads import moment

if TYPE_CHECKING:
    from logbook.actions.book import Book

SLACK = timedelta(minutes=2)
"""How much earlier than the newest entry the clock may be: two machines are never quite alike."""


def clock_doubt(
    book: Book, connection: sqlite3.Connection | None = None, run: Path = Path("/run")
) -> str:
    """Say why the clock is in doubt, or ''.

    It is when now is earlier than the newest entry was written, or when this machine's own clock
    has not been set by the network since it started. Entries are still taken; they are marked.
    """
    if connection is None:
        with book.reading() as reading:
            return clock_doubt(book, reading, run)
    now = book.now()
    newest = newest_written(connection)
    if newest is not None and moment(newest) > now + SLACK:
        words = moment_words(moment(newest), now, book.zone)
        return f"The clock is behind: the newest entry was written {words}."
    if isinstance(book.clock, SystemClock) and clock_was_set(run) is False:
        return "The network has not set the clock since the machine started."
    return ""


def likely_now(book: Book, connection: sqlite3.Connection | None = None) -> datetime:
    """Give the time of the clock; of one in doubt, and not told, none before what the book knows.

    What is done now comes after what is written already, so that the order of the entries is right,
    whatever a late clock says.
    """
    if connection is None:
        with book.reading() as reading:
            return likely_now(book, reading)
    now = book.now()
    if isinstance(book.clock, ToldClock):
        return now
    known = newest_known(connection) if clock_doubt(book, connection) else None
    return now if known is None else max(now, moment(known))
