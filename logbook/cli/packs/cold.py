"""`logbook cold`: what lies in the cold store, what goes out of it without a customer, and what comes back."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from logbook.actions.book import Book
from logbook.cli.arguments import AT, NOTE, when
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.growing.measures import grams_words
from logbook.growing.packs.lots import OWN
from logbook.growing.quantities import OF_LOT
from logbook.text import fold

if TYPE_CHECKING:
    from logbook.actions.packs.cold_store import ColdStore

STORE = "logbook.actions.packs.cold_store:ColdStore"
ALL = "all"


@click.group(invoke_without_command=True)
@book_answers(STORE)
def cold(book: Book) -> None:
    """Show the cold store: its pack lots, first to go out on top."""
    _list(book)


@cold.command("list")
@book_answers(STORE)
def list_all(book: Book) -> None:
    """Show the cold store: its pack lots, first to go out on top."""
    _list(book)


def _list(book: Book) -> None:
    from logbook.actions.packs.cold_store import cold_store

    found = cold_store(book)
    tell(found, _words(found, book))


def _words(found: "ColdStore", book: Book) -> Iterator[str]:
    from logbook.actions.packs.cold_store import cold_columns
    from logbook.growing.table import table

    if not found.lots:
        yield "Nothing is in the cold store."
    yield from table(cold_columns(book.units, book.today()), found.lots, width()).lines
    if found.no_lot_grams:
        yield f"{grams_words(found.no_lot_grams, book.units)} cut in the last week: no lot written"


def _grams(book: Book, text: str) -> float | None:
    return None if fold(text) == ALL else OF_LOT.read(text, book.units)


@cold.command()
@click.argument("lot")
@click.argument("weight")
@click.option(
    "--why", default=OWN[0], show_default=True, type=click.Choice(OWN), help="Why it goes out."
)
@NOTE
@AT
@book_answers(DONE)
def out(book: Book, lot: str, weight: str, why: str, note: str, at: str | None) -> None:
    """Take some of a lot out, or all of it: out 261128-DAI-1 80g --why "own use"."""
    from logbook.actions.packs.withdrawing import take_out

    tell_done(take_out(book, lot, _grams(book, weight), why, when(book, at), note=note))


@cold.command()
@click.argument("customer")
@click.argument("lot")
@click.argument("weight")
@NOTE
@AT
@book_answers(DONE)
def back(book: Book, customer: str, lot: str, weight: str, note: str, at: str | None) -> None:
    """A customer returns some of a lot, or all: back "Bistro" 261128-DAI-1 100g. It isn't sold again."""
    from logbook.actions.packs.withdrawing import take_back

    tell_done(take_back(book, customer, lot, _grams(book, weight), when(book, at), note=note))


@cold.command("mix")
@click.argument("mix")
@click.argument("weight")
@AT
@book_answers(DONE)
def mix_ahead(book: Book, mix: str, weight: str, at: str | None) -> None:
    """Mix ahead, from the oldest lots; the mix is a lot of its own: mix "salad mix" 600g."""
    from logbook.actions.packs.withdrawing import pack_mix

    tell_done(pack_mix(book, mix, OF_LOT.read(weight, book.units), when(book, at)))


@cold.command()
@click.argument("lot")
@click.option("--code", default="", help="A new code; the old one still finds it.")
@click.option("--best-before", default="", metavar="DAY", help="A new best-before date.")
@AT
@book_answers(DONE)
def change(book: Book, lot: str, code: str, best_before: str, at: str | None) -> None:
    """Give a lot another code or best before: change 261128-DAI-1 --best-before "2 Dec"."""
    from logbook.actions.packs.withdrawing import change_lot

    tell_done(change_lot(book, lot, code, best_before, when(book, at)))
