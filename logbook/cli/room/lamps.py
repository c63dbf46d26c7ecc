"""`logbook lamps`, `tariff`, `circuit` and `bills`: what hangs there, what it costs, what carries it."""

import click

from logbook.actions.book import Book
from logbook.actions.room import lamps as acts
from logbook.actions.room.bills import ShelfBill
from logbook.actions.room.light import ShelfLamps, ShelfLight, all_light
from logbook.cli.arguments import AT, PLACE, day, measured, when
from logbook.cli.printing import DONE, book_answers, tell, tell_done
from logbook.cli.usage import WrongUsage
from logbook.cli.wordy import WordyCommand
from logbook.growing import quantities
from logbook.growing.room.power import LampSet
from logbook.text import clean_words


@click.command(cls=WordyCommand)
@PLACE
@measured("--lamps count", quantities.LAMPS, "COUNT", "How many lamps hang over each shelf.")
@measured("--watts", quantities.WATTS, "WATTS", "Watts of one lamp.")
@measured("--amps", quantities.AMPS, "AMPS", "Amperes of one lamp, from its label.")
@measured("--volts", quantities.VOLTS, "VOLTS", "Voltage, like 120 or 230.")
@click.option("--kind", default="", help='Kind of lamp in your own words, like "LED bar".')
@click.option(
    "--light",
    "light_words",
    default="",
    help='Its light, like "4000 K" or "red and blue".',
)
@click.option("--height", metavar="LENGTH", help="From the shelf to the lamp, like 21 cm.")
@click.option("--bought", metavar="DATE", help="When they were bought.")
@click.option("--off", is_flag=True, help="The lamps were taken off.")
@AT
@book_answers(DONE, "shelves=logbook.actions.room.light:ShelfLamps")
def lamps(
    book: Book, place: str, count: int | None, watts: float | None, amps: float | None,
    volts: float | None, kind: str, light_words: str, height: str | None, bought: str | None,
    off: bool, at: str | None,
) -> None:  # fmt: skip
    """Show the lamps of every shelf; with --place and --watts, write what hangs there."""
    if not off and watts is None:
        if any((count, amps, volts, kind, light_words, height, bought)):
            raise WrongUsage("Give the watts of one lamp, like --watts 18, and --place.")
        found = all_light(book, place)
        shelves = list(map(ShelfLamps, found))
        tell({"shelves": shelves}, [lamps_line(each, book) for each in found])
        return
    if not place:
        raise WrongUsage('Over which shelf? Give --place, like --place "Rack 1/Shelf 2".')
    if off:
        tell_done(acts.hang_lamps(book, place, LampSet(0), when(book, at)))
        return
    assert watts is not None  # noqa: S101 - checked above
    kind, colour = clean_words(kind, "kind of lamp"), clean_words(light_words, "light of the lamp")
    above = quantities.LAMP_HEIGHT.given(height, book.units)
    made = LampSet(count or 1, watts, kind, colour, amps, volts, above, day(book, bought))
    tell_done(acts.hang_lamps(book, place, made, when(book, at)))


def lamps_line(shelf: ShelfLight | ShelfBill, book: Book) -> str:
    """A shelf with its lamps, in the units of the room, and their hours."""
    lamps = "lamps not known" if shelf.lamps is None else shelf.lamps.words(book.units)
    return f"{shelf.place.path}: {lamps}, {shelf.place.hours_words}"
