"""`logbook room`: the room itself."""

import click

from logbook.actions.book import Book
from logbook.actions.room import places as acts
from logbook.cli.arguments import SETTINGS_AT, measured
from logbook.cli.printing import book_answers, tell
from logbook.growing.numbers import parse_pool
from logbook.growing.quantities import LOSS, STACK, SURE, WORK_HOURS
from logbook.growing.wall_reading import chore_hours, wall_time
from logbook.growing.when import parse_day_ahead


@click.command()
@click.option("--name", help="What the room is called.")
@click.option("--units", type=click.Choice(["metric", "us"]), help="Units of weights and lengths.")
@click.option("--first-day", type=click.IntRange(0, 1), help="Number of the sowing day.")
@click.option("--open", "day", metavar="HOURS", help="Working hours, like 07:00-19:00.")
@click.option("--evening", metavar="TIME", help="When the last of several daily chores is due.")
@click.option(
    "--numbers", metavar="RANGE", help="The numbers on your tape, used again: 1-200, or none."
)
@click.option("--currency", metavar="CODE", help="Currency, like EUR or USD.")
@click.option("--maker", help="The maker's name on labels.")
@click.option("--address", help="The maker's address: street; postcode and town.")
@click.option("--phone", help="The maker's telephone.")
@click.option("--certificate", help="Organic certificate: number and certifier.")
@click.option("--certified-until", metavar="DATE", help="The last day of the certificate.")
@click.option("--gs1-prefix", metavar="DIGITS", help="The prefix of your GTINs, if you have one.")
@measured("--stack", STACK, "COUNT", "How many weighted trays you stack.")
@measured("--sure", SURE, "PERCENT", "The chance you want that a delivery is complete (90).")
@measured("--loss", LOSS, "PERCENT", "Share of a cut lost in trimming (0).")
@measured("--work", WORK_HOURS, "HOURS", "Hours of sowing and cutting per day; 0 for no limit.")
@SETTINGS_AT
@book_answers("logbook.actions.room.places:RoomView")
def room(
    book: Book, name: str | None, units: str | None, first_day: int | None, day: str | None,
    evening: str | None, numbers: str | None, currency: str | None, stack: int | None,
    sure: float | None, loss: float | None, work: float | None,
    maker: str | None, address: str | None, gs1_prefix: str | None, phone: str | None,
    certificate: str | None, certified_until: str | None,
) -> None:  # fmt: skip
    """Show the room's name, zone, units and day; with options, change them.

    What was written stays as it is: weights are kept in grams, days by the calendar, prices as typed.
    """
    certified = (
        None if certified_until is None else parse_day_ahead(certified_until, book.now(), book.zone)
    )
    rest = (sure, loss, work, maker, address, gs1_prefix, phone, certificate, certified)
    if any(
        each is not None
        for each in (name, units, first_day, day, evening, numbers, currency, stack, *rest)
    ):
        start, end = (None, None) if day is None else chore_hours(day)
        last = None if evening is None else wall_time(evening, "evening")
        pool = None if numbers is None else parse_pool(numbers)
        acts.change_room(
            book,
            acts.RoomDraft(name, units, first_day, start, end, last, pool, stack, currency, *rest),
        )
    about = book.about
    tell(
        acts.RoomView(about, book.file.name),
        [f"{acts.room_words(about)} The book is {book.file.name}."],
    )
