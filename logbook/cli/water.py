"""`logbook water` and `logbook cleaning`: pH and EC, and the cleaning record."""

from __future__ import annotations

import click

from logbook.cli.app import Options, pass_options
from logbook.cli.arguments import (
    at_option,
    complete_trays,
    iso,
    json_option,
    trays,
    when,
)
from logbook.cli.printing import print_json
from logbook.cli.written import NOTE, PLACE, rounded, show_written
from logbook.growing.days import moment_words
from logbook.growing.numbers import numbers_words
from logbook.growing.quantities import EC, PH, STOCK, VOLUME, WANTED
from logbook.text import plural


@click.command()
@click.option("--ph", metavar="PH", help="pH as measured.")
@click.option("--ec", metavar="EC", help="EC in mS/cm, or like 1200 µS/cm.")
@click.option("--trays", "numbers", default="", shell_complete=complete_trays, help="For which.")
@PLACE
@click.option("--days", default=30, show_default=True, help="How far back to show.")
@at_option
@NOTE
@json_option
@pass_options
def water(
    options: Options, ph: str | None, ec: str | None, numbers: str, place: str, days: int,
    at: str | None, note: str, as_json: bool,
) -> None:  # fmt: skip
    """Show what was measured of the water; with --ph or --ec write it.

    A watering takes them too: did water 101-104 --amount 300ml --ph 6.1 --ec 1.2
    """
    from logbook.actions.water import list_water, measure_water, water_words
    from logbook.growing.water import WaterReading

    book = options.open()
    if ph is not None or ec is not None:
        reading = WaterReading(
            PH.given(ph),
            EC.given(ec),
        )
        given = trays(numbers) if numbers else ()
        show_written(measure_water(book, reading, given, place, when(book, at), note), as_json)
        return
    found = list_water(book, days)
    if as_json:
        print_json(
            {
                "readings": [
                    {
                        "at": iso(one.at, book),
                        "by": one.by,
                        "trays": [str(number) for number in one.trays],
                        "place": one.place,
                        "ph": one.reading.ph,
                        "ec_ms_cm": one.reading.ec,
                        "millilitres_per_tray": one.reading.millilitres,
                        "out_of_band": list(one.marks),
                    }
                    for one in found
                ]
            }
        )
        return
    if not found:
        click.echo(f"No pH or EC was measured in {plural(days, 'day')}.")
    for one in found:
        where = numbers_words(one.trays) or one.place or "room"
        at_words = moment_words(one.at, book.now(), book.zone)
        click.echo(f"{at_words}  {where}  {water_words(one.reading)}  {one.by}")
        for mark in one.marks:
            click.echo(f"  {mark}")


@click.command()
@click.argument("purpose", required=False)
@click.option("--method", default="", help="How it was done: soak 10 min and rinse.")
@click.option("--with", "product", default="", metavar="PRODUCT", help="Bleach, peroxide, soap …")
@click.option("--stock", metavar="STRENGTH", help="Strength of the stock: 5.25%.")
@click.option("--want", metavar="STRENGTH", help="Strength as used: 200ppm.")
@click.option("--volume", metavar="VOLUME", help="How much was made: 10L.")
@PLACE
@click.option("--days", default=365, show_default=True, help="How far back to show.")
@at_option
@NOTE
@json_option
@pass_options
def cleaning(
    options: Options, purpose: str | None, method: str, product: str, stock: str | None,
    want: str | None, volume: str | None, place: str, days: int, at: str | None, note: str,
    as_json: bool,
) -> None:  # fmt: skip
    """Show what was cleaned and with what; with a purpose and a method write it."""
    from logbook.actions.solutions import UseDraft, list_uses, use_solution

    book = options.open()
    if purpose is not None:
        draft = UseDraft(
            purpose,
            method,
            product,
            STOCK.given(stock),
            WANTED.given(want),
            VOLUME.given(volume, book.units),
            place,
            note,
            when(book, at),
        )
        show_written(use_solution(book, draft), as_json)
        return
    found = list_uses(book, days)
    if as_json:
        print_json(
            {
                "uses": [
                    {
                        "entry": one.use.entry,
                        "at": iso(one.use.at, book),
                        "by": one.use.by,
                        "place": one.place,
                        "purpose": one.use.purpose,
                        "method": one.use.method,
                        "product": one.use.product,
                        "stock_percent": rounded(one.use.stock_percent),
                        "want_percent": rounded(one.use.want_percent, 6),
                        "volume_ml": rounded(one.use.volume_ml),
                        "note": one.use.note,
                    }
                    for one in found
                ]
            }
        )
        return
    if not found:
        click.echo(f"Nothing was cleaned in {plural(days, 'day')}.")
    for one in found:
        at_words = moment_words(one.use.at, book.now(), book.zone)
        note_words = f' "{one.use.note}"' if one.use.note else ""
        click.echo(f"{at_words}  {one.place or 'room'}  {one.words}{note_words}  {one.use.by}")
