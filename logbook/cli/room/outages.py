"""`logbook outage`: when the power was off."""

import click

from logbook.actions.book import Book
from logbook.actions.room.outages import list_outages, write_outage
from logbook.cli.arguments import NOTE, PLACE, when
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.growing.measures import hours_words


@click.command()
@click.option("--from", "since", metavar="WHEN", help="When the power went off.")
@click.option("--to", "until", metavar="WHEN", help="When it came back; now by default.")
@PLACE
@NOTE
@book_answers(DONE, "outages=logbook.actions.room.outages:Outage")
def outage(book: Book, since: str | None, until: str | None, place: str, note: str) -> None:
    """Show when the power was off; with --from, write it: lamps and bills leave that time out.

    It was off in the whole room, or only at --place.
    """
    start = when(book, since)
    if start is not None:
        tell_done(write_outage(book, start, when(book, until), place, note))
        return
    if until or place or note:
        raise WrongUsage('Say when the power went off, like --from "yesterday 18:00".')
    found = list_outages(book)
    lines = [
        f"{book.when(one.start)} to {book.when(one.end)}, {hours_words(one.hours)}, {one.place}"
        for one in found
    ]
    tell({"outages": found}, lines or ["The power was never off, as far as the book knows."])
