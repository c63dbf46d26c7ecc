"""`logbook shopping`: what to buy for the sowings to come."""

from pathlib import Path

import click

from logbook.actions.book import Book
from logbook.actions.made_files import mark_of, write_made, written_to
from logbook.actions.seed.shopping import LEAD, WEEKS, ShoppingList, shopping_list
from logbook.actions.seed.shopping_words import to_buy_lines
from logbook.cli.paper import COLUMNS, PAGE
from logbook.cli.printing import book_answers, tell
from logbook.exchange.paper import Section, section_page, section_words
from logbook.growing.days import day_words

MADE_BY = "logbook shopping"


@click.command()
@click.option("--weeks", type=int, default=WEEKS, show_default=True, help="How many weeks ahead.")
@click.option(
    "--lead", type=int, default=LEAD, show_default=True, help="How many days a bag takes to come."
)
@COLUMNS
@PAGE
@book_answers("logbook.actions.seed.shopping:ShoppingList")
def shopping(book: Book, weeks: int, lead: int, columns: int, page: Path | None) -> None:
    """Show what to buy for the coming weeks: seed, and medium for how many trays, each by when.

    It counts the sowings that are planned and those that `logbook plan` asks for, less what is left.
    """
    found = shopping_list(book, weeks, lead)
    sections = [shopping_section(found, book)]
    if page is None:
        tell(found, section_words(sections, columns))
        return
    title = f"{book.about.name}: shopping list, {day_words(book.today())}"
    write_made(page, section_page(title, sections, MADE_BY), mark_of(MADE_BY))
    tell(found, [f"The page was {written_to(page)}"], made=True)


def shopping_section(found: ShoppingList, book: Book) -> Section:
    """What to buy as a section of a page."""
    lines = list(to_buy_lines(found, book.units))
    return Section(
        f"To buy, for sowings until {day_words(found.until)}", lines or [("", "nothing")]
    )
