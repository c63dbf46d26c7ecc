"""Arguments that several commands share, read in the book's zone and units."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

import click

from logbook.growing.numbers import parse_numbers
from logbook.growing.quantities import Count, Price, Quantity
from logbook.growing.when import parse_day, parse_when
from logbook.store.rows import Rows
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


Completer = Callable[[click.Context, click.Parameter, str], list[str]]


def completer(names: Callable[[], Iterable[str]]) -> Completer:
    """What completes one of our own names for the shell."""
    return lambda _ctx, _param, begun: [
        name for name in names() if name.startswith(begun.casefold())
    ]


def completer_from_book(read: Callable[[Rows], Iterable[str]]) -> Completer:
    """What completes a word of the book for the shell; whatever is wrong, none and no sound."""

    def complete(ctx: click.Context, _param: click.Parameter, begun: str) -> list[str]:
        try:
            from logbook.cli.options import Options
            from logbook.store.file.book_file import BookFile

            options = ctx.find_object(Options) or Options(None, None, None)
            with BookFile(options.path).reading() as reading:
                found = list(read(reading))
        except Exception:  # noqa: BLE001 - a shell's completion stays silent
            return []
        return [word for word in found if word.casefold().startswith(begun.casefold())]

    return complete


@completer_from_book
def complete_trays(reading: Rows) -> Iterable[str]:
    """The numbers of trays in use."""
    from logbook.store.reads.trays import live_numbers

    return map(str, sorted(live_numbers(reading)))


@completer_from_book
def complete_templates(reading: Rows) -> Iterable[str]:
    """The names of crop templates that are not retired."""
    from logbook.store.reads.templates import read_templates

    return (each.template.name for each in read_templates(reading) if not each.retired)


@completer_from_book
def complete_lots(reading: Rows) -> Iterable[str]:
    """The seed lots, the newest first."""
    from logbook.store.reads.batches import read_lots

    lots = reversed(read_lots(reading).values())
    return dict.fromkeys(each.lot for several in lots for each in several)


@completer_from_book
def complete_places(reading: Rows) -> Iterable[str]:
    """The paths of places that are not retired."""
    from logbook.store.reads.book import read_places

    return (each.path for each in read_places(reading) if not each.retired)


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
    "--at", **{**_AT, "help": "When it was changed; what is sown or due goes by it from now on."},
    expose_value=False, callback=_keep_at,
)  # fmt: skip
"""As OF_ALL_AT, of what the room or a template is: the entry lies at that moment."""
SURE = click.option("--sure", is_flag=True, help="Write it, however odd or early it looks.")
PLACE = click.option("--place", default="", shell_complete=complete_places, help="Rack or shelf.")
NOTE = click.option("--note", default="", help="A note.")
