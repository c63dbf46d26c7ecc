"""What the app does for the book by itself: a quick check a day and a copy a day."""

from __future__ import annotations

from logbook.actions.book import Book
from logbook.actions.care.checking import start_check
from logbook.actions.care.keeping import daily_copy
from logbook.settings import Settings
from logbook.text import Refused


def look_after(book: Book, settings: Settings | None = None) -> list[str]:
    """Check the book quickly and make today's copy, unless both were done today.

    Gives what the grower should know, as sentences; [] when all is well. Takes a while on a large
    book: not for a loop.
    """
    found = list(start_check(book, settings))
    refusal = []
    if not book.damage:
        try:
            if daily_copy(book, settings) is not None:
                found = [each for each in found if each.about != "copies"]
        except Refused as refused:
            refusal = [f"Today's copy was not made. {refused}"]
    return [f"{each.words} {each.todo}".strip() for each in found] + refusal
