"""Cleaning and checks that come round: how often, and when each was done last."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import datetime

from logbook.growing.measures import Units
from logbook.growing.room.upkeep import Duty, LastTime, sort_of
from logbook.store.reads.standing import STANDS, said_columns, standing
from logbook.store.rows import Rows, stored
from logbook.text import fold


@dataclass(frozen=True, slots=True)
class StoredCheck:
    """What an entry says was checked or done, and what it showed."""

    entry: int
    at: datetime
    by: str
    place: int | None
    note: str
    name: str
    value: float | None
    known_grams: float | None

    def words(self, units: Units) -> str:
        """Say it: "cold store, 3.4 °C"."""
        sort = sort_of(self.name)
        if self.value is None or sort.reads is None:
            return self.name
        return f"{self.name}, {sort.shown(self.value, self.known_grams, units)}"


def read_duties(reading: Rows) -> list[Duty]:
    """The duties that hold, in the order in which they were set."""
    rows = reading.make(
        Duty,
        "SELECT e.id AS entry, x.name, e.place_id AS place, "
        'x.every_days AS "interval.every_days", x.weekdays AS "interval.weekdays", '
        "x.how, x.known_grams, e.at AS set_at FROM upkeep x CROSS JOIN entry e "
        f"WHERE e.id = x.entry_id AND {STANDS} ORDER BY e.id",
    )
    newest: dict[tuple[str, int | None], Duty] = {}
    for duty in rows:
        newest[fold(duty.name), duty.place] = duty
    return [duty for duty in newest.values() if duty.interval.every_days]


def read_duty_name(reading: Rows, entry: int) -> tuple[str, int | None]:
    """The name and place (id) of a duty by the entry that set it, though it was set anew since."""
    name, place = reading.rows(
        "SELECT x.name, e.place_id FROM upkeep x JOIN entry e ON e.id = x.entry_id WHERE e.id = ?",
        (entry,),
    )[0]
    return name, place


def last_time(reading: Rows, duty: Duty) -> LastTime | None:
    """When a duty was done last, or put off, of what was written newest; None for never."""
    found = reading.make(
        LastTime,
        "SELECT e.at, x.value, e.kind = 'skip' AS put_off FROM upkeep_done x CROSS JOIN entry e "
        f"WHERE x.name_key = ? AND e.id = x.entry_id AND e.place_id IS ? AND {STANDS} "
        "ORDER BY x.entry_id DESC LIMIT 9",
        (fold(duty.name), duty.place),
    )
    return max(found, key=lambda each: each.at, default=None)


def read_checks(reading: Rows, start: datetime, end: datetime) -> list[StoredCheck]:
    """The standing checks of a time, oldest first; cleanings are uses."""
    within = "AND e.kind = 'check' AND e.at >= ? AND e.at < ?"
    return standing(reading, StoredCheck, "upkeep_done", within, (stored(start), stored(end)))


def checks_of(reading: Rows, entries: Collection[int]) -> dict[int, StoredCheck]:
    """What entries checked, by entry id; of struck ones too."""
    sql = (
        f"SELECT {said_columns(StoredCheck)} FROM upkeep_done x JOIN entry e ON e.id = x.entry_id "
        "WHERE x.entry_id IN (ids)"
    )
    found: Iterable[StoredCheck] = reading.make_of(StoredCheck, sql, entries)
    return {each.entry: each for each in found}
