"""A sensor's feed: lines of JSON become readings, a minute's lines one, held and written in batches.

What is held is bounded: a place and a minute take one slot however many lines come, and a full
store is written early. Bad lines are counted, never kept.
"""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from functools import lru_cache, partial
from typing import Any

from logbook.actions.book import Book
from logbook.actions.room.air import room_or
from logbook.growing.quantities import HUMIDITY, TEMPERATURE, Quantity
from logbook.growing.room.air import FEED, AirReading
from logbook.growing.room.places import Place
from logbook.growing.when import parse_when
from logbook.text import Refused

SENSOR = "sensor"
"""Who writes a feed's entries, so that a person's undo never takes one back."""
EVERY = timedelta(minutes=1)
MOST_HELD = 5000
AHEAD = timedelta(minutes=5)
LONGEST_AGO = timedelta(days=366 * 2)

_CELSIUS = ("celsius", "temp_c", "temperature_c", "temp", "temperature", "t")
_FAHRENHEIT = ("fahrenheit", "temp_f", "temperature_f")
_HUMIDITY = ("humidity", "rh", "humidity_percent", "relative_humidity", "h")
_AT = ("at", "time", "timestamp")


@dataclass
class _Held:
    """The lines of one place and minute, summed up."""

    at: datetime
    count: int = 0
    celsius: float = 0.0
    humidity: float = 0.0
    still: bool | None = None

    def add(self, reading: AirReading) -> None:
        if self.count == 0:
            self.still = reading.still
        elif self.still is not True:
            marks = (self.still, reading.still)
            self.still = True if reading.still else None if None in marks else False
        self.count += 1
        self.celsius += reading.celsius
        self.humidity += reading.humidity
        self.at = max(self.at, reading.at)

    @property
    def mean(self) -> AirReading:
        count = self.count
        return AirReading(self.at, self.celsius / count, self.humidity / count, self.still)


class Feed:
    """A feed into a book. `taken` lines were read, `bad` skipped, `written` readings stored."""

    def __init__(self, book: Book, place: str = "", by: str = SENSOR) -> None:
        """The book, the place of lines that name none, and who is said to write."""
        self.book = replace(book, by=by)
        with book.reading() as reading:
            self._places = reading.places
        self._default = room_or(place, self._places)
        self._place = lru_cache(MOST_HELD)(partial(room_or, places=self._places))
        self._held: dict[tuple[int, int], _Held] = {}
        self.taken = self.bad = self.written = self.entries = self.lost = 0
        self.last_bad = ""

    @property
    def held(self) -> int:
        """How many readings wait to be written."""
        return len(self._held)

    @property
    def full(self) -> bool:
        """Whether no more may be held before a write."""
        return len(self._held) >= MOST_HELD

    def take(self, line: bytes) -> None:
        """Take a line; a bad one is counted and skipped."""
        if not line.strip():
            return
        try:
            place, reading = self._read(line)
        except Refused as refused:
            self.bad += 1
            self.last_bad = str(refused)
            return
        self.taken += 1
        key = place.id, int(reading.at.timestamp() // 60)
        if key not in self._held:
            if self.full:
                self.lost += 1
                return
            self._held[key] = _Held(reading.at)
        self._held[key].add(reading)

    def too_long(self) -> None:
        """Count a line that was longer than any reading."""
        self.bad += 1
        self.last_bad = "A line is too long for a reading."

    def write(self) -> int:
        """Write what is held as one entry; returns how many readings. If Refused, it stays held."""
        if not self._held:
            return 0
        held = dict(self._held)
        with self.book.writing() as act:
            places = {place for place, _ in held}
            newest = max(one.at for one in held.values())
            one_place = next(iter(places)) if len(places) == 1 else None
            entry = act.entry("air", (), min(newest, act.now), chore=FEED, place=one_place)
            means = ((place, asdict(one.mean)) for (place, _), one in sorted(held.items()))
            act.put("air_reading", entry, ({"place_id": place, **mean} for place, mean in means))
        self._held.clear()
        self.written += len(held)
        self.entries += 1
        return len(held)

    def _read(self, line: bytes) -> tuple[Place, AirReading]:
        try:
            given = json.loads(line)
        except (ValueError, RecursionError) as fault:
            raise Refused("A line isn't JSON.") from fault
        if not isinstance(given, Mapping):
            raise Refused('A line is not a JSON object like {"celsius": 21.4, "humidity": 63}.')
        named = given.get("place")
        place = self._default if named in (None, "") else self._place(str(named)[:200])
        still = given.get("still")
        if still is not None and not isinstance(still, bool):
            raise Refused('"still" is true or false.')
        at = self._at(_first(given, _AT))
        fahrenheit = _first(given, _FAHRENHEIT)
        warmth = _first(given, _CELSIUS)
        if warmth is None and fahrenheit is not None:
            warmth = f"{fahrenheit} F"
        damp = _first(given, _HUMIDITY)
        return place, AirReading(at, _number(warmth, TEMPERATURE), _number(damp, HUMIDITY), still)

    def _at(self, text: Any) -> datetime:
        now = self.book.now()
        if text is None:
            return now
        if not isinstance(text, str):
            raise Refused('"at" is a moment like "2026-04-14T07:30:00+01:00".')
        at = parse_when(text[:60], now, self.book.zone)
        if not now - LONGEST_AGO <= at <= now + AHEAD:
            raise Refused("A reading's time is in the future, or more than two years ago.")
        return at


def _first(given: Mapping[str, Any], names: tuple[str, ...]) -> Any:
    return next((given[name] for name in names if given.get(name) is not None), None)


def _number(value: Any, quantity: Quantity) -> float:
    if isinstance(value, str):
        return quantity.read(value[:40])
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise Refused(f"A line has no {quantity.name}.")
    return quantity.not_a_share(float(value)) if quantity is HUMIDITY else float(value)
