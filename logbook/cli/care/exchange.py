"""The commands that take a book out as files and in again: export, import."""

from dataclasses import replace
from pathlib import Path

import click

from logbook.actions.book import Book
from logbook.actions.trays.harvest_list import HarvestList, list_harvests
from logbook.cli.care.harvests import import_harvests
from logbook.cli.files import FileName
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import answers, book_answers, tell
from logbook.cli.progress import progress
from logbook.cli.usage import WrongUsage
from logbook.exchange.exporting import export_book as write
from logbook.exchange.harvest_file import Order, read_harvests, write_harvests
from logbook.exchange.importing import import_book as read
from logbook.paths import write_private
from logbook.text import Refused, clean, plural


@click.command("export")
@click.argument("target", type=FileName(), metavar="[PATH]", required=False)
@click.option(
    "--harvests",
    type=FileName(),
    metavar="PATH",
    help="Write a list of harvests to this file; - prints it.",
)
@book_answers(
    "logbook.exchange.manifest:Manifest", "logbook.actions.trays.harvest_list:HarvestList"
)
def export(book: Book, target: Path | None, harvests: Path | None) -> None:
    """Write everything in the book as CSV files with a manifest: a new folder, or FILE.zip.

    The same book gives the same files, byte for byte. Only you can read them. --harvests
    FILE.csv writes one flat list instead, which `logbook import --harvests` reads.
    """
    if (target is None) == (harvests is None):
        raise WrongUsage("Name a folder or a zip, or give --harvests FILE.csv, not both.")
    if harvests is not None:
        _write_harvests(book, harvests)
        return
    assert target is not None  # noqa: S101 - one of the two
    with progress("Exporting") as step:
        manifest = write(book, target, step)
    sizes = f"{plural(manifest.rows, 'row')} in {plural(len(manifest.files), 'file')}"
    tell(manifest, [f"{sizes} exported to {clean(str(target), lines=False)}."], made=True)


def _write_harvests(book: Book, path: Path) -> None:
    found = list_harvests(book)
    text = write_harvests(found)
    if str(path) == "-":
        tell(HarvestList(None, tuple(found)), [text.removesuffix("\n")])
        return
    if path.exists():
        raise Refused(f"There is already a file at {path}; it was not touched.")
    write_private(path, text)
    words = f"{plural(len(found), 'harvest')} written to {clean(str(path), lines=False)}."
    tell(HarvestList(path, tuple(found)), [words], made=True)


@click.command("import")
@click.argument("source", type=FileName(), metavar="[PATH]", required=False)
@click.option("--harvests", type=FileName(), metavar="PATH", help="A CSV file of past harvests.")
@click.option(
    "--date-order",
    "days",
    type=click.Choice(["dmy", "mdy"]),
    help="How days are written: dmy for 31/12/2026, mdy for 12/31/2026.",
)
@click.option(
    "--per-tray", is_flag=True, help="Grams are per tray, not for all of a line's trays together."
)
@click.option("--make-templates", is_flag=True, help="Make a template for each unknown crop.")
@click.option("--dry-run", is_flag=True, help="Show what is wrong in each line; write nothing.")
@click.option("--sure", is_flag=True, help="Import duplicate lines too.")
@answers("logbook.exchange.manifest:Manifest", "logbook.actions.trays.harvests:HarvestsRead")
@pass_options
def import_(
    options: Options, source: Path | None, harvests: Path | None, days: Order | None,
    per_tray: bool, make_templates: bool, dry_run: bool,
    sure: bool,
) -> None:  # fmt: skip
    """Import an export into a new book, or past harvests from a spreadsheet.

    --harvests FILE.csv (or - for standard input) needs the columns crop, sown, cut, trays and
    grams. All of it is imported, or nothing.
    """
    if (source is None) == (harvests is None):
        raise WrongUsage("Name an export, or give --harvests FILE.csv, not both.")
    if source is not None:
        if dry_run or make_templates or per_tray or days or sure:
            raise WrongUsage(
                "--dry-run, --sure, --date-order, --per-tray and --make-templates go with --harvests."
            )
        _take_book(options, source)
        return
    assert harvests is not None  # noqa: S101 - one of the two
    found = read_harvests(harvests, days, per_tray=per_tray)
    name = "standard input" if str(harvests) == "-" else clean(harvests.name, lines=False)[:80]
    import_harvests(options, found, name, make_templates=make_templates, dry_run=dry_run, sure=sure)


def _take_book(options: Options, source: Path) -> None:
    if source.suffix.casefold() != ".zip" and source.is_file() and _holds_harvests(source):
        raise Refused(
            f"{clean(source.name, lines=False)[:60]} looks like past harvests, not an export. Put --harvests before its name."
        )
    with progress("Importing") as step:
        book, manifest = read(source, options.where, options.clock(), options.writer, step)
    words = (
        f"{book.about.name}: {plural(manifest.rows, 'row')} imported. The book is "
        f"{clean(book.file.name, lines=False)}."
    )
    tell(manifest, [words], made=True)


def _holds_harvests(source: Path) -> bool:
    try:
        read_harvests(source, "dmy")
    except Refused:
        return False
    return True


@click.command("move-book")
@click.argument("source", metavar="FROM")
@click.argument("target", metavar="TO")
@answers("logbook.exchange.manifest:Manifest")
@pass_options
def move_book(options: Options, source: str, target: str) -> None:
    """Make the same book in another place: from a file to a server, back, or to another.

    FROM and TO are a file each, or postgresql://user@host/database. All of it comes along or nothing; what
    was made is exported again and compared byte by byte. FROM stays as it is: close it for others first, and
    write to the new one from then on.
    """
    from logbook.exchange.moving import move

    here, there = (replace(options, book=each, _opened=[]) for each in (source, target))
    with progress("Moving") as step:
        book, manifest = move(here.open(), there.where, options.clock(), options.writer, step)
    words = f"{book.about.name}: {plural(manifest.rows, 'row')} moved. The book is {clean(book.file.name, lines=False)}."
    also = f"{clean(here.open().file.name, lines=False)} is as it was; write to the new one from now on."
    tell(manifest, [words, also], made=True)
