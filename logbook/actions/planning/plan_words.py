"""A plan in words, day by day."""

from collections.abc import Iterator
from datetime import datetime
from itertools import groupby

from logbook.actions.book import Book
from logbook.actions.orders.delivery_words import chance_words
from logbook.actions.planning.plan import PlanView, SowingView
from logbook.growing.days import clock_words, day_of, day_words
from logbook.growing.measures import grams_words
from logbook.growing.planning.seed_need import SeedNeed
from logbook.growing.planning.shortage import Shortage
from logbook.text import listed, plural

DELIVERIES = "Deliveries, each crop with its chance of enough"


def plan_lines(view: PlanView, book: Book) -> Iterator[str]:
    """What to soak and sow day by day and what for, how sure each delivery is, and the seed."""
    for day, sowings in groupby(view.sowings, lambda each: each.day):
        yield day_words(day, book.today())
        for each in sowings:
            yield f"  {sowing_words(each, book)}"
            yield f"    {serves_words(each, book)}"
    if not view.sowings:
        yield "Nothing more to sow for the orders."
    for head, lines in (
        (DELIVERIES, delivery_lines(view, book)), ("Room", room_lines(view, book)),
        ("Seed", seed_lines(view, book)),
    ):  # fmt: skip
        if said := list(lines):
            yield head
            yield from (f"  {line}" for line in said)


def delivery_lines(view: PlanView, book: Book) -> Iterator[str]:
    """Say how sure each delivery is."""
    for delivery in view.deliveries:
        lines = [
            f"{line.crop} {grams_words(line.grams, book.units)} "
            f"({chance_words(line.chance_of_enough)})"
            for line in delivery.lines
            if line.packs
        ]
        if lines:
            yield f"{book.when(delivery.ready_at)}: {listed(lines, 99)}"


def room_lines(view: PlanView, book: Book) -> Iterator[str]:
    """Say which days the room is short, and what can be done."""
    for short in view.room.short:
        yield short_words(short, book)
        yield from (f"  {offer}" for offer in short.offers)


def seed_lines(view: PlanView, book: Book) -> Iterator[str]:
    """Say what the sowings need of each crop's seed."""
    return (seed_words(each, book) for each in view.seed)


def sowing_words(sowing: SowingView, book: Book) -> str:
    """Say how many trays, and when they are soaked, sown and cut: the time alone on the day it begins."""
    back = sowing.back

    def when(at: datetime) -> str:
        here = day_of(at, book.zone) == sowing.day
        return clock_words(at, book.zone) if here else book.when(at)

    soak = "" if back.soak_at is None else f"soak {when(back.soak_at)}, "
    trays = plural(sowing.sowing.trays, "tray")
    return f"{trays} of {sowing.crop}: {soak}sow {when(back.sow_at)}, cut {when(back.cut_at)}"


def serves_words(sowing: SowingView, book: Book) -> str:
    """Say where a sowing goes and what it is for: "on Rack 1/Shelf 2, for Fri 1 May: 500 g, Bistro"."""
    served = (
        f"{day_words(day_of(each.ready_at, book.zone), book.today())}: "
        f"{grams_words(each.grams, book.units)}, {listed(each.customers, 3)}"
        for each in sowing.sowing.serves
    )
    place = f"on {sowing.place}, " if sowing.place else ""
    return f"{place}for {'; '.join(served)}"


def short_words(short: Shortage, book: Book) -> str:
    """Say what a day lacks: "Fri 10 Apr: 4 lit slots too few"."""
    day = day_words(short.day, book.today())
    if short.kind == "work":
        return f"{day}: {plural(short.slots, 'tray')} too many to sow and cut"
    return f"{day}: {plural(short.slots, 'lit slot' if short.kind == 'lit' else 'slot')} too few"


def seed_words(need: SeedNeed, book: Book) -> str:
    """Say what a crop's sowings need of its seed, and whether it is there."""
    words = f"{need.crop}: {grams_words(need.need_grams, book.units)} needed"
    if need.have_grams is None:
        return words
    words += f", {grams_words(need.have_grams, book.units)} left"
    return (
        f"{words}; not enough from {day_words(need.runs_out, book.today())}"
        if need.runs_out
        else words
    )
