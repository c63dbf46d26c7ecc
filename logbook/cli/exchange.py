"""The commands that take a book out as files and in again: export, import."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from logbook.cli.arguments import json_option
from logbook.cli.files import named_file
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import print_json, say
from logbook.cli.progress import progress
from logbook.growing.measures import grams_words
from logbook.text import Refused, clean, listed, plural
from logbook.ways import in_shell

if TYPE_CHECKING:
    from logbook.exchange.harvest_file import HarvestFile, Order


@click.command("export")
@click.argument("target", type=named_file, metavar="PATH")
@json_option
@pass_options
def export(options: Options, target: Path, as_json: bool) -> None:
    """Write everything in the book as CSV files with a manifest: a new folder, or FILE.zip.

    The same book gives the same files, byte for byte. They are yours alone to read.
    """
    from logbook.exchange.exporting import export_book as write

    book = options.open()
    with progress("Exporting") as tell:
        manifest = write(book, target, tell)
    if as_json:
        tables = {note.table: note.rows for note in manifest.files}
        print_json({"rows": manifest.rows, "revision": manifest.revision, "tables": tables})
        return
    click.echo(
        f"{plural(manifest.rows, 'row')} in {plural(len(manifest.files), 'file')} exported to "
        f"{clean(str(target), lines=False)}."
    )


@click.command("import")
@click.argument("source", type=named_file, metavar="[PATH]", required=False)
@click.option("--harvests", type=named_file, metavar="PATH", help="A CSV file of past harvests.")
@click.option("--days", type=click.Choice(["dmy", "mdy"]), help="Whether 04/05/2026 is in May.")
@click.option("--per-tray", is_flag=True, help="The grams are of each tray, not of all together.")
@click.option("--make-templates", is_flag=True, help="Make a template for each unknown crop.")
@click.option("--dry-run", is_flag=True, help="Say what is wrong in each line; write nothing.")
@json_option
@pass_options
def import_(
    options: Options, source: Path | None, harvests: Path | None, days: Order | None,
    per_tray: bool, make_templates: bool, dry_run: bool, as_json: bool,
) -> None:  # fmt: skip
    """Import an export into a new book, or past harvests from a spreadsheet.

    --harvests FILE.csv needs the columns crop, sown, cut, trays and grams. All of it is
    imported, or nothing.
    """
    if (source is None) == (harvests is None):
        raise Refused("Name an export, or --harvests FILE.csv; one of the two.")
    if source is not None:
        if dry_run or make_templates or per_tray or days:
            raise Refused("--dry-run, --days, --per-tray and --make-templates go with --harvests.")
        _take_book(options, source, as_json=as_json)
        return
    assert harvests is not None  # noqa: S101 - one of the two
    from logbook.exchange.harvest_file import read_harvests

    found = read_harvests(harvests, days, per_tray=per_tray)
    _take_harvests(
        options, found, clean(harvests.name, lines=False)[:80], make_templates=make_templates,
        dry_run=dry_run, as_json=as_json,
    )  # fmt: skip


def _take_book(options: Options, source: Path, *, as_json: bool) -> None:
    from logbook.exchange.importing import import_book as read

    if source.suffix.casefold() != ".zip" and source.is_file() and _holds_harvests(source):
        raise Refused(
            f"{clean(source.name, lines=False)[:60]} looks like past harvests, not like an "
            "export; take it in with --harvests before its name."
        )
    with progress("Importing") as tell:
        book, manifest = read(source, options.path, options.clock(), options.writer, tell)
    if as_json:
        tables = {note.table: note.rows for note in manifest.files}
        print_json({"rows": manifest.rows, "revision": manifest.revision, "tables": tables})
        return
    click.echo(
        f"{book.about.name}: {plural(manifest.rows, 'row')} imported. The book is "
        f"{clean(str(book.file.path), lines=False)}."
    )


def _holds_harvests(source: Path) -> bool:
    from logbook.exchange.harvest_file import read_harvests

    try:
        read_harvests(source, "dmy")
    except Refused:
        return False
    return True


def _take_harvests(
    options: Options, found: HarvestFile, name: str, *, make_templates: bool, dry_run: bool,
    as_json: bool,
) -> None:  # fmt: skip
    from logbook.actions.harvests import check_harvests, odd_harvests, take_harvests

    book = options.open()
    faults = [
        *found.faults,
        *check_harvests(book, found.harvests, make_templates=make_templates),
    ]
    faults.sort(key=lambda fault: fault.line)
    odd = odd_harvests(book, found.harvests)
    written = not faults and not dry_run
    made: tuple[str, ...] = ()
    if written:
        with progress("Importing") as tell:
            made = take_harvests(
                book, found.harvests, name, make_templates=make_templates, tell=tell
            ).made
    bad = {fault.line for fault in faults}
    good = [harvest for harvest in found.harvests if harvest.line not in bad]
    if as_json:
        print_json(
            {
                "written": written,
                "harvests": len(good),
                "trays": sum(harvest.trays for harvest in good),
                "grams": round(sum(harvest.grams for harvest in good), 1),
                "templates_made": list(made),
                "columns_left_out": list(found.left_out),
                "faults": [asdict(fault) for fault in faults],
                "odd": [asdict(each) for each in odd],
            }
        )
    else:
        for fault in faults:
            click.echo(in_shell(f"line {fault.line}: {fault.words}"))
        for each in odd:
            say(f"Line {each.line} is odd, {each.words}")
        if found.left_out:
            say(f"Columns that are left out: {listed(list(found.left_out))}.")
        click.echo(
            f"{plural(len(good), 'harvest')} of "
            f"{plural(sum(harvest.trays for harvest in good), 'tray')}, "
            f"{grams_words(sum(harvest.grams for harvest in good), book.units)}"
            + (" imported." if written else " can be imported.")
        )
        if made:
            click.echo(f"Templates made: {listed(list(made))}; put their stages before you sow.")
    if faults:
        raise Refused(f"{plural(len(faults), 'line')} cannot be imported; nothing was written.")
