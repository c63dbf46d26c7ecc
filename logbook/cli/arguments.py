"""Arguments that several commands share, read in the book's zone and units."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

import click

from logbook.cli.completing import complete_places
from logbook.growing.numbers import parse_numbers
from logbook.growing.quantities import Count, Price, Quantity
from logbook.growing.when import parse_day, parse_when
from logbook.text import Refused

if TYPE_CHECKING:
    from logbook.actions.book import Book


BATCH = click.IntRange(1, 10**9)
"""The number of a batch."""


def when(book: Book, text: str | None, *, ahead: bool = False) -> datetime | None:
    """Read a WHEN in the book's zone; None for none given. `ahead` as of parse_when()."""
    return None if text is None else parse_when(text, book.now(), book.zone, ahead=ahead)


def day(book: Book, text: str | None) -> date | None:
    """Read a DATE; None for none given."""
    return None if text is None else parse_day(text, book.now(), book.zone)


def trays(words: Sequence[str] | str) -> tuple[int, ...]:
    """Read a tray list given as one word or several."""
    return parse_numbers(words if isinstance(words, str) else " ".join(words))


def one_tray(text: str) -> int:
    """Read one tray's number; raise Refused for several."""
    (wanted, *more) = trays(text)
    if more:
        raise Refused("One tray at a time; `logbook batch` shows several.")
    return wanted


def measured(
    names: str, quantity: Quantity | Count | Price, metavar: str, words: str, **more: Any
) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """An option that takes a quantity, a bare number of it in metric units."""
    return click.option(*names.split(), type=quantity.read, metavar=metavar, help=words, **more)


def confirm(asked: str) -> None:
    """Ask whether what looks odd is right, '' for nothing; raise Refused for a no, or no one there."""
    if asked and not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise Refused(f"{asked} Nothing is written; add --sure if it is right.")
    if asked and not click.confirm(f"{asked} Write it?", err=True):
        raise Refused("Not written.")


def _keep_at(ctx: click.Context, _option: click.Parameter, text: str | None) -> None:
    from logbook.cli.options import Options

    options = ctx.find_object(Options)
    if options is not None:
        options.at = text


def _said_when(text: str) -> str:
    if not text.strip():
        raise Refused("--at is empty. Try 07:30 or yesterday 18:00; leave it out for now.")
    return text


_AT: dict[str, Any] = {
    "type": _said_when,
    "metavar": "WHEN",
    "help": "When: 07:30 (today), yesterday 18:00 or 2026-04-14T07:30; now by default.",
}
AT = click.option("--at", **_AT)
OF_ALL_AT = click.option("--at", **_AT, expose_value=False, callback=_keep_at)
"""--at for all that the command writes (`Book.said_at`)."""
SETTINGS_AT = click.option(
    "--at", **{**_AT, "help": "When it changed; sowings and chores follow it from then on."},
    expose_value=False, callback=_keep_at,
)  # fmt: skip
"""As OF_ALL_AT, of what the room or a template is: the entry lies at that moment."""
SURE = click.option("--sure", is_flag=True, help="Write it even if it looks odd or early.")
IN = click.option(
    "--in", "inside", default="", metavar="PLACE", shell_complete=complete_places,
    help="Of this room, rack or shelf alone.",
)  # fmt: skip
PLACE = click.option("--place", default="", shell_complete=complete_places, help="Rack or shelf.")
NOTE = click.option("--note", default="", help="A note.")
