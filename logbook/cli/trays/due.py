"""`logbook due`: what is or will be ready to cut."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.trays.due import Due, due_by_day
from logbook.actions.trays.due import due as find
from logbook.cli.arguments import IN
from logbook.cli.printing import book_answers, tell
from logbook.growing.days import day_words
from logbook.growing.measures import range_words
from logbook.text import plural


@click.command()
@click.option("--days", default=7, show_default=True, help="How many days ahead.")
@IN
@book_answers("logbook.actions.trays.due:Due")
def due(book: Book, days: int, inside: str) -> None:
    """Show trays to cut today and in the days ahead, with the grams expected."""
    trays = find(book, days, inside)
    found = Due(days, tuple(trays), tuple(due_by_day(trays)))
    tell(found, due_words(found, book))


def due_words(found: Due, book: Book) -> Iterator[str]:
    """Trays one by one, then the sums by day."""
    if not found.trays:
        yield f"Nothing will be ready within {plural(found.days, 'day')}. `logbook sow` sows a batch."
        return
    for tray in found.trays:
        expected = ""
        if tray.expected is not None:
            grams = range_words(tray.expected.low, tray.expected.high, book.units)
            expected = f", expect {grams}, 4 in 5 ({tray.expected.rests_on})"
        again = "" if tray.regrowth_day is None else f", growing again day {tray.regrowth_day}"
        marks = ", ready sign seen" if tray.sign_seen else ""
        marks += ", mould seen" if tray.mould_seen else ""
        yield (
            f"{tray.ready}: {tray.number}, {tray.crop}, day {tray.day_number}{again}, "
            f"best {tray.when(tray.window.best)}, "
            f"by {tray.when(tray.window.by)}{marks}{expected}, "
            f"{tray.place or 'no place'}"
        )
    yield "By day"
    for each in found.by_day:
        grams = "not known"
        if each.expected is not None:
            grams = range_words(each.expected.low, each.expected.high, book.units) + ", 4 in 5"
        yield (
            f"  {day_words(each.day, book.today())}: {each.crop}, "
            f"{plural(len(each.numbers), 'tray')}, {grams}"
        )
