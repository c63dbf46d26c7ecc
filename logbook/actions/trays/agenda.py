"""What the trays ask for in days to come, batch by batch: soak, sow, changes, cut; and deliveries."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import ClassVar

from logbook.actions.book import Book
from logbook.actions.orders.wanted import crop_names, wanted, wish_crop
from logbook.actions.reading import Reading
from logbook.actions.room.upkeep import due_duties
from logbook.growing.days import day_of
from logbook.growing.keys import TrayNumber
from logbook.growing.measures import Units, grams_words
from logbook.growing.orders.wishes import Delivery
from logbook.growing.trays.forecast import Window, changes_ahead
from logbook.growing.trays.tray_now import TrayNow
from logbook.store.rows import grouped
from logbook.text import listed, plural


@dataclass(frozen=True, slots=True)
class Coming:
    """Something that is to be done, at the first moment at which the room is worked then."""

    keys: ClassVar = "what at words crop trays=numbers place"

    name: str
    """What it goes by for as long as it is to come: its kind and its batch, or its day."""
    what: str
    """soak, sow, change, cut, delivery or upkeep."""
    at: datetime
    words: str
    crop: str = ""
    numbers: tuple[TrayNumber, ...] = ()
    place: str = ""
    window: Window | None = None
    """Of a cut: from when, and by when."""
    seed_grams: float | None = None
    """Of a soak or a sowing: dry seed for all its trays, g."""
    about: str = ""


def agenda(
    book: Book, days: int, first: date | None = None, *, deliveries: bool = False,
    upkeep: bool = False,
) -> list[Coming]:  # fmt: skip
    """What is to be done on so many days from `first` (today), in the order of time.

    What is late already is of the first day.
    """
    with book.reading() as reading:
        start = first or reading.today
        end = start + timedelta(days=days)
        found = _of_trays(reading)
        if deliveries:
            found += [
                _delivery(each, crop_names(reading), reading.units)
                for each in wanted(reading, start, end)
            ]
        if upkeep:
            found += [each for ahead in range(days) for each in _upkeep(reading, start, ahead)]
        dated = ((each, day_of(max(each.at, reading.now), reading.zone)) for each in found)
        kept = [each for each, day in dated if start <= day < end]
    return sorted(kept, key=lambda each: (each.at, each.what, each.name))


def _of_trays(reading: Reading) -> list[Coming]:
    alike = grouped(
        ((tray.batch, each.what, each.words, each.at), (tray, each))
        for tray in reading.live
        if not tray.held
        for each in _of_tray(tray)
    )
    found, parts = list[Coming](), Counter[str]()
    for group in alike.values():
        name = f"{group[0][1].name}-{group[0][0].batch}"
        parts[name] += 1  # trays of a batch that went another way since have a name of their own
        part = f".{parts[name]}" if parts[name] > 1 else ""
        found.append(_joined([tray for tray, _ in group], group[0][1], name + part))
    return found


def _joined(trays: list[TrayNow], one: Coming, name: str) -> Coming:
    seed = [tray.seed_grams for tray in trays]
    places = list(dict.fromkeys(tray.place for tray in trays if tray.place))
    asks_seed = one.what in ("soak", "sow") and None not in seed
    return replace(
        one,
        name=name,
        numbers=tuple(tray.number for tray in trays),
        place=listed(places, 3),
        seed_grams=sum(each or 0.0 for each in seed) if asks_seed else None,
    )


def _of_tray(tray: TrayNow) -> Iterator[Coming]:
    """What one tray asks for; the moments of soak and sow are those that the grower gave."""
    state, template, now, walk_at = tray.state, tray.template, tray.now, tray.hours.walk_at

    def coming(what: str, at: datetime, words: str, name: str = "") -> Coming:
        return Coming(name or what, what, at, words, tray.crop)

    start, stage = state.stage_since or now, state.stage
    if state.status == "planned":
        sown = state.planned_for or now
        if template.soak_seconds and state.soaked_at is None:
            yield coming("soak", sown - timedelta(seconds=template.soak_seconds), "soak")
        yield coming("sow", sown, "sow")
        start, stage = max(sown, now), 0
    for change in changes_ahead(template, stage, start, now):
        if change.chore:
            yield coming("change", walk_at(change.at), change.words, f"change{change.stage}")
    if (window := tray.window) is not None:
        yield replace(coming("cut", walk_at(window.best), "cut"), window=window)


def _delivery(delivery: Delivery, names: Mapping[int, str], units: Units) -> Coming:
    """A delivery, with each customer's packs."""
    by_customer = grouped((wish.customer.name, wish) for wish in delivery.wishes)
    lines = []
    for customer, wishes in by_customer.items():
        packs = (
            f"{wish.packs} × {wish_crop(wish, names)}"
            + (
                ""
                if wish.order.pack_grams is None
                else f" {grams_words(wish.order.pack_grams, units)}"
            )
            for wish in wishes
        )
        lines.append(f"{customer}: {', '.join(packs)}")
    words = f"delivery: {plural(len(by_customer), 'customer')}"
    name = f"delivery-{delivery.ready_at:%Y%m%dT%H%M}"
    return Coming(name, "delivery", delivery.ready_at, words, about="\n".join(lines))


def _upkeep(reading: Reading, start: date, ahead: int) -> Iterator[Coming]:
    """What is to be cleaned or checked on a day."""
    for each in due_duties(reading, start + timedelta(days=ahead)):
        name = f"upkeep-{each.duty.entry}-{each.walk_at:%Y%m%dT%H%M}"
        yield Coming(name, "upkeep", each.walk_at, each.words, place=each.place, about=each.place)
