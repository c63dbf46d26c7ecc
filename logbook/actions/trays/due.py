"""What is or will be ready to cut, and the grams that are expected."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.growing.crops.yields import Expected, Meant, expect
from logbook.growing.days import day_of
from logbook.growing.keys import TrayNumber
from logbook.growing.trays.tray_now import GrowingTray
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class DueTray(GrowingTray):
    """A tray that is or will be ready to cut."""

    keys: ClassVar = """
        tray=number crop day_number *window state=ready *expected batch place sign_seen mould_seen
        harvest=state.harvest cut_grams=state.part_grams regrowth_day
    """

    meant: Meant
    expected: Expected | None

    @property
    def best_day(self) -> date:
        """The day on which it is best to cut, in its room."""
        return day_of(self.window.best, self.hours.zone)


def due(book: Book, days: int = 7, inside: str = "") -> list[DueTray]:
    """Growing trays, of a room, rack or shelf (path) or of all, whose cut window begins within so many days, the first to cut first.

    Those that are best on the same day as one of these come too: a day's sum is of all its trays.
    """
    if not 0 <= days <= 366:
        raise Refused(f"{days} days ahead? Give 0 to 366.")
    with book.reading() as reading:
        growing = [
            each for each in reading.live_in(inside) if each.status == "growing" and not each.held
        ]
        meant = reading.meant(growing)
    trays = [DueTray.of(each, meant[each.id], expect([meant[each.id]])) for each in growing]
    best_days = {
        each.best_day
        for each in trays
        if day_of(each.window.start, each.hours.zone) <= each.today + timedelta(days=days)
        and not each.sign_seen
    }
    found = [each for each in trays if each.sign_seen or each.best_day in best_days]
    order = {"late": 0, "ready": 1, "soon": 2}
    found.sort(key=lambda tray: (order[tray.ready], tray.window.best, tray.number))
    return found


@dataclass(frozen=True, slots=True)
class DueDay:
    """Grams expected of one crop by its best day."""

    keys: ClassVar = "day crop trays=numbers *expected"

    day: date
    crop: str
    numbers: tuple[TrayNumber, ...]
    expected: Expected | None
    """Of all these trays together; null where nothing is known of them."""


@dataclass(frozen=True, slots=True)
class Due:
    """Trays that are or will be ready to cut within so many days, the most pressing first."""

    days: int
    trays: tuple[DueTray, ...]
    by_day: tuple[DueDay, ...]


def due_by_day(trays: Sequence[DueTray]) -> list[DueDay]:
    """Add up what is due by day and crop; what is late or ready counts for today."""
    groups: dict[tuple[date, str], list[DueTray]] = {}
    for tray in trays:
        day = tray.today if tray.sign_seen else max(tray.best_day, tray.today)
        groups.setdefault((day, tray.crop), []).append(tray)
    days = []
    for (day, crop), group in sorted(groups.items()):
        numbers = tuple(sorted(tray.number for tray in group))
        days.append(DueDay(day, crop, numbers, expect(tray.meant for tray in group)))
    return days
