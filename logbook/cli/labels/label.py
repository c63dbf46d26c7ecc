"""`logbook label` and `tape`: what is stuck on packs and trays, as text or on a sheet for an office printer."""

import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import click

from logbook.actions.book import Book
from logbook.actions.labels.sheets import SheetDraft, write_sheet
from logbook.cli.arguments import measured, trays
from logbook.cli.completing import complete_trays
from logbook.cli.paper import PAGE
from logbook.cli.printing import book_answers, say, tell
from logbook.growing.crops.allergens import Law
from logbook.growing.labels.maker import address_read
from logbook.growing.labels.sheets import GRIDS, PAPERS
from logbook.growing.labels.sticker import Sticker
from logbook.growing.quantities import PACK
from logbook.text import Refused

_GRIDS = ", ".join(f"{each.name} ({each.paper})" for each in GRIDS)


def sheet_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add what is said of the paper; without a file it is text for a label printer."""
    for option in reversed(
        (
            PAGE,
            click.option("--grid", default="", metavar="CxR", help=f"Labels across and down: {_GRIDS}."),
            click.option("--paper", type=click.Choice(list(PAPERS)), help="The paper of the sheet."),
            click.option("--skip", type=click.IntRange(0, 100), default=0, help="Labels already used on the first sheet."),
            click.option("--copies", type=click.IntRange(1, 1000), default=1, help="How many of each label."),
            click.option("--columns", type=click.IntRange(16, 120), default=32, help="Characters across the label printer (32)."),
        )
    ):  # fmt: skip
        command = option(command)
    return command


def put_out(
    book: Book, answer: Any, stickers: Sequence[Sticker], page: Path | None, columns: int, law: Law | None = None,
    **on: Any,
) -> None:  # fmt: skip
    """Print stickers as text, or write them on a sheet."""
    if page is None:
        every = ("\n".join(each.plain(columns)) for each in stickers for _ in range(on["copies"]))
        tell(answer, "\n\n".join(every).split("\n"))
        return
    made = write_sheet(book, stickers, SheetDraft(page, **on), law)
    for notice in made.notices:
        say(notice)
    tell(answer, [made.words], made=True)


@click.command()
@click.argument("what")
@click.option(
    "--lot", default="", metavar="CODE", help="For a crop or mix: the code of the pack's lot."
)
@measured("--size", PACK, "WEIGHT", "Net weight of a pack, like 50g; blank by default.")
@click.option(
    "--packed", default="", metavar="DAY", help="When it was packed; the lot's day, or today."
)
@click.option(
    "--best-before", default="", metavar="DAY", help="The lot's, or as long as the crop keeps."
)
@click.option(
    "--organic",
    default="",
    metavar="WORDS",
    help="The organic wording, as your certifier wants it.",
)
@click.option("--gtin", default="", metavar="DIGITS", help="The GTIN of this pack, if it has one.")
@sheet_options
@book_answers("logbook.actions.labels.labels:LabelView")
def label(
    book: Book, what: str, lot: str, size: float | None, packed: str, best_before: str, organic: str, gtin: str,
    **on: Any,
) -> None:  # fmt: skip
    """Print labels for packs of a lot, by its code: weight, days, allergens, maker, a code square with the lot.

    If you keep no pack lots, name the crop or mix, and its lot with --lot.

    As text for a label printer, or with --html as a sheet of labels for an office printer. Allergens come from
    the templates; those that the law of the room's country lists are in capitals. Read a label against
    your own law before you use it.
    """
    from logbook.actions.labels.labels import LabelDraft, label_of

    _ask_maker(book)
    made = label_of(book, LabelDraft(what, lot, size, packed, best_before, organic, gtin))
    put_out(book, made, [made.label.sticker], law=made.label.law, **on)


def _ask_maker(book: Book) -> None:
    """Ask at a terminal who makes what is sold, where the book does not know, and keep it."""
    if (book.about.maker and book.about.address) or not (
        sys.stdin.isatty() and sys.stderr.isatty()
    ):
        return
    from logbook.actions.room.places import RoomDraft, change_room

    maker = click.prompt(
        "Which name do labels carry?", default=book.about.maker, err=True, prompt_suffix=" "
    )
    address = click.prompt(
        "The full address (street; postcode and town)?", default=book.about.address, err=True,
        prompt_suffix=" ", value_proc=_address,
    )  # fmt: skip
    change_room(book, RoomDraft(maker=maker, address=address))


def _address(text: str) -> str:
    """Read an address, so that it is asked for again where it cannot be one."""
    try:
        return address_read(text)
    except Refused as refused:
        raise click.UsageError(str(refused)) from refused


@click.command()
@click.argument("numbers", nargs=-1, required=True, metavar="TRAYS", shell_complete=complete_trays)
@sheet_options
@book_answers("logbook.actions.labels.tapes:Tapes")
def tape(book: Book, numbers: tuple[str, ...], **on: Any) -> None:
    """Print tapes for trays: number, crop, day of sowing, and a code square with the number.

    As text for a label printer, or with --html as a sheet of labels for an office printer.
    """
    from logbook.actions.labels.tapes import tapes_of

    found = tapes_of(book, trays(numbers))
    put_out(book, found, [each.sticker for each in found.tapes], **on)
