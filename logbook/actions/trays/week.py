"""The week to come on one page: what is to be done day by day, deliveries, and what to buy."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.seed.shopping import ShoppingList, shopping_list
from logbook.actions.trays.agenda import Coming, agenda
from logbook.growing.days import day_of

DAYS = 7


@dataclass(frozen=True, slots=True)
class WeekDay:
    """What is to be done on a day, in the order of time."""

    day: date
    coming: tuple[Coming, ...]


@dataclass(frozen=True, slots=True)
class Week:
    """Seven days from `first`, and what to buy for the weeks after."""

    keys: ClassVar = "room first days shopping"

    room: str
    first: date
    days: tuple[WeekDay, ...]
    shopping: ShoppingList


def week(book: Book, first: date | None = None) -> Week:
    """The week from a day (today) on; what is late already is of today."""
    start, now = first or book.today(), book.now()
    coming = agenda(book, DAYS, start, deliveries=True, upkeep=True)
    days = tuple(
        WeekDay(day, tuple(each for each in coming if day_of(max(each.at, now), book.zone) == day))
        for day in (start + timedelta(days=ahead) for ahead in range(DAYS))
    )
    return Week(book.about.name, start, days, shopping_list(book))
