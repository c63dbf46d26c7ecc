"""The commands that look after the book: copy, restore, check."""

import os
import sys
from collections.abc import Iterator, Sequence
from datetime import tzinfo
from pathlib import Path

import click

from logbook.actions.book import Book
from logbook.actions.care.checking import Checked, check, check_server, keep_verdict, mend_beside
from logbook.actions.care.checking import mend as put_right
from logbook.actions.care.closing import close_days
from logbook.actions.care.findings import Finding
from logbook.actions.care.keeping import copy_book, daily_copy, named_copy
from logbook.actions.care.restoring import Restored, restore, restore_preview
from logbook.actions.copies import (
    Copy,
    NoCopy,
    copies_folder,
    list_copies,
    looked_through,
    thinned_words,
)
from logbook.cli.arguments import when
from logbook.cli.files import FileName, named_book
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import answers, book_answers, json_asked, say, tell
from logbook.cli.progress import progress
from logbook.cli.usage import WrongUsage
from logbook.paths import book_path
from logbook.store.file.rooms import megabytes
from logbook.text import Refused, clean

SIGNS = {"good": "ok", "note": "note", "warning": "WARNING", "bad": "BAD"}


def shown(path: Path) -> str:
    """Write a path so that it cannot harm the terminal."""
    return clean(str(path), lines=False)


def copy_target(text: str) -> Path:
    """Path of a copy, or of a folder for it; what ends in / must be a folder that is there."""
    path = named_book(text)
    if text.endswith(("/", os.sep)) and not path.is_dir():
        raise Refused(
            f"There is no folder {path}. If it is on a USB stick, plug it in; nothing was copied."
        )
    return path


@click.command("copy")
@click.argument("target", required=False)
@click.option(
    "--daily",
    is_flag=True,
    help="Close the days that are over and make today's copy if there is none; for a timer.",
)
@book_answers("logbook.actions.copies:Copy", "logbook.actions.copies:NoCopy")
def copy_command(book: Book, target: str | None, daily: bool) -> None:
    """Make a checked copy of the book: to TARGET (a file or a folder), or beside the book.

    It is packed with xz, unless TARGET is a file whose name does not end in .xz.
    """
    if daily and target is not None:
        raise WrongUsage("The daily copy has its own place; leave the target out.")
    path = None if target is None else copy_target(target)
    if daily:
        close_days(book)
    with progress("Copying") as tell_of:
        made = (
            daily_copy(book, progress=tell_of) if daily else copy_book(book, path, progress=tell_of)
        )
    if made is None:
        tell(NoCopy())
    else:
        words = f"The copy is {shown(made.path)}, checked, {megabytes(made.size)}."
        tell(made, [words, *thinned_words(made)], made=True)


@click.command("restore")
@click.argument("copy", required=False, type=FileName(named_book))
@click.option("--dry-run", is_flag=True, help="Show what would be lost; change nothing.")
@click.option("--yes", is_flag=True, help="Do it without asking.")
@answers("copies=logbook.actions.copies:Copy", "logbook.actions.care.restoring:Restored")
@pass_options
def restore_command(options: Options, copy: Path | None, dry_run: bool, yes: bool) -> None:
    """Go back to COPY; the current book is kept beside it. With no COPY, list the copies."""
    if copy is None:
        copies = looked_through(list_copies(options.path))
        tell({"copies": copies}, _copies_words(copies, options))
        return
    copy = named_copy(copy, options.path, book_path())
    plan = restore_preview(options.path, copy)
    if not json_asked():
        click.echo(clean("\n".join(plan.words)))
    done = Restored(plan, None, restored=False)
    if not dry_run:
        if not yes:
            if not sys.stdin.isatty():
                raise Refused("Nothing was changed. Add --yes to go back to the copy.")
            if not click.confirm("Go back to it?", err=True):
                raise Refused("Nothing was changed.")
        with progress("Restoring") as tell_of:
            done = restore(options.path, copy, options.clock(), options.writer, tell_of, plan)
    kept = f" The book as it was before is {shown(done.aside)}." if done.aside else ""
    tell(done, [] if dry_run else [f"The book is the copy now.{kept}"], made=not dry_run)


def _copies_words(copies: Sequence[Copy], options: Options) -> Iterator[str]:
    zone = _zone(options) if copies else None
    for copy in copies:
        kind = "damaged" if copy.damaged else "daily" if copy.daily else ""
        made, size = copy.made.astimezone(zone), megabytes(copy.size)
        yield f"{made:%Y-%m-%d %H:%M}  {size:>8}  {kind:7}  {shown(copy.path)}"
    if not copies:
        say(f"There are no copies in {copies_folder(options.path)}; `logbook copy` makes one.")


def _zone(options: Options) -> tzinfo | None:
    """The room's time zone; the machine's where the book can't be opened, as it is gone or damaged."""
    try:
        return options.open().zone
    except Refused:
        return None


@click.command("check")
@click.option(
    "--quick",
    is_flag=True,
    help="Check quickly: leave out summaries, search and most closed days.",
)
@click.option("--mend", is_flag=True, help="Repair what can be repaired without losing anything.")
@click.option(
    "--ahead",
    metavar="WHEN",
    help="Give entries dated in the future this time, or strike them out.",
)
@answers("logbook.actions.care.checking:Checked")
@pass_options
def check_command(options: Options, quick: bool, mend: bool, ahead: str | None) -> None:
    """Check the book, its disk and its copies, and say what to do. Exit code 1 when something is bad.

    Entries in the future, left by a clock that ran fast, are struck out by --ahead strike.
    """
    done: list[str] = []
    path = options.where if isinstance(options.where, Path) else None
    if mend:
        with progress("Mending") as tell_of:
            done = (
                mend_beside(options.open(), tell_of)
                if path is None
                else put_right(path, options.clock(), by=options.writer, progress=tell_of)
            )
    if ahead is not None:
        from logbook.actions.trays.dated_ahead import put_right_ahead

        book = options.open()
        at = None if ahead.casefold() == "strike" else when(book, ahead)
        done.append(put_right_ahead(book, at).words)
    with progress("Checking") as tell_of:
        if path is None:
            found = check_server(options.open(), quick=quick, progress=tell_of)
        else:
            found = check(path, options.clock(), quick=quick, progress=tell_of)
    if path is not None:
        keep_verdict(path, options.clock().now().date(), found)
    tell(Checked(tuple(done), tuple(found)), _check_words(done, found))
    if any(each.severity == "bad" for each in found):
        raise click.exceptions.Exit(1)


def _check_words(mended: Sequence[str], found: Sequence[Finding]) -> Iterator[str]:
    yield from (f"mended   {line}" for line in mended)
    for each in found:
        yield f"{SIGNS[each.severity]:8} {clean(each.words)}"
        if each.todo:
            yield f"         {clean(each.todo)}"
