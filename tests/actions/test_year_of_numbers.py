"""A year in a room with 60 numbers, planned eight weeks ahead: each entry stays with its tray."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from random import Random

from logbook.actions.book import Book
from logbook.actions.room.places import RoomDraft, change_room
from logbook.actions.trays.doing import did
from logbook.actions.trays.moving import discard
from logbook.actions.trays.noticing import jot
from logbook.actions.trays.sowing import SowDraft, sow
from logbook.actions.trays.tray_page import tray_page
from logbook.actions.trays.weighing import weigh
from logbook.growing.numbers import on_day, parse_numbers
from tests.actions.days import stand_at
from tests.room import moment

POOL = range(1, 61)
WEEKS = 52


@dataclass
class Life:
    """What the test knows of a tray: its number, its days, and what was written on it."""

    number: int
    start: date
    ended: datetime | None = None
    notes: list[str] = field(default_factory=list)


class Year:
    """A grower with a memory of their own, beside the book's."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self.chance = Random(60)
        self.lives: list[Life] = []
        self.plans: list[tuple[date, str, int]] = []

    def growing(self) -> list[Life]:
        return [each for each in self.lives if each.ended is None]

    def oldest_free(self, count: int) -> list[int]:
        """The numbers longest out of use, from the test's own memory."""
        last = {each.number: each.ended for each in self.lives}
        free = [number for number in POOL if last.get(number, moment("2026-01-01")) is not None]
        never = moment("2026-01-01")
        free.sort(key=lambda number: (last.get(number) or never, number))
        return sorted(free[:count])

    def grow(self, numbers: Iterable[int], start: date) -> None:
        self.lives += [Life(number, start) for number in numbers]

    def day(self, today: date) -> None:
        now, chance = moment(f"{today} 09:00"), self.chance
        stand_at(self.book, f"{today} 09:00")
        ripe = [each for each in self.growing() if (today - each.start).days >= 9]
        mouldy = [each for each in self.growing() if 2 <= (today - each.start).days < 9]
        mouldy = [each for each in mouldy if chance.random() < 0.04]
        late = now - timedelta(hours=30)
        if ripe:
            weigh(self.book, [each.number for each in ripe], 280.0 * len(ripe))
        if mouldy:
            discard(self.book, [each.number for each in mouldy], "mould", late)
        for life in (*ripe, *mouldy):
            life.ended = now if life in ripe else late
        for plan in [each for each in self.plans if each[0] <= today]:
            self.plans.remove(plan)
            if chance.random() < 0.1:
                discard(self.book, parse_numbers(plan[1]), "no order")
                continue
            numbers = did(self.book, "sow", parse_numbers(plan[1]), soaked="dry").numbers
            assert sorted(numbers) == self.oldest_free(plan[2])
            self.grow(numbers, today)
        if chance.random() < 0.15:
            count = chance.randint(1, 4)
            wanted = self.oldest_free(count)
            sown = sow(self.book, SowDraft("field test", count)).plan
            assert list(sown.numbers) == wanted
            self.grow(wanted, today)
        if chance.random() < 0.2:
            life = chance.choice(self.lives)
            note = f"note {len(self.lives)} of {today}"
            jot(self.book, [on_day(life.number, life.start)], note)
            life.notes.append(note)
        if today.weekday() == 0:
            for ahead in (56, 60):
                at, count = today + timedelta(days=ahead), chance.randint(2, 12)
                planned = sow(self.book, SowDraft("field test", count, at=moment(f"{at} 08:00")))
                assert max(planned.plan.numbers) < 0, "a plan takes no number"
                self.plans.append((at, f"b{planned.batch}", count))
            self.compare()

    def compare(self) -> None:
        numbers = [each.number for each in self.growing()]
        assert len(set(numbers)) == len(numbers), "two trays grow under one number"
        with self.book.reading() as reading:
            live = [known.stored.number for known in reading.live if known.stored.number > 0]
        assert live == sorted(numbers), "the book and the test's memory have the same trays"


def test_a_year_of_sowings_with_sixty_numbers(book: Book) -> None:
    stand_at(book, "2026-04-06 08:00")
    change_room(book, RoomDraft(pool=POOL))
    sow(book, SowDraft("field test", 8))
    year = Year(book)
    year.grow(range(1, 9), date(2026, 4, 6))
    for day in range(1, WEEKS * 7):  # Mondays, Wednesdays and Fridays
        if day % 7 in (0, 2, 4):
            year.day(date(2026, 4, 6) + timedelta(days=day))
    again = max(sum(each.number == number for each in year.lives) for number in POOL)
    assert again >= 5, "numbers were used again and again"
    assert len(year.plans) >= 16, "eight weeks are planned ahead"
    for life in (each for each in year.lives if each.notes):
        page = tray_page(book, on_day(life.number, life.start))
        assert [line.note for line in page.past if line.kind == "jot"] == life.notes
        assert page.tray.state.live == (life.ended is None)
        assert len(page.other_lives) == sum(each.number == life.number for each in year.lives) - 1
