"""`logbook cleaning`: what was cleaned, how and with what."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.room import cleaning as acts
from logbook.actions.room.upkeep import check, is_duty
from logbook.cli.arguments import AT, NOTE, PLACE, measured, when
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.growing import quantities
from logbook.growing.room.upkeep import SORTS, sort_of
from logbook.store.reads.upkeep import StoredCheck
from logbook.store.reads.uses import StoredUse
from logbook.text import plural


@click.command()
@click.argument("purpose", required=False)
@click.option("--method", default="", help="How it was done: soak 10 min and rinse.")
@click.option("--with", "product", default="", metavar="PRODUCT", help="Bleach, peroxide, soap …")
@measured("--stock", quantities.STOCK, "STRENGTH", "Strength of the stock: 5.25%.")
@measured("--want", quantities.WANTED, "STRENGTH", "Strength as used: 200ppm.")
@click.option("--volume", metavar="VOLUME", help="How much was made: 10L.")
@click.option("--value", metavar="VALUE", help="What a check showed: 3.4C, 0, 99.8g.")
@PLACE
@click.option("--days", default=365, show_default=True, help="How far back to show.")
@AT
@NOTE
@book_answers(DONE, "logbook.actions.room.cleaning:CleaningRecord")
def cleaning(
    book: Book, purpose: str | None, method: str, product: str, stock: float | None,
    want: float | None, volume: str | None, value: str | None, place: str, days: int, at: str | None, note: str,
) -> None:  # fmt: skip
    """Show what was cleaned and checked; with a purpose and a method, write it.

    What comes round (`logbook upkeep`) needs no method: cleaning racks. A check takes what it showed:
    cleaning "cold store" --value 3.4C.
    """
    if purpose is not None:
        reads = sort_of(purpose).reads
        if reads is not None and value is not None:
            shown = reads.read(value, book.units)
            tell_done(check(book, purpose, shown, place, note, when(book, at)))
            return
        if reads is not None and not method.strip():
            raise WrongUsage(f"What did it show? --value is missing; {sort_of(purpose).asked}.")
        if value is not None:
            known = ", ".join(name for name, sort in SORTS.items() if sort.reads)
            raise WrongUsage(f"--value is for checks ({known}), not for a cleaning.")
        if not method.strip() and not is_duty(book, purpose, place):
            raise WrongUsage('How was it done? --method is missing; try --method "soak 10 min".')
        made = quantities.VOLUME.given(volume, book.units)
        draft = acts.UseDraft(
            purpose, method, product, stock, want, made, place, note, when(book, at)
        )
        tell_done(acts.use_solution(book, draft))
        return
    found = acts.CleaningRecord(
        days, tuple(acts.list_uses(book, days)), tuple(acts.list_checks(book, days))
    )
    tell(found, _cleaning_words(found, book))


def _cleaning_words(found: acts.CleaningRecord, book: Book) -> Iterator[str]:
    lines: list[tuple[StoredUse | StoredCheck, str, str]] = [
        (one.use, one.place, one.words) for one in found.uses
    ]
    lines += [(one.check, one.place, one.words) for one in found.checks]
    if not lines:
        yield f"Nothing was cleaned or checked in the last {plural(found.days, 'day')}."
    for one, place, words in sorted(lines, key=lambda each: (each[0].at, each[0].entry)):
        note = f' "{one.note}"' if one.note else ""
        yield f"{book.when(one.at)}  {place or 'room'}  {words}{note}  {one.by}"
