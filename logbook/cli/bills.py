"""`logbook bills`: what light costs by shelf, tray-day and batch."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from logbook.cli.app import Options, pass_options
from logbook.cli.arguments import (
    BATCH,
    iso,
    json_option,
)
from logbook.cli.lamps import circuit_json, circuit_lines
from logbook.cli.printing import print_json
from logbook.cli.written import rounded
from logbook.growing.measures import grams_words
from logbook.text import plural

if TYPE_CHECKING:
    from logbook.actions.bills import BatchBill, Bills, ShelfBill
    from logbook.actions.book import Book
    from logbook.growing.measures import Units
    from logbook.growing.shelf_past import Use


@click.command()
@click.option("--days", default=30, show_default=True, help="The period before now.")
@click.option("--batch", type=BATCH, help="Only this batch.")
@json_option
@pass_options
def bills(options: Options, days: int, batch: int | None, as_json: bool) -> None:
    """Show what light costs: by shelf, tray-day and batch, from the hours really lit."""
    from logbook.actions.bills import batch_bill
    from logbook.actions.bills import bills as find

    book = options.open()
    if batch is not None:
        one = batch_bill(book, batch)
        if as_json:
            print_json(_batch_json(one, book))
        else:
            click.echo(batch_words(one, book.units))
        return
    found = find(book, days)
    if as_json:
        print_json(
            {
                "days": found.days,
                "today": _use_json(found.today),
                "period": _use_json(found.period),
                "shelves": [_shelf_json(shelf) for shelf in found.shelves],
                "batches": [_batch_json(one, book) for one in found.batches],
                "circuits": [circuit_json(one) for one in found.circuits],
            }
        )
        return
    click.echo("\n".join(bill_lines(found, book)))


def bill_lines(found: Bills, book: Book) -> list[str]:
    """Say the bills in plain lines."""
    price = found.tariff.words if found.tariff else "no tariff yet: `logbook tariff 0.30`"
    lines = [
        f"A whole day: {found.today.bill.words}; {price}",
        f"Last {plural(found.days, 'day')}, until now: {found.period.bill.words}",
    ]
    for shelf in found.shelves:
        known = "lamps not known" if shelf.lamps is None else shelf.lamps.words(book.units)
        lines.append(f"{shelf.place.path}: {known}, {shelf.place.hours_words}")
        if shelf.lamps is not None and shelf.lamps.lamps:
            each = shelf.cost_per_tray_today
            share = f", {each:.3f} a tray" if each is not None else ", no tray in the light"
            lines.append(f"  a whole day {shelf.today.bill.words}{share}")
            each = shelf.cost_per_tray_day
            if each is not None:
                lines.append(f"  {each:.3f} a tray-day in the period")
    lines += [batch_words(one, book.units) for one in found.batches]
    for circuit_view in found.circuits:
        lines += circuit_lines(circuit_view)
    return lines


def batch_words(one: BatchBill, units: Units = "metric") -> str:
    """Say what a batch used and gave."""
    parts = [f"batch {one.batch}, {one.crop}, {plural(one.trays, 'tray')}: {one.use.bill.words}"]
    if one.grams:
        parts.append(grams_words(one.grams, units))
    parts += [words for words in (one.worth.cost_words(units),) if words]
    parts += one.worth.yield_words(units)
    if one.growing_words:
        parts.append(one.growing_words)
    if one.use.unknown_hours >= 1:
        parts.append("part of its lit hours fell before any lamps were written down")
    if one.unmeasured_words:
        parts.append(one.unmeasured_words)
    return ", ".join(parts)


def _use_json(use: Use) -> dict[str, Any]:
    return {
        "kwh": rounded(use.bill.kwh),
        "cost": rounded(use.bill.cost),
        "unpriced_kwh": rounded(use.bill.unpriced_kwh),
        "lit_hours": rounded(use.lit_hours),
        "unknown_hours": rounded(use.unknown_hours),
    }


def _shelf_json(shelf: ShelfBill) -> dict[str, Any]:
    draw = shelf.draw
    return {
        "place": shelf.place.path,
        "watts": None if draw is None else rounded(draw.watts),
        "volt_amps": None if draw is None else rounded(draw.volt_amps),
        "power_factor": None if draw is None else rounded(draw.power_factor),
        "hours": None if shelf.hours is None else shelf.hours.words,
        "kwh_per_day": rounded(shelf.today.bill.kwh),
        "cost_per_day": rounded(shelf.today.bill.cost),
        "trays_in_light": shelf.trays,
        "cost_per_tray_today": rounded(shelf.cost_per_tray_today),
        "period": _use_json(shelf.period),
        "tray_days": rounded(shelf.tray_days),
        "cost_per_tray_day": rounded(shelf.cost_per_tray_day),
    }


def _batch_json(one: BatchBill, book: Book) -> dict[str, Any]:
    return {
        "batch": str(one.batch),
        "crop": one.crop,
        "trays": one.trays,
        "ended_at": None if one.ended is None else iso(one.ended, book),
        "grams": rounded(one.grams),
        **_use_json(one.use),
        "mol": rounded(one.mol),
        "mol_m2_per_tray": rounded(one.mol_m2_per_tray),
        "growing": one.growing,
        "grams_per_kwh": rounded(one.worth.grams_per_kwh),
        "grams_per_mol": rounded(one.worth.grams_per_mol),
        "cost_per_100_g": rounded(one.worth.cost_per_100_g),
    }
