"""`logbook lot`: what was sown from a seed lot, and where it is now."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from logbook.cli.app import Options, pass_options
from logbook.cli.arguments import complete_lots, iso, json_option
from logbook.cli.printing import print_json
from logbook.growing.days import moment_words
from logbook.growing.measures import grams_words
from logbook.growing.numbers import numbers_words
from logbook.text import plural

if TYPE_CHECKING:
    from logbook.actions.book import Book
    from logbook.actions.lots import LotBatch, LotPage
    from logbook.growing.round import TrayNow

STATES = {"planned": "planned", "growing": "growing", "cut": "cut", "discarded": "thrown out"}


@click.command()
@click.argument("name", shell_complete=complete_lots)
@json_option
@pass_options
def lot(options: Options, name: str, as_json: bool) -> None:
    """Show all that was sown from a seed lot: what still grows, and where; what was cut, and when."""
    from logbook.actions.lots import lot_page

    book = options.open()
    found = lot_page(book, name)
    if as_json:
        print_json(_json(found, book))
        return
    counts = [
        f"{len(numbers)} {words}"
        for status, words in STATES.items()
        if (numbers := found.numbers(status))
    ]
    also = f" (also written {', '.join(found.spellings[1:])})" if found.spellings[1:] else ""
    click.echo(
        f"Seed lot {found.spellings[0]}{also}: {plural(len(found.batches), 'batch', 'batches')}, "
        f"trays: {', '.join(counts) or 'none'}"
    )
    for each in found.batches:
        click.echo("\n".join(_batch_words(each, book)))


def _batch_words(batch: LotBatch, book: Book) -> list[str]:
    """Say a batch in plain lines: when it was sown, then its trays by what became of them."""
    now, zone = book.now(), book.zone
    sown = any(tray.state.sown_at is not None for tray in batch.trays)
    when = (
        f", {'sown' if sown else 'planned for'} {moment_words(batch.at, now, zone)}"
        if batch.at
        else ""
    )
    lines = [f"Batch {batch.batch}: {batch.template_name}{when}"]
    groups: dict[str, list[TrayNow]] = {}
    for tray in batch.trays:
        words = STATES[tray.state.status]
        if tray.state.status in ("growing", "planned"):
            words += f" on {tray.place}" if tray.place else ", no place"
        elif tray.state.ended_at is not None:
            words += f" {moment_words(tray.state.ended_at, now, zone)}"
        groups.setdefault(words, []).append(tray)
    for words, trays in groups.items():
        grams = sum(tray.state.grams or 0.0 for tray in trays)
        weight = f", {grams_words(grams, book.units)}" if grams else ""
        lines.append(f"  {words}: {numbers_words(tray.number for tray in trays)}{weight}")
    return lines


def _json(found: LotPage, book: Book) -> dict[str, Any]:
    return {
        "lot": found.spellings[0],
        "spellings": list(found.spellings),
        "batches": [
            {
                "batch": each.batch,
                "template": each.template_name,
                "at": iso(each.at, book) if each.at else None,
                "cut_grams": each.cut_grams,
                "trays": [
                    {
                        "tray": str(tray.number),
                        "status": tray.state.status,
                        "place": tray.place,
                        "ended_at": iso(tray.state.ended_at, book) if tray.state.ended_at else None,
                        "grams": tray.state.grams,
                    }
                    for tray in each.trays
                ],
            }
            for each in found.batches
        ],
    }
