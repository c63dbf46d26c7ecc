"""`logbook room`: what the room is, and changing it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from logbook.cli.printing import book_answers, tell
from logbook.growing.wall_hours import chore_hours

if TYPE_CHECKING:
    from logbook.actions.book import Book


@click.command()
@click.option("--name", help="What the room is called.")
@click.option("--units", type=click.Choice(["metric", "us"]), help="Units of weights and lengths.")
@click.option("--first-day", type=click.IntRange(0, 1), help="Number of the sowing day.")
@click.option("--day", metavar="HOURS", help="When daily chores are done, like 07:00-19:00.")
@book_answers("logbook.actions.room.room:RoomView")
def room(
    book: Book, name: str | None, units: str | None, first_day: int | None, day: str | None,
) -> None:  # fmt: skip
    """Show the room's name, zone, units and day; with options change them.

    What was written stays as it is: weights are kept in grams, days by the calendar.
    """
    from logbook.actions.room.room import RoomDraft, RoomView, change_room, room_words

    if (name, units, first_day, day) != (None, None, None, None):
        start, end = (None, None) if day is None else chore_hours(day)
        change_room(book, RoomDraft(name, units, first_day, start, end))
    about = book.about
    tell(RoomView(about, book.file.path), [f"{room_words(about)} The book is {book.file.path}."])
