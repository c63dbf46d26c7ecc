"""`logbook water` and `logbook cleaning`: pH and EC, and the cleaning record."""

from collections.abc import Iterator

import click

from logbook.actions.book import Book
from logbook.actions.room import water as acts
from logbook.actions.room.odd import odd_water
from logbook.cli.arguments import AT, NOTE, PLACE, SURE, confirm, measured, trays, when
from logbook.cli.completing import complete_trays
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.growing import quantities
from logbook.growing.room.water import WaterReading
from logbook.text import plural


@click.command()
@measured("--ph", quantities.PH, "PH", "pH as measured.")
@measured("--ec", quantities.EC, "EC", "EC in mS/cm, or 1200 µS/cm.")
@click.option(
    "--trays", "numbers", default="", shell_complete=complete_trays, help="For which trays."
)
@PLACE
@click.option("--days", default=30, show_default=True, help="How far back to show.")
@SURE
@AT
@NOTE
@book_answers(DONE, "logbook.actions.room.water:WaterRecord")
def water(
    book: Book, ph: float | None, ec: float | None, numbers: str, place: str, days: int,
    sure: bool, at: str | None, note: str,
) -> None:  # fmt: skip
    """Show the pH and EC of the water; with --ph or --ec, write them.

    A watering takes them too: did water 101-104 --amount 300ml --ph 6.1 --ec 1.2
    """
    if ph is not None or ec is not None:
        reading = WaterReading(ph, ec)
        given = trays(numbers) if numbers else ()
        moment = when(book, at)
        confirm("" if sure else odd_water(book, reading, given, place, moment))
        tell_done(acts.measure_water(book, reading, given, place, moment, note))
        return
    found = acts.WaterRecord(days, tuple(acts.list_water(book, days)))
    tell(found, _water_words(found, book))


def _water_words(found: acts.WaterRecord, book: Book) -> Iterator[str]:
    if not found.readings:
        yield f"No pH or EC was measured in the last {plural(found.days, 'day')}."
    for one in found.readings:
        at = book.when(one.at)
        yield f"{at}  {one.where}  {acts.water_words(one.reading)}  {one.by}"
        yield from (f"  {mark}" for mark in one.marks)
