"""What completes words for the shell: our own names, and those of the book."""

from collections.abc import Callable, Iterable
from pathlib import Path

import click

from logbook.store.rows import Rows

Completer = Callable[[click.Context, click.Parameter, str], list[str]]


def completer(names: Callable[[], Iterable[str]]) -> Completer:
    """What completes one of our own names for the shell."""
    return lambda _ctx, _param, begun: [
        name for name in names() if name.startswith(begun.casefold())
    ]


def either(*completers: Completer) -> Completer:
    """What completes a word that may be one of several things."""
    return lambda ctx, param, begun: [
        name for each in completers for name in each(ctx, param, begun)
    ]


def completer_from_book(read: Callable[[Rows], Iterable[str]]) -> Completer:
    """What completes a word of the book for the shell; whatever is wrong, none and no sound."""

    def complete(ctx: click.Context, _param: click.Parameter, begun: str) -> list[str]:
        try:
            from logbook.cli.options import Options
            from logbook.store.file.book_file import BookFile
            from logbook.store.server.server_book import ServerBook

            where = (ctx.find_object(Options) or Options(None, None, None)).where
            file = BookFile(where) if isinstance(where, Path) else ServerBook(where)
            with file.reading() as reading:
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
    from logbook.store.reads.lots import read_lots

    lots = reversed(read_lots(reading).values())
    return dict.fromkeys(each.lot for several in lots for each in several)


@completer_from_book
def complete_places(reading: Rows) -> Iterable[str]:
    """The paths of places that are not retired."""
    from logbook.store.reads.book import read_places

    return (each.path for each in read_places(reading) if not each.retired)


@completer_from_book
def complete_batches(reading: Rows) -> Iterable[str]:
    """The batches with trays in use."""
    from logbook.store.reads.batch_lines import read_batch_lines

    return (str(each.batch) for each in read_batch_lines(reading))


@completer_from_book
def complete_recent_entries(reading: Rows) -> Iterable[str]:
    """The numbers of the newest entries, the last first."""
    from logbook.store.reads.entries import newest_ids

    return map(str, newest_ids(reading, 20))


@completer_from_book
def complete_holds(reading: Rows) -> Iterable[str]:
    """What is on hold, as it is named."""
    from logbook.store.reads.holds import read_holds

    return (each.name for each in read_holds(reading).holds)
