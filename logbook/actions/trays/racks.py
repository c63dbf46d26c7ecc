"""The racks with the trays in their slots."""

from logbook.actions.book import Book
from logbook.actions.trays.dark import in_the_dark
from logbook.actions.trays.rack_views import Racks, RackShelf, RackTray, RackView
from logbook.growing.room.places import slots_used
from logbook.growing.trays.forecast import chores_of_tray
from logbook.growing.trays.tray_now import TrayNow


def racks(book: Book, inside: str = "") -> Racks:
    """The racks with their trays in their slots; of a room or rack (path), or all."""
    with book.reading() as reading:
        places = reading.places
        on: dict[int | None, list[RackTray]] = {}
        shown = places.under(places.find(inside)) if inside else places
        for tray in reading.live_in(inside):
            if tray.status == "growing":
                on.setdefault(tray.state.place, []).append(_rack_tray(tray))
        taken = reading.taken
        dark = {each.place: each for each in in_the_dark(reading, reading.live)}
    groups: dict[str, list[RackShelf]] = {}
    for place in (each for each in shown if each.kind == "shelf"):
        mine = on.pop(place.id, [])
        if place.retired and not mine:
            continue
        above = places.get(place.parent)
        trays = tuple(sorted(mine, key=lambda tray: (tray.slot or 10_000, tray.number)))
        groups.setdefault(above.path if above else "", []).append(
            RackShelf(place, trays, slots_used(taken.get(place.id, ())), dark.get(place.path))
        )
    loose = [tray for trays in on.values() for tray in trays]
    return Racks(
        tuple(RackView(name, tuple(shelves)) for name, shelves in groups.items()),
        tuple(sorted(loose, key=lambda tray: tray.number)),
    )


def _rack_tray(tray: TrayNow) -> RackTray:
    chores = (
        []
        if tray.held
        else [
            chore
            for chore in chores_of_tray(tray.template, tray.state, tray.now, tray.today, tray.hours)
            if not chore.later or chore.chore == "cut"
        ]
    )
    due = tuple(chore.chore for chore in chores)
    return RackTray.of(tray, due, any(chore.late for chore in chores))
