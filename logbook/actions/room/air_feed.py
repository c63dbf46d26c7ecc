"""A sensor's feed: lines of JSON become readings, a minute's lines one, held and written in batches.

What is held is bounded: a place and a minute take one slot however many lines come, and a full
store is written early. Bad lines are counted, never kept.
"""

import json
import re
from collections.abc import Collection, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import datetime, timedelta
from functools import lru_cache, partial
from typing import Any, ClassVar

from logbook.actions.book import Book
from logbook.actions.reading import Reading
from logbook.actions.room.air import room_or
from logbook.growing.quantities import HUMIDITY, TEMPERATURE, Quantity
from logbook.growing.room.air import FEED, AirReading
from logbook.growing.room.places import Place
from logbook.growing.when import parse_when
from logbook.store.reads.air import read_air
from logbook.text import Refused

SENSOR = "sensor"
"""Who writes a feed's entries, so that a person's undo never takes one back."""
EVERY = timedelta(minutes=1)
MOST_HELD = 5000
AHEAD = timedelta(minutes=5)
LONGEST_AGO = timedelta(days=366 * 2)

EXAMPLE = "2026-04-14T07:30:00+01:00"
_MOMENT = re.compile(r"\d{4}-\d\d-\d\d[T ]\d")
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


@dataclass
class Fed:
    """What came of a feed's lines so far."""

    keys: ClassVar = """
        lines_taken=taken lines_bad=bad lines_lost=lost readings_written=written readings_known=known
        entries last_bad
    """

    taken: int = 0
    """Lines that were read as a reading."""
    bad: int = 0
    """Lines that were skipped."""
    lost: int = 0
    """Lines that came while the book could not be written and no more could be held."""
    written: int = 0
    """Readings that were stored, one a minute and place."""
    known: int = 0
    """Readings that the book had already: the same place, moment and values."""
    entries: int = 0
    """Entries that hold what was stored."""
    last_bad: str = ""
    """Why the last bad line was skipped; empty where none was."""


class Feed(Fed):
    """A feed into a book."""

    def __init__(self, book: Book, place: str = "", by: str = SENSOR) -> None:
        """The book, the place of lines that name none, and who is said to write."""
        super().__init__()
        self.book = replace(book, by=by)
        with book.reading() as reading:
            self._places = reading.places
        self._default = room_or(place, self._places)
        self._place = lru_cache(MOST_HELD)(partial(room_or, places=self._places))
        self._held: dict[tuple[int, int], _Held] = {}

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

    def write(self, *, whole: bool = False) -> int:
        """Write what is held as one entry; returns how many readings. If Refused, it stays held.

        `whole` keeps minutes that are not over yet. What the book has already is not written again.
        """
        over = self.book.now().timestamp() // 60
        held = {key: one for key, one in self._held.items() if not whole or key[1] < over}
        if not held:
            return 0
        with self.book.writing() as act:
            means = {(place, one.mean) for (place, _), one in held.items()}
            new = means - self._already(act.reading, means)
            if new:
                places = {place for place, _ in new}
                newest = max(mean.at for _, mean in new)
                one_place = next(iter(places)) if len(places) == 1 else None
                entry = act.entry("air", (), min(newest, act.now), chore=FEED, place=one_place)
                rows = sorted(new, key=lambda each: (each[0], each[1].at))
                act.put(
                    "air_reading", entry, ({"place_id": at, **asdict(each)} for at, each in rows)
                )
        for key in held:
            del self._held[key]
        self.known += len(means) - len(new)
        self.written += len(new)
        self.entries += bool(new)
        return len(new)

    @staticmethod
    def _already(
        reading: Reading, means: Collection[tuple[int, AirReading]]
    ) -> set[tuple[int, AirReading]]:
        """Those of the readings that stand in the book."""
        first, last = min(each.at for _, each in means), max(each.at for _, each in means)
        end = last + timedelta(seconds=1)
        return {
            (place, each)
            for place in {place for place, _ in means}
            for each in read_air(reading, place, first, end)
        }

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
            raise Refused(f'"at" is a text with the date and the time, like "{EXAMPLE}".')
        if not _MOMENT.match(text):
            raise Refused(f'"at" has the date too, like "{EXAMPLE}".')
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
