"""`logbook week`: the week to come on one page."""

from collections.abc import Iterator
from itertools import groupby
from pathlib import Path

import click

from logbook.actions.book import Book
from logbook.actions.made_files import mark_of, write_made, written_to
from logbook.actions.trays.agenda import Coming
from logbook.actions.trays.week import WeekDay
from logbook.actions.trays.week import week as find
from logbook.cli.arguments import day
from logbook.cli.paper import COLUMNS, PAGE
from logbook.cli.printing import book_answers, tell
from logbook.cli.seed.shopping import shopping_section
from logbook.exchange.paper import Section, section_page, section_words
from logbook.growing.days import clock_words, day_of, day_words
from logbook.growing.numbers import numbers_words

MADE_BY = "logbook week"


@click.command()
@click.option("--first", metavar="DATE", help="The first day; today by default.")
@COLUMNS
@PAGE
@book_answers("logbook.actions.trays.week:Week")
def week(book: Book, first: str | None, columns: int, page: Path | None) -> None:
    """Show the coming week on one page: soaks, sowings, changes, cuts, deliveries, what to buy.

    For the wall: --html makes a page for a printer. The round with its codes is `logbook sheet`.
    """
    found = find(book, day(book, first))
    title = f"{found.room}: the week from {day_words(found.first)}"
    sections = [
        *(Section(day_words(each.day), list(_lines(each, book))) for each in found.days),
        shopping_section(found.shopping, book),
    ]
    if page is None:
        tell(found, [title, "", *section_words(sections, columns)])
        return
    write_made(page, section_page(title, sections, MADE_BY), mark_of(MADE_BY))
    tell(found, [f"The page was {written_to(page)}"], made=True)


def _lines(one: WeekDay, book: Book) -> Iterator[tuple[str, str]]:
    """A day's lines: what is to be done at one time in the same way is one line."""
    for (at, words), alike in groupby(one.coming, lambda each: (each.at, each.words)):
        late = day_of(at, book.zone) < one.day
        when = "late" if late else clock_words(at, book.zone)
        several = list(alike)
        what = "; ".join(filter(None, map(_what, several)))
        yield when, f"{words}: {what}" if what else words
    if not one.coming:
        yield "", "nothing"


def _what(one: Coming) -> str:
    about = one.about.replace("\n", "; ")
    numbers = numbers_words(number for number in one.numbers if number > 0)
    waiting = sum(number < 0 for number in one.numbers)
    more = f"{waiting} of batch {one.name.rpartition('-')[2]}" if waiting else ""
    return " ".join(filter(None, (one.crop, numbers, more, about)))
