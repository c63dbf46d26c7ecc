"""What is or will be ready to cut, and the grams that are expected."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Annotated, ClassVar

from logbook.actions.book import Book
from logbook.actions.trays.day_numbers import regrowth_day
from logbook.growing.crops.yields import Expected, Meant, expect
from logbook.growing.days import day_bounds, day_of
from logbook.growing.keys import DayNumber, TrayNumber
from logbook.growing.trays.forecast import Window, tray_window
from logbook.text import Refused


@dataclass(frozen=True, slots=True)
class DueTray:
    """A tray that is or will be ready to cut."""

    keys: ClassVar = """
        tray=number crop day_number from=window.start best=window.best by=window.by state
        expected_grams=expected.grams spread_grams=expected.spread_grams
        low_grams=expected.low high_grams=expected.high
        rests_on_trays=expected.trays rests_on_batches=expected.batches batch place sign_seen mould_seen=mould harvest
        cut_grams regrowth_day
    """

    number: TrayNumber
    batch: str
    crop: str
    place: str
    day_number: DayNumber
    window: Window
    state: Annotated[str, ("soon", "ready", "late")]
    sign_seen: bool
    """Whether the crop's ready sign was seen."""
    meant: Meant
    expected: Expected | None
    mould: bool = False
    """Whether mould stands on it."""
    harvest: int = 1
    """Which harvest its next cut is of: 1 is the first, the others are regrowth."""
    cut_grams: float = 0.0
    """What was cut of that harvest already, g; what is expected is the rest."""
    regrowth_day: DayNumber | None = None
    """As the day number, from the cut after which it grows again; null where it does not."""


def due(book: Book, days: int = 7) -> list[DueTray]:
    """Growing trays whose cut window begins within so many days, the first to cut first.

    Those that are best on the same day as one of these come too: a day's sum is of all its trays.
    """
    if not 0 <= days <= 366:
        raise Refused(f"{days} days ahead? Give 0 to 366.")
    with book.reading() as reading:
        known = [each for each in reading.live if each.state.status == "growing"]
        places, now, zone = reading.places, reading.now, reading.zone
        meant = reading.meant(known)
    horizon = day_bounds(reading.today + timedelta(days=days), zone)[1]
    windows = [
        (each, each.state.sign_at is not None, window)
        for each in known
        if (window := tray_window(each.template, each.state, now)) is not None
    ]
    best_days = {
        day_of(window.best, zone)
        for _, seen, window in windows
        if window.start < horizon and not seen
    }
    found = [
        DueTray(
            each.stored.number,
            str(each.stored.batch_id),
            each.template.label(),
            places.path(each.state.place),
            reading.hours_of(each.state.place).day_number(each.state.sown_at or now, now),
            window,
            window.state(now, reading.hours_of(each.state.place), each.state.sign_at),
            seen,
            meant[each.stored.id],
            expect([meant[each.stored.id]]),
            each.state.mould_at is not None,
            each.state.harvest,
            each.state.part_grams,
            regrowth_day(each, reading),
        )
        for each, seen, window in windows
        if seen or day_of(window.best, zone) in best_days
    ]
    order = {"late": 0, "ready": 1, "soon": 2}
    found.sort(key=lambda tray: (order[tray.state], tray.window.best, tray.number))
    return found


@dataclass(frozen=True, slots=True)
class DueDay:
    """Grams expected of one crop by its best day."""

    keys: ClassVar = """
        day crop trays=numbers expected_grams=expected.grams spread_grams=expected.spread_grams
        low_grams=expected.low high_grams=expected.high
    """

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


def due_by_day(book: Book, trays: Sequence[DueTray]) -> list[DueDay]:
    """Add up what is due by day and crop; what is late or ready counts for today."""
    today = book.today()
    groups: dict[tuple[date, str], list[DueTray]] = {}
    for tray in trays:
        best = day_of(tray.window.best, book.zone)
        day = today if tray.sign_seen else max(best, today)
        groups.setdefault((day, tray.crop), []).append(tray)
    days = []
    for (day, crop), group in sorted(groups.items()):
        numbers = tuple(sorted(tray.number for tray in group))
        days.append(DueDay(day, crop, numbers, expect(tray.meant for tray in group)))
    return days
