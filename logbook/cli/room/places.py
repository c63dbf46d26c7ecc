"""`logbook places` and `room`: racks and shelves, and the room itself."""

from __future__ import annotations

import click

from logbook.actions.book import Book
from logbook.actions.room import places as acts
from logbook.actions.trays.dark import dark_under
from logbook.cli.arguments import OF_ALL_AT, SETTINGS_AT, complete_places, measured
from logbook.cli.lazy import LazyGroup
from logbook.cli.printing import book_answers, say, tell
from logbook.growing.numbers import parse_pool
from logbook.growing.quantities import STACK
from logbook.growing.room.places import Place
from logbook.growing.wall_hours import chore_hours, lamp_hours, wall_time
from logbook.text import Refused, plural


@click.group(cls=LazyGroup, above="places", invoke_without_command=True)
@click.option("--retired", is_flag=True, help="Retired ones too.")
@book_answers("places=logbook.actions.room.places:PlaceView")
def places(book: Book, retired: bool) -> None:
    """Show racks and shelves in walking order; add, change or retire one."""
    found = acts.list_places(book, retired=retired)
    tell({"places": found}, map(_place_words, found))


def _place_words(each: acts.PlaceView) -> str:
    place = each.place
    gone = ", retired" if place.retired else ""
    if place.kind == "shelf":
        return f"{place.path}: {each.used} of {place.slots} slots, {place.hours_words}{gone}"
    return f"{place.path} ({place.kind}): {plural(each.free, 'slot')} free{gone}"


@places.command("add")
@click.argument("name")
@click.option(
    "--kind", type=click.Choice(["room", "rack", "shelf"]), default="shelf", show_default=True,
    help="What it is.",
)  # fmt: skip
@click.option("--under", default="", shell_complete=complete_places, help="The rack or room.")
@click.option("--slots", default=4, show_default=True, help="How many trays fit on a shelf.")
@click.option("--lamps", default="none", show_default=True, help="Lamp hours, like 06:00-22:00.")
@SETTINGS_AT
@book_answers("logbook.actions.room.places:PlaceView")
def add(book: Book, name: str, kind: str, under: str, slots: int, lamps: str) -> None:
    """Add a room, rack or shelf."""
    on, off = lamp_hours(lamps)
    draft = acts.PlaceDraft(name, kind, under, slots, on, off)  # type: ignore[arg-type]
    _tell_place(book, acts.add_place(book, draft), "is there")


@places.command("change")
@click.argument("path", shell_complete=complete_places)
@click.option("--name", help="A new name.")
@click.option("--slots", type=int, help="How many trays fit on it.")
@click.option("--lamps", help="Lamp hours, like 06:00-22:00, or none.")
@OF_ALL_AT
@click.option("--up", "earlier", is_flag=True, help="One step earlier in walking order.")
@click.option("--down", "later", is_flag=True, help="One step later in walking order.")
@book_answers("logbook.actions.room.places:PlaceView")
def change(
    book: Book, path: str, name: str | None, slots: int | None, lamps: str | None,
    earlier: bool, later: bool,
) -> None:  # fmt: skip
    """Change a place's name, slots, lamp hours (from --at on) or walking order."""
    with book.reading() as reading:
        place = reading.places.find(path)
    if earlier or later:
        if earlier == later or (name, slots, lamps) != (None, None, None):
            raise Refused("Give --up or --down alone; change the rest by a second command.")
        _tell_place(book, acts.walk_earlier(book, place.path, later=later), "is moved")
        return
    on, off = lamp_hours(lamps) if lamps is not None else (place.lamp_on, place.lamp_off)
    name = place.name if name is None else name
    slots = place.slots if slots is None else slots
    draft = acts.PlaceDraft(name, place.kind, slots=slots, lamp_on=on, lamp_off=off)
    now = acts.change_place(book, place.path, draft)
    for notice in dark_under(book, now.path) if lamps is not None else ():
        say(notice)
    _tell_place(book, now, "is as it was: nothing was changed" if now == place else "is changed")


@places.command("retire")
@click.argument("path", shell_complete=complete_places)
@SETTINGS_AT
@book_answers("logbook.actions.room.places:PlaceView")
def retire_one(book: Book, path: str) -> None:
    """Retire a place without trays."""
    _tell_place(book, acts.retire_place(book, path), "is retired")


def _tell_place(book: Book, place: Place, what: str) -> None:
    views = acts.list_places(book, retired=True)
    now = next(each for each in views if each.place.id == place.id)
    tell(now, [f"{place.path} {what}."])


@click.command()
@click.option("--name", help="What the room is called.")
@click.option("--units", type=click.Choice(["metric", "us"]), help="Units of weights and lengths.")
@click.option("--first-day", type=click.IntRange(0, 1), help="Number of the sowing day.")
@click.option("--day", metavar="HOURS", help="When the room is worked, like 07:00-19:00.")
@click.option("--evening", metavar="TIME", help="When the last of several daily chores is due.")
@click.option(
    "--numbers", metavar="RANGE", help="The numbers on your tape, used again: 1-200, or none."
)
@click.option("--currency", metavar="CODE", help="What money is in, like EUR or USD.")
@measured("--stack", STACK, "COUNT", "How many weighted trays are stacked.")
@SETTINGS_AT
@book_answers("logbook.actions.room.places:RoomView")
def room(
    book: Book, name: str | None, units: str | None, first_day: int | None, day: str | None,
    evening: str | None, numbers: str | None, currency: str | None, stack: int | None,
) -> None:  # fmt: skip
    """Show the room's name, zone, units and day; with options change them.

    What was written stays as it is: weights are kept in grams, days by the calendar, prices as typed.
    """
    if (name, units, first_day, day, evening, numbers, currency, stack) != (None,) * 8:
        start, end = (None, None) if day is None else chore_hours(day)
        last = None if evening is None else wall_time(evening, "evening")
        pool = None if numbers is None else parse_pool(numbers)
        acts.change_room(
            book, acts.RoomDraft(name, units, first_day, start, end, last, pool, stack, currency)
        )
    about = book.about
    tell(
        acts.RoomView(about, book.file.path),
        [f"{acts.room_words(about)} The book is {book.file.path}."],
    )
