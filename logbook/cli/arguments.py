"""Arguments that several commands share, read in the book's zone and units."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING, Any

import click

from logbook.growing.numbers import parse_numbers
from logbook.growing.when import parse_day, parse_when
from logbook.store.rows import Rows
from logbook.text import Refused

if TYPE_CHECKING:
    from logbook.actions.book import Book


BATCH = click.IntRange(1, 10**9)
"""The number of a batch."""
AT_HELP = "When: 07:30 (today) or 2026-04-14T07:30; now without it."


def at_option(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add --at."""
    return click.option("--at", metavar="WHEN", help=AT_HELP)(command)


def when(book: Book, text: str | None) -> datetime | None:
    """Read a WHEN in the book's zone; None for none given."""
    if text is None:
        return None
    return parse_when(text, book.now(), book.zone, book.about.day_start)


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


def complete_trays(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[str]:
    """Complete tray numbers for the shell."""

    def numbers(reading: Rows) -> list[str]:
        from logbook.store.reads.trays import live_numbers

        return [str(number) for number in sorted(live_numbers(reading))]

    return complete_from_book(ctx, incomplete, numbers)


def complete_templates(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[str]:
    """Complete template names for the shell."""

    def names(reading: Rows) -> list[str]:
        from logbook.store.reads.templates import read_templates

        return [each.template.name for each in read_templates(reading) if not each.retired]

    return complete_from_book(ctx, incomplete, names)


def complete_lots(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[str]:
    """Complete seed lots for the shell, the newest first."""

    def lots(reading: Rows) -> list[str]:
        from logbook.store.reads.batches import read_lots

        return list(dict.fromkeys(reversed(read_lots(reading).values())))

    return complete_from_book(ctx, incomplete, lots)


def complete_places(ctx: click.Context, _param: click.Parameter, incomplete: str) -> list[str]:
    """Complete place paths for the shell."""

    def paths(reading: Rows) -> list[str]:
        from logbook.store.reads.places import read_places

        return [each.path for each in read_places(reading) if not each.retired]

    return complete_from_book(ctx, incomplete, paths)


def complete_from_book(
    ctx: click.Context, incomplete: str, read: Callable[[Rows], list[str]]
) -> list[str]:
    """The words of the book that begin as typed; whatever is wrong, none and no sound."""
    try:
        from logbook.cli.options import Options
        from logbook.store.file.book_file import BookFile

        options = ctx.find_object(Options) or Options(None, None, None)
        with BookFile(options.path).reading() as reading:
            found = read(reading)
    except Exception:  # noqa: BLE001 - a shell's completion stays silent
        return []
    return [word for word in found if word.casefold().startswith(incomplete.casefold())]


PLACE = click.option("--place", default="", shell_complete=complete_places, help="Rack or shelf.")
NOTE = click.option("--note", default="", help="A note.")
