"""`logbook page` and `logbook search`: entries of a day, or with a word in them."""

from collections.abc import Iterator
from datetime import date
from itertools import chain

import click

from logbook.actions.book import Book
from logbook.actions.trays.entry_lines import Line, fold_lines
from logbook.actions.trays.page import Page, lives
from logbook.actions.trays.page import page as entries_of
from logbook.actions.trays.page import search as find
from logbook.cli.arguments import day, one_tray
from logbook.cli.completing import complete_templates, complete_trays, completer
from logbook.cli.printing import book_answers, tell
from logbook.cli.usage import WrongUsage
from logbook.growing.days import clock_words, day_of, day_words, moment_words
from logbook.growing.numbers import numbers_words
from logbook.growing.page_filter import KINDS
from logbook.text import Refused


@click.command()
@click.option("--day", "day_text", metavar="DATE", help="Which day; today by default.")
@click.option("--from", "since", metavar="DATE", help="From which day on.")
@click.option("--to", "until", metavar="DATE", help="Up to which day; today by default.")
@click.option(
    "--tray",
    shell_complete=complete_trays,
    help="Only this tray: 23 (all that had the number), 23@2027-03-07.",
)
@click.option(
    "--crop",
    default="",
    shell_complete=complete_templates,
    help="Only this crop, variety or label.",
)
@click.option(
    "--kind", default="", shell_complete=completer(lambda: KINDS),
    help="Only this kind: water, look, jot, weigh …",
)  # fmt: skip
@book_answers("logbook.actions.trays.page:Page")
def page(
    book: Book, day_text: str | None, since: str | None, until: str | None, tray: str | None,
    crop: str, kind: str,
) -> None:  # fmt: skip
    """Show a day's entries, or those of several days, oldest first; those struck out are marked.

    What was written that day about an earlier one is shown too, with its own day.
    """
    which, last = _days(book, day_text, since, until)
    number = None if tray is None else one_tray(tray)
    lines = entries_of(book, which, last=last, tray=number, crop=crop, kind=kind)
    words = [
        f"  {entry_words(line, book, day=last > which or day_of(line.at, line.hours.zone) != which)}"
        for line in fold_lines(lines)
    ] or ["No entries."]
    words += _lives(book, number)
    days = " to ".join(dict.fromkeys(day_words(each, book.today()) for each in (which, last)))
    head = "  ".join(filter(None, (days, book.rehearsal)))
    tell(Page(which, last, tuple(lines)), [head, *words])


def _days(book: Book, one: str | None, since: str | None, until: str | None) -> tuple[date, date]:
    if since is None:
        if until is not None:
            raise WrongUsage("From which day? Give --from with --to.")
        which = day(book, one) or book.today()
        return which, which
    if one is not None:
        raise WrongUsage("One day or several? Give --day, or --from and --to.")
    first, last = day(book, since) or book.today(), day(book, until) or book.today()
    if last < first:
        raise Refused(f"--to {last} is before --from {first}.")
    return first, last


@click.command()
@click.argument("words", nargs=-1, required=True)
@click.option("--tray", shell_complete=complete_trays, help="Only this tray: 23, 23@2027-03-07.")
@book_answers("entries=logbook.actions.trays.entry_lines:Line")
def search(book: Book, words: tuple[str, ...], tray: str | None) -> None:
    """Find words in notes, looks and seed lots, oldest entry first."""
    wanted = " ".join(words)
    number = None if tray is None else one_tray(tray)
    found = find(book, wanted, tray=number)
    tell({"entries": found}, chain(_found_words(found, wanted, book), _lives(book, number)))


def _lives(book: Book, tray: int | None) -> list[str]:
    return [f"Tray {tray}: {each.words(book.now(), book.zone)}" for each in lives(book, tray)]


def _found_words(found: list[Line], wanted: str, book: Book) -> Iterator[str]:
    if not found:
        raise Refused(f'No note, look or seed lot contains "{wanted[:60]}".')
    for line in found:
        yield entry_words(line, book, day=True)


def entry_words(line: Line, book: Book, *, day: bool = False) -> str:
    """An entry in one line; with `day` the day it happened stands before the time."""
    zone = line.hours.zone
    when = moment_words(line.at, book.now(), zone) if day else clock_words(line.at, zone)
    where = numbers_words(line.trays) or line.place or "room"
    note = f' "{" / ".join(line.note.splitlines())}"' if line.note else ""
    marks = ["struck"] if line.struck else []
    if line.replaced_by is not None:
        marks.append(f"replaced by entry {line.replaced_by}")
    if line.replaces is not None:
        marks.append(f"in place of entry {line.replaces}")
    standing = f" ({', '.join(marks)})" if marks else ""
    ids = " ".join(map(str, line.folded or (line.id,)))
    return f"{when}  {ids}  {line.words}  {where}{note}  {line.by}{standing}"
