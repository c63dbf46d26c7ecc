"""`logbook places` and `room`: racks and shelves, and the room itself."""

import click

from logbook.actions.book import Book
from logbook.actions.room import places as acts
from logbook.actions.room.place_table import PATH, PLACES
from logbook.actions.trays.dark import dark_under
from logbook.cli.arguments import OF_ALL_AT, SETTINGS_AT
from logbook.cli.completing import complete_places
from logbook.cli.lazy import LazyGroup
from logbook.cli.printing import book_answers, say, tell, width
from logbook.cli.usage import WrongUsage
from logbook.growing.room.places import Place
from logbook.growing.table import table
from logbook.growing.wall_reading import chore_hours, lamp_hours


@click.group(cls=LazyGroup, above="places", invoke_without_command=True)
@click.option("--retired", is_flag=True, help="Retired ones too.")
@book_answers("places=logbook.actions.room.places:PlaceView")
def places(book: Book, retired: bool) -> None:
    """Show racks and shelves in walking order; add, change or retire one."""
    found = acts.list_places(book, retired=retired)
    tell({"places": found}, table((PATH, *PLACES[1:]), found, width()).lines)


@places.command("add")
@click.argument("name")
@click.option(
    "--kind", type=click.Choice(["room", "rack", "shelf"]), default="shelf", show_default=True,
    help="Room, rack or shelf.",
)  # fmt: skip
@click.option("--under", default="", shell_complete=complete_places, help="Its rack or room.")
@click.option("--slots", default=4, show_default=True, help="How many trays fit on a shelf.")
@click.option(
    "--lit", "lamps", default="none", show_default=True, help="Lamp hours, like 06:00-22:00."
)
@click.option("--zone", help="A room's time zone, like Europe/London; else the first room's.")
@click.option("--open", "hours", metavar="HOURS", help="A room's working hours, like 07:00-19:00.")
@SETTINGS_AT
@book_answers("logbook.actions.room.places:PlaceView")
def add(
    book: Book, name: str, kind: str, under: str, slots: int, lamps: str, zone: str | None, hours: str | None,
) -> None:  # fmt: skip
    """Add a room, rack or shelf. A room may have a time zone and working hours of its own."""
    on, off = lamp_hours(lamps)
    day = None if hours is None else chore_hours(hours)
    draft = acts.PlaceDraft(name, kind, under, slots, on, off, zone=zone, day=day)  # type: ignore[arg-type]
    _tell_place(book, acts.add_place(book, draft), "is there")


@places.command("change")
@click.argument("path", shell_complete=complete_places)
@click.option("--name", help="A new name.")
@click.option("--slots", type=int, help="How many trays fit on it.")
@click.option("--lit", "lamps", help="Lamp hours, like 06:00-22:00, or none.")
@OF_ALL_AT
@click.option("--up", "earlier", is_flag=True, help="Move it up one step in walking order.")
@click.option("--down", "later", is_flag=True, help="Move it down one step in walking order.")
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
            raise WrongUsage("Use --up or --down alone; change the rest with a second command.")
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
