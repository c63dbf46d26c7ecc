"""`logbook despatch`: a customer's packs are of a lot."""

import click

from logbook.actions.book import Book
from logbook.cli.arguments import OF_ALL_AT
from logbook.cli.printing import DONE, book_answers, tell_done


@click.command()
@click.argument("customer")
@click.argument("lot")
@click.argument("packs", nargs=-1, required=True)
@click.option(
    "--day", default="", metavar="DAY", help="For the delivery of which day; the next by default."
)
@OF_ALL_AT
@book_answers(DONE)
def despatch(book: Book, customer: str, lot: str, packs: tuple[str, ...], day: str) -> None:
    """Write which lot a customer's packs come from: despatch "Bistro" 261128-DAI-1 6 (packs), or 300g.

    It ticks what they ordered of it. Live trays go by their numbers: despatch "Bistro" 101,102 2. `deliveries packed` takes the oldest lots by itself.
    """
    from logbook.actions.packs.despatching import despatch as write

    tell_done(write(book, customer, lot, " ".join(packs), day))
