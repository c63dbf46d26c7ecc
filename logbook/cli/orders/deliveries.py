"""`logbook deliveries`: is there enough of what is promised, and what is packed?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import click

from logbook.actions.book import Book
from logbook.cli.arguments import OF_ALL_AT
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.text import plural

if TYPE_CHECKING:
    from logbook.actions.orders.deliveries import DeliveryView


@click.group(invoke_without_command=True)
@click.option("--days", default=14, show_default=True, help="How many days ahead.")
@book_answers("logbook.actions.orders.deliveries:Deliveries")
def deliveries(book: Book, days: int) -> None:
    """Show the deliveries to come: what is promised, ready and growing, and what is packed.

    A crop's chance is that what lies cold and what is cut by then is enough.
    """
    from logbook.actions.orders.deliveries import list_deliveries

    found = list_deliveries(book, days)
    tell(found, _words(book, found.deliveries, days))


def _words(book: Book, found: Sequence[DeliveryView], days: int) -> Iterator[str]:
    from logbook.actions.orders import delivery_words as words
    from logbook.growing.table import table

    if not found:
        yield f"Nothing is to be delivered in {plural(days, 'day')}."
    for at, each in enumerate(found):
        yield f"{book.when(each.ready_at)}  {words.head_words(each, book.units)}"
        if at < words.FULL:
            drawn = table(words.cover_columns(book.units), each.crops, width() - 2)
            yield from (f"  {line}" for line in drawn.lines)
            yield from words.lines_below(each, book.units)


@deliveries.command()
@click.argument("customer")
@click.argument("crop", default="")
@click.option("--day", default="", metavar="DAY", help="Of which delivery; the next by default.")
@click.option("--packs", type=click.IntRange(1, 10_000), help="So many packs; all by default.")
@OF_ALL_AT
@book_answers(DONE)
def packed(book: Book, customer: str, crop: str, day: str, packs: int | None) -> None:
    """Tick what a customer gets as packed: packed "Bistro", or packed "Bistro" radish --packs 4."""
    from logbook.actions.orders.packing import pack_for

    tell_done(pack_for(book, customer, crop, day, packs))
