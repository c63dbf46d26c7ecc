"""Closing the days that are over by a digest of what was written on them, and looking at them again."""

from collections.abc import Sequence
from datetime import date

from logbook.actions.book import Book
from logbook.clock import ToldClock
from logbook.store.closed_days import (
    ClosedDay,
    closed_after,
    keep_closed,
    newest_closed,
    read_closed_days,
    wrong_days,
)
from logbook.store.file.book_file import BookFile
from logbook.store.server.server_book import ServerBook
from logbook.text import listed

MOST_ENTRIES = 20_000
"""So many are closed at a time: a long book that was never closed is caught up with day by day."""
NEWEST = 7
IN_TURN = 28
"""A quick look takes the newest days and of the older ones every 28th, in four weeks all."""
DAYS_AT_ONCE = 30


def close_days(book: Book) -> int:
    """Write the digest of each day that is over and was not closed yet; returns how many.

    A damaged book, and a real one under a pretended time, are left alone.
    """
    if book.damage or (isinstance(book.clock, ToldClock) and not book.about.begun_as):
        return 0
    with book.reading() as reading:
        closed = newest_closed(reading)
        made = closed_after(reading, closed, book.today(), book.zone, MOST_ENTRIES)
    if made:
        with book.writing() as act:
            if newest_closed(act.reading) != closed:
                return 0  # another program has closed them meanwhile
            keep_closed(act.reading, made)
    return len(made)


def days_not_as_closed(
    file: BookFile | ServerBook, today: date, *, quick: bool = False
) -> list[ClosedDay]:
    """The closed days of which something was changed, added or taken away; read in pieces."""
    with file.reading() as reading:
        days = read_closed_days(reading)
    turn = today.toordinal() % IN_TURN
    places = [
        place for place in range(len(days))
        if not quick or place >= len(days) - NEWEST or place % IN_TURN == turn
    ]  # fmt: skip
    wrong: list[ClosedDay] = []
    for start in range(0, len(places), DAYS_AT_ONCE):
        with file.reading() as reading:
            wrong += wrong_days(reading, days, places[start : start + DAYS_AT_ONCE])
    return wrong


def wrong_words(days: Sequence[ClosedDay]) -> str:
    """Name the days that are not as they were closed, with the ids of their entries."""
    named = [f"{each.day:%-d %b %Y} ({_entries(each)})" for each in days]
    return f"What was written on {listed(named, most=5)} isn't as it was when the day was closed: a line was changed, added or removed."


def _entries(day: ClosedDay) -> str:
    if day.first_id == day.last_id:
        return f"entry {day.last_id}"
    return f"entries {day.first_id} to {day.last_id}"
