"""What a trial's trays had of light, air and electricity, from what the room's entries say."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from logbook.actions.air import nearest_air
from logbook.actions.book import Book
from logbook.actions.lamps import shelf_pasts
from logbook.growing.air_series import Held, held, mean_air
from logbook.growing.days import DAY
from logbook.growing.holding import seconds_of, stretches
from logbook.growing.lamps import LampSet
from logbook.growing.places import Place
from logbook.growing.shelf_past import ShelfPast, TrayUse, tray_uses
from logbook.growing.stays import Standing, standings
from logbook.growing.trials.record import Surroundings
from logbook.store.reads import StoredTray, read_deeds, read_places, read_trays, read_versions
from logbook.store.reads_room import read_tariffs, read_trays_since


def surroundings_of(
    connection: sqlite3.Connection, book: Book, trays: Sequence[int]
) -> dict[int, Surroundings]:
    """Give what each of these trays (ids) had around it up to its end, or now."""
    pasts = shelf_pasts(connection)
    lives = _lives(connection, read_trays(connection, trays), book.now())
    costs = _lamp_costs(connection, book, lives, pasts)
    air = _Air(connection, read_places(connection))
    return {
        tray: _around(life, pasts, book, costs.get(tray), air.over(life))
        for tray, life in lives.items()
    }


def _lives(
    connection: sqlite3.Connection, trays: Sequence[StoredTray], now: datetime
) -> dict[int, tuple[Standing, ...]]:
    versions = read_versions(connection, {tray.version_id for tray in trays})
    deeds = read_deeds(connection, [tray.id for tray in trays])
    return {
        tray.id: standings(versions[tray.version_id], deeds.get(tray.id, ()), now) for tray in trays
    }


def _around(
    life: Sequence[Standing], pasts: Mapping[int, ShelfPast], book: Book, cost: float | None,
    air: tuple[float, float] | None,
) -> Surroundings:  # fmt: skip
    days = mol = lit = unmeasured = 0.0
    lamps: dict[str, None] = {}
    for one in life:
        past = pasts.get(one.place or 0)
        if not one.lit or past is None:
            continue
        days += (one.end - one.start).total_seconds() / DAY
        fell, missing = past.light(one.start, one.end, book.zone)
        mol, unmeasured = mol + fell, unmeasured + missing
        lit += seconds_of(past.lit(one.start, one.end, book.zone))
        lamps |= dict.fromkeys(_lamp_words(past, one, book))
    measured = days > 0 and lit > 0 and unmeasured < 1
    return Surroundings(
        light_days=days,
        lit_hours=lit / 3600 / days if days else None,
        ppfd=mol * 1e6 / lit if measured else None,
        dli=mol / days if measured else None,
        lamps=", then ".join(lamps),
        lamp_cost=cost,
        celsius=air[0] if air else None,
        humidity=air[1] if air else None,
    )


def _lamp_words(past: ShelfPast, one: Standing, book: Book) -> list[str]:
    none: LampSet | None = None
    return [
        lamps.words(book.units)
        for _, _, lamps in stretches(past.lamps, none, one.start, one.end)
        if lamps is not None
    ]


def _lamp_costs(
    connection: sqlite3.Connection, book: Book, lives: Mapping[int, Sequence[Standing]],
    pasts: Mapping[int, ShelfPast],
) -> dict[int, float]:  # fmt: skip
    """Give what the lamps cost for each tray, where lamps and prices are known throughout."""
    tariffs = read_tariffs(connection)
    begun = [life[0].start for life in lives.values() if life]
    if not begun or not tariffs or not any(past.lamps for past in pasts.values()):
        return {}
    everyone = _lives(connection, read_trays_since(connection, min(begun)), book.now())
    uses = tray_uses(everyone, pasts, tariffs, book.zone)
    return {tray: uses[tray].use.bill.cost for tray in lives if _priced(uses.get(tray))}


def _priced(use: TrayUse | None) -> bool:
    return (
        use is not None
        and use.use.bill.kwh > 0
        and use.use.unknown_hours < 1
        and use.use.bill.unpriced_kwh <= 0
    )


@dataclass
class _Air:
    """Air over stretches, each read once: the trays of a trial stand together."""

    connection: sqlite3.Connection
    places: Sequence[Place]

    def __post_init__(self) -> None:
        self._by_id = {place.id: place for place in self.places}
        self._room = next((place for place in self.places if place.kind == "room"), None)
        self._read: dict[Standing, list[Held]] = {}

    def over(self, life: Sequence[Standing]) -> tuple[float, float] | None:
        """Give mean °C and % over a life; None where readings cover less than half of it."""
        found = [stretch for one in life for stretch in self._held(one)]
        mean = mean_air(found)
        hours = sum((one.end - one.start).total_seconds() for one in life) / 3600
        if mean is None or mean.hours < hours / 2:
            return None
        return mean.celsius, mean.humidity

    def _held(self, one: Standing) -> list[Held]:
        if one not in self._read:
            spot = self._by_id.get(one.place or 0) or self._room
            readings = (
                nearest_air(self.connection, spot, self.places, one.start, one.end)[1]
                if spot is not None
                else []
            )
            self._read[one] = list(held(readings, one.start, one.end))
        return self._read[one]
