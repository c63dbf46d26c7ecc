"""`logbook cleaning`: what was cleaned, how and with what."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.room import cleaning as acts
from logbook.cli.arguments import AT, NOTE, PLACE, measured, when
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.growing import quantities
from logbook.text import plural


@click.command()
@click.argument("purpose", required=False)
@click.option("--method", default="", help="How it was done: soak 10 min and rinse.")
@click.option("--with", "product", default="", metavar="PRODUCT", help="Bleach, peroxide, soap …")
@measured("--stock", quantities.STOCK, "STRENGTH", "Strength of the stock: 5.25%.")
@measured("--want", quantities.WANTED, "STRENGTH", "Strength as used: 200ppm.")
@click.option("--volume", metavar="VOLUME", help="How much was made: 10L.")
@PLACE
@click.option("--days", default=365, show_default=True, help="How far back to show.")
@AT
@NOTE
@book_answers(DONE, "logbook.actions.room.cleaning:CleaningRecord")
def cleaning(
    book: Book, purpose: str | None, method: str, product: str, stock: float | None,
    want: float | None, volume: str | None, place: str, days: int, at: str | None, note: str,
) -> None:  # fmt: skip
    """Show what was cleaned and with what; with a purpose and a method write it."""
    if purpose is not None:
        if not method.strip():
            raise WrongUsage('How was it done? --method is missing; try --method "soak 10 min".')
        made = quantities.VOLUME.given(volume, book.units)
        draft = acts.UseDraft(
            purpose, method, product, stock, want, made, place, note, when(book, at)
        )
        tell_done(acts.use_solution(book, draft))
        return
    found = acts.CleaningRecord(days, tuple(acts.list_uses(book, days)))
    tell(found, _cleaning_words(found, book))


def _cleaning_words(found: acts.CleaningRecord, book: Book) -> Iterator[str]:
    if not found.uses:
        yield f"Nothing was cleaned in {plural(found.days, 'day')}."
    for one in found.uses:
        at = book.when(one.use.at)
        note = f' "{one.use.note}"' if one.use.note else ""
        yield f"{at}  {one.place or 'room'}  {one.words}{note}  {one.use.by}"
