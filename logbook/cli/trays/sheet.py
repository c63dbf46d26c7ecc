"""`logbook sheet`: the round on paper, and `logbook sheet enter`, what comes back on it."""

from __future__ import annotations

import sys
import textwrap
from collections.abc import Iterator
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

import click

from logbook.actions.made_files import mark_of, write_made, written_to
from logbook.cli.arguments import day
from logbook.cli.paper import COLUMNS, PAGE
from logbook.cli.printing import book_answers, say, tell
from logbook.exchange.paper import html_page
from logbook.growing.days import clock_words, day_of, day_words
from logbook.growing.numbers import numbers_words
from logbook.growing.trays.sheet import SheetLine, of_day
from logbook.text import Refused, plural

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.trays.sheet import Sheet, SheetRead

HOW = (
    "Tick what is done and write the time beside it. To enter a line, use its code: "
    "RB 7:30, or RB 7:30 1-14 not 6; for a cut, RC 17:30 101=240; for a sowing, RD 8:30 lot RA 12."
)


@click.group(invoke_without_command=True)
@click.option("--days", type=int, default=1, metavar="N", help="How many days; 1 by default.")
@click.option("--first", metavar="DATE", help="The first day; today by default.")
@COLUMNS
@PAGE
@book_answers("logbook.actions.trays.sheet:Sheet")
def sheet(book: Book, days: int, first: str | None, columns: int, page: Path | None) -> None:
    """Print the coming round in walking order, each line with a code to enter it by."""
    from logbook.actions.trays.sheet import print_sheet

    printed = print_sheet(book, days, day(book, first))
    if page is None:
        tell(printed, sheet_words(printed, book, columns))
        return
    write_made(page, sheet_page(printed, book), mark_of(MADE_BY))
    tell(
        printed,
        [f"{plural(len(printed.lines), 'line')} {written_to(page)}"],
        made=True,
    )


@sheet.command()
@click.argument("lines", nargs=-1, metavar="[LINE]...")
@click.option("--printed", metavar="DATE", help="The day an older sheet was printed.")
@click.option("--yes", is_flag=True, help="Write it without asking.")
@book_answers("logbook.actions.trays.sheet:SheetRead")
def enter(book: Book, lines: tuple[str, ...], printed: str | None, yes: bool) -> None:
    """Write what came back on paper, all in one act: enter "RB 7:30 1-14 not 6" "RC 7:40".

    With no lines, they are read from standard input. What was understood is shown first; if one line
    can't be written, nothing is. Give the initials of whoever had the paper: logbook --by rb
    sheet enter.
    """
    from logbook.actions.trays.sheet import enter_sheet

    given = list(lines) if any(" " in line for line in lines) else [" ".join(lines)]
    if not lines:
        given = list(_typed())
    printed_on = day(book, printed)
    read = enter_sheet(book, given, printed=printed_on, write=yes)
    if not yes and not read.refused and sys.stdin.isatty() and sys.stderr.isatty():
        for line in read_words(read, asked=True):
            click.echo(line, err=True)
        if click.confirm("Write it?", err=True):
            read = enter_sheet(book, given, printed=printed_on, write=True)
    if read.refused:
        wrong = " ".join(f'"{each.text}": {each.refusal}' for each in read.lines if each.refusal)
        raise Refused(f"{wrong} Nothing was written.")
    tell(read, read_words(read))


def _typed() -> Iterator[str]:
    """The lines of standard input; at a terminal an empty one ends them."""
    asks = sys.stdin.isatty()
    if asks:
        say("Type the lines of the sheet; an empty line ends them.")
    for line in sys.stdin:
        if asks and not line.strip():
            return
        yield line


def read_words(read: SheetRead, *, asked: bool = False) -> Iterator[str]:
    """What was understood, line by line; `asked` says that a question follows."""
    for each in read.lines:
        yield f"{each.text}"
        yield f"  {each.words}"
        yield from (f"  {notice}" for notice in each.notices)
    if read.written:
        yield f"Written by {read.by} in one act; one undo removes it all."
    elif not asked:
        yield "Nothing is written yet; add --yes to write it."


def sheet_words(printed: Sheet, book: Book, columns: int) -> Iterator[str]:
    """The sheet as plain text for paper of so many columns."""
    yield from textwrap.wrap(_title(printed, book), columns)
    yield from textwrap.wrap(HOW, columns)
    for on, lines in of_day(printed.lines).items():
        yield ""
        yield _ends(day_words(on), "by ______", columns)
        place = None
        for line in lines:
            if line.place != place:
                place = line.place
                yield place
            head = f"  {line.code:<3} [ ] {clock_words(line.at, book.zone)} "
            body = textwrap.wrap(_what(line), columns - len(head) - 7) or [""]
            yield _ends(head + body[0], "______", columns)
            yield from (" " * len(head) + more for more in body[1:])
    if not printed.lines:
        yield "Nothing is due."


def _title(printed: Sheet, book: Book) -> str:
    at = printed.printed_at
    on = day_words(day_of(at, book.zone))
    return f"{printed.room}: the round, printed {on} {clock_words(at, book.zone)}"


def _ends(left: str, right: str, columns: int) -> str:
    return f"{left:<{columns - len(right)}}{right}"


def _what(line: SheetLine) -> str:
    trays = f": {numbers_words(line.numbers)}" if line.numbers else ""
    return ", ".join(filter(None, (f"{line.words}{trays}", line.crop, line.about)))


MADE_BY = "logbook sheet"


def sheet_page(printed: Sheet, book: Book) -> str:
    """The sheet as one HTML page that needs nothing else."""
    rows: list[str] = []
    for on, lines in of_day(printed.lines).items():
        rows.append(f"<h2>{escape(day_words(on))} &nbsp; by ________</h2><table>")
        place = None
        for line in lines:
            if line.place != place:
                place = line.place
                rows.append(f'<tr class="place"><td colspan="5">{escape(place)}</td></tr>')
            rows.append(
                f'<tr><td class="code">{line.code}</td><td class="box">&#9744;</td>'
                f"<td>{clock_words(line.at, book.zone)}</td><td>{escape(_what(line))}</td>"
                '<td class="blank"></td></tr>'
            )
        rows.append("</table>")
    body = f"<p>{escape(HOW)}</p>{''.join(rows)}"
    return html_page(_title(printed, book), body, MADE_BY)
