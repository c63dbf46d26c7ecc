"""The racks with the trays in their slots."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.trays.dark import in_the_dark
from logbook.actions.trays.known import Known
from logbook.actions.trays.tray_page import regrowth_day
from logbook.growing.days import day_of
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.room.places import Place, slots_used
from logbook.growing.trays.chores import Chore
from logbook.growing.trays.forecast import chores_of_tray, tray_window
from logbook.growing.trays.in_the_dark import InTheDark


@dataclass(frozen=True, slots=True)
class RackTray:
    """A tray on its shelf."""

    keys: ClassVar = """
        tray=number slot crop day_number due late mould_seen=mould ready mark=colour ready_sign=sign
        harvest regrowth_day
    """

    number: TrayNumber
    crop: str
    day_number: DayNumber
    slot: int | None
    due: tuple[Chore, ...]
    """Chores that are due now, a cut that is best later today too."""
    ready: Annotated[str, ("soon", "ready", "late")]
    """How it stands to its cut window."""
    late: bool
    """Whether any chore of it is late."""
    colour: str
    sign: str = ""
    """The sign that says that it is ready."""
    mould: bool = False
    """Whether mould stands on it."""
    harvest: int = 1
    """Which harvest its next cut is of: 1 is the first, the others are regrowth."""
    regrowth_day: DayNumber | None = None
    """As the day number, from the cut after which it grows again; null where it does not."""


@dataclass(frozen=True, slots=True)
class RackShelf:
    """A shelf and what stands on it."""

    keys: ClassVar = "place=place.path slots=place.slots slots_used trays in_the_dark"

    place: Place
    trays: tuple[RackTray, ...]
    slots_used: int = 0
    """Half trays and those stacked under weight share one."""
    in_the_dark: InTheDark | None = None
    """Trays that need light while its lamps are off."""

    @property
    def used(self) -> int:
        """How many trays stand on it."""
        return len(self.trays)


@dataclass(frozen=True, slots=True)
class RackView:
    """A rack (or a room's loose shelves) and its shelves, top first as one walks."""

    keys: ClassVar = "rack=name shelves"

    name: str
    shelves: tuple[RackShelf, ...]


@dataclass(frozen=True, slots=True)
class Racks:
    """All racks, and the trays that stand nowhere."""

    keys: ClassVar = "racks loose=loose.number"

    racks: tuple[RackView, ...]
    loose: tuple[RackTray, ...]
    """Trays that stand nowhere."""


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
