"""The invented room while its months go by: what every deed reads and writes."""

from collections.abc import Callable, Sequence
from datetime import datetime
from itertools import count
from typing import Any

from logbook.actions.orders.wanted import crop_names
from logbook.growing.days import day_of
from logbook.growing.room.places import Held, free_slots, spread_over
from logbook.growing.trays.life import Deed, step
from sample_db.bulk import Bulk
from sample_db.cohort import Cohort, Spot
from sample_db.days import Agenda, Days
from sample_db.dice import Dice
from sample_db.lots import Lots
from sample_db.months import Months
from sample_db.room import OWNER, on_duty
from sample_db.versions import write_versions

Action = Callable[..., object]
SEED = 1409
FIRST_NUMBER = 101


class World:
    """The room's days, shelves and template versions, its cohorts, and the book that they fill."""

    def __init__(self, book: Months, days: Days) -> None:
        self.days = days
        self.bulk = Bulk(book)
        self.versions = write_versions(book, days)
        self.dice = Dice(SEED)
        self.meter = Dice(SEED + 1)
        self.agenda = Agenda(days.now)
        self.growing: list[Cohort] = []
        self.numbers = count(FIRST_NUMBER)
        with book.reading() as reading:
            self.places = reading.places
            self.lots = Lots(
                days, {name: id_ for id_, name in crop_names(reading).items()}, self.bulk.put
            )
        self._taken: dict[int, list[Held]] = {}

    def by(self, when: datetime) -> str:
        """Who is there at a moment."""
        return on_duty(day_of(when, self.days.hours.zone))

    def act(self, when: datetime, by: str = "") -> Months:
        """The book for an act at a moment, by whoever is there."""
        return self.bulk.book_at(when, by or self.by(when))

    def await_act(self, at: datetime, act: Action, *given: Any) -> None:
        """Have an action of the app done at a moment."""
        self.agenda.put(at, lambda when: act(self.act(when), *given))

    def owner_acts(self, when: datetime) -> Months:
        """The book for an act of the owner."""
        return self.act(when, OWNER)

    def ago(self, when: datetime) -> int:
        """How many days before today a moment lies."""
        return (self.days.today - day_of(when, self.days.hours.zone)).days

    def walk(self) -> list[Cohort]:
        """The cohorts that still have trays, in walking order."""
        self.growing = [cohort for cohort in self.growing if cohort.trays]
        return sorted(self.growing, key=lambda cohort: min(cohort.spots))

    def do(
        self, cohort: Cohort, kind: str, at: datetime, *, trays: Sequence[int] | None = None,
        written_at: datetime | None = None, act: int | None = None, note: str = "",
        chore: str = "", stage: int | None = None, strikes: int | None = None, **deed: Any,
    ) -> int:  # fmt: skip
        """Write an entry, returning its id; a cohort lives through it, some `trays` alone do not."""
        entry = self.bulk.entry(
            kind, cohort.ids if trays is None else trays, at, self.by(written_at or at),
            written_at=written_at, act=act, batch_id=cohort.batch, note=note, chore=chore,
            stage=stage, strikes_id=strikes,
        )  # fmt: skip
        if trays is None:
            done = Deed(entry, kind, at, stage, chore, **deed)
            cohort.state = step(cohort.state, cohort.template, done, self.days.hours)
        return entry

    def place(self, cohort: Cohort, entry: int, rack: str, trays: Sequence[int]) -> None:
        """Put trays of a cohort on a rack; they leave where they stood."""
        old = [spot for tray in trays if (spot := cohort.trays[tray]) is not None]
        self._leave(old)
        beside = {shelf for each in cohort.arms for shelf, _ in each.spots}
        room = max(len(trays), len(cohort.arms))
        for tray, (shelf, slot) in zip(
            trays, self._take(len(trays), rack, beside, room), strict=True
        ):
            cohort.trays[tray] = (shelf, slot)
            self.bulk.put("tray_place", entry_id=entry, tray_id=tray, place_id=shelf, slot=slot)

    def end(self, cohort: Cohort, tray: int, when: datetime, grams: float | None) -> None:
        """Take a tray off the rack: cut, with its grams in all, or discarded."""
        spot = cohort.trays.pop(tray)
        self._leave([spot] if spot else [])
        self.bulk.ended(tray, when, grams)

    def _take(self, count: int, rack: str, beside: set[int], room: int) -> tuple[Spot, ...]:
        """Slots on a shelf of `beside`, else on one of the rack with room; then on racks like it."""
        lit = self.places.find(f"{rack}/Shelf 1").lit
        order = sorted(
            self.places.shelves,
            key=lambda shelf: (
                shelf.lit is not lit,
                shelf.id not in beside,
                not shelf.path.startswith(rack),
                len(free_slots(shelf, self._taken)) < room,
                shelf.walk,
            ),
        )
        spots = tuple(spot for spot in spread_over(count, order, (), self._taken).spots if spot)
        if len(spots) < count:
            raise ValueError(f"the room has no {count} free slots")
        for shelf, slot in spots:
            self._taken.setdefault(shelf, []).append(Held(slot))
        return spots

    def _leave(self, spots: Sequence[Spot]) -> None:
        for shelf, slot in spots:
            self._taken[shelf].remove(Held(slot))
