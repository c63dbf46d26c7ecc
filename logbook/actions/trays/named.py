"""The trays that names mean: "23", "23@2027-03-07", "b12". The one place that says so."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from zoneinfo import ZoneInfo

from logbook.growing.days import day_of, day_words
from logbook.growing.numbers import batch_named, life_named, numbers_words
from logbook.store.reads.trays import (
    Life,
    StoredTray,
    lives_of,
    newest_trays_numbered,
    read_live_trays,
    read_trays,
    read_trays_of_batch,
)
from logbook.store.rows import LARGEST_ID, Rows
from logbook.text import Refused, listed, plural


def trays_named(reading: Rows, names: Collection[int], zone: ZoneInfo) -> list[StoredTray]:
    """The trays that names mean, in their order, each once; days are those of a zone.

    A number is the tray that grows under it, or else the newest that had it; with a day the one
    that had it then. A batch is those of its trays that wait for numbers, or else those in use, or
    else all. Raises Refused for a name that no tray has.
    """
    newest = newest_trays_numbered(reading, [each for each in names if -LARGEST_ID < each < 10**5])
    found = {
        name: [newest[name]] if name in newest else list(_named(reading, name, zone))
        for name in names
    }
    unknown = [name for name, trays in found.items() if not trays]
    if unknown:
        growing = [tray.number for tray in read_live_trays(reading)]
        known = f" Trays in use: {numbers_words(growing)}." if growing else " No tray is in use."
        there = "is no tray" if len(unknown) == 1 else "are no trays"
        raise Refused(f"There {there} {numbers_words(unknown)[:200]}.{known[:200]}")
    trays = {tray.id: tray for name in names for tray in found[name]}
    return list(trays.values())


def _named(reading: Rows, name: int, zone: ZoneInfo) -> Iterator[StoredTray]:
    if batch := batch_named(name):
        yield from _of_batch(reading, *batch)
    number, tray, day = life_named(name)
    if day is not None:
        tray = _then(lives_of(reading, number), day, zone)
    if tray is not None:
        yield from read_trays(reading, [tray])


def _of_batch(reading: Rows, batch: int, some: int | None) -> list[StoredTray]:
    every = read_trays_of_batch(reading, batch)
    live = [tray for tray in every if tray.live]
    trays = [tray for tray in live if tray.number < 0] or live or every
    if some is not None and some > len(trays):
        raise Refused(f"b{batch} has {plural(len(trays), 'tray')}, not {some}.")
    return trays[:some]


def _then(lives: Collection[Life], day: date, zone: ZoneInfo) -> int | None:
    """The tray that had the number on a day: the one sown on it, else the one in use then."""
    begun = [each for each in lives if each.start and day_of(each.start, zone) == day]
    if len(begun) > 1:
        which = listed(
            [f"{one.template} (tray {one.number}, {_ended(one, zone)})" for one in begun]
        )
        raise Refused(f"Two trays {begun[0].number} were sown on {day}: {which}. Name the batch.")
    spans = (
        each.tray
        for each in reversed(list(lives))
        if each.start
        and day_of(each.start, zone) <= day
        and (each.end is None or day <= day_of(each.end, zone))
    )
    return begun[0].tray if begun else next(spans, None)


def _ended(one: Life, zone: ZoneInfo) -> str:
    return f"ended {day_words(day_of(one.end, zone))}" if one.end else "in use"
