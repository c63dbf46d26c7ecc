"""`logbook seed`: the seed lots, what is bought, counted and weighed of them."""

from collections.abc import Mapping
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.seed import writing as acts
from logbook.actions.seed.seed_store import SeedStore, seed_store
from logbook.actions.seed.tables import PACE_HEAD, lot_columns, need_columns, pace_columns
from logbook.cli.arguments import AT, NOTE, day, measured, when
from logbook.cli.completing import complete_lots, complete_templates
from logbook.cli.printing import DONE, book_answers, tell, tell_done, width
from logbook.growing import quantities
from logbook.growing.days import day_words
from logbook.growing.seed.bags import Bag
from logbook.growing.table import table

LOT = click.argument("lot", shell_complete=complete_lots)
ABOUT = (
    click.option("--supplier", help="Who sold it."),
    measured("--price", quantities.BAG_PRICE, "PRICE", "What the whole bag cost."),
    measured(
        "--germination germination_percent",
        quantities.GERMINATION,
        "PERCENT",
        "Germination on the label: 92%.",
    ),
    click.option("--tested", metavar="DATE", help="The date of the label's test."),
    click.option("--bought", metavar="DATE", help="When it was bought; today for a new bag."),
    click.option("--treated/--untreated", default=None, help="Whether the seed is treated."),
    click.option(
        "--for-food/--not-for-food", default=None, help="Whether it was sold to be eaten."
    ),
    click.option("--organic/--not-organic", default=None, help="Whether it is certified organic."),
)


def about(command: Any) -> Any:
    """Add what may be said of a bag."""
    for option in reversed(ABOUT):
        command = option(command)
    return command


def _bag_said(book: Book, said: Mapping[str, Any]) -> dict[str, Any]:
    """Fields of a Bag that were typed."""
    days = {name: day(book, said[name]) for name in ("bought", "tested")}
    return {name: value for name, value in {**said, **days}.items() if value is not None}


@click.group(invoke_without_command=True)
@click.option("--crop", default="", shell_complete=complete_templates, help="Only of this crop.")
@click.option("--all", "every", is_flag=True, help="Used-up ones too.")
@book_answers("logbook.actions.seed.seed_store:SeedStore")
def seed(book: Book, crop: str, every: bool) -> None:
    """Show the seed lots: what is left of each, how much comes up, when and where it was bought."""
    found = seed_store(book, crop, every=every)
    tell(found, _store_lines(found, book))


def _store_lines(found: SeedStore, book: Book) -> list[str]:
    lines = list(table(lot_columns(found.money, book.units), found.lots, width()).lines)
    needed = table(need_columns(book.units), found.shopping.seed, width()).lines
    head = f"Needed by sowings until {day_words(found.shopping.until)}"
    none = "No seed yet; add a bag like: logbook seed add radish RA-12 1kg --germination 92%"
    paces = table(pace_columns(book.units), found.paces, width()).lines
    return [
        *(lines or [none]),
        *(["", head, *needed] if needed else []),
        *(["", PACE_HEAD, *paces] if paces else []),
    ]


@seed.command()
@click.argument("crop", shell_complete=complete_templates)
@click.argument("lot")
@click.argument("weight")
@about
@AT
@NOTE
@book_answers(DONE)
def add(
    book: Book, crop: str, lot: str, weight: str, at: str | None, note: str, **said: Any
) -> None:
    """Write that a bag of seed was bought: seed add radish RA-12 1kg --price 18 --untreated.

    A second bag of the same lot adds to the first.
    """
    grams = quantities.BAG.read(weight, book.units)
    bag = Bag(lot, crop, grams, **{"bought": book.today(), **_bag_said(book, said)})
    tell_done(acts.buy_seed(book, bag, note, when(book, at)))


@seed.command()
@LOT
@click.option("--why", required=True, help="The reason.")
@click.option(
    "--bag",
    default="",
    metavar="DAY",
    help="Which bag: the day it was bought, or its entry; the newest by default.",
)
@click.option("--weight", metavar="WEIGHT", help="Seed in it when it was bought.")
@about
@book_answers(DONE)
def change(book: Book, lot: str, why: str, bag: str, weight: str | None, **said: Any) -> None:
    """Correct a bag of a lot: seed change RA-12 --price 17 --why misread.

    The old entry is struck out with the reason and the right one takes its place.
    """
    changes = _bag_said(book, said)
    if weight is not None:
        changes["grams"] = quantities.BAG.read(weight, book.units)
    tell_done(acts.change_seed(book, lot, why, changes, bag))


@seed.command()
@LOT
@click.argument("sown", type=quantities.SEEDS_SOWN.read)
@click.argument("up", type=quantities.SEEDS_UP.read)
@AT
@NOTE
@book_answers(DONE)
def test(book: Book, lot: str, sown: int, up: int, at: str | None, note: str) -> None:
    """Write a germination test: seeds tested, seeds up: seed test RA-12 100 91."""
    tell_done(acts.count_seedlings(book, lot, sown, up, note, when(book, at)))


@seed.command()
@LOT
@click.argument("weight")
@AT
@NOTE
@book_answers(DONE)
def weigh(book: Book, lot: str, weight: str, at: str | None, note: str) -> None:
    """Write what is left of a lot: seed weigh RA-12 340g; 0 for an empty bag."""
    grams = quantities.LEFT.read(weight, book.units)
    tell_done(acts.weigh_seed(book, lot, grams, note, when(book, at)))
