"""`logbook calendar`: what is to come, as a file for calendar programs."""

from collections.abc import Iterator
from pathlib import Path

import click

from logbook.actions.book import Book
from logbook.cli.files import FileName
from logbook.cli.printing import book_answers, tell
from logbook.exchange.calendar_file import WEEKS, Calendar, calendar_of, summary, write_calendar


@click.command()
@click.option(
    "--out", type=FileName(), metavar="FILE", help="Write it to this file, like room.ics."
)
@click.option("--weeks", type=int, default=WEEKS, show_default=True, help="How many weeks ahead.")
@click.option("--deliveries", is_flag=True, help="Deliveries too, with the customers' names.")
@book_answers("logbook.exchange.calendar_file:Calendar")
def calendar(book: Book, out: Path | None, weeks: int, deliveries: bool) -> None:
    """Show what is coming up: soak, sow, changes, cuts; with --out, as a file for calendar programs.

    When an event moves, a calendar program that reads the file again moves it too. `logbook serve`
    offers the same as a feed.
    """
    if out is None:
        found = calendar_of(book, weeks, deliveries=deliveries)
        tell(found, _lines(found, book))
        return
    found, words = write_calendar(book, out, weeks, deliveries=deliveries)
    tell(found, [words], made=True)


def _lines(found: Calendar, book: Book) -> Iterator[str]:
    for each in found.events:
        place = f", {each.place}" if each.place else ""
        yield f"{book.when(each.at)}  {summary(each)}{place}"
    if not found.events:
        yield "Nothing is coming up."
