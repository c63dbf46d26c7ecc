"""The racks with the trays in their slots."""

from __future__ import annotations

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.dark import in_the_dark
from logbook.actions.trays.day_numbers import regrowth_day
from logbook.actions.trays.known import Known
from logbook.actions.trays.rack_views import Racks, RackShelf, RackTray, RackView
from logbook.growing.days import day_of
from logbook.growing.room.places import slots_used
from logbook.growing.trays.forecast import chores_of_tray, tray_window


def racks(book: Book) -> Racks:
    """The racks with their trays in their slots."""
    with book.reading() as reading:
        places = reading.places
        on: dict[int | None, list[RackTray]] = {}
        for known in reading.live:
            if known.state.status == "growing":
                on.setdefault(known.state.place, []).append(_rack_tray(reading, known))
        taken = reading.taken
        dark = {each.place: each for each in in_the_dark(reading, reading.live)}
    groups: dict[str, list[RackShelf]] = {}
    for place in (each for each in places if each.kind == "shelf"):
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


def _rack_tray(reading: Reading, known: Known) -> RackTray:
    now, template, state = reading.now, known.template, known.state
    hours = reading.hours_of(state.place)
    window = tray_window(template, state, now)
    chores = [
        chore
        for chore in chores_of_tray(template, state, now, day_of(now, hours.zone), hours)
        if not chore.later or chore.chore == "cut"
    ]
    return RackTray(
        known.stored.number,
        template.label(),
        hours.day_number(state.sown_at or now, now),
        state.slot,
        tuple(chore.chore for chore in chores),
        window.state(now, hours, state.sign_at) if window else "soon",
        any(each.late for each in chores),
        known.stored.colour,
        template.sign_to_cut,
        state.mould_at is not None,
        state.harvest,
        regrowth_day(known, reading),
    )
