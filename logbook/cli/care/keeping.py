"""The commands about the book as a whole: begin, demo, completion."""

from pathlib import Path

import click

from logbook.cli.files import FileName, named_book
from logbook.cli.options import Options, pass_options
from logbook.cli.printing import answers, tell
from logbook.growing.wall_reading import lamp_hours
from logbook.text import plural


@click.command()
@click.option("--name", default="Grow room", show_default=True, help="What the room is called.")
@click.option("--zone", help="Time zone, like Europe/London; by default the machine's.")
@click.option("--racks", default=2, show_default=True, help="Racks in the room.")
@click.option("--shelves", default=4, show_default=True, help="Shelves per rack.")
@click.option("--slots", default=4, show_default=True, help="Trays per shelf, 1 to 100.")
@click.option(
    "--units", type=click.Choice(["metric", "us"]), default="metric", show_default=True,
    help="Units of weights and lengths.",
)  # fmt: skip
@click.option(
    "--lit", "lamps", default="06:00-22:00", show_default=True, help="Lamp hours, or none."
)
@click.option("--first-day", type=click.IntRange(0, 1), default=1, help="Number of the sowing day.")
@click.option("--currency", metavar="CODE", help="Currency, like EUR; by default the time zone's.")
@answers("logbook.actions.care.begin:Begun")
@pass_options
def begin(
    options: Options, name: str, zone: str | None, racks: int, shelves: int, slots: int,
    units: str, lamps: str, first_day: int, currency: str | None,
) -> None:  # fmt: skip
    """Make a new book with its racks and the starting crop templates."""
    from logbook.actions.care.begin import (
        BeginDraft,
        Begun,
        begin_book,
        checked_begin,
        currency_of_zone,
        guess_words,
        local_zone_name,
    )

    zone = zone or local_zone_name()
    on, off = lamp_hours(lamps)
    money = currency or currency_of_zone(zone)
    draft = BeginDraft(name, zone, racks, shelves, slots, units, on, off, first_day, money)
    where = options.where
    checked_begin(draft)
    book = begin_book(where, draft, options.clock(zone), options.writer)
    words = (
        f"{book.about.name}: {plural(racks, 'rack')} of {plural(shelves, 'shelf', 'shelves')} of "
        f"{plural(slots, 'slot')}, times in {book.about.zone}. The book is {where}."
    )
    said = "" if currency else guess_words(zone, money)
    tell(Begun(str(where), book.about, draft), [words, *filter(None, (said,))], made=True)


@click.command()
@click.option(
    "--keep", type=FileName(named_book), metavar="PATH", help="Keep the sample book at this path."
)
@click.option("--tour/--no-tour", default=None, help="Start with the tour, or skip it.")
@pass_options
def demo(options: Options, keep: Path | None, tour: bool | None) -> None:
    """Open a fresh sample book around today. It never touches yours."""
    from logbook.cli.app import top_context
    from logbook.cli.demo import open_demo

    open_demo(options, top_context, keep, tour)
